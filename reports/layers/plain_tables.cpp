#include <algorithm>
#include <array>
#include <functional>
#include <map>
#include <memory>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "reports/layers.h"
#include "reports/layers/table_builder.h"

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

constexpr std::array sure_words{std::string_view("high"), std::string_view("medium"),
                                std::string_view("low")};

struct Task {
    std::string layer;
    std::string record;
    std::string what;
};

bool says_volume(const WaterSource& source) {
    const bool by_depth = source.still.area && source.still.over_intake;
    const bool by_system = source.kind == SourceKind::hydrant && !source.system.empty();
    return source.usable || by_depth || by_system;
}

bool says_rate(const WaterSource& source) {
    const HydrantData& hydrant = source.hydrant;
    const bool flow_test = hydrant.static_psi && hydrant.residual_psi &&
                           (hydrant.test_flow || (hydrant.pitot_psi && hydrant.outlet));
    return source.rate || (source.kind == SourceKind::hydrant && flow_test);
}

void add_source_tasks(const District& district, std::vector<Task>& list) {
    for (const WaterSource& source : district.sources) {
        if (source.standing == Standing::mapped) {
            list.push_back({"water_sources", source.id, "look at it; declare or test it"});
        } else if (!says_volume(source)) {
            list.push_back({"water_sources", source.id, "find its usable volume at drought level"});
        }
        if (source.standing != Standing::mapped && !says_rate(source)) {
            list.push_back({"water_sources", source.id, "flow test"});
        }
    }
}

void add_tests_to_do(const Findings& findings, std::vector<Task>& list) {
    for (const Problem& problem : findings.problems) {
        if (problem.id == ProblemId::source_test_lapsed) {
            list.push_back({problem.layer, problem.record, "test again: the last one has lapsed"});
        }
        if (problem.id == ProblemId::source_suction_assumed) {
            list.push_back({problem.layer, problem.record, "measure lift and pipe, or flow test"});
        }
        if (problem.id == ProblemId::source_test_above_suction) {
            list.push_back({problem.layer, problem.record, "check its lift at drought level"});
        }
    }
}

void add_untimed_tankers(const District& district, std::vector<Task>& list) {
    for (const Unit& unit : district.units) {
        const bool timed = unit.fill_limit && unit.offload && unit.tested_on;
        if (unit.kind == UnitKind::tanker && !timed) {
            list.push_back({"apparatus", unit.id, "time one fill and one offload"});
        }
    }
}

// Per road that is a bridge without a posted limit: the parcels and targets for which it is
// crossed.
std::map<RoadIndex, std::size_t> unposted_bridges_in_use(const RoutesInUse& routes) {
    std::map<RoadIndex, std::size_t> users;
    for (const RoutesInUse::OfPlace& place : routes.of) {
        std::set<RoadIndex> crossed;
        for (const std::uint32_t route : {place.loaded, place.empty, place.response}) {
            if (const RouteLine* way = routes.way(route)) {
                crossed.insert(way->unposted_bridges.begin(), way->unposted_bridges.end());
            }
        }
        for (const RoadIndex bridge : crossed) {
            ++users[bridge];
        }
    }
    return users;
}

// Those that most depend on first.
void add_unrated_bridges(const Findings& findings, std::vector<Task>& list) {
    const auto users = unposted_bridges_in_use(findings.routes);
    std::vector<std::pair<RoadIndex, std::size_t>> bridges(users.begin(), users.end());
    std::ranges::stable_sort(bridges, std::greater<>{}, &std::pair<RoadIndex, std::size_t>::second);
    const bool targets = !findings.district.targets.empty();
    for (const auto& [bridge, places] : bridges) {
        const Road& road = at(findings.district.roads, bridge);
        const std::string_view whose = targets       ? "parcels and targets"
                                       : places == 1 ? "parcel"
                                                     : "parcels";
        list.push_back({"roads", road.name.empty() ? row_name(road.row) : road.name,
                        fmt::format("find the bridge's rating: apparatus crosses it without one "
                                    "for {} {}",
                                    places, whose)});
    }
}

std::string sounding(const MappedWater& water) {
    constexpr double square_metres_per_acre = 4046.8564224;
    constexpr double puddle_acres = 0.1;
    const double acres = water.area_m2 / square_metres_per_acre;
    return acres < puddle_acres
               ? "under 0.1 acres mapped: look whether it is water all year"
               : fmt::format(
                     "{:.1f} acres mapped: worth sounding, permission and access to be asked",
                     acres);
}

// The largest first.
void add_unsounded_water(const District& district, std::vector<Task>& list) {
    std::vector<const MappedWater*> waters;
    for (const MappedWater& water : district.mapped_water) {
        waters.push_back(&water);
    }
    std::ranges::stable_sort(waters, std::greater<>{},
                             [](const MappedWater* water) { return water->area_m2; });
    for (const MappedWater* water : waters) {
        list.push_back(
            {"mapped_water", water->name.empty() ? water->id : water->name, sounding(*water)});
    }
}

// What would be worth an evening or an afternoon before next year's review.
std::vector<Task> tasks(const Findings& findings) {
    std::vector<Task> list;
    add_source_tasks(findings.district, list);
    add_tests_to_do(findings, list);
    add_untimed_tankers(findings.district, list);
    add_unrated_bridges(findings, list);
    add_unsounded_water(findings.district, list);
    return list;
}

}  // namespace

io::FeatureTable fleet(const Findings& findings) {
    const auto profiles = std::make_shared<const std::vector<std::string>>(profile_names(findings));
    const District& district = findings.district;
    const auto unit = [&district](std::size_t row) -> const Unit& { return district.units[row]; };
    std::vector<ColumnOf> columns{
        text("unit_id", "Unit.", [unit](std::size_t row) { return value_of(unit(row).id); }),
        text("station_id", "Station.",
             [unit, &district](std::size_t row) {
                 return value_of(at(district.stations, unit(row).station).id);
             }),
        text("kind", "engine, tanker or other.",
             [unit](std::size_t row) { return io::Value{word(unit(row).kind)}; }),
        text("aid", "own, automatic or mutual.",
             [unit](std::size_t row) { return io::Value{word(unit(row).aid)}; }),
        real(
            "tank_gal", "Tank, gallons.",
            [unit](std::size_t row) { return io::Value{in_gallons(unit(row).tank)}; }, 0),
        real(
            "pump_gpm", "Rated pump, gpm; empty where not known.",
            [unit](std::size_t row) { return flow_or_null(unit(row).pump); }, 0),
        real(
            "fill_limit_gpm", "Timed fill, gpm; empty: the planning default is taken.",
            [unit](std::size_t row) { return flow_or_null(unit(row).fill_limit); }, 0),
        real(
            "offload_gpm", "Timed offload, gpm; empty: the planning default is taken.",
            [unit](std::size_t row) { return flow_or_null(unit(row).offload); }, 0),
        real(
            "portable_tank_gal", "Portable tanks carried, nominal gallons.",
            [unit](std::size_t row) { return io::Value{in_gallons(unit(row).portable_tank)}; }, 0),
        integer("crew", "Usual crew; staffing rows override it.",
                [unit](std::size_t row) { return count_or_null(unit(row).crew); }),
        integer("min_crew", "With fewer it stays in quarters.",
                [unit](std::size_t row) { return count_or_null(unit(row).min_crew); }),
        text("routing_profile",
             "Vehicles of one profile are routed alike: as heavy, wide and tall as the largest, as "
             "fast as the slowest.",
             [profiles](std::size_t row) { return value_of((*profiles)[row]); }),
    };
    return table(
        {"fleet", "Apparatus as the analysis understood it", "Own, automatic and mutual aid."},
        std::move(columns), district.units.size());
}

io::FeatureTable assumptions(const Findings& findings) {
    const Assumptions& values = findings.district.assumptions;
    const auto row_of = [](std::size_t row) -> const AssumptionRow& {
        return assumption_rows()[row];
    };
    std::vector<ColumnOf> columns{
        text("key", "Key of the district file's [assumptions]; it ends in its unit.",
             [row_of](std::size_t row) { return io::Value{row_of(row).key}; }),
        text("topic", "Heading.",
             [row_of](std::size_t row) { return io::Value{row_of(row).group}; }),
        real(
            "value", "Value that the run used, in the key's unit; 1 and 0 for yes and no.",
            [row_of, &values](std::size_t row) {
                return io::Value{value_in_key_unit(values, row_of(row))};
            },
            3),
        yes_no("given", "Set in the district file; else the default.",
               [row_of, &values](std::size_t row) {
                   return io::Value{values.is_given(row_of(row).key)};
               }),
        real(
            "default_value", "Default, in the key's unit.",
            [row_of](std::size_t row) {
                return io::Value{value_in_key_unit(Assumptions{}, row_of(row))};
            },
            3),
        text("sure", "How far the default can be defended: high, medium, low.",
             [row_of](std::size_t row) {
                 return io::Value{sure_words[static_cast<std::size_t>(row_of(row).sure)]};
             }),
        text("what", "What it means.",
             [row_of](std::size_t row) { return io::Value{row_of(row).what}; }),
        text("source", "Where the default comes from.",
             [row_of](std::size_t row) { return io::Value{row_of(row).source}; }),
    };
    return table({"assumptions", "Every assumption of the analysis",
                  "Planning values, to be replaced by the district's own."},
                 std::move(columns), assumption_rows().size());
}

io::FeatureTable data_problems(const Findings& findings) {
    const auto problem = [findings](std::size_t row) -> const Problem& {
        return findings.problems[row];
    };
    std::vector<ColumnOf> columns{
        text("problem_id", "What kind of problem.",
             [problem](std::size_t row) { return io::Value{name_of(problem(row).id)}; }),
        text("severity",
             "note: a stated default was used; repaired; set_aside: not used; grave: a stage has "
             "no input.",
             [problem](std::size_t row) {
                 return io::Value{name_of(kind_of(problem(row).id).severity)};
             }),
        text("layer", "Section of the district file.",
             [problem](std::size_t row) { return value_of(problem(row).layer); }),
        text("file", "File as written there.",
             [problem](std::size_t row) { return value_of(problem(row).file); }),
        text("record", "Id, or row number; empty: the whole layer.",
             [problem](std::size_t row) { return value_of(problem(row).record); }),
        text("field", "Column; empty: the geometry or the whole record.",
             [problem](std::size_t row) { return value_of(problem(row).field); }),
        text("detail", "The value or measure.",
             [problem](std::size_t row) { return value_of(problem(row).detail); }),
        text("what", "What it means.",
             [problem](std::size_t row) { return io::Value{kind_of(problem(row).id).what}; }),
        text("mend", "How to mend it.",
             [problem](std::size_t row) { return io::Value{kind_of(problem(row).id).mend}; }),
    };
    return table({"data_problems", "What is wrong with the data",
                  "Nothing is dropped silently: see also input_records."},
                 std::move(columns), findings.problems.size());
}

io::FeatureTable worklist(const Findings& findings) {
    const auto list = std::make_shared<const std::vector<Task>>(tasks(findings));
    std::vector<ColumnOf> columns{
        text("layer", "Section of the district file.",
             [list](std::size_t row) { return value_of((*list)[row].layer); }),
        text("record", "Id of the record.",
             [list](std::size_t row) { return value_of((*list)[row].record); }),
        text("task", "What to do.",
             [list](std::size_t row) { return value_of((*list)[row].what); }),
    };
    return table({"worklist", "What to find out before the next review",
                  "Tests, timings, ratings and soundings that the answers rest on."},
                 std::move(columns), list->size());
}

io::FeatureTable input_records(const Findings& findings) {
    const auto& records = findings.district.records;
    const auto count = [&records](std::size_t RecordCount::* member) {
        return [&records, member](std::size_t row) { return value_of_count(records[row].*member); };
    };
    std::vector<ColumnOf> columns{
        text("layer", "Section of the district file.",
             [&records](std::size_t row) { return value_of(records[row].layer); }),
        text("file", "File as written there.",
             [&records](std::size_t row) { return value_of(records[row].file); }),
        integer("records_read", "Records in the input.", count(&RecordCount::read)),
        integer("used", "Used as they are.", count(&RecordCount::used)),
        integer("repaired", "Used after a repair.", count(&RecordCount::repaired)),
        integer("set_aside", "Not used; data_problems says why.", count(&RecordCount::set_aside)),
    };
    return table(
        {"input_records", "Records in and out", "Records read = used + repaired + set aside."},
        std::move(columns), records.size());
}

io::FeatureTable by_state(const Findings& findings) {
    const auto& variants = findings.assessment.variants;
    const District& district = findings.district;
    std::vector<ColumnOf> columns{
        text("season", "Season.",
             [&district, &variants](std::size_t row) {
                 return value_of(at(district.seasons, variants[row].variant.season).name);
             }),
        text("period", "Period.",
             [&district, &variants](std::size_t row) {
                 return value_of(at(district.periods, variants[row].variant.period).name);
             }),
    };
    for (std::size_t state = 0; state < words_of(SupplyState{}).size(); ++state) {
        columns.push_back(integer(std::string(words_of(SupplyState{})[state]),
                                  "Parcels in this state.", [&variants, state](std::size_t row) {
                                      return value_of_count(variants[row].parcels_by_state[state]);
                                  }));
    }
    return table({"by_state", "Parcels by state in each season and period",
                  "no_building stands in no percentage."},
                 std::move(columns), variants.size());
}

io::FeatureTable run_record_table(const RunRecord& record) {
    const auto rows = std::make_shared<const RunRecord>(record);
    std::vector<ColumnOf> columns{
        text("key", "What.", [rows](std::size_t row) { return value_of((*rows)[row].first); }),
        text("value", "Its value.",
             [rows](std::size_t row) { return value_of((*rows)[row].second); }),
    };
    return table({"run_record", "What this result rests on",
                  "Program, schema, district file and inputs. No clock, host or path: those are in "
                  "run.log."},
                 std::move(columns), rows->size());
}

}  // namespace farwater::reports
