// Where along the roads it is level enough for portable tanks.
#pragma once

#include <optional>
#include <span>

#include "analyzer/district/assumptions.h"
#include "analyzer/district/district.h"
#include "analyzer/district/plane.h"
#include "routing/driving/grade.h"
#include "routing/network.h"

namespace farwater::routing {

// A dump site takes dump_site_length of its edge, in the middle of which it stands (nearer to a
// junction than half of that: from the junction on; an edge that is shorter: all of it). It is as
// steep as the steepest step (edge_grades.h) of that stretch, up or down; steps whose grade is not
// known do not count.
class LevelStretches {
public:
    // Both must outlive it.
    LevelStretches(const Assumptions& assumptions, const Network& network);

    // Percent; none where no grade is known. O(steps).
    std::optional<double> grade_pct(RoadSpot spot) const;

    // Not steeper than steepest_dump_site_pct, or not known.
    bool level(RoadSpot spot) const;

    // The nearest level spot on the same edge, but not before `low` and not beyond `high` metres
    // from its start; of two equally near ones the first. None where there is none. O(steps).
    std::optional<RoadSpot> nearest(RoadSpot spot, double low, double high) const;

    // Of a place that is set up beside its spot on the road; none where it lies farther than half
    // of dump_site_length from there, as a lot does: the road does not tell its grade.
    std::optional<double> grade_pct_beside(const District& district, RoadSpot spot,
                                           Point place) const;
    // Road around the spot that is straight and level, on its edge and as far as the drafting
    // engine and the longest line of portable tanks take: nowhere steep, and nowhere turning by
    // more than 15 degrees from its direction at the spot (common practice, no source). O(length /
    // 3 m).
    Length straight(const District& district, RoadSpot spot) const;

    // The same where a place is set up beside its spot, as above.
    std::optional<Length> straight_beside(const District& district, RoadSpot spot,
                                          Point place) const;
    bool steep_pct(double grade_pct) const { return grade_pct * 100.0 > most_ + 1e-6; }

private:
    bool steep(Grade grade) const;
    bool beside(const District& district, RoadSpot spot, Point place) const;
    double straight_to(const District& district, RoadSpot spot, double toward) const;
    std::optional<RoadSpot> nearest_among(RoadSpot spot, double low, double high,
                                          std::span<const Grade> steps) const;

    const Network& network_;
    double length_;  // metres
    double line_;    // of engine and tanks, metres
    double most_;    // hundredths of a percent
};

}  // namespace farwater::routing
