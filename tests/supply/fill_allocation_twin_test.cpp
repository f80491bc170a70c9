// Which tanker fills where, against every split there is (tests/support/slow_allocation.h).
#include <algorithm>
#include <set>

#include <catch2/catch.hpp>

#include "analyzer/supply/filling/fill_allocation.h"
#include "analyzer/supply/incident_run.h"
#include "tests/supply/incidents.h"
#include "tests/supply/random_incidents.h"
#include "tests/support/slow_allocation.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

constexpr int drawn_fleets = 150;
constexpr int judged_fleets = 40;

struct Drawn {
    Incident incident;
    FillLegs legs;
    Window window;
};

Drawn drawn_fleet(Dice& dice, int most_tankers, bool open_flows) {
    Drawn drawn{random_incident(dice, {.attack = false, .open_flows = open_flows}), {}, {}};
    Incident& incident = drawn.incident;
    while (incident.tankers.size() > static_cast<std::size_t>(most_tankers)) {
        incident.tankers.pop_back();
    }
    const bool alike = dice.chance(0.3);
    for (Tanker& tanker : incident.tankers) {
        if (alike) {
            const Duration arrives = tanker.arrives;
            tanker = incident.tankers.front();
            tanker.arrives = arrives;
        }
        std::vector<std::optional<Leg>> legs;
        for (std::size_t site = 0; site < incident.fill_sites.size(); ++site) {
            const double way = alike ? 4.0 + 3.0 * static_cast<double>(site) : dice.between(1, 12);
            legs.emplace_back(Leg{minutes(way), minutes(way * 1.1)});
            if (!alike && site != tanker.fill_site && dice.chance(0.1)) {
                legs.back().reset();
            }
        }
        tanker.fill_site = alike ? 0 : tanker.fill_site;
        tanker.leg = *legs[tanker.fill_site];
        drawn.legs.push_back(std::move(legs));
    }
    drawn.window = {minutes(dice.whole(100, 400) / 10.0), minutes(dice.whole(400, 1800) / 10.0)};
    return drawn;
}

std::vector<slow::SplitValue> all_splits(const Drawn& drawn) {
    Incident closed = drawn.incident;
    for (FillSite& site : closed.fill_sites) {
        site.flows = site.flows.value_or(1);
    }
    slow::Incident twin = slow_of(closed);
    for (std::size_t site = 0; site < twin.fill_sites.size(); ++site) {
        twin.fill_sites[site].flows =
            drawn.incident.fill_sites[site].flows ? twin.fill_sites[site].flows : 0;
    }
    std::vector<std::vector<slow::WayThere>> ways;
    for (const auto& of_tanker : drawn.legs) {
        ways.emplace_back();
        for (const std::optional<Leg>& leg : of_tanker) {
            ways.back().push_back(
                leg ? slow::WayThere{{in_minutes(leg->empty), in_minutes(leg->loaded)}}
                    : std::nullopt);
        }
    }
    return slow::slow_splits(twin, ways, in_minutes(drawn.window.duration));
}

}  // namespace

TEST_CASE("the best splits of the fluid model are those of writing all of them down") {
    for (std::uint64_t seed = 1; seed <= drawn_fleets; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const Drawn drawn = drawn_fleet(dice, 6, seed % 2 == 0);
        const std::vector<slow::SplitValue> all = all_splits(drawn);
        const Splits found = best_splits(drawn.incident, drawn.legs, drawn.window, 5);
        CHECK(found.proved);
        REQUIRE_FALSE(found.best.empty());
        CHECK(found.best.front().fluid == Approx(all.front().flow).margin(0.06));
        for (const Split& split : found.best) {
            const auto same =
                std::ranges::find(all, split.fill_sites, &slow::SplitValue::fill_sites);
            REQUIRE(same != all.end());
            CHECK(split.fluid == Approx(same->flow).margin(0.01));
        }
        // Where no two tankers are alike the fifth is the fifth.
        const std::size_t last = found.best.size() - 1;
        if (drawn.legs.front() != drawn.legs.back()) {
            CHECK(found.best.size() == std::min<std::size_t>(5, all.size()));
            CHECK(found.best[last].fluid > all[last].flow - 0.06);
        }
    }
}

TEST_CASE("the long-run bound is the twin's for tankers that stay where they are") {
    for (std::uint64_t seed = 1; seed <= drawn_fleets; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const Incident incident = random_incident(dice, {.attack = false});
        const Window window = random_window(dice);
        CHECK(in_gpm(long_run_bound(incident, window)) ==
              Approx(slow::slow_fluid_flow(slow_of(incident), in_minutes(window.duration)))
                  .epsilon(1e-6)
                  .margin(1e-6));
    }
}

TEST_CASE("of all splits the incident run finds few that are better than the allocation") {
    int as_good = 0;
    double worst = 1.0;
    for (std::uint64_t seed = 1; seed <= judged_fleets; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 5000);
        const Drawn drawn = drawn_fleet(dice, 5, seed % 2 == 0);
        int best = 0;
        for (const slow::SplitValue& split : all_splits(drawn)) {
            const Incident sent = sent_to(drawn.incident, drawn.legs, split.fill_sites);
            best = std::max(best, in_tenths(sustained_flow(sent, drawn.window)));
        }
        const Allocation found = best_allocation(drawn.incident, drawn.legs, drawn.window);
        CHECK(found.sustained == sustained_flow(found.incident, drawn.window));
        CHECK(in_tenths(found.sustained) <= best);
        as_good += in_tenths(found.sustained) == best ? 1 : 0;
        worst = best == 0 ? worst : std::min(worst, in_tenths(found.sustained) / double(best));
    }
    CAPTURE(as_good, worst);
    CHECK(as_good >= judged_fleets * 9 / 10);
    CHECK(worst > 0.95);
}
