#include "analyzer/supply/filling/fill_allocation.h"

#include <algorithm>
#include <set>

#include <catch2/catch.hpp>

#include "analyzer/supply/incident_run.h"
#include "tests/supply/incidents.h"
#include "tests/supply/random_incidents.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

// The ordinary case with `sites` fill sites alike, as far as one another, and `tankers` alike.
struct Fleet {
    Incident incident;
    FillLegs legs;
};

Fleet fleet_of(std::size_t tankers, std::size_t sites) {
    Fleet fleet{ordinary_case(), {}};
    Incident& incident = fleet.incident;
    incident.dump_site.offload_slots = 4;
    incident.dump_site.storage = std::nullopt;
    incident.fill_sites.assign(sites, incident.fill_sites.front());
    for (FillSite& site : incident.fill_sites) {
        site.places = 1;
    }
    const Tanker tanker = usual_tanker(2500, 15);
    incident.tankers.assign(tankers, tanker);
    fleet.legs.assign(tankers, std::vector<std::optional<Leg>>(sites, tanker.leg));
    return fleet;
}

std::size_t in_use(const Incident& incident) {
    std::set<std::size_t> sites;
    for (const Tanker& tanker : incident.tankers) {
        sites.insert(tanker.fill_site);
    }
    return sites.size();
}

}  // namespace

TEST_CASE("a fleet that one fill site would keep waiting is spread over two") {
    const Fleet fleet = fleet_of(8, 2);
    const Allocation best = best_allocation(fleet.incident, fleet.legs, ordinary_window);
    CHECK(best.proved);
    CHECK(std::ranges::count(best.incident.tankers, 0U, &Tanker::fill_site) == 4);
    CHECK(best.sustained > sustained_flow(fleet.incident, ordinary_window));
    // Each place is held for 4.5 minutes a load of 2,250 gal, and there are two of them.
    CHECK(in_gpm(best.fluid_best) == Approx(1000.0).margin(0.01));
}

TEST_CASE("at most three fill sites are run at a time") {
    const Fleet fleet = fleet_of(12, 5);
    const Allocation best = best_allocation(fleet.incident, fleet.legs, ordinary_window);
    CHECK(in_use(best.incident) == 3);
}

TEST_CASE("tankers that are bound to four fill sites stay there") {
    Fleet fleet = fleet_of(5, 4);
    for (std::size_t tanker = 0; tanker < 4; ++tanker) {
        for (std::size_t site = 0; site < 4; ++site) {
            if (site != tanker) {
                fleet.legs[tanker][site].reset();
            }
        }
    }
    const Allocation best = best_allocation(fleet.incident, fleet.legs, ordinary_window);
    for (std::size_t tanker = 0; tanker < 4; ++tanker) {
        CHECK(best.incident.tankers[tanker].fill_site == tanker);
    }
    CHECK(best.sustained > HeldFlow{});
}

TEST_CASE("a source that is nearly empty gets no tanker that another can fill") {
    Fleet fleet = fleet_of(3, 2);
    fleet.incident.fill_sites[0].usable = gallons(2500);
    const Allocation best = best_allocation(fleet.incident, fleet.legs, ordinary_window);
    for (const Tanker& tanker : best.incident.tankers) {
        CHECK(tanker.fill_site == 1);
    }
}

TEST_CASE("no tankers, no allocation, no flow but the engine's tank") {
    Fleet fleet = fleet_of(0, 2);
    const Allocation best = best_allocation(fleet.incident, fleet.legs, ordinary_window);
    CHECK(best.incident.tankers.empty());
    CHECK(best.sustained == held(gpm(1000.0 / 120.0)));
}

TEST_CASE("the same tankers in another order hold the same, and so do fill sites") {
    for (std::uint64_t seed = 1; seed <= 30; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        Fleet fleet{random_incident(dice, {}), {}};
        for (Tanker& tanker : fleet.incident.tankers) {
            fleet.legs.emplace_back();
            for (std::size_t site = 0; site < fleet.incident.fill_sites.size(); ++site) {
                fleet.legs.back().emplace_back(
                    Leg{minutes(dice.between(1, 12)), minutes(dice.between(1, 12))});
            }
            tanker.leg = *fleet.legs.back()[tanker.fill_site];
        }
        const Splits before = best_splits(fleet.incident, fleet.legs, ordinary_window, 5);
        std::ranges::reverse(fleet.incident.tankers);
        std::ranges::reverse(fleet.legs);
        const Splits after = best_splits(fleet.incident, fleet.legs, ordinary_window, 5);
        CHECK(after.best.front().fluid == Approx(before.best.front().fluid).margin(0.06));
    }
}
