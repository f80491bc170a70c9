// The shuttle as a steady stream: how many trips a minute each tanker makes to each fill site, when
// every place, flow line, pump, source and slot has only so many minutes or gallons to give. Knows
// no order, no storage and no start, so it is a bound for every way of dispatching over a long run
// and a quick measure of how tankers are best spread over fill sites.
// Source: utilisation law per resource; with fixed legs the bound of operational analysis
// (Denning and Buzen 1978; Lazowska et al., Quantitative System Performance, 1984, ch. 5).
#pragma once

#include <optional>
#include <vector>

#include "analyzer/supply/filling/linear_program.h"
#include "analyzer/supply/incident.h"

namespace farwater::supply {

// For each tanker of an incident and each of its fill sites the way there; none = it does not go.
using FillLegs = std::vector<std::vector<std::optional<Leg>>>;

// The legs of tankers that stay with the fill sites that the incident gives them.
FillLegs own_legs(const Incident& incident);

class FluidModel {
public:
    // Flow lines that the incident leaves open are as many as there are places, each with the whole
    // pump for itself as long as the pump in all is not exceeded: no way of sharing does better.
    // Preconditions: as for the incident run; the window's duration is positive.
    FluidModel(const Incident& incident, const FillLegs& legs, Window window);

    // May tanker go to fill site? At first all go where they have legs.
    void allow(std::size_t tanker, std::size_t site, bool may);

    // The largest flow of those that are allowed, in gpm. A linear program, 10 to 50 microseconds.
    double largest();
    // In the last solution: the share of the tanker's time that it spends on trips to the site.
    double share(std::size_t tanker, std::size_t site) const;

private:
    struct Trip {
        std::size_t column = 0;
        double minutes = 0.0;
    };
    const std::optional<Trip>& trip(std::size_t tanker, std::size_t site) const {
        return trips_[tanker][site];
    }

    LinearProgram program_;
    std::vector<std::vector<std::optional<Trip>>> trips_;
};

// No order of dispatch holds more than this over a long run: all tankers, each to its own fill
// site. Never above the handbook sum, nor above the best of any one resource (handbook.h). Over a
// short window stored and rolling water may exceed it: see dispatch_bound.h.
Flow long_run_bound(const Incident& incident, Window window);

}  // namespace farwater::supply
