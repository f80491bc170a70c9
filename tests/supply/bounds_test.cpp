// The figures that stand beside the sustained flow: what no dispatch can exceed, and disorder.
#include <catch2/catch.hpp>

#include "analyzer/supply/bounds/dispatch_bound.h"
#include "analyzer/supply/disorder.h"
#include "analyzer/supply/filling/fluid_model.h"
#include "analyzer/supply/handbook.h"
#include "analyzer/supply/incident_run.h"
#include "tests/supply/incidents.h"
#include "tests/supply/random_incidents.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

constexpr int incidents_drawn = 1500;
constexpr double rounding = 1.0 + 1e-6;
constexpr Window long_window{minutes(60), minutes(6000)};

// 3,000-gal tankers that deliver 2,700; 4.05 minutes each way, 3 minutes at the dump site, 4.5 at
// the fill site: a cycle of 15.6 minutes. Computed, no source; the drive is 0.65 + 1.7 x 2 miles.
Incident knee_fleet(int tankers) {
    Incident incident = bare_case(std::nullopt);
    incident.fill_sites[0].pump = gpm(1000);
    for (int i = 0; i < tankers; ++i) {
        Tanker tanker = usual_tanker(3000, 0);
        tanker.fill_before = tanker.fill_after = minutes(0.75);
        tanker.offload_before = tanker.offload_after = minutes(0.15);
        tanker.leg = {minutes(4.05), minutes(4.05)};
        incident.tankers.push_back(tanker);
    }
    return incident;
}

}  // namespace

TEST_CASE("up to the knee the long-run bound is the handbook sum, past it the fill site's") {
    constexpr double expected[] = {173.1, 346.2, 519.2, 600.0, 600.0};
    for (int tankers = 1; tankers <= 5; ++tankers) {
        CAPTURE(tankers);
        CHECK(in_gpm(long_run_bound(knee_fleet(tankers), long_window)) ==
              Approx(expected[tankers - 1]).margin(0.06));
    }
}

TEST_CASE("disorder is what mean value analysis gives, and takes most at the knee") {
    constexpr double expected[] = {173.1, 309.0, 408.8, 477.4, 522.3};
    for (int tankers = 1; tankers <= 5; ++tankers) {
        CAPTURE(tankers);
        CHECK(in_gpm(disorder_flow(knee_fleet(tankers), long_window)) ==
              Approx(expected[tankers - 1]).margin(0.06));
    }
    CHECK(disorder_flow(knee_fleet(0), long_window) == Flow{});
}

TEST_CASE("a small tanker that the first in, first out order cannot spare raises the bound") {
    // Five fill visits of 17.5 minutes in all give 642.9; a sixth tanker of 1,500 gal fits in where
    // the fill place would stand idle, though in turn with the others it would lower the flow to
    // 630.
    Incident incident = bare_case(gallons(5000));
    for (const double tank : {2500.0, 2500.0, 3000.0, 2000.0, 2500.0, 1500.0}) {
        Tanker tanker = usual_tanker(tank, 0);
        tanker.fill_before = tanker.fill_after = minutes(0.5);
        tanker.offload_before = tanker.offload_after = minutes(0.5);
        tanker.leg = {minutes(4.0), minutes(4.0)};
        incident.tankers.push_back(tanker);
    }
    CHECK(in_gpm(long_run_bound(incident, long_window)) > 642.9);
    CHECK(sustained_flow(incident, long_window) < tenths_of_gpm(6340));
}

TEST_CASE("no flow that holds is above the bound of its window", "[property]") {
    for (std::uint64_t seed = 1; seed <= incidents_drawn; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const Incident incident = random_incident(dice, {.open_flows = seed % 2 == 0});
        const Window window = random_window(dice);
        CHECK(flow_of(sustained_flow(incident, window)) <=
              dispatch_bound(incident, window) * rounding + gpm(1e-6));
    }
}

TEST_CASE("the long-run bound is below the handbook sum and every single resource", "[property]") {
    for (std::uint64_t seed = 1; seed <= incidents_drawn; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const Incident incident = random_incident(dice, {.open_flows = seed % 2 == 0});
        const Window window = random_window(dice);
        const Flow bound = long_run_bound(incident, window);
        CHECK(bound <= handbook_flow(incident) * rounding);
        CHECK(bound <= resource_bound(incident, window) * rounding);
        const Flow disorder = disorder_flow(incident, window);
        CHECK(disorder >= Flow{});
        CHECK(disorder <= bound * rounding);
    }
}

TEST_CASE("over a long run the flow stays below the long-run bound", "[property]") {
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        Incident incident = random_incident(dice, {.attack = false});
        // What is stored and rolling at the start is spread over 6,000 minutes.
        Volume stored = incident.dump_site.engine_tank;
        for (const Tanker& tanker : incident.tankers) {
            stored += tanker.delivered;
        }
        incident.dump_site.storage = gallons(5000);
        stored += gallons(5000);
        CHECK(flow_of(sustained_flow(incident, long_window)) <=
              long_run_bound(incident, long_window) * rounding + stored / long_window.duration +
                  gpm(0.1 + 0.01 * in_gpm(long_run_bound(incident, long_window))));
    }
}

TEST_CASE("gallons and rates times k make every bound k times", "[property]") {
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const Incident incident = random_incident(dice, {.attack = false});
        const Window window = random_window(dice);
        const double k = dice.between(0.3, 3.0);
        Incident scaled = incident;
        DumpSite& dump = scaled.dump_site;
        dump.storage = dump.storage ? std::optional(*dump.storage * k) : std::nullopt;
        dump.engine_tank = dump.engine_tank * k;
        for (FillSite& site : scaled.fill_sites) {
            site.pump = site.pump * k;
            site.usable = site.usable ? std::optional(*site.usable * k) : std::nullopt;
            site.inflow = site.inflow * k;
        }
        for (Tanker& tanker : scaled.tankers) {
            tanker.delivered = tanker.delivered * k;
            tanker.refilled = tanker.refilled * k;
            tanker.fill_limit = tanker.fill_limit * k;
            tanker.offload = tanker.offload * k;
            tanker.nurse_rate = tanker.nurse_rate * k;
        }
        const auto same = [&](Flow before, Flow after) {
            CHECK(in_gpm(after) == Approx(in_gpm(before) * k).epsilon(1e-6).margin(1e-6));
        };
        same(dispatch_bound(incident, window), dispatch_bound(scaled, window));
        same(long_run_bound(incident, window), long_run_bound(scaled, window));
        same(disorder_flow(incident, window), disorder_flow(scaled, window));
    }
}

TEST_CASE("one tanker more of the same kind never lowers disorder's flow", "[property]") {
    HeldFlow before{};
    for (int tankers = 1; tankers <= 12; ++tankers) {
        CAPTURE(tankers);
        const Flow flow = disorder_flow(knee_fleet(tankers), long_window);
        CHECK(flow <= gpm(600 * rounding));
        CHECK(flow <= tankers * disorder_flow(knee_fleet(1), long_window) * rounding);
        CHECK(held(flow) >= before);
        before = held(flow);
    }
}
