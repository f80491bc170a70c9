#include <algorithm>
#include <iterator>
#include <memory>

#include "reports/drive_words.h"
#include "reports/layers.h"
#include "reports/layers/detail_columns.h"
#include "reports/layers/fill_columns.h"
#include "reports/layers/routes.h"
#include "reports/layers/table_builder.h"
#include "reports/need_columns.h"
#include "reports/rating/rating_tables.h"

namespace farwater::reports {
namespace {

using supply::ParcelSupply;

// NULL where the state says that there is nothing to tell.
bool has_need(const ParcelSupply& supply) { return supply.state != SupplyState::no_building; }
bool has_answer(const ParcelSupply& supply) {
    return has_need(supply) && supply.state != SupplyState::unknown;
}

// The answer in a word, and what it was judged against.
std::vector<ColumnOf> verdict_columns(const Findings& findings) {
    const auto of = [findings](std::size_t row) -> const ParcelSupply& {
        return findings.supply(row);
    };
    return {
        text("state",
             "Supply state on the cautious flow: held, late, short, tank_only, unreached, "
             "no_building, unknown.",
             [of](std::size_t row) { return io::Value{word(of(row).state)}; }),
        text("margin",
             "firm: at least 1.1 times the need unless the district file says otherwise; thin; "
             "none.",
             [of](std::size_t row) {
                 return has_answer(of(row)) ? io::Value{word(of(row).margin)} : io::Value{};
             }),
        text("evidence",
             "The weakest of source, tanker rates, engines and need that the answer rests on: "
             "tested, "
             "declared, assumed. Speeds and handling times are planning values in every answer.",
             [of](std::size_t row) {
                 return has_answer(of(row)) ? io::Value{word(of(row).evidence)} : io::Value{};
             }),
        text("supply_mode",
             "How water comes: direct (hose from a source, with an engine there), relay (with "
             "engines in "
             "line), shuttle, or none.",
             [of](std::size_t row) {
                 return has_answer(of(row)) ? io::Value{word(of(row).mode)} : io::Value{};
             }),
        text("binding_limit",
             "What sets the flow: the thing of which one more gains most (readiness: to be set up, "
             "or to have the hose laid, sooner); or why there is none.",
             [of](std::size_t row) {
                 return has_answer(of(row)) ? io::Value{word(of(row).limit)} : io::Value{};
             }),
        text("reason", "Why the state is unknown: a problem id.",
             [of](std::size_t row) {
                 return of(row).reason ? io::Value{name_of(*of(row).reason)} : io::Value{};
             }),
        real("needed_gpm", "Needed fire flow, gpm.",
             [of](std::size_t row) {
                 return has_need(of(row)) ? value_of(of(row).needed) : io::Value{};
             }),
        real("duration_min", "Minutes for which the flow must hold.",
             [of](std::size_t row) {
                 return has_need(of(row)) ? value_of(std::optional(of(row).duration)) : io::Value{};
             }),
    };
}

// Gallons per minute.
std::vector<ColumnOf> flow_columns(const Findings& findings) {
    const auto of = [findings](std::size_t row) -> const ParcelSupply& {
        return findings.supply(row);
    };
    const auto flow = [of](HeldFlow ParcelSupply::* member) {
        return [of, member](std::size_t row) {
            return has_answer(of(row)) ? value_of(of(row).*member) : io::Value{};
        };
    };
    return {
        real("sustained_gpm",
             "Largest constant flow that never runs dry, from the allowed start for the duration, "
             "gpm.",
             flow(&ParcelSupply::sustained)),
        real("cautious_gpm",
             "The same with every stage of the shuttle slower by 0.35 of its scatter; the state is "
             "judged on it, gpm.",
             flow(&ParcelSupply::cautious)),
        real("shortfall_gpm",
             "Needed minus the cautious flow, or minus runner_up_gpm where that is more (late by "
             "hose, and a shuttle until then), never below 0, gpm.",
             [of](std::size_t row) {
                 return has_answer(of(row)) ? value_of(supply::shortfall_of(of(row))) : io::Value{};
             }),
        real("one_tanker_out_gpm",
             "Cautious flow without the tanker that is missed most and the portable tanks and "
             "siphon that it carries, the others as they are run, gpm.",
             flow(&ParcelSupply::one_tanker_out)),
        real("later_gpm", "Cautious flow that holds from the late horizon on, gpm.",
             flow(&ParcelSupply::later)),
        real("handbook_gpm",
             "Handbook sum over undisturbed cycles, gpm: knows no queue, no storage and no start; "
             "for rating sheets only.",
             flow(&ParcelSupply::handbook)),
        text("runner_up_mode", "The best other way that was looked at; blank: there is none.",
             [of](std::size_t row) {
                 return of(row).runner_up == SupplyMode::none ? io::Value{}
                                                              : io::Value{word(of(row).runner_up)};
             }),
        real("runner_up_gpm", "Its cautious flow, gpm.",
             [of](std::size_t row) {
                 return of(row).runner_up == SupplyMode::none
                            ? io::Value{}
                            : value_of(of(row).runner_up_cautious);
             }),
    };
}

// Minutes from the alarm.
std::vector<ColumnOf> clock_columns(const Findings& findings) {
    const auto of = [findings](std::size_t row) -> const ParcelSupply& {
        return findings.supply(row);
    };
    const auto time = [of](Maybe<supply::TenthsMinute> ParcelSupply::* member) {
        return [of, member](std::size_t row) { return value_of(of(row).*member); };
    };
    return {
        real("first_engine_min",
             "First engine at the house, minutes from the alarm." + drive_note(findings.district),
             time(&ParcelSupply::first_engine)),
        real("tank_water_min", "The first engine's own tank on the fire, minutes from the alarm.",
             time(&ParcelSupply::tank_water)),
        real("continuous_min",
             "From here on the initial attack flow never runs dry, minutes from the alarm.",
             time(&ParcelSupply::continuous)),
        real("gap_min", "Minutes without water between tank_water_min and continuous_min.",
             time(&ParcelSupply::gap)),
        real("earliest_start_min",
             "Earliest start from which the needed flow holds for the duration, minutes from the "
             "alarm; empty where there is none within the late horizon.",
             time(&ParcelSupply::earliest_start)),
    };
}

// Where the water comes from.
std::vector<ColumnOf> place_columns(const Findings& findings) {
    const auto names = std::make_shared<const std::vector<std::string>>(dump_site_names(findings));
    const auto of = [findings](std::size_t row) -> const ParcelSupply& {
        return findings.supply(row);
    };
    return {
        text("dump_site_id", "Dump site that serves it.",
             [of, names](std::size_t row) {
                 return of(row).dump_site.valid()
                            ? io::Value{std::string_view(at(*names, of(row).dump_site))}
                            : io::Value{};
             }),
        real(
            "hose_ft", "Supply line from the dump site to the house, feet.",
            [of](std::size_t row) { return value_of(of(row).hose_ft); }, 0),
        text(
            "lane_class",
            "Of the dump site, with the road under the hose and in front of the house closed. "
            "through: tankers drive through; dead_end: they must back or turn, also where the road "
            "is not known to leave a lane beside the tanks.",
            [of](std::size_t row) {
                return of(row).dump_site.valid() ? io::Value{word(of(row).lane)} : io::Value{};
            }),
        real("single_file_min",
             "Drive between the dump site and where the next tanker waits, for two cannot meet on "
             "its road: each tanker has it to itself, in and out; 0 where they can pass or drive "
             "one way round, minutes.",
             [of](std::size_t row) {
                 return of(row).dump_site.valid() ? value_of(std::optional(of(row).single_file))
                                                  : io::Value{};
             }),
    };
}

// How the water comes.
std::vector<ColumnOf> way_columns(const Findings& findings) {
    const auto of = [findings](std::size_t row) -> const ParcelSupply& {
        return findings.supply(row);
    };
    return {
        real("round_trip_min",
             "Driving only, dump site to fill site and back, minutes, of the first tanker." +
                 drive_note(findings.district),
             [of](std::size_t row) { return value_of(of(row).round_trip); }),
        real(
            "round_trip_mi", "Road miles of the same round trip.",
            [findings](std::size_t row) {
                const auto ways = round_trip_ways(findings, row);
                return value_of(ways ? std::optional(static_cast<float>(in_miles(ways->length)))
                                     : std::nullopt);
            },
            2),
        yes_no("way_round_hose",
               "The first tanker's fastest way would run over the hose or past the burning house, "
               "where nobody can drive: it goes round, and the round trip is that of the way "
               "round. Empty without a shuttle.",
               [findings](std::size_t row) {
                   const bool driven = round_trip_ways(findings, row).has_value();
                   return driven ? io::Value{findings.routes.of[row].goes_round} : io::Value{};
               }),
        yes_no(
            "one_way_loop",
            "Tankers can go out and come back on roads of which none is driven both ways, in half "
            "as long again or 5 minutes more, with the road under the hose and in front of the "
            "house closed; empty without a shuttle.",
            [findings](std::size_t row) { return value_of_loop(loop_at(findings, row)); }),
        real(
            "loop_detour_min", "Minutes that this takes more than round_trip_min.",
            [findings](std::size_t row) { return minutes_of_loop(loop_at(findings, row)); }, 2),
        real(
            "loop_detour_mi", "Road miles that this takes more than round_trip_mi.",
            [findings](std::size_t row) { return miles_of_loop(loop_at(findings, row)); }, 2),
        integer("default_speed_pct",
                "Per cent of the round trip's driving time on roads whose speed is the default of "
                "their class, no posted limit; rounded up.",
                [findings](std::size_t row) {
                    const auto ways = round_trip_ways(findings, row);
                    const auto percent =
                        ways ? default_speed_percent(ways->on_defaults, ways->time) : std::nullopt;
                    return percent ? value_of_count(static_cast<std::size_t>(*percent))
                                   : io::Value{};
                }),
        integer("tankers", "Tankers in the shuttle.",
                [of](std::size_t row) {
                    return has_answer(of(row)) ? value_of_count(of(row).tankers) : io::Value{};
                }),
        real(
            "wheels_gal",
            "Gallons in the tanks that are there by the late horizon; at least the smallest "
            "engine's, "
            "where an engine gets to the house but to no dump site.",
            [of](std::size_t row) { return value_of(of(row).wheels_gal); }, 0),
    };
}

// Which season and period it is, and how the house lies to the roads.
std::vector<ColumnOf> case_columns(const Findings& findings) {
    const auto of = [findings](std::size_t row) -> const ParcelSupply& {
        return findings.supply(row);
    };
    return {
        text("worst_season", "Season of the worst answer, the one shown.",
             [of, findings](std::size_t row) {
                 return io::Value{std::string_view(
                     at(findings.district.seasons, findings.worst_variant(row).season).name)};
             }),
        text("worst_period", "Period of the worst answer, the one shown.",
             [of, findings](std::size_t row) {
                 return io::Value{std::string_view(
                     at(findings.district.periods, findings.worst_variant(row).period).name)};
             }),
        real(
            "station_mi",
            "Road miles from the nearest own station, in the season with the longest way; empty "
            "where a season has no way.",
            [findings](std::size_t row) { return value_of(findings.station_miles[row]); }, 2),
        real(
            "setback_ft", "Straight from the access point on the road to the house, feet.",
            [findings](std::size_t row) {
                const AccessPoint& access = findings.access[row];
                return access.road.valid()
                           ? value_of(std::optional(static_cast<float>(in_feet(access.off_road))))
                           : io::Value{};
            },
            0),
        yes_no("access_doubtful",
               "The access point is far from the house, or on a road that no tanker may use.",
               [findings](std::size_t row) {
                   const AccessPoint& access = findings.access[row];
                   return access.road.valid() ? io::Value{access.doubtful} : io::Value{};
               }),
    };
}

// Columns that parcels and targets share: what was found out about their supply.
std::vector<ColumnOf> supply_columns(const Findings& findings) {
    std::vector<ColumnOf> columns;
    for (const auto group :
         {verdict_columns, need_columns, flow_columns, build_up_columns, gain_columns,
          clock_columns, place_columns, fill_columns, way_columns, case_columns, rating_columns}) {
        std::ranges::move(group(findings), std::back_inserter(columns));
    }
    return columns;
}

// Rows by shortfall, largest first, then by parcel id.
std::vector<std::uint32_t> rows_short_of_need(const Findings& findings) {
    std::vector<std::uint32_t> rows;
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        const ParcelSupply& supply = findings.supply(row);
        if (has_answer(supply) && in_tenths(shortfall_of(supply)) > 0) {
            rows.push_back(static_cast<std::uint32_t>(row));
        }
    }
    std::ranges::sort(rows, [&](std::uint32_t a, std::uint32_t b) {
        const HeldFlow of_a = shortfall_of(findings.supply(a));
        const HeldFlow of_b = shortfall_of(findings.supply(b));
        return of_a != of_b ? of_a > of_b
                            : findings.district.parcels[a].id < findings.district.parcels[b].id;
    });
    return rows;
}

}  // namespace

io::PassThroughTable parcel_supply(const Findings& findings) {
    std::vector<ColumnOf> columns = supply_columns(findings);
    columns.insert(columns.begin(), text("parcel_id", "Parcel.", [findings](std::size_t row) {
                       return io::Value{std::string_view(findings.district.parcels[row].id)};
                   }));
    // Parcels are kept in the order of their records, so a record's parcel is found by bisection.
    const auto parcel_at = [findings](std::size_t record) {
        const auto& parcels = findings.district.parcels;
        return std::ranges::lower_bound(parcels, record, {}, &Parcel::row);
    };
    io::FeatureTable results =
        table({"parcel_supply", "Water supply of every parcel",
               "Flow that can be held at each parcel, in the worst season and "
               "period. Planning figures: prove them by a timed drill; "
               "local codes, the authority having jurisdiction and licensed practice go first."},
              std::move(columns), findings.parcels());
    results.shape = io::ShapeKind::polygon;
    results.fill = [fill = std::move(results.fill), parcel_at, findings](std::size_t record,
                                                                         io::Row& row) {
        fill(static_cast<std::size_t>(parcel_at(record) - findings.district.parcels.begin()), row);
    };
    return {std::move(results), "parcels", [parcel_at, findings](std::size_t record) {
                const auto parcel = parcel_at(record);
                return parcel != findings.district.parcels.end() && parcel->row == record;
            }};
}

io::FeatureTable target_supply(const Findings& findings) {
    std::vector<ColumnOf> columns = supply_columns(findings);
    const std::size_t first = findings.parcels();
    for (ColumnOf& column : columns) {
        column.value = [value = std::move(column.value), first](std::size_t row) {
            return value(first + row);
        };
    }
    const auto& targets = findings.district.targets;
    columns.insert(columns.begin(),
                   {text("target_id", "Place without a parcel.",
                         [&targets](std::size_t row) { return value_of(targets[row].id); }),
                    text("name", "Its name.",
                         [&targets](std::size_t row) { return value_of(targets[row].name); })});
    return layer(
        {"target_supply", "Water supply of places without a parcel",
         "The same columns as parcel_supply. Planning figures: prove them by a timed drill."},
        io::ShapeKind::point, std::move(columns), targets.size(),
        [&targets](std::size_t row) { return Polyline{targets[row].place}; });
}

io::FeatureTable supply_of_one(const Findings& findings, std::size_t row) {
    std::vector<ColumnOf> columns = supply_columns(findings);
    for (ColumnOf& column : columns) {
        column.value = [value = std::move(column.value), row](std::size_t) { return value(row); };
    }
    return table({"supply_of_one", "", ""}, std::move(columns), 1);
}

io::FeatureTable shortfalls(const Findings& findings) {
    const auto rows =
        std::make_shared<const std::vector<std::uint32_t>>(rows_short_of_need(findings));
    std::vector<ColumnOf> columns = supply_columns(findings);
    for (ColumnOf& column : columns) {
        column.value = [value = std::move(column.value), rows](std::size_t row) {
            return value((*rows)[row]);
        };
    }
    columns.insert(columns.begin(), text("parcel_id", "Parcel.", [rows, findings](std::size_t row) {
                       return value_of(findings.district.parcels[(*rows)[row]].id);
                   }));
    return table({"shortfalls", "Parcels short of their needed flow", "Largest shortfall first."},
                 std::move(columns), rows->size());
}

}  // namespace farwater::reports
