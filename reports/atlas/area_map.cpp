#include "reports/atlas/area_map.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "reports/atlas/area_marks.h"
#include "reports/cards/card_words.h"

namespace farwater::reports {
namespace {

constexpr Ink grid_blue = Ink::rgb(0x6a8fb0);

bool meets(const Box& box, const MapPlacing& place, const Rect& rect) {
    const Point low = place(box.low);
    const Point high = place(box.high);
    return !box.empty() && high.x >= rect.left && low.x <= rect.right() && low.y >= rect.top &&
           high.y <= rect.bottom();
}

Rect common(const Rect& a, const Rect& b) {
    const double left = std::max(a.left, b.left);
    const double top = std::max(a.top, b.top);
    return {left, top, std::min(a.right(), b.right()) - left,
            std::min(a.bottom(), b.bottom()) - top};
}

// Where a plate covers nothing: at its place, else in the nearest ring round it that has room.
Point free_middle(const MapNames& names, Point at, const Rect& plate) {
    if (names.is_free(plate)) {
        return at;
    }
    for (const double ring : {1.0, 1.7, 2.5}) {
        for (const Point& way : {Point{0, -1}, Point{0, 1}, Point{1, 0}, Point{-1, 0}, Point{1, -1},
                                 Point{-1, -1}, Point{1, 1}, Point{-1, 1}}) {
            const Point by{way.x * ring * (plate.width + 1.0), way.y * ring * (plate.height + 1.0)};
            if (names.is_free({plate.left + by.x, plate.top + by.y, plate.width, plate.height})) {
                return {at.x + by.x, at.y + by.y};
            }
        }
    }
    return at;
}

}  // namespace

AreaMap::AreaMap(const CardBook& book, const MapGrid& grid)
    : book_(book), grid_(grid), fills_(book.district().sources.size(), false) {
    for (const Road& road : book.district().roads) {
        Box box;
        for (const Point& point : road.line) {
            box.include(point);
        }
        road_boxes_.push_back(box);
    }
    numbers_.resize(book.findings.seasons.front().trips.dump_sites.size());
    for (std::size_t card = 0; card < book.sites.size(); ++card) {
        numbers_[book.sites[card].dump_site.position()] = fmt::format("{}", card + 1);
    }
    for (const supply::ParcelSupply& supply : book.findings.assessment.supplies) {
        if (supply.dump_site.valid() && !numbers_[supply.dump_site.position()]) {
            numbers_[supply.dump_site.position()].emplace();
        }
        const auto fills = [&](SourceIndex source) {
            if (source.valid()) {
                fills_[source.position()] = true;
            }
        };
        fills(supply.fill_source);
        for (const supply::FurtherFill& further : supply.further_fills) {
            fills(further.source);
        }
    }
}

void AreaMap::draw(PageCanvas& canvas, const MapPlacing& place, const Rect& rect,
                   double size) const {
    draw_ground(canvas, place, rect, size);
    canvas.clip(rect);
    MapNames names(canvas, rect, MapNames::Ground::edge);
    draw_water_and_stations(canvas, names, place, rect, size);
    draw_station_names(names, place, size);
    draw_dump_sites(canvas, names, place, rect, size);
    draw_names(canvas, names, place, rect, size);
    canvas.unclip();
    canvas.frame(rect, {.width = 1.2});
}

void AreaMap::draw_ground(PageCanvas& canvas, const MapPlacing& place, const Rect& rect,
                          double size) const {
    canvas.fill(rect, 1.0);
    draw_grid(canvas, place, rect, size);
    canvas.clip(rect);
    draw_roads(canvas, place, rect, size);
    draw_houses(canvas, place, rect, size);
    MapNames none(canvas, rect);
    draw_water_and_stations(canvas, none, place, rect, size);
    canvas.unclip();
    canvas.frame(rect, {.width = 1.2});
}

// Lines on the map, letters and numbers outside its frame, in the middle of what is seen of a
// square.
void AreaMap::draw_grid(PageCanvas& canvas, const MapPlacing& place, const Rect& rect,
                        double size) const {
    const Point corner = place(grid_.north_west());
    const double side = grid_.side() * place.points_per_metre();
    const Rect seen =
        common(rect, {corner.x, corner.y, grid_.columns() * side, grid_.rows() * side});
    const Stroke stroke{.width = 0.5 * size, .ink = grid_blue};
    const TextLook look{.size = 8.5 * size, .bold = true, .align = Align::centre, .ink = grid_blue};
    const double height = canvas.extent("A", look).height;
    for (int i = 0; i <= grid_.columns(); ++i) {
        const double x = corner.x + i * side;
        if (x >= rect.left && x <= rect.right()) {
            canvas.line({{x, seen.top}, {x, seen.bottom()}}, stroke);
        }
        const double from = std::max(x, rect.left);
        const double to = std::min(x + side, rect.right());
        if (i < grid_.columns() && to - from > 2.0 * height) {
            canvas.text({(from + to) / 2.0, rect.top - height - 1.0}, MapGrid::letter(i), look);
            canvas.text({(from + to) / 2.0, rect.bottom() + 1.0}, MapGrid::letter(i), look);
        }
    }
    for (int i = 0; i <= grid_.rows(); ++i) {
        const double y = corner.y + i * side;
        if (y >= rect.top && y <= rect.bottom()) {
            canvas.line({{seen.left, y}, {seen.right(), y}}, stroke);
        }
        const double from = std::max(y, rect.top);
        const double to = std::min(y + side, rect.bottom());
        if (i < grid_.rows() && to - from > 2.0 * height) {
            const double top = (from + to - height) / 2.0;
            canvas.text({rect.left - 6.5 * size, top}, std::to_string(i + 1), look);
            canvas.text({rect.right() + 6.5 * size, top}, std::to_string(i + 1), look);
        }
    }
}

void AreaMap::draw_roads(PageCanvas& canvas, const MapPlacing& place, const Rect& rect,
                         double size) const {
    const District& district = book_.district();
    for (const RoadClass kind : {RoadClass::drive, RoadClass::narrow, RoadClass::gravel,
                                 RoadClass::paved_lane, RoadClass::paved, RoadClass::state}) {
        for (std::size_t i = 0; i < district.roads.size(); ++i) {
            const Road& road = district.roads[i];
            if (road.kind == kind && meets(road_boxes_[i], place, rect)) {
                const auto& may_use = book_.findings.road_times.tanker_may_use;
                canvas.line(on_page(road.line, place),
                            road_stroke(kind, i >= may_use.size() || may_use[i], size));
            }
        }
    }
}

void AreaMap::draw_houses(PageCanvas& canvas, const MapPlacing& place, const Rect& rect,
                          double size) const {
    const District& district = book_.district();
    for (const StateSign& sign : state_signs) {
        for (std::size_t row = 0; row < book_.findings.parcels(); ++row) {
            const Point at = place(district.parcels[row].house);
            if (book_.findings.supply(row).state == sign.state && inside_frame(rect, at, -4.0)) {
                draw_state(canvas, sign.state, at, 2.4 * size);
            }
        }
    }
}

void AreaMap::draw_water_and_stations(PageCanvas& canvas, MapNames& names, const MapPlacing& place,
                                      const Rect& rect, double size) const {
    const double radius = 4.2 * size;
    const auto free_round = [&](Point at) {
        names.keep_free({at.x - radius, at.y - radius, 2.0 * radius, 2.0 * radius});
    };
    const District& district = book_.district();
    for (std::size_t i = 0; i < district.sources.size(); ++i) {
        const Point at = place(district.sources[i].place);
        if (inside_frame(rect, at, -radius)) {
            draw_water(canvas, district.sources[i].kind, book_.findings.water.counts[i], at,
                       radius);
            free_round(at);
        }
    }
    for (const Station& station : district.stations) {
        const Point at = place(station.place);
        if (inside_frame(rect, at, -radius)) {
            draw_station(canvas, at, 1.5 * radius);
            free_round(at);
        }
    }
}

// A plate that would cover another thing steps aside, and a line leads from it to its place.
void AreaMap::draw_dump_sites(PageCanvas& canvas, MapNames& names, const MapPlacing& place,
                              const Rect& rect, double size) const {
    const double letters = 6.0 * size;
    const auto& dump_sites = book_.findings.seasons.front().trips.dump_sites;
    std::vector<std::pair<std::size_t, Point>> plates;
    for (std::size_t i = 0; i < numbers_.size(); ++i) {
        const Point at = place(dump_sites[i].place);
        if (!numbers_[i] || !inside_frame(rect, at, -letters)) {
            continue;
        }
        const Point middle =
            free_middle(names, at, dump_site_plate(canvas, *numbers_[i], at, letters));
        if (middle != at) {
            canvas.line({at, middle}, {.width = 0.6 * size});
            canvas.disc(at, 1.2 * size, 0.0, {.width = 0.0});
        }
        names.keep_free(dump_site_plate(canvas, *numbers_[i], middle, letters));
        plates.emplace_back(i, middle);
    }
    for (const auto& [i, middle] : plates) {
        draw_dump_site(canvas, *numbers_[i], middle, letters);
    }
}

void AreaMap::draw_station_names(MapNames& names, const MapPlacing& place, double size) const {
    for (const Station& station : book_.district().stations) {
        names.place_beside(place(station.place), 6.6 * size,
                           name_words(station.name.empty() ? station.id : station.name),
                           {.size = 7.5 * size, .bold = true});
    }
}

void AreaMap::draw_names(PageCanvas& canvas, MapNames& names, const MapPlacing& place,
                         const Rect& rect, double size) const {
    const District& district = book_.district();
    const double radius = 4.4 * size;
    for (const bool in_use : {true, false}) {
        for (std::size_t i = 0; i < district.sources.size(); ++i) {
            if (fills_[i] == in_use) {
                names.place_beside(place(district.sources[i].place), radius,
                                   name_words(district.sources[i].id),
                                   {.size = 6.5 * size, .bold = in_use, .ink = Ink::rgb(0x0b3c5d)});
            }
        }
    }
    std::vector<NamedLine> roads;
    for (std::size_t i = 0; i < district.roads.size(); ++i) {
        if (!district.roads[i].name.empty() && meets(road_boxes_[i], place, rect)) {
            roads.push_back({district.roads[i].line, name_words(district.roads[i].name)});
        }
    }
    draw_road_names(canvas, names, roads, place, rect,
                    {.size = 6.8 * size, .aside = 8.0 * size, .again_after = 330.0 * size});
}

Box box_of_book(const CardBook& book) {
    Box box = extent_of(book.district());
    for (const WaterSource& source : book.district().sources) {
        box.include(source.place);
    }
    for (const Station& station : book.district().stations) {
        box.include(station.place);
    }
    return box.empty() ? Box{{0.0, 0.0}, {0.0, 0.0}} : box;
}

}  // namespace farwater::reports
