// The table of the calculation sheets: what each tanker brings in by itself.
#include <memory>
#include <utility>

#include "reports/rating/rating_tables.h"
#include "reports/rating/tanker_lines.h"

namespace farwater::reports {
namespace {

struct TankerAtPlace {
    std::size_t place = 0;  // row of the parcel
    TankerLine line;
};

ColumnOf minutes_column(std::string name, std::string description,
                        const std::shared_ptr<const std::vector<TankerAtPlace>>& lines,
                        Duration (*of)(const TankerLine&)) {
    return real(
        std::move(name), std::move(description),
        [lines, of](std::size_t row) { return io::Value{in_minutes(of((*lines)[row].line))}; }, 2);
}

}  // namespace

io::FeatureTable rating_tankers(const Findings& findings) {
    const District& district = findings.district;
    auto all = std::make_shared<std::vector<TankerAtPlace>>();
    for (const rating::PlaceCalculation& calculation : findings.rating->calculations) {
        for (const TankerLine& line : tanker_lines(calculation)) {
            all->push_back({calculation.row, line});
        }
    }
    const std::shared_ptr<const std::vector<TankerAtPlace>> lines = std::move(all);
    std::vector<ColumnOf> columns{
        text("parcel_id", "Parcel of a calculation sheet.",
             [lines, &district](std::size_t row) {
                 return value_of(district.parcels[(*lines)[row].place].id);
             }),
        text("unit_id", "Tanker of its shuttle.",
             [lines, &district](std::size_t row) {
                 return value_of(at(district.units, (*lines)[row].line.unit).id);
             }),
        text("fill_source_id", "Where it fills.",
             [lines, &district](std::size_t row) {
                 return value_of(at(district.sources, (*lines)[row].line.source).id);
             }),
        real(
            "usable_gal", "What a load brings, gallons.",
            [lines](std::size_t row) { return io::Value{in_gallons((*lines)[row].line.usable)}; },
            0),
        minutes_column("fill_min", "In the fill place, handling in it, minutes.", lines,
                       [](const TankerLine& line) { return line.fill; }),
        minutes_column("loaded_min", "Drive to the dump site, minutes.", lines,
                       [](const TankerLine& line) { return line.loaded; }),
        minutes_column("offload_min", "In the offload slot, handling in it, minutes.", lines,
                       [](const TankerLine& line) { return line.offload; }),
        minutes_column("empty_min", "Drive back, minutes.", lines,
                       [](const TankerLine& line) { return line.empty; }),
        minutes_column("round_trip_min", "The four together, nobody in its way, minutes.", lines,
                       [](const TankerLine& line) { return line.round_trip(); }),
        real("gpm", "usable_gal over round_trip_min, gpm; their sum knows no queue and no start.",
             [lines](std::size_t row) { return io::Value{in_gpm((*lines)[row].line.flow())}; }),
    };
    return table({"rating_tankers", "Tankers of the calculation sheets, one by one",
                  "Worst season and period of each parcel, with what the terms count."},
                 std::move(columns), lines->size());
}

}  // namespace farwater::reports
