// The district with its properties by category, its sources and stations.
#include <array>
#include <cmath>
#include <cstdint>
#include <unordered_set>
#include <utility>

#include <fmt/format.h>

#include "reports/print/map_drawing.h"
#include "reports/rating/rating_sheets.h"
#include "reports/rating/rating_totals.h"
#include "reports/text/number_words.h"
#include "reports/text/svg.h"

namespace farwater::reports {
namespace {

constexpr double map_width = 1000.0;
constexpr double map_height = 700.0;
constexpr double key_left = 790.0;
constexpr double thinned_square = 4.0;  // about as large as a mark

constexpr Stroke ring_stroke{.width = 1.0, .ink = water_ink, .dash = 4.0};

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

// A ring as far as the terms' hose, straight; hose along roads reaches less.
void add_sources(Drawing& map, const Findings& findings, const PageFit& fit) {
    const double ring = in_metres(findings.rating->terms.hose) * fit.units_per_metre();
    MapLabels labels;
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

void add_key(Drawing& map, const Findings& findings) {
    const rating::Terms& terms = findings.rating->terms;
    MapKey key(map, {key_left, 20.0});
    key.title("Category");
    for (const CategoryMeaning& each : category_meanings) {
        if (!is_possible(terms, each.category)) {
            continue;
        }
        const std::string word(category_word(terms, each.category));
        mark_category(map, each.category, key.row(word + ": " + std::string(each.meaning)));
    }
    key.title("Offered sources");
    mark_source(map, true, key.row("counts"));
    mark_source(map, false, key.row("lacks evidence"));
    map.things.emplace_back(Drawing::Disc{
        key.row(in_thousands(in_feet(terms.hose)) + " ft, straight"), 7.0, {}, ring_stroke});
    key.title("Stations");
    mark_station(map, key.row("with its id"));
}

std::string what_is_drawn(const Findings& findings, const PageFit& fit, bool thinned) {
    std::string words = "One mark for each property with a building.";
    if (thinned) {
        const double feet = in_feet(metres(thinned_square / fit.units_per_metre()));
        words = fmt::format(
            "Of {} properties, those of one category that lie in the same square of {} ft have "
            "one mark; the table below counts them all.",
            in_thousands(static_cast<double>(findings.parcels())), in_thousands(std::ceil(feet)));
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
    add_roads(map.drawing, findings.district, fit, extent_of(findings.district));
    add_places(map.drawing, findings, fit, thinned);
    add_sources(map.drawing, findings, fit);
    add_key(map.drawing, findings);
    add_miles_bar(map.drawing, fit, {key_left, 586.0});
    return map;
}

}  // namespace farwater::reports
