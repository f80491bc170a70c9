#include <algorithm>
#include <optional>

#include "reports/gains/gain_page.h"
#include "reports/print/map_drawing.h"
#include "reports/text/svg.h"

namespace farwater::reports {
namespace {

constexpr double gain_map_width = 1000.0;
constexpr double gain_map_height = 440.0;
constexpr double gain_key_left = 800.0;
constexpr double least_across = 1500.0;  // metres

constexpr Ink met_ink = Ink::rgb(0x542788);
constexpr Ink more_ink = Ink::rgb(0x998ec3);
constexpr Ink less_ink = Ink::rgb(0xb35806);

enum class Gained : std::uint8_t { more, met, less, earlier };

std::optional<Gained> gained(const planning::Change& change) {
    if (change.after.state == SupplyState::held && change.before.state != SupplyState::held) {
        return Gained::met;
    }
    if (change.gain() == 0) {
        return std::nullopt;
    }
    if (change.gain() > 0) {
        return Gained::more;
    }
    return change.judged_earlier() ? Gained::earlier : Gained::less;
}

// Each has a shape of its own, for greys.
void mark_gain(Drawing& map, Gained gained, Point at) {
    switch (gained) {
        case Gained::more:
            map.things.emplace_back(
                Drawing::Disc{at, 3.4, more_ink, Stroke{.width = 0.6, .ink = met_ink}});
            break;
        case Gained::met: {
            auto square = outline_of(at, {{-4.5, -4.5}, {4.5, -4.5}, {4.5, 4.5}, {-4.5, 4.5}});
            square.fill = met_ink;
            square.edge = Stroke{.width = 0.8, .ink = 1.0};
            map.things.emplace_back(std::move(square));
            break;
        }
        case Gained::less:
            for (const double way : {-3.2, 3.2}) {
                Drawing::Path stroke;
                stroke.points = {{at.x - 3.2, at.y + way}, {at.x + 3.2, at.y - way}};
                stroke.edge = Stroke{.width = 1.6, .ink = less_ink};
                map.things.emplace_back(std::move(stroke));
            }
            break;
        case Gained::earlier: {
            auto diamond = outline_of(at, {{0.0, -4.5}, {4.5, 0.0}, {0.0, 4.5}, {-4.5, 0.0}});
            diamond.fill = 1.0;
            diamond.edge = Stroke{.width = 1.4, .ink = less_ink};
            map.things.emplace_back(std::move(diamond));
            break;
        }
    }
}

void mark_place(Drawing& map, Point at) {
    map.things.emplace_back(Drawing::Disc{at, 10.0, {}, Stroke{.width = 2.4, .ink = map_ink}});
    map.things.emplace_back(Drawing::Disc{at, 4.2, map_ink, Stroke{.width = 0.8, .ink = 1.0}});
}

// Round all that is marked, not too near; the whole district where nothing is.
Box shown(const District& district, const GainPage& page) {
    Box box;
    for (const planning::Change& change : page.changes) {
        if (gained(change)) {
            box.include(district.parcels[change.row].house);
        }
    }
    if (page.place != nullptr) {
        box.include(page.place->place);
    }
    for (std::size_t i = 0; box.empty() && i < district.parcels.size(); ++i) {
        box.include(district.parcels[i].house);
    }
    return widened(box, least_across);
}

void add_waters_and_stations(Drawing& map, const District& district, const PageFit& fit,
                             const Box& box, MapLabels& labels) {
    for (const Station& station : district.stations) {
        if (is_inside(station.place, box)) {
            mark_station(map, fit(station.place));
            labels.add_to(map, fit(station.place), station.id);
        }
    }
    for (const WaterSource& source : district.sources) {
        if (is_inside(source.place, box)) {
            mark_source(map, source.standing != Standing::mapped, fit(source.place));
            labels.add_to(map, fit(source.place), source.id);
        }
    }
}

void add_gain_key(Drawing& map, const GainPage& page) {
    MapKey key(map, {gain_key_left, 12.0});
    key.title("Properties");
    mark_gain(map, Gained::met, key.row("meet their need by it"));
    mark_gain(map, Gained::more, key.row("hold more of it"));
    mark_gain(map, Gained::less, key.row("less, by the search"));
    if (std::ranges::any_of(page.changes, &planning::Change::judged_earlier)) {
        mark_gain(map, Gained::earlier, key.row("less, judged earlier"));
    }
    key.title("Places");
    if (page.place != nullptr) {
        mark_place(map, key.row("the proposal"));
    }
    mark_source(map, true, key.row("source"));
    mark_source(map, false, key.row("mapped only"));
    mark_station(map, key.row("station"));
}

}  // namespace

Drawing gain_map(const District& district, const GainPage& page) {
    const Box box = shown(district, page);
    const PageFit fit(box, 25.0, 25.0, gain_key_left - 60.0, gain_map_height - 50.0);
    // What the paper shows beside the box.
    const double spare = 60.0 / fit.units_per_metre();
    const double half_width = (gain_key_left - 60.0) / 2.0 / fit.units_per_metre();
    const double half_height = (gain_map_height - 50.0) / 2.0 / fit.units_per_metre();
    const Point middle{(box.low.x + box.high.x) / 2.0, (box.low.y + box.high.y) / 2.0};
    const Box seen{{middle.x - half_width, middle.y - half_height},
                   {middle.x + half_width, middle.y + half_height}};
    const Box near{{seen.low.x - spare, seen.low.y - spare},
                   {seen.high.x + spare, seen.high.y + spare}};
    Drawing map{.title = "Who gains: " + page.title,
                .width = gain_map_width,
                .height = gain_map_height,
                .ground = Ink::rgb(0xfbfaf7),
                .things = {}};
    add_roads(map, district, fit, near);
    // Roads that run on lie under the key.
    auto ground = outline_of({0.0, 0.0}, {{gain_key_left - 18.0, 0.0},
                                          {gain_map_width, 0.0},
                                          {gain_map_width, gain_map_height},
                                          {gain_key_left - 18.0, gain_map_height}});
    ground.fill = map.ground;
    map.things.emplace_back(std::move(ground));
    MapLabels labels;
    if (page.place != nullptr) {
        const Point at = fit(page.place->place);
        labels.add_to(map, {at.x + 6.0, at.y - 4.0}, page.place->id);
    }
    for (const Gained each : {Gained::more, Gained::less, Gained::earlier, Gained::met}) {
        for (const planning::Change& change : page.changes) {
            if (gained(change) == each) {
                mark_gain(map, each, fit(district.parcels[change.row].house));
            }
        }
    }
    add_waters_and_stations(map, district, fit, seen, labels);
    if (page.place != nullptr) {
        mark_place(map, fit(page.place->place));
    }
    add_gain_key(map, page);
    add_miles_bar(map, fit, {gain_key_left, gain_map_height - 100.0});
    return map;
}

}  // namespace farwater::reports
