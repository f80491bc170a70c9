// Not only how long a drive takes but which way it goes. Nothing is kept while searching: the way
// is read back from the costs, so a search costs what it costs without.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "routing/costs.h"
#include "routing/network.h"
#include "routing/search/search.h"
#include "routing/search/spot_times.h"

namespace farwater::routing {

// A part of an edge as it is driven, in metres from the start of the edge; `to` is less than `from`
// where it is driven against the drawing.
struct Stretch {
    EdgeIndex edge;
    double from = 0.0;
    double to = 0.0;
};
using Way = std::vector<Stretch>;  // in the order of driving; empty when nothing is to be driven

// What is to be known of the roads of a way.
struct RoadMarks {
    bool counts = false;  // its time is added up
    bool listed = false;  // it is named
};
using MarksOfRoad = std::function<RoadMarks(RoadIndex road)>;

struct WayMeasure {
    std::int32_t time = no_way;  // as the costs: tenths of a second, or see travel_rule.h
    std::int64_t millimetres = 0;
    std::int32_t counted = 0;  // of the time, on roads that count
};

// The fastest ways between one spot and any other; of equally fast ones the shortest; of equally
// short ones, from the other spot back, the first in the order of edges at each junction. So time
// and length do not depend on the end that was searched from.
class FastestWays {
public:
    explicit FastestWays(const Network& network);

    // Searches away from `spot`, or towards it where the roads' heading says so, as far as `limit`.
    // What `roads` and `marks` (null: none) refer to must outlive the questions below. O(what is
    // reached x log).
    void search(const DrivenRoads& roads, RoadSpot spot, std::int32_t limit,
                const MarksOfRoad* marks = nullptr);

    // Of the way to `other`, or from it (heading towards); no_way beyond the limit. Equal to
    // SpotTimes. Worked out where it is asked for and kept until the next search, so that many
    // questions cost little more than the roads that their ways have together.
    WayMeasure measure(RoadSpot other);
    std::vector<RoadIndex> listed(RoadSpot other);  // roads of the way, each once, ascending
    std::optional<Way> way(RoadSpot other);  // none where there is no way; O(edges of the way)

    // The search itself. Precondition: there was one.
    const DrivenRoads& roads() const { return *roads_; }
    const Search& searched() const { return search_; }
    RoadSpot spot() const { return spot_; }

    std::span<const std::uint32_t> reached() const { return search_.reached(); }

private:
    // Between a spot and one end of its edge, or straight along the edge between both spots.
    struct Piece {
        static constexpr std::uint32_t straight = UINT32_MAX;
        std::int32_t time = no_way;
        std::int64_t millimetres = 0;
        std::uint32_t node = straight;  // at the end of the edge
        Stretch stretch;
    };

    // The way back from a junction to the searched spot.
    struct Back {
        std::int64_t millimetres = -1;  // -1 = not worked out
        std::int32_t counted = 0;
        std::uint32_t incidence = 0;  // of the network, to go back by; or see `begins`
        std::uint32_t listed =
            UINT32_MAX;  // the nearest junction, this one too, with a listed road
    };
    static constexpr std::uint32_t begins = UINT32_MAX - 1;  // at starts_[0], or [1] for begins + 1

    bool away() const { return roads_->heading == Heading::away; }
    std::int64_t edge_length(EdgeIndex edge) const;
    Piece end_piece(RoadSpot spot, bool at_from, Heading heading) const;
    Piece along_piece(RoadSpot other) const;
    Stretch driven(EdgeIndex edge, double near, double far) const;
    RoadMarks marks_of(EdgeIndex edge) const;
    bool on_fastest(std::uint32_t node, const Incidence& incidence) const;
    const Back& back_from(std::uint32_t node);
    void settle(std::uint32_t node);
    void keep(std::uint32_t node, std::uint32_t incidence, std::int64_t length);
    Piece last_piece(RoadSpot other);
    void walk_back(std::uint32_t node, Way& way);

    const Network& network_;
    std::optional<DrivenRoads> roads_;
    const MarksOfRoad* marks_ = nullptr;
    RoadSpot spot_;
    std::int32_t limit_ = 0;
    std::array<Piece, 2> starts_;
    Search search_;
    std::vector<Back> back_;  // per node
    std::vector<std::uint32_t> worked_out_, pending_;
};

}  // namespace farwater::routing
