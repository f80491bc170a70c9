#include <algorithm>
#include <functional>
#include <iterator>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "reports/layers.h"
#include "reports/layers/table_builder.h"
#include "reports/workbook_sheets.h"

namespace farwater::reports {
namespace {

io::Value flow_or_null(std::optional<Flow> flow) {
    return flow ? io::Value{in_gpm(*flow)} : io::Value{};
}
io::Value count_or_null(std::optional<int> count) {
    return count ? io::Value{static_cast<std::int64_t>(*count)} : io::Value{};
}

std::vector<std::string> profile_names(const Findings& findings) {
    std::vector<std::string> names(findings.district.units.size());
    for (std::size_t p = 0; p < findings.profiles.size(); ++p) {
        for (const UnitIndex member : findings.profiles[p].members) {
            at(names, member) = fmt::format("{} {}", word(findings.profiles[p].kind), p + 1);
        }
    }
    return names;
}

using UnitOfRow = std::function<const Unit&(std::size_t row)>;

std::vector<ColumnOf> who_it_is(const District& district, const UnitOfRow& unit,
                                std::string_view what) {
    return {
        text("unit_id", std::string(what),
             [unit](std::size_t row) { return value_of(unit(row).id); }),
        text("station_id", "Station.",
             [unit, &district](std::size_t row) {
                 return value_of(at(district.stations, unit(row).station).id);
             }),
        text("aid", "own, automatic or mutual.",
             [unit](std::size_t row) { return io::Value{word(unit(row).aid)}; }),
        real(
            "tank_gal", "Tank, gallons.",
            [unit](std::size_t row) { return io::Value{in_gallons(unit(row).tank)}; }, 0),
    };
}

std::vector<ColumnOf> what_was_timed(const UnitOfRow& unit) {
    return {
        real(
            "fill_limit_gpm", "Timed fill, gpm; empty: the planning default is taken.",
            [unit](std::size_t row) { return flow_or_null(unit(row).fill_limit); }, 0),
        real(
            "offload_gpm", "Timed offload, gpm; empty: the planning default is taken.",
            [unit](std::size_t row) { return flow_or_null(unit(row).offload); }, 0),
    };
}

void add_columns(std::vector<ColumnOf>& columns, std::vector<ColumnOf> more) {
    std::ranges::move(more, std::back_inserter(columns));
}

std::vector<UnitIndex> tankers_in(const District& district) {
    std::vector<UnitIndex> tankers;
    for (std::size_t i = 0; i < district.units.size(); ++i) {
        if (district.units[i].kind == UnitKind::tanker) {
            tankers.emplace_back(i);
        }
    }
    return tankers;
}

struct Leads {
    std::size_t shuttles = 0;
    std::size_t held = 0;
    std::size_t further = 0;  // first at a second or third fill site
};

std::vector<Leads> leads_of_units(const Findings& findings) {
    std::vector<Leads> leads(findings.district.units.size());
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        const supply::ParcelSupply& supply = findings.supply(row);
        if (supply.first_tanker.valid()) {
            ++at(leads, supply.first_tanker).shuttles;
            at(leads, supply.first_tanker).held += supply.state == SupplyState::held ? 1U : 0U;
        }
        for (const supply::FurtherFill& fill : supply.further_fills) {
            if (fill.source.valid() && fill.first_tanker.valid()) {
                ++at(leads, fill.first_tanker).further;
            }
        }
    }
    return leads;
}

}  // namespace

io::FeatureTable fleet(const Findings& findings) {
    const auto profiles = std::make_shared<const std::vector<std::string>>(profile_names(findings));
    const District& district = findings.district;
    const UnitOfRow unit = [&district](std::size_t row) -> const Unit& {
        return district.units[row];
    };
    std::vector<ColumnOf> columns = who_it_is(district, unit, "Unit.");
    columns.insert(columns.begin() + 2,
                   text("kind", "engine, tanker or other.",
                        [unit](std::size_t row) { return io::Value{word(unit(row).kind)}; }));
    columns.push_back(real(
        "pump_gpm", "Rated pump, gpm; empty where not known.",
        [unit](std::size_t row) { return flow_or_null(unit(row).pump); }, 0));
    add_columns(columns, what_was_timed(unit));
    add_columns(
        columns,
        {real(
             "portable_tank_gal", "Portable tanks carried, nominal gallons.",
             [unit](std::size_t row) { return io::Value{in_gallons(unit(row).portable_tank)}; }, 0),
         integer("crew", "Usual crew; staffing rows override it.",
                 [unit](std::size_t row) { return count_or_null(unit(row).crew); }),
         integer("min_crew", "With fewer it stays in quarters.",
                 [unit](std::size_t row) { return count_or_null(unit(row).min_crew); }),
         text("routing_profile",
              "Vehicles of one profile are routed alike: as heavy, wide and tall as the "
              "largest, as fast as the slowest.",
              [profiles](std::size_t row) { return value_of((*profiles)[row]); })});
    return table(
        {"fleet", "Apparatus as the analysis understood it", "Own, automatic and mutual aid."},
        std::move(columns), district.units.size());
}

io::FeatureTable by_tanker(const Findings& findings) {
    const auto tankers =
        std::make_shared<const std::vector<UnitIndex>>(tankers_in(findings.district));
    const auto leads = std::make_shared<const std::vector<Leads>>(leads_of_units(findings));
    const District& district = findings.district;
    const UnitOfRow unit = [tankers, &district](std::size_t row) -> const Unit& {
        return at(district.units, (*tankers)[row]);
    };
    const auto count = [tankers, leads](std::size_t Leads::* member) {
        return [tankers, leads, member](std::size_t row) {
            return value_of_count(at(*leads, (*tankers)[row]).*member);
        };
    };
    std::vector<ColumnOf> columns = who_it_is(district, unit, "Tanker.");
    add_columns(columns, what_was_timed(unit));
    add_columns(columns,
                {integer("first_of_shuttles", "Parcels for whose shuttle it is the first tanker.",
                         count(&Leads::shuttles)),
                 integer("held", "Of them: meet their planned flow.", count(&Leads::held)),
                 integer("first_at_further_site",
                         "Parcels for which it is the first at a second or third fill site.",
                         count(&Leads::further))});
    return table(
        {"by_tanker", "Tankers and the shuttles that they begin",
         "Worst season and period of each parcel. Who comes behind is in the calculation of each "
         "parcel: farwater explain."},
        std::move(columns), tankers->size());
}

}  // namespace farwater::reports
