// The district with its properties by category, its sources and stations.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <initializer_list>
#include <unordered_set>
#include <utility>

#include <fmt/format.h>

#include "reports/number_words.h"
#include "reports/page_shapes.h"
#include "reports/rating/rating_sheets.h"
#include "reports/svg.h"

namespace farwater::reports {
namespace {

constexpr double map_width = 1000.0;
constexpr double map_height = 700.0;
constexpr double key_left = 790.0;
constexpr double thinned_square = 4.0;  // about as large as a mark

constexpr Ink plain_ink = Ink::rgb(0x222222);
constexpr Ink water_ink = Ink::rgb(0x1f78b4);
constexpr Stroke ring_stroke{.width = 1.0, .ink = water_ink, .dash = 4.0};

Drawing::Path outline_of(Point middle, std::initializer_list<Point> corners) {
    Drawing::Path path;
    for (const Point& corner : corners) {
        path.points.push_back({middle.x + corner.x, middle.y + corner.y});
    }
    path.closed = true;
    return path;
}

// Colours of the diverging PuOr ramp (ColorBrewer); each category has a shape of its own, too.
void mark_category(Drawing& map, rating::Category category, Point at) {
    switch (category) {
        case rating::Category::near_with_water:
            map.things.emplace_back(Drawing::Disc{at, 3.0, Ink::rgb(0x542788), {}});
            break;
        case rating::Category::near_without_water: {
            auto triangle = outline_of(at, {{0, -3.6}, {3.6, 2.9}, {-3.6, 2.9}});
            triangle.fill = Ink::rgb(0xf1a340);
            triangle.edge = Stroke{.width = 0.6, .ink = Ink::rgb(0x7f3b08)};
            map.things.emplace_back(std::move(triangle));
            break;
        }
        case rating::Category::far_with_water: {
            auto diamond = outline_of(at, {{0, -3.6}, {3.6, 0}, {0, 3.6}, {-3.6, 0}});
            diamond.fill = Ink::rgb(0x998ec3);
            diamond.edge = Stroke{.width = 0.6, .ink = Ink::rgb(0x542788)};
            map.things.emplace_back(std::move(diamond));
            break;
        }
        case rating::Category::otherwise:
            for (const double way : {-3.0, 3.0}) {
                Drawing::Path stroke;
                stroke.points = {{at.x - 3.0, at.y + way}, {at.x + 3.0, at.y - way}};
                stroke.edge = Stroke{.width = 1.6, .ink = Ink::rgb(0x7f3b08)};
                map.things.emplace_back(std::move(stroke));
            }
            break;
        case rating::Category::no_building:
            break;
    }
}

struct CategoryMeaning {
    rating::Category category;
    std::string_view meaning;
};

constexpr std::array category_meanings{
    CategoryMeaning{rating::Category::near_with_water, "near, with water"},
    CategoryMeaning{rating::Category::near_without_water, "near, without"},
    CategoryMeaning{rating::Category::far_with_water, "beyond, with water"},
    CategoryMeaning{rating::Category::otherwise, "all others"},
};

void mark_source(Drawing& map, bool counts, Point at) {
    if (counts) {
        map.things.emplace_back(
            Drawing::Disc{at, 5.0, water_ink, Stroke{.width = 0.8, .ink = 1.0}});
    } else {
        map.things.emplace_back(
            Drawing::Disc{at, 4.4, Ink(1.0), Stroke{.width = 1.6, .ink = water_ink}});
    }
}

void mark_station(Drawing& map, Point at) {
    auto house = outline_of(at, {{-6, 5}, {-6, -2}, {0, -7}, {6, -2}, {6, 5}});
    house.fill = plain_ink;
    house.edge = Stroke{.width = 0.8, .ink = 1.0};
    map.things.emplace_back(std::move(house));
}

void add_roads(Drawing& map, const Findings& findings, const PageFit& fit) {
    for (const Road& road : findings.district.roads) {
        Drawing::Path path;
        for (const Point& point : simplified(road.line, 0.3 / fit.units_per_metre())) {
            path.points.push_back(fit(point));
        }
        path.edge = Stroke{.width = 1.3, .ink = Ink::rgb(0xb3ac9d)};
        map.things.emplace_back(std::move(path));
    }
}

// Says once for each category and square of the drawing that it is new there.
class FirstInSquare {
public:
    bool operator()(Point at, rating::Category category) {
        const auto across = static_cast<std::uint64_t>(at.x / thinned_square);
        const auto down = static_cast<std::uint64_t>(at.y / thinned_square);
        return seen_.insert((across << 32U | down) << 3U | static_cast<std::uint64_t>(category))
            .second;
    }

private:
    std::unordered_set<std::uint64_t> seen_;
};

// Properties without water last, so that they are never hidden. Of very many, those of a category
// that would lie on each other have one mark.
void add_places(Drawing& map, const Findings& findings, const PageFit& fit, bool thinned) {
    FirstInSquare is_first;
    for (const CategoryMeaning& each : category_meanings) {
        for (std::size_t row = 0; row < findings.parcels(); ++row) {
            const Point at = fit(findings.district.parcels[row].house);
            if (findings.rating->places[row].category == each.category &&
                (!thinned || is_first(at, each.category))) {
                mark_category(map, each.category, at);
            }
        }
    }
}

// Ids beside their places; one that would cover another is left out, for the register has it.
class Labels {
public:
    void add_to(Drawing& map, Point at_page, const std::string& text) {
        constexpr std::size_t most = 500;
        const Box box = room_of(at_page, text);
        const auto covers = [&](const Box& other) {
            return box.low.x < other.high.x && other.low.x < box.high.x &&
                   box.low.y < other.high.y && other.low.y < box.high.y;
        };
        if (taken_.size() >= most || std::ranges::any_of(taken_, covers)) {
            return;
        }
        taken_.push_back(box);
        map.things.emplace_back(Drawing::Label{{at_page.x + 6.0, at_page.y - 4.0},
                                               text,
                                               {.size = 10.0, .ink = Ink::rgb(0x0b3c5d)},
                                               true});
    }

private:
    static Box room_of(Point at_page, std::string_view text) {
        constexpr double letter = 6.2;
        Box box;
        box.low = {at_page.x + 6.0, at_page.y - 13.0};
        box.high = {at_page.x + 6.0 + letter * static_cast<double>(text.size()), at_page.y - 3.0};
        return box;
    }

    std::vector<Box> taken_;
};

// A ring as far as the terms' hose, straight; hose along roads reaches less.
void add_sources(Drawing& map, const Findings& findings, const PageFit& fit) {
    const double ring = in_metres(findings.rating->terms.hose) * fit.units_per_metre();
    Labels labels;
    for (const Station& station : findings.district.stations) {
        mark_station(map, fit(station.place));
        labels.add_to(map, fit(station.place), station.id);
    }
    for (std::size_t i = 0; i < findings.district.sources.size(); ++i) {
        const WaterSource& source = findings.district.sources[i];
        const rating::SourceVerdict& verdict = findings.rating->sources[i];
        if (!verdict.is_candidate) {
            continue;
        }
        const Point place = fit(source.place);
        if (verdict.creditable()) {
            map.things.emplace_back(Drawing::Disc{place, ring, {}, ring_stroke});
        }
        mark_source(map, verdict.creditable(), place);
        labels.add_to(map, place, source.id);
    }
}

// Down the right side of the map.
class MapKey {
public:
    explicit MapKey(Drawing& map) : map_(map) {}

    void title(const std::string& text) {
        y_ += 30.0;
        map_.things.emplace_back(Drawing::Label{
            {key_left, y_}, text, {.size = 13.0, .bold = true, .ink = plain_ink}, false});
    }
    // Where the row's sign belongs.
    Point row(const std::string& text) {
        y_ += 22.0;
        map_.things.emplace_back(
            Drawing::Label{{key_left + 24.0, y_}, text, {.size = 13.0, .ink = plain_ink}, false});
        return {key_left + 8.0, y_ - 4.0};
    }

private:
    Drawing& map_;
    double y_ = 20.0;
};

void add_key(Drawing& map, const Findings& findings) {
    const rating::Terms& terms = findings.rating->terms;
    MapKey key(map);
    key.title("Category");
    for (const CategoryMeaning& each : category_meanings) {
        const std::string word(category_word(terms, each.category));
        mark_category(map, each.category, key.row(word + ": " + std::string(each.meaning)));
    }
    key.title("Offered sources");
    mark_source(map, true, key.row("counts"));
    mark_source(map, false, key.row("lacks evidence"));
    map.things.emplace_back(Drawing::Disc{
        key.row(fmt::format("{:.0f} ft, straight", in_feet(terms.hose))), 7.0, {}, ring_stroke});
    key.title("Stations");
    mark_station(map, key.row("with its id"));
}

void add_line(Drawing& map, Polyline points) {
    Drawing::Path path;
    path.points = std::move(points);
    path.edge = Stroke{.width = 1.0, .ink = plain_ink};
    map.things.emplace_back(std::move(path));
}

void add_miles_bar(Drawing& map, const PageFit& fit) {
    double length = 0.25;
    for (const double step : {0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0}) {
        length = step * metres_per_mile * fit.units_per_metre() <= 170.0 ? step : length;
    }
    const double end = key_left + length * metres_per_mile * fit.units_per_metre();
    const TextLook look{.size = 13.0, .ink = plain_ink};
    add_line(map, {{key_left, 640}, {key_left, 646}, {end, 646}, {end, 640}});
    map.things.emplace_back(
        Drawing::Label{{key_left, 663}, fmt::format("{:.3g} mi", length), look, false});
    const double north = key_left + 12.0;
    add_line(map, {{north, 610}, {north, 586}});
    add_line(map, {{north - 5, 595}, {north, 586}, {north + 5, 595}});
    TextLook middle = look;
    middle.align = Align::centre;
    map.things.emplace_back(Drawing::Label{{north, 624}, "N", middle, false});
}

std::string what_is_drawn(const Findings& findings, const PageFit& fit, bool thinned) {
    std::string words = "One mark for each property with a building.";
    if (thinned) {
        const double feet = in_feet(metres(thinned_square / fit.units_per_metre()));
        words = fmt::format(
            "Of {} properties, those of one category that lie in the same square of {:.0f} ft have "
            "one mark; the table below counts them all.",
            in_thousands(static_cast<double>(findings.parcels())), std::ceil(feet));
    }
    return words;
}

}  // namespace

CoverageMap coverage_map(const Findings& findings, std::size_t most_marks) {
    const PageFit fit(extent_of(findings.district), 15.0, 15.0, key_left - 40.0, map_height - 30.0);
    const bool thinned = findings.parcels() > most_marks;
    CoverageMap map{.drawing = {.title = "Rating categories of " + findings.district.name,
                                .width = map_width,
                                .height = map_height,
                                .ground = Ink::rgb(0xfbfaf7),
                                .things = {}},
                    .note = what_is_drawn(findings, fit, thinned)};
    add_roads(map.drawing, findings, fit);
    add_places(map.drawing, findings, fit, thinned);
    add_sources(map.drawing, findings, fit);
    add_key(map.drawing, findings);
    add_miles_bar(map.drawing, fit);
    return map;
}

}  // namespace farwater::reports
