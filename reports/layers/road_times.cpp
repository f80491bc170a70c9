#include <algorithm>
#include <cmath>

#include "reports/drive_words.h"
#include "reports/layers.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {
namespace {

io::Value speed_value(Speed speed) {
    return in_mph(speed) > 0.0 ? io::Value{std::round(in_mph(speed) * 10.0) / 10.0} : io::Value{};
}

}  // namespace

io::PassThroughTable road_times(const Findings& findings) {
    const RoadTimes& times = findings.road_times;
    const auto& roads = findings.district.roads;
    std::vector<ColumnOf> columns{
        text("road_class", "Class as the analysis understood it; default speeds go by it.",
             [&roads](std::size_t row) { return io::Value{word(roads[row].kind)}; }),
        text("road_access", "open, private, gated, unmaintained or closed.",
             [&roads](std::size_t row) { return io::Value{word(roads[row].access)}; }),
        real(
            "speed_mph",
            "Planning average of a loaded tanker in the first season, mph, in the slower direction "
            "that is allowed, grades included; empty under the linear travel-time rule.",
            [&times](std::size_t row) { return speed_value(times.speed[row]); }),
        yes_no("speed_posted",
               "The posted limit made the speed on the level; else the default of the class or "
               "surface.",
               [&times](std::size_t row) {
                   return in_mph(times.speed[row]) > 0.0 ? io::Value{bool(times.speed_posted[row])}
                                                         : io::Value{};
               }),
        real("grade_pct",
             "Steepest stretch, up or down, percent, at most 18; empty where no height is known.",
             [&times](std::size_t row) { return value_of(times.grade_pct[row]); }),
        yes_no("tanker_may_use", "A loaded tanker may use it.",
               [&times](std::size_t row) { return io::Value{bool(times.tanker_may_use[row])}; }),
        real(
            "first_engine_min",
            "First engine at the road's far end, minutes from the alarm." +
                drive_note(findings.district),
            [&times](std::size_t row) { return value_of(times.from_station[row]); }, 2),
        real(
            "from_fill_min",
            "Loaded tanker from the nearest fill site to the road's nearer end, minutes." +
                drive_note(findings.district),
            [&times](std::size_t row) { return value_of(times.from_fill[row]); }, 2),
        integer("component", "0: part of the main network; else the number of an island.",
                [&times](std::size_t row) {
                    return io::Value{static_cast<std::int64_t>(times.component[row])};
                }),
    };
    io::FeatureTable results = table({"road_times", "Roads with drive times",
                                      "First season. " + travel_time_sentence(findings.district)},
                                     std::move(columns), roads.size());
    results.shape = io::ShapeKind::line;
    // A multi-part line is several roads of one record; its first part speaks for it.
    const auto road_at = [&roads](std::size_t record) {
        return std::ranges::lower_bound(roads, record, {}, &Road::row);
    };
    results.fill = [fill = std::move(results.fill), road_at, &roads](std::size_t record,
                                                                     io::Row& row) {
        fill(static_cast<std::size_t>(road_at(record) - roads.begin()), row);
    };
    return {std::move(results), "roads", [road_at, &roads](std::size_t record) {
                const auto road = road_at(record);
                return road != roads.end() && road->row == record;
            }};
}

}  // namespace farwater::reports
