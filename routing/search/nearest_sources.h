// The nearest of very many sources, ranked by one way: each search ends where enough others are
// nearer, so that what a source costs falls as sources get denser.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "routing/search/spot_times.h"

namespace farwater::routing {

struct NearSource {
    std::int32_t cost = no_way;         // tenths of a second, or what the roads' costs count
    std::uint32_t source = UINT32_MAX;  // position in the list that was given

    friend constexpr auto operator<=>(const NearSource&, const NearSource&) = default;
};

// Per place: the `most` (1 or more) nearest sources at most `limit` away, by cost, ties to the
// smaller source; from the sources to the places, or from the places to them where the roads'
// heading is towards. The same lists as full searches would give, because whoever has `most` nearer
// ones at a junction has them everywhere beyond it. Only one way can be ranked like this: of two
// round trips the shorter one may be longer each way up to some junction.
//
// Sources and places that are not valid have no way. One search a source, which on a large network
// goes about as far as `most` others lie; 8 bytes x `most` a junction. Stopped early: what it
// returns is not complete.
Lists<NearSource> nearest_sources(const DrivenRoads& roads, std::span<const RoadSpot> sources,
                                  std::span<const RoadSpot> places, std::size_t most,
                                  std::int32_t limit, const Work& work);

}  // namespace farwater::routing
