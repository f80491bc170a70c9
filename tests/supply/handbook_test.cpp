#include "analyzer/supply/handbook.h"

#include <catch2/catch.hpp>

#include "analyzer/supply/incident_run.h"
#include "tests/supply/incidents.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

// One tanker whose cycle has these parts, flow included.
Incident one_tanker(double tank, double fill, double legs, double offload) {
    Incident incident = bare_case(std::nullopt);
    Tanker tanker = usual_tanker(tank, 0);
    tanker.fill_limit = tanker.offload = gpm(10'000);
    tanker.fill_before = minutes(fill) - tanker.refilled / gpm(10'000);
    tanker.offload_before = minutes(offload) - tanker.delivered / gpm(10'000);
    tanker.fill_after = tanker.offload_after = Duration{};
    tanker.leg = {minutes(legs / 2), minutes(legs / 2)};
    incident.fill_sites[0].pump = gpm(10'000);
    incident.tankers = {tanker};
    return incident;
}

double rating(double tank, double fill, double legs, double offload) {
    return in_gpm(handbook_flow(one_tanker(tank, fill, legs, offload)));
}

}  // namespace

TEST_CASE("the handbook flow reproduces the published examples") {
    // Source: "Water Shuttle Operations" (IFSTA pumping apparatus outline) p. 13: 2,500 gal, 3-mile
    // round trip in 0.65 + 1.7 x 3 = 5.75 min, 9 min of handling: 153 gpm.
    CHECK(rating(2500, 4.0, 5.75, 5.0) == Approx(152.5).margin(0.05));
    // Same, p. 12: 3,000 gal in a 12-minute trip: 225 gpm.
    CHECK(rating(3000, 4.5, 3.5, 4.0) == Approx(225.0));
    // Source: "MWS Water Shuttle Ops" study sheet: 5,000 gal in 10 minutes: 450 gpm.
    CHECK(rating(5000, 4.0, 2.0, 4.0) == Approx(450.0));
    // Source: NFPA 1142 annex C, from memory: 1,500 gal, A 3.0, B 4.0, T1 4.22, T2 3.71: 90 gpm.
    CHECK(rating(1500, 4.0, 4.22 + 3.71, 3.0) == Approx(90.42).margin(0.005));
    // The same 3 miles as two legs of 0.65 + 1.7 x 1.5 = 3.20 min each, as NFPA adds them.
    CHECK(rating(2500, 4.0, 6.40, 5.0) == Approx(2250 / 15.4));
}

TEST_CASE("tankers of one kind add up until the fill site has no minute left") {
    // 3,000-gal tankers, 2-mile legs of 0.65 + 1.7 x 2 = 4.05 min, offload visit 3.0, fill visit
    // 4.5: 15.6 min around. Derived: 173.1, 346.2, 519.2; from the fourth on 2,700 / 4.5 = 600.
    Incident incident = one_tanker(3000, 4.5, 8.1, 3.0);
    const Tanker tanker = incident.tankers[0];
    incident.dump_site.storage = gallons(6000);
    incident.dump_site.offload_slots = 4;
    CHECK(in_minutes(undisturbed_cycle(incident, tanker)) == Approx(15.6));
    const Window long_window{minutes(60), minutes(6000)};
    for (const double expected : {173.1, 346.2, 519.2}) {
        CHECK(in_gpm(handbook_flow(incident)) == Approx(expected).margin(0.05));
        CHECK(in_gpm(flow_of(sustained_flow(incident, long_window))) ==
              Approx(expected).epsilon(0.005));
        incident.tankers.push_back(tanker);
    }
    CHECK(in_gpm(handbook_flow(incident)) == Approx(4 * 173.077));
    CHECK(in_gpm(flow_of(sustained_flow(incident, long_window))) == Approx(600).epsilon(0.005));
    CHECK(in_gpm(resource_bound(incident, long_window)) == Approx(600));
}

TEST_CASE("the handbook sum of the ordinary case") {
    // 2,250 / 17.05 + 1,800 / 16.1 + 2,700 / 18.0 + 1,620 / 15.72 = 132.0 + 111.8 + 150.0 + 103.1
    const Incident incident = ordinary_case();
    CHECK(in_gpm(handbook_flow(incident)) == Approx(496.8).margin(0.05));
    CHECK(handbook_flow(bare_case(std::nullopt)) == Flow{});
}

TEST_CASE("a fixed number of flows shares the pump in the undisturbed cycle too") {
    Incident incident = ordinary_case();
    const Duration alone = undisturbed_cycle(incident, incident.tankers[0]);
    incident.fill_sites[0].flows = 2;
    const Duration shared = undisturbed_cycle(incident, incident.tankers[0]);
    CHECK(in_minutes(shared - alone) == Approx(2.5));  // 2,500 gal at 500 instead of 1,000 gpm
}

TEST_CASE("the resource bound is the least resource") {
    Incident incident = ordinary_case();
    const Flow fleet = handbook_flow(incident);
    CHECK(resource_bound(incident, ordinary_window) == fleet);

    SECTION("pump") {
        incident.fill_sites[0].pump = gpm(300);
        CHECK(in_gpm(resource_bound(incident, ordinary_window)) == Approx(0.9 * 300));
    }
    SECTION("places, best used by the largest tanker") {
        incident.fill_sites[0].places = 1;
        for (Tanker& tanker : incident.tankers) {
            tanker.fill_before = minutes(9);
        }
        // The 3,000-gal tanker holds the place for 13.0 of its 26.0 minutes, the 2,500-gal tanker
        // for 12.5 of the rest; next to nothing is left for the others.
        CHECK(in_gpm(resource_bound(incident, ordinary_window)) ==
              Approx(2700 / 26.0 + 0.5 * 2250 / 12.5).margin(0.1));
    }
    SECTION("offload slots") {
        for (Tanker& tanker : incident.tankers) {
            tanker.offload = gpm(300);
            tanker.leg = {};
        }
        CHECK(resource_bound(incident, ordinary_window) < gpm(300));
    }
    SECTION("source") {
        incident.fill_sites[0].usable = gallons(24'000);
        incident.fill_sites[0].inflow = gpm(50);
        CHECK(in_gpm(resource_bound(incident, ordinary_window)) == Approx(0.9 * 250));
    }
    SECTION("cap") {
        incident.dump_site.flow_cap = gpm(123);
        CHECK(resource_bound(incident, ordinary_window) == gpm(123));
    }
    SECTION("nobody") {
        incident.tankers.clear();
        CHECK(resource_bound(incident, ordinary_window) == Flow{});
    }
}
