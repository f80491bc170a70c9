// Which tanker fills where, when there is more than one fill site. The fluid model (fluid_model.h)
// is searched exactly by branch and bound for its best few splits of whole tankers; these are then
// judged by the incident run, which knows arrivals, queues and storage, and the best of them is
// improved by moving and exchanging tankers as long as that gains.
#pragma once

#include <cstddef>
#include <vector>

#include "analyzer/supply/filling/fluid_model.h"
#include "analyzer/supply/incident.h"

namespace farwater::supply {

// A shuttle is run with at most three fill sites at a time: each takes an engine and a crew.
inline constexpr std::size_t most_sites_in_use = 3;

struct Split {
    std::vector<std::size_t> fill_sites;  // for each tanker
    double fluid = 0.0;                   // what the fluid model gives it, gpm
};

struct Splits {
    std::vector<Split> best;  // the best first, of equals the one that is first site by site
    bool proved = true;       // none that is left out is better than the last by over 0.05 gpm
};

// The best `most` splits of the fluid model over at most three fill sites, more only where no three
// serve all tankers. Tankers that differ in nothing but their arrival count as one kind: which of
// them goes where makes no other split. Stops unproved after 20,000 linear programs, 10
// microseconds each; 10 tankers and 3 sites take some hundreds. Preconditions: as for the fluid
// model; every tanker has a leg to some site.
Splits best_splits(const Incident& incident, const FillLegs& legs, Window window, std::size_t most);

// The incident with its tankers sent so. Precondition: the legs are there.
Incident sent_to(Incident incident, const FillLegs& legs,
                 const std::vector<std::size_t>& fill_sites);

struct Allocation {
    Incident incident;  // with the tankers sent so
    HeldFlow sustained{};
    Flow fluid_best;  // of the best split of the fluid model; asked for by tests alone
    bool proved = true;
};

// The split with the largest sustained flow of the fluid model's best five, improved. Not proved
// best by the incident run: for up to five tankers it is the best of all splits in nine draws of
// ten and within 5 % of it in the others (tests/supply/fill_allocation_twin_test.cpp). At most 300
// splits are judged. With 3 sites 2 milliseconds for 4 tankers, 9 for 8, 20 for 20
// (tests/bench/allocation_bench.cpp).
Allocation best_allocation(const Incident& incident, const FillLegs& legs, Window window);

}  // namespace farwater::supply
