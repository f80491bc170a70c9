#include "io/inputs/osm_roads.h"

#include <algorithm>
#include <array>

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

// OpenStreetMap wiki, Key:surface. Which of them slow a tanker: common practice, no source.
constexpr std::array soft{"sand"sv, "mud"sv, "grass"sv, "snow"sv, "ice"sv, "clay"sv};

struct HighwayAccess {
    std::string_view highway;
    RoadAccess access;
};

constexpr std::array narrowed{
    HighwayAccess{"track", RoadAccess::unmaintained},
    HighwayAccess{"pedestrian", RoadAccess::gated},
    HighwayAccess{"busway", RoadAccess::gated},
    HighwayAccess{"construction", RoadAccess::closed},
    HighwayAccess{"proposed", RoadAccess::closed},
    HighwayAccess{"planned", RoadAccess::closed},
    HighwayAccess{"abandoned", RoadAccess::closed},
    HighwayAccess{"disused", RoadAccess::closed},
    HighwayAccess{"razed", RoadAccess::closed},
    HighwayAccess{"discontinued", RoadAccess::closed},
};

}  // namespace

bool is_soft(std::string_view surface) {
    return std::find(soft.begin(), soft.end(), surface) != soft.end();
}

RoadAccess access_of_highway(std::string_view highway) {
    const auto* found =
        std::find_if(narrowed.begin(), narrowed.end(),
                     [highway](const HighwayAccess& row) { return row.highway == highway; });
    return found == narrowed.end() ? RoadAccess::open : found->access;
}

bool implies_one_way(std::string_view highway, std::string_view junction) {
    return highway == "motorway" || junction == "roundabout" || junction == "circular";
}

}  // namespace farwater::io
