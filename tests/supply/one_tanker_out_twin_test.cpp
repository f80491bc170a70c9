// A tanker that stays in quarters takes its portable tanks and its siphon with it.
#include <algorithm>

#include <catch2/catch.hpp>

#include "analyzer/supply/places/one_tanker_out.h"
#include "analyzer/supply/places/shuttle_case.h"
#include "tests/supply/one_dump_site.h"

namespace farwater::supply {
namespace {

constexpr Duration first_arrival = minutes(12.5);

Scene scene_of(const OneDumpSite& site) {
    const Situation situation = site.situation();
    return scene_at(situation, profile_of_units(situation.district, situation.profiles),
                    roster(situation.district, PeriodIndex(0), ""), situation.trips.hose_lays[0][0],
                    first_arrival);
}

// For a portable tank that stands, or the siphon that runs.
bool is_counted_on(const Scene& scene, UnitIndex tanker) {
    return scene.siphon_of == tanker ||
           std::ranges::count(scene.tanks, tanker, &TanksSetUp::unit) > 0;
}

// The plain way: the district has no such unit's equipment, and the plan has no such tanker.
HeldFlow plainly_without(const OneDumpSite& full, Incident incident, Window window,
                         UnitIndex tanker) {
    std::erase_if(incident.tankers, [&](const Tanker& each) { return each.unit == tanker; });
    if (incident.tankers.empty()) {
        return HeldFlow{};
    }
    if (!is_counted_on(scene_of(full), tanker)) {
        return sustained_flow(incident, window);
    }
    OneDumpSite site = full;
    at(site.district.units, tanker).portable_tank = gallons(0);
    at(site.district.units, tanker).jet_siphons = 0;
    const Scene scene = scene_of(site);
    if (scene.missing != Limit::none) {
        return HeldFlow{};
    }
    incident.dump_site.tanks_ready = scene.set_up.tanks_ready;
    incident.dump_site.draft_ready = scene.set_up.draft_ready;
    incident.dump_site.storage = scene.set_up.storage;
    incident.dump_site.flow_cap = scene.set_up.flow_cap;
    const HeldFlow as_run = sustained_flow(incident, window);
    incident.dump_site.nursing_tankers = std::max(1, incident.dump_site.nursing_tankers);
    return std::max(as_run, sustained_flow(incident, window));
}

// Who carries what, drawn by a number.
OneDumpSite drawn(unsigned number) {
    OneDumpSite site;
    for (std::size_t unit = 2; unit < site.district.units.size(); ++unit) {
        Unit& tanker = site.district.units[unit];
        tanker.portable_tank = gallons(
            (number >> (unit - 2)) % 2 == 0 ? 0.0 : 2000.0 + 100.0 * static_cast<double>(unit));
        tanker.pump = number % 2 == 0 ? std::nullopt : std::optional(gpm(500));
        tanker.jet_siphons = (number >> unit) % 2 == 0 ? 0 : 1;
    }
    site.refresh();
    return site;
}

}  // namespace

TEST_CASE("one tanker out is the least of all that lack one and what it carries", "[twin]") {
    int lower_for_its_tank = 0;
    for (unsigned number = 1; number < 64; ++number) {
        CAPTURE(number);
        const OneDumpSite site = drawn(number);
        const Scene scene = scene_of(site);
        if (scene.missing != Limit::none) {
            continue;
        }
        const Situation situation = site.situation();
        const CasePlan found = work_out(situation, scene, {minutes(120)}).front();
        REQUIRE(found.tankers > 1);
        HeldFlow least = found.cautious;
        HeldFlow for_loads_alone = found.cautious;
        for (const Arrival& arrival : scene.tankers) {
            const HeldFlow flow = plainly_without(site, found.slow, found.window, arrival.unit);
            const bool runs = std::ranges::find(found.incident.tankers, arrival.unit,
                                                &Tanker::unit) != found.incident.tankers.end();
            if (runs || is_counted_on(scene, arrival.unit)) {
                least = std::min(least, flow);
            }
            Incident rest = found.slow;
            std::erase_if(rest.tankers,
                          [&](const Tanker& tanker) { return tanker.unit == arrival.unit; });
            for_loads_alone = std::min(for_loads_alone, sustained_flow(rest, found.window));
        }
        CHECK(found.one_tanker_out == least);
        lower_for_its_tank += least < for_loads_alone ? 1 : 0;
    }
    CHECK(lower_for_its_tank > 10);
}

TEST_CASE("without the only carrier of a portable tank nothing is held") {
    OneDumpSite site;
    site.district.units[4].portable_tank = gallons(0);
    site.refresh();
    const Scene scene = scene_of(site);
    const CasePlan found = work_out(site.situation(), scene, {minutes(120)}).front();
    REQUIRE(in_tenths(found.cautious) > 0);
    CHECK(in_tenths(found.one_tanker_out) == 0);
    const UnitIndex other(5);
    CHECK(in_tenths(flow_without(site.situation(), scene, found.slow, found.window, other)) > 0);
}

}  // namespace farwater::supply
