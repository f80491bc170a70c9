// What changes for each property when a source is added.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/planning/choice_problem.h"
#include "analyzer/supply/assessment.h"

namespace farwater::planning {

struct Weights;  // weights.h

// Whether state or flow is another.
bool differs(const supply::ParcelSupply& a, const supply::ParcelSupply& b);

// A property's answer in its worst season and period, before and after.
struct Change {
    std::uint32_t row = 0;  // of the parcels
    supply::ParcelSupply before, after;

    // Of what is needed, in tenths of a gpm: flow beyond the need is no gain; less than 0 where the
    // property has less than before.
    Gain gain() const;
    bool newly_held() const;
    bool no_longer_held() const;
    // Of a loss: the first engine is there sooner, so that the start that is allowed is sooner too
    // and flow is judged from an earlier minute, when fewer tankers may have come. Nobody has less
    // water by that. Of the worst variants, which may be two.
    bool judged_earlier() const;
};

// What a source, or several, do for all properties together.
struct GainSum {
    Gain tenths = 0;          // of a gpm: gains less losses
    Gain lost_tenths = 0;     // the losses
    Gain earlier_tenths = 0;  // of those, the losses of properties that are judged earlier
    Gain weighted = 0;        // gains less losses, each times the property's weight
    std::size_t gaining = 0;
    std::size_t losing = 0;
    std::size_t losing_earlier = 0;  // of those
    std::size_t newly_held = 0;
    std::size_t no_longer_held = 0;
    std::size_t better_state = 0;
    std::size_t worse_state = 0;

    double gpm() const { return static_cast<double>(tenths) / 10.0; }
    double lost_gpm() const { return static_cast<double>(lost_tenths) / 10.0; }
    double lost_earlier_gpm() const { return static_cast<double>(earlier_tenths) / 10.0; }
    std::int64_t more_held() const {
        return static_cast<std::int64_t>(newly_held) - static_cast<std::int64_t>(no_longer_held);
    }
};
GainSum sum_of(std::span<const Change> changes);  // all weigh 1
GainSum sum_of(std::span<const Change> changes, const Weights& weights);

// The parcels of which state or flow is another, by row. Precondition: both have the same rows, the
// first `parcels` of them parcels'.
std::vector<Change> changes_between(std::span<const supply::ParcelSupply> before,
                                    std::span<const supply::ParcelSupply> after,
                                    std::size_t parcels);

// What the last of some sources changes, from the changes without it and with it, both against the
// answers as they are; by row.
std::vector<Change> last_step(std::span<const Change> without, std::span<const Change> with);

// The weighted gains of a candidate alone as offers; losses are left out of the choice, for they
// are counted when the chosen sites are worked out together.
std::vector<Offer> offers_of(std::span<const Change> changes, const Weights& weights);

// Per parcel: what is missing of its need, weighted, where more water can be a cure: nothing
// without a building, or where nobody gets to. `answers` are parcels' first.
std::vector<Gain> missing_flow(std::span<const supply::ParcelSupply> answers, std::size_t parcels,
                               const Weights& weights);

}  // namespace farwater::planning
