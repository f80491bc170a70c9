// By which order the plans of one fire are compared (a plan: lay, fill sites, tankers, nursing, or
// hose from a source), and from when the flow has to hold that they are compared by.
#pragma once

#include <cstdint>
#include <optional>

#include "analyzer/district/assumptions.h"
#include "analyzer/district/units.h"

namespace farwater::supply {

struct ParcelSupply;

// What a rating asks of the first minutes. Times are counted from the first engine's arrival at the
// house, or from the alarm.
struct FirstMinutesTerms {
    HeldFlow flow{};       // has begun ...
    Duration within;       // ... by then, with no time without water before
    Duration full_within;  // a larger flow counts that holds from then on
    bool from_alarm = false;
};

// One plan in such an order. Times in tenths of a minute, since the alarm.
struct Merit {
    std::optional<std::int32_t> begins;  // when the terms' flow begins, or the latest moment at
                                         // which it must; none: never, or nobody asks
    std::int32_t gap = 0;                // minutes without water, where it begins
    HeldFlow flow{};  // cautious; by terms that of tankers is no more than the handbook sum
    friend bool operator==(const Merit&, const Merit&) = default;
};
// Begins earlier; then the shorter gap; then more flow.
bool better(const Merit& a, const Merit& b);

struct PlanOrder {
    // None, the planning answer: the better state; of two that hold the need the less doubtful one;
    // then the larger cautious flow. Less doubtful is what rests on no assumed value, then what
    // leaves no gap before water keeps coming, then the better margin, then a gap that is shorter
    // by whole minutes, then hose before tankers. Where nothing is held, a dump site that tankers
    // get to says better what is missing than one that they do not. Else what begins first, but
    // none is the better for beginning before the terms ask for it; then the shorter gap, then the
    // larger flow, then as without terms.
    std::optional<FirstMinutesTerms> terms;

    // Since the alarm, as all times here. Not before the first arrival.
    Duration flow_from(const Assumptions& assumptions, Duration first_arrival) const;
    // Precondition: there are terms.
    Duration begin_by(Duration first_arrival) const;
};

// The needed flow of a supply in that order is the terms' flow.
bool worse(const PlanOrder& order, const ParcelSupply& a, const ParcelSupply& b);
// It holds the need, but on an assumed value or with a gap: without terms less flow may be better.
bool leaves_a_doubt(const ParcelSupply& supply);
// There is no flow, as tankers have no way there or from there: what else is missing is not told.
bool is_cut_off(const ParcelSupply& supply);
// Nothing that is asked for is missing: some flow is held, or the terms are met.
bool content_with(const PlanOrder& order, const ParcelSupply& supply);

// When the needed flow begins at the fire: not before the first engine has its tank on it.
std::optional<std::int32_t> begins_at(const ParcelSupply& supply);
// What a rating may credit: a shuttle never with more than the handbook sum.
HeldFlow creditable(const ParcelSupply& supply);

}  // namespace farwater::supply
