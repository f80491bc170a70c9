#include <algorithm>

#include <fmt/format.h>

#include "reports/cards/card_view.h"
#include "reports/cards/card_words.h"

namespace farwater::reports {
namespace {

constexpr double least_across_route = 900.0;  // metres
constexpr double least_across_site = 260.0;
constexpr double most_from_site = 420.0;
constexpr double widest_with_drives = 2500.0;

bool apart(const Box& a, const Box& b) {
    return a.high.x < b.low.x || b.high.x < a.low.x || a.high.y < b.low.y || b.high.y < a.low.y;
}

MapLine line_of(RoadClass kind) {
    switch (kind) {
        case RoadClass::state:
        case RoadClass::paved:
            return MapLine::main_road;
        case RoadClass::paved_lane:
        case RoadClass::gravel:
            return MapLine::road;
        case RoadClass::narrow:
        case RoadClass::drive:
            break;
    }
    return MapLine::side_road;
}

// The stretches of a line whose pieces come near the box.
std::vector<Polyline> near_box(const Polyline& line, const Box& box) {
    std::vector<Polyline> stretches;
    bool going = false;
    for (std::size_t i = 1; i < line.size(); ++i) {
        Box piece;
        piece.include(line[i - 1]);
        piece.include(line[i]);
        if (apart(piece, box)) {
            going = false;
            continue;
        }
        if (!going) {
            stretches.push_back({line[i - 1]});
        }
        stretches.back().push_back(line[i]);
        going = true;
    }
    return stretches;
}

Box wider(const Box& box) {
    const double by = (box.high.x - box.low.x) * 0.15;
    return {.low = {box.low.x - by, box.low.y - by}, .high = {box.high.x + by, box.high.y + by}};
}

void add_stations(const District& district, SiteMap& map) {
    for (const Station& station : district.stations) {
        map.marks.push_back({MapMark::station, station.place, name_words(station.id)});
    }
}

void add_houses(const CardView& view, SiteMap& map, bool with_name) {
    for (const std::uint32_t row : view.site().rows) {
        if (row != view.site().worst) {
            map.marks.push_back({MapMark::house, house_of(view.district(), row), ""});
        }
    }
    map.marks.push_back({MapMark::worst_house, house_of(view.district(), view.site().worst),
                         with_name ? view.book.place_name(view.site().worst) : ""});
}

// Along which streets the hose lies is not kept: a straight line says to which house.
void add_hose(const CardView& view, SiteMap& map) {
    std::vector<SiteMap::Line> lines;
    for (const SiteMap::Mark& mark : map.marks) {
        if (mark.kind == MapMark::house || mark.kind == MapMark::worst_house) {
            lines.push_back({MapLine::hose, {view.place().place, mark.place}, ""});
        }
    }
    std::ranges::move(lines, std::back_inserter(map.lines));
}

std::vector<const RouteInUse*> ways_of(const CardView& view) {
    std::vector<const RouteInUse*> ways;
    for (const RouteInUse& route : view.book.routes.routes) {
        if (route.wanted.dump_site == view.site().dump_site &&
            route.wanted.kind != RouteKind::response && route.way.line.size() > 1) {
            ways.push_back(&route);
        }
    }
    return ways;
}

void add_ways(const std::vector<const RouteInUse*>& ways, SiteMap& map) {
    for (const RouteKind kind : {RouteKind::empty, RouteKind::loaded}) {
        for (const RouteInUse* route : ways) {
            if (route->wanted.kind == kind) {
                map.lines.push_back({kind == RouteKind::loaded ? MapLine::loaded : MapLine::empty,
                                     route->way.line, ""});
            }
        }
    }
}

void add_fill_sites(const CardView& view, SiteMap& map) {
    const auto* look = view.look();
    for (std::size_t i = 0; look != nullptr && i < look->shuttle.fills.size(); ++i) {
        const WaterSource& source = at(view.district().sources, look->shuttle.fills[i].source);
        map.marks.push_back({MapMark::fill_site, source.place, fmt::format("{}", i + 1)});
    }
}

SiteMap route_map(const CardView& view, const std::vector<const RouteInUse*>& ways) {
    SiteMap map{
        .title = ways.empty() ? "No shuttle route is drawn" : "Full line: loaded. Dashes: empty.",
        .box = {},
        .lines = {},
        .marks = {}};
    map.box.include(view.place().place);
    for (const RouteInUse* route : ways) {
        for (const Point& point : route->way.line) {
            map.box.include(point);
        }
    }
    add_houses(view, map, false);
    add_stations(view.district(), map);
    const std::size_t first = map.marks.size();
    add_fill_sites(view, map);
    for (std::size_t i = first; i < map.marks.size(); ++i) {
        map.box.include(map.marks[i].place);
    }
    map.marks.push_back({MapMark::dump_site, view.place().place, ""});
    map.box = box_on_paper(map.box, least_across_route);
    view.roads.add_to(map);
    add_ways(ways, map);
    return map;
}

SiteMap close_map(const CardView& view, const std::vector<const RouteInUse*>& ways) {
    SiteMap map{.title = "Dots: hose, to which house only", .box = {}, .lines = {}, .marks = {}};
    const Point middle = view.place().place;
    add_houses(view, map, true);
    map.box.include(middle);
    for (const SiteMap::Mark& mark : map.marks) {
        if (std::sqrt(distance_squared(mark.place, middle)) < most_from_site) {
            map.box.include(mark.place);
        }
    }
    map.box = box_on_paper(map.box, least_across_site);
    view.roads.add_to(map);
    add_hose(view, map);
    add_ways(ways, map);
    add_fill_sites(view, map);
    map.marks.push_back({MapMark::dump_site, middle, ""});
    return map;
}

}  // namespace

RoadsAround::RoadsAround(const District& district) : district_(district) {
    for (const Road& road : district.roads) {
        Box box;
        for (const Point& point : road.line) {
            box.include(point);
        }
        boxes_.push_back(box);
    }
}

void RoadsAround::add_to(SiteMap& map) const {
    const Box box = wider(map.box);
    const bool drives = map.box.high.x - map.box.low.x <= widest_with_drives;
    for (const MapLine kind : {MapLine::side_road, MapLine::road, MapLine::main_road}) {
        for (std::size_t i = 0; i < boxes_.size(); ++i) {
            const Road& road = district_.roads[i];
            if (line_of(road.kind) != kind || apart(boxes_[i], box) ||
                (road.kind == RoadClass::drive && !drives)) {
                continue;
            }
            for (Polyline& stretch : near_box(road.line, box)) {
                map.lines.push_back({kind, std::move(stretch), name_words(road.name)});
            }
        }
    }
}

std::vector<SiteMap> card_maps(const CardView& view) {
    const auto ways = ways_of(view);
    return {route_map(view, ways), close_map(view, ways)};
}

}  // namespace farwater::reports
