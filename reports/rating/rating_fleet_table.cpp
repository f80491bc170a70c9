// The fleet register as a table.
#include <algorithm>
#include <iterator>
#include <memory>
#include <utility>

#include <fmt/format.h>

#include "reports/rating/makes_water.h"
#include "reports/rating/paper_flow.h"
#include "reports/rating/rating_tables.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

io::Value flow_if_known(std::optional<Flow> flow) {
    return flow ? io::Value{in_gpm(*flow)} : io::Value{};
}

// Supply line of one size that is carried.
ColumnOf hose_column(const District& district, std::string name, std::string_view size,
                     Length HoseLoad::* which) {
    return real(
        std::move(name),
        fmt::format("Supply hose of {} in that it carries, feet; empty: not recorded.", size),
        [&district, which](std::size_t row) {
            const std::optional<HoseLoad>& hose = district.units[row].hose;
            return hose ? io::Value{in_feet((*hose).*which)} : io::Value{};
        },
        0);
}

// What its tank is worth on paper over a round trip of so many road miles, where it counts.
ColumnOf on_paper(const Findings& findings, double round_trip_mi) {
    return real(
        fmt::format("paper_{:.0f}_mi_gpm", round_trip_mi),
        fmt::format("By the terms' formula over a round trip of {:.0f} road miles, gpm; empty: no "
                    "tanker that counts.",
                    round_trip_mi),
        [findings, round_trip_mi](std::size_t row) {
            const Unit& unit = findings.district.units[row];
            return is_on_paper(findings, unit)
                       ? io::Value{in_gpm(flow_on_paper(findings, unit, miles(round_trip_mi)))}
                       : io::Value{};
        },
        0);
}

using UnitAt = std::function<const Unit&(std::size_t row)>;

std::vector<ColumnOf> which_unit(const Findings& findings, const UnitAt& unit) {
    const District& district = findings.district;
    return {
        text("unit_id", "Unit.", [unit](std::size_t row) { return value_of(unit(row).id); }),
        text("kind", "engine, tanker or other.",
             [unit](std::size_t row) { return io::Value{word(unit(row).kind)}; }),
        text("station_id", "Its station.",
             [unit, &district](std::size_t row) {
                 return value_of(at(district.stations, unit(row).station).id);
             }),
        text("station", "The station's name.",
             [unit, &district](std::size_t row) {
                 return value_of(at(district.stations, unit(row).station).name);
             }),
        text("aid", "own, automatic or mutual; the farther of the unit's and its station's.",
             [unit, &district](std::size_t row) {
                 return io::Value{word(aid_of(district, unit(row)))};
             }),
        yes_no("counts", "Its aid counts under the terms.",
               [unit, findings](std::size_t row) {
                   return io::Value{
                       rating::unit_counts(findings.district, unit(row), findings.rating->terms)};
               }),
    };
}

std::vector<ColumnOf> what_was_tested(const Findings& findings, const UnitAt& unit) {
    const auto makers = std::make_shared<const std::vector<std::size_t>>(makes_water_for(findings));
    auto dates = std::make_shared<std::vector<std::string>>();
    for (const Unit& each : findings.district.units) {
        dates->push_back(day(each.tested_on));
    }
    return {
        real(
            "tank_gal", "Tank, gallons; empty: not recorded.",
            [unit](std::size_t row) {
                return unit(row).tank_known ? io::Value{in_gallons(unit(row).tank)} : io::Value{};
            },
            0),
        real(
            "fill_gpm", "Timed fill, gpm; empty: not timed.",
            [unit](std::size_t row) { return flow_if_known(unit(row).fill_limit); }, 0),
        real(
            "offload_gpm", "Timed offload, gpm; empty: not timed.",
            [unit](std::size_t row) { return flow_if_known(unit(row).offload); }, 0),
        text("tested_on", "When they were timed.",
             [dates](std::size_t row) { return value_of((*dates)[row]); }),
        real(
            "pump_gpm", "Rated pump, gpm; empty: not known.",
            [unit](std::size_t row) { return flow_if_known(unit(row).pump); }, 0),
        integer("makes_water_for",
                "Parcels for which it pumps at the dump site, at a source or in line: there it is "
                "not credited as suppression too.",
                [makers](std::size_t row) { return value_of_count((*makers)[row]); }),
    };
}

std::vector<ColumnOf> what_it_brings(const Findings& findings, const UnitAt& unit) {
    const District& district = findings.district;
    std::vector<ColumnOf> columns{
        real(
            "portable_tank_gal", "Drop tanks that it carries, gallons; empty: not recorded.",
            [unit](std::size_t row) {
                return unit(row).portable_tank_known
                           ? io::Value{in_gallons(unit(row).portable_tank)}
                           : io::Value{};
            },
            0),
        integer("crew", "Usual crew; empty: not recorded.",
                [unit](std::size_t row) {
                    return unit(row).crew ? io::Value{static_cast<std::int64_t>(*unit(row).crew)}
                                          : io::Value{};
                }),
        hose_column(district, "hose_5in_ft", "5", &HoseLoad::hose_5in),
        hose_column(district, "hose_4in_ft", "4", &HoseLoad::hose_4in),
        hose_column(district, "hose_3in_ft", "3", &HoseLoad::hose_3in),
        hose_column(district, "hose_2_5in_ft", "2.5", &HoseLoad::hose_2_5in),
        real("handling_min",
             "Of a tanker on paper: minutes of its cycle besides driving; blank rates take the "
             "planning default.",
             [unit, findings](std::size_t row) {
                 return is_on_paper(findings, unit(row))
                            ? io::Value{in_minutes(handling_on_paper(findings, unit(row)))}
                            : io::Value{};
             }),
    };
    for (const double round_trip_mi : round_trips_on_paper) {
        columns.push_back(on_paper(findings, round_trip_mi));
    }
    return columns;
}

}  // namespace

io::FeatureTable rating_fleet(const Findings& findings) {
    const UnitAt unit = [&district = findings.district](std::size_t row) -> const Unit& {
        return district.units[row];
    };
    std::vector<ColumnOf> columns = which_unit(findings, unit);
    std::ranges::move(what_was_tested(findings, unit), std::back_inserter(columns));
    std::ranges::move(what_it_brings(findings, unit), std::back_inserter(columns));
    return table(
        {"rating_fleet", "Apparatus as evidence for the rating", "Own, automatic and mutual aid."},
        std::move(columns), findings.district.units.size());
}

}  // namespace farwater::reports
