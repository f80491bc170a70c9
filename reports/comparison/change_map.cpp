#include <array>
#include <optional>
#include <utility>

#include "reports/comparison/comparison_page.h"
#include "reports/comparison/comparison_words.h"
#include "reports/print/map_drawing.h"
#include "reports/text/svg.h"

namespace farwater::reports {
namespace {

constexpr double change_map_width = 1000.0;
constexpr double change_map_height = 640.0;
constexpr double change_key_left = 775.0;
constexpr double least_metres_across = 1500.0;

constexpr Ink better_ink = Ink::rgb(0x542788);
constexpr Ink better_fill = Ink::rgb(0x998ec3);
constexpr Ink worse_ink = Ink::rgb(0x7f3b08);
constexpr Ink worse_fill = Ink::rgb(0xf1a340);
constexpr Ink grey_ink = Ink::rgb(0x555555);

enum class ChangeMark : std::uint8_t {
    other,
    less_missing,
    gone,
    came,
    more_missing,
    better,
    newly_met,
    worse,
    no_longer_met
};
// Bad news is drawn last, so that it is never hidden.
constexpr std::array marks_in_order{
    ChangeMark::other,     ChangeMark::less_missing, ChangeMark::gone,
    ChangeMark::came,      ChangeMark::more_missing, ChangeMark::better,
    ChangeMark::newly_met, ChangeMark::worse,        ChangeMark::no_longer_met};

ChangeMark mark_of(const planning::AnswerChange& change) {
    if (change.no_longer_met || change.newly_met) {
        return change.newly_met ? ChangeMark::newly_met : ChangeMark::no_longer_met;
    }
    switch (change.happened) {
        case planning::Happened::better:
            return ChangeMark::better;
        case planning::Happened::worse:
            return ChangeMark::worse;
        case planning::Happened::more_missing:
            return ChangeMark::more_missing;
        case planning::Happened::less_missing:
            return ChangeMark::less_missing;
        case planning::Happened::came:
        case planning::Happened::building_came:
            return ChangeMark::came;
        case planning::Happened::gone:
        case planning::Happened::building_gone:
            return ChangeMark::gone;
        default:
            return ChangeMark::other;
    }
}

void add_filled(Drawing& map, Drawing::Path path, Ink fill, Ink edge) {
    path.fill = fill;
    path.edge = Stroke{.width = 0.9, .ink = edge};
    map.things.emplace_back(std::move(path));
}

void add_cross(Drawing& map, Point at, double reach, bool upright, Ink ink) {
    for (const double way : {-1.0, 1.0}) {
        Drawing::Path stroke;
        stroke.points = upright ? (way < 0 ? Polyline{{at.x - reach, at.y}, {at.x + reach, at.y}}
                                           : Polyline{{at.x, at.y - reach}, {at.x, at.y + reach}})
                                : Polyline{{at.x - reach, at.y + way * reach},
                                           {at.x + reach, at.y - way * reach}};
        stroke.edge = Stroke{.width = 1.7, .ink = ink};
        map.things.emplace_back(std::move(stroke));
    }
}

void draw_change_mark(Drawing& map, ChangeMark mark, Point at) {
    switch (mark) {
        case ChangeMark::no_longer_met:
            add_filled(map, outline_of(at, {{-5.5, -5.5}, {5.5, -5.5}, {5.5, 5.5}, {-5.5, 5.5}}),
                       Ink(1.0), worse_ink);
            add_cross(map, at, 4.0, false, worse_ink);
            break;
        case ChangeMark::worse:
            add_filled(map, outline_of(at, {{-4.4, -3.4}, {4.4, -3.4}, {0.0, 4.4}}), worse_fill,
                       worse_ink);
            break;
        case ChangeMark::newly_met:
            add_filled(map, outline_of(at, {{-4.5, -4.5}, {4.5, -4.5}, {4.5, 4.5}, {-4.5, 4.5}}),
                       better_ink, Ink(1.0));
            break;
        case ChangeMark::better:
            add_filled(map, outline_of(at, {{-4.4, 3.4}, {4.4, 3.4}, {0.0, -4.4}}), better_fill,
                       better_ink);
            break;
        case ChangeMark::more_missing:
            add_filled(map, outline_of(at, {{-2.6, -2.0}, {2.6, -2.0}, {0.0, 2.6}}), worse_ink,
                       worse_ink);
            break;
        case ChangeMark::less_missing:
            add_filled(map, outline_of(at, {{-2.6, 2.0}, {2.6, 2.0}, {0.0, -2.6}}), Ink(1.0),
                       better_ink);
            break;
        case ChangeMark::came:
            add_cross(map, at, 4.0, true, map_ink);
            break;
        case ChangeMark::gone:
            map.things.emplace_back(
                Drawing::Disc{at, 3.6, {}, Stroke{.width = 1.2, .ink = map_ink}});
            break;
        case ChangeMark::other:
            map.things.emplace_back(Drawing::Disc{at, 1.8, grey_ink, {}});
            break;
    }
}

using PlacedMark = std::pair<ChangeMark, Point>;

std::vector<PlacedMark> marks_of(const ComparedResults& results, const ComparisonGround& ground) {
    std::vector<PlacedMark> marks;
    for (const planning::AnswerChange& change : results.comparison.parcels.changes) {
        if (marks.size() == most_marks_of_changes || !ground.place_of_parcel) {
            break;
        }
        if (const auto place = ground.place_of_parcel(change)) {
            marks.emplace_back(mark_of(change), *place);
        }
    }
    return marks;
}

// Round all that is marked, not too near.
Box box_round(const std::vector<PlacedMark>& marks) {
    Box box;
    for (const auto& [mark, place] : marks) {
        box.include(place);
    }
    return widened(box, least_metres_across);
}

// All ground that the paper shows, `spare` metres wider.
Box seen_round(const Box& box, const PageFit& fit, double spare) {
    const double half_width = (change_key_left - 60.0) / 2.0 / fit.units_per_metre() + spare;
    const double half_height = (change_map_height - 50.0) / 2.0 / fit.units_per_metre() + spare;
    const Point middle{(box.low.x + box.high.x) / 2.0, (box.low.y + box.high.y) / 2.0};
    return {{middle.x - half_width, middle.y - half_height},
            {middle.x + half_width, middle.y + half_height}};
}

void add_fill_sites_now(Drawing& map, const ComparisonGround& ground, const PageFit& fit,
                        const Box& seen) {
    MapLabels labels;
    for (const PlaceOnMap& site : ground.fill_sites) {
        if (is_inside(site.place, seen)) {
            mark_source(map, true, fit(site.place));
            labels.add_to(map, fit(site.place), site.name);
        }
    }
}

// Roads that run on lie under the key.
void add_key_ground(Drawing& map) {
    auto ground = outline_of({0.0, 0.0}, {{change_key_left - 18.0, 0.0},
                                          {change_map_width, 0.0},
                                          {change_map_width, change_map_height},
                                          {change_key_left - 18.0, change_map_height}});
    ground.fill = map.ground;
    map.things.emplace_back(std::move(ground));
}

void add_change_key(Drawing& map) {
    MapKey key(map, {change_key_left, 12.0});
    key.title("Parcels");
    draw_change_mark(map, ChangeMark::no_longer_met, key.row("no longer meet their flow"));
    draw_change_mark(map, ChangeMark::worse, key.row("in a worse state"));
    draw_change_mark(map, ChangeMark::newly_met, key.row("newly meet their flow"));
    draw_change_mark(map, ChangeMark::better, key.row("in a better state"));
    draw_change_mark(map, ChangeMark::more_missing, key.row("same state, more missing"));
    draw_change_mark(map, ChangeMark::less_missing, key.row("same state, less missing"));
    draw_change_mark(map, ChangeMark::came, key.row("came, or a building"));
    draw_change_mark(map, ChangeMark::gone, key.row("gone, or a building"));
    draw_change_mark(map, ChangeMark::other, key.row("other numbers"));
    key.title("Places");
    mark_source(map, true, key.row("fill site now"));
}

}  // namespace

Drawing change_map(const ComparedResults& results, const ComparisonGround& ground) {
    const std::vector<PlacedMark> marks = marks_of(results, ground);
    const Box box = box_round(marks);
    const PageFit fit(box, 25.0, 25.0, change_key_left - 60.0, change_map_height - 50.0);
    Drawing map{.title = "Where it got better and worse",
                .width = change_map_width,
                .height = change_map_height,
                .ground = Ink::rgb(0xfbfaf7),
                .things = {}};
    const Box near = seen_round(box, fit, 60.0 / fit.units_per_metre());
    for (const Polyline& road : ground.roads) {
        add_road(map, road, fit, near);
    }
    add_key_ground(map);
    for (const ChangeMark each : marks_in_order) {
        for (const auto& [mark, place] : marks) {
            if (mark == each) {
                draw_change_mark(map, mark, fit(place));
            }
        }
    }
    add_fill_sites_now(map, ground, fit, seen_round(box, fit, 0.0));
    add_change_key(map);
    add_miles_bar(map, fit, {change_key_left, change_map_height - 100.0});
    return map;
}

}  // namespace farwater::reports
