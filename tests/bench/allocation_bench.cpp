// Microseconds per allocation of tankers to three fill sites, by the size of the fleet, and per
// bound; fleets of up to six tankers are checked against every split there is. Counts processor
// time, so that a busy machine matters less.
#include <cstdio>
#include <cstdlib>
#include <ctime>

#include "analyzer/supply/bounds/dispatch_bound.h"
#include "analyzer/supply/disorder.h"
#include "analyzer/supply/filling/fill_allocation.h"
#include "tests/supply/incidents.h"
#include "tests/supply/random_incidents.h"
#include "tests/support/slow_allocation.h"

namespace {

using namespace farwater;
using namespace farwater::supply;

constexpr int fleets = 20;
constexpr int sites = 3;

struct Drawn {
    Incident incident;
    FillLegs legs;
};

Drawn drawn_fleet(int tankers, std::uint64_t seed) {
    Dice dice(seed * 1000 + static_cast<std::uint64_t>(tankers));
    Drawn drawn{ordinary_case(), {}};
    Incident& incident = drawn.incident;
    incident.dump_site.offload_slots = 2;
    incident.dump_site.storage = gallons(3 * 2332);
    incident.tankers.clear();
    incident.fill_sites.clear();
    for (int site = 0; site < sites; ++site) {
        incident.fill_sites.push_back(random_fill_site(dice, {.open_flows = true}));
        incident.fill_sites.back().usable.reset();
    }
    for (int i = 0; i < tankers; ++i) {
        Tanker tanker = random_tanker(dice);
        tanker.arrives = minutes(dice.between(10.0, 30.0));
        drawn.legs.emplace_back();
        for (int site = 0; site < sites; ++site) {
            const double way = dice.between(2.0, 12.0);
            drawn.legs.back().emplace_back(Leg{minutes(way), minutes(way * 1.1)});
        }
        tanker.leg = *drawn.legs.back().front();
        incident.tankers.push_back(tanker);
    }
    return drawn;
}

// Mean microseconds of answer(drawn), over all fleets.
template <class Answer>
double microseconds(int tankers, Answer answer) {
    std::clock_t spent = 0;
    for (int fleet = 0; fleet < fleets; ++fleet) {
        const Drawn drawn = drawn_fleet(tankers, static_cast<std::uint64_t>(fleet));
        const std::clock_t begun = std::clock();
        answer(drawn);
        spent += std::clock() - begun;
    }
    return static_cast<double>(spent) * (1e6 / CLOCKS_PER_SEC) / fleets;
}

bool as_the_twin_says(int tankers) {
    const Drawn drawn = drawn_fleet(tankers, 0);
    Incident closed = drawn.incident;
    for (FillSite& site : closed.fill_sites) {
        site.flows = 1;
    }
    slow::Incident twin = slow_of(closed);
    for (slow::FillSite& site : twin.fill_sites) {
        site.flows = 0;
    }
    std::vector<std::vector<slow::WayThere>> ways;
    for (const auto& of_tanker : drawn.legs) {
        ways.emplace_back();
        for (const std::optional<Leg>& leg : of_tanker) {
            ways.back().push_back(std::pair(in_minutes(leg->empty), in_minutes(leg->loaded)));
        }
    }
    const double wanted =
        slow::slow_splits(twin, ways, in_minutes(ordinary_window.duration)).front().flow;
    const double found =
        best_splits(drawn.incident, drawn.legs, ordinary_window, 5).best.front().fluid;
    if (found < wanted - 0.06) {
        std::printf("%.2f gpm, but the twin says %.2f\n", found, wanted);
    }
    return found >= wanted - 0.06;
}

bool bench(int tankers) {
    volatile double sink = 0.0;
    const double splits = microseconds(tankers, [&](const Drawn& d) {
        sink = best_splits(d.incident, d.legs, ordinary_window, 5).best.front().fluid;
    });
    const double whole = microseconds(tankers, [&](const Drawn& d) {
        sink = in_tenths(best_allocation(d.incident, d.legs, ordinary_window).sustained);
    });
    const double bound = microseconds(tankers, [&](const Drawn& d) {
        sink = in_gpm(dispatch_bound(d.incident, ordinary_window));
    });
    const double disorder = microseconds(tankers, [&](const Drawn& d) {
        sink = in_gpm(disorder_flow(d.incident, ordinary_window));
    });
    std::printf("%7d %10.0f %10.0f %10.1f %10.1f\n", tankers, splits, whole, bound, disorder);
    return tankers > 6 || as_the_twin_says(tankers);
}

}  // namespace

int main() {
    std::printf("microseconds; three fill sites\n");
    std::printf("tankers     splits allocation      bound   disorder\n");
    bool right = true;
    for (const int tankers : {1, 2, 4, 6, 8, 10, 12, 16, 20}) {
        right &= bench(tankers);
    }
    return right ? EXIT_SUCCESS : EXIT_FAILURE;
}
