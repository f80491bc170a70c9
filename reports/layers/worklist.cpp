#include <algorithm>
#include <functional>
#include <map>
#include <memory>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "analyzer/supply/unsaid.h"
#include "reports/headline.h"
#include "reports/layers.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {
namespace {

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
        if (problem.id == ProblemId::source_test_undated) {
            list.push_back(
                {problem.layer, problem.record, "find the date of its test, or test it"});
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

// What tankers pump off into an engine: until that is timed, no plan that is known without it gives
// way to one that nurses.
void add_untimed_nursing(const Findings& findings, std::vector<Task>& list) {
    const Headline headline = headline_of(findings);
    const std::size_t closed = headline.held_with_a_gap - headline.gap_left_by_nursing;
    if (closed > 0 && !findings.district.assumptions.is_given("nurse_gpm")) {
        list.push_back(
            {"assumptions", "nurse_gpm",
             fmt::format("time what a {0} pumps off into the engine at the fire: of the parcels "
                         "that meet their flow, {1} with minutes without water would have none if "
                         "a {0} fed it first",
                         findings.district.tanker_word, closed)});
    }
}

// Where a posted bridge is open to a truck only if its weight is known.
void add_unweighed(const District& district, std::vector<Task>& list) {
    if (std::ranges::none_of(district.roads,
                             [](const Road& road) { return road.weight_limit.has_value(); })) {
        return;
    }
    for (const Unit& unit : district.units) {
        if (unit.kind != UnitKind::other && !unit.loaded && !unit.empty) {
            list.push_back({"apparatus", unit.id,
                            "weigh it, loaded: until then no posted bridge is open to it"});
        }
    }
}

// What the officer can say in an evening, and an answer is assumed without.
void add_unsaid_of_units(const District& district, std::vector<Task>& list) {
    for (const Station& station : district.stations) {
        if (supply::gate_unsaid(station)) {
            list.push_back({"stations", station.id,
                            "ask its minutes to the gate point (0: it stands where it is drawn)"});
        }
    }
    for (std::size_t i = 0; i < district.units.size(); ++i) {
        const Unit& unit = district.units[i];
        bool unsaid = false;
        for (std::size_t period = 0; period < district.periods.size(); ++period) {
            unsaid = unsaid || supply::crew_unsaid(district, UnitIndex(i), PeriodIndex(period));
        }
        if (unsaid && (unit.kind == UnitKind::tanker || unit.kind == UnitKind::engine)) {
            list.push_back({"apparatus", unit.id, "say its usual crew, or its staffing by period"});
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
        list.push_back({"roads", road.name.empty() ? row_name(road.row) : road.name.text(),
                        fmt::format("find the bridge's rating: apparatus crosses it without one "
                                    "for {} {}",
                                    places, whose)});
    }
}

std::string sounding(const MappedWater& water) {
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

// Fill sites by the parcels whose state rests on an assumed value, water brought from there to a
// dump site; the site that serves most of them stands for the drill.
struct Drill {
    SourceIndex source;
    std::size_t parcels = 0;
    std::map<DumpSiteIndex, std::size_t> by_dump_site;

    DumpSiteIndex busiest() const {
        return std::ranges::max_element(by_dump_site, std::less<>{},
                                        &std::pair<const DumpSiteIndex, std::size_t>::second)
            ->first;
    }
};

std::vector<Drill> drills_that_would_settle(const Findings& findings) {
    std::vector<Drill> drills(findings.district.sources.size());
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        const supply::ParcelSupply& supply = findings.supply(row);
        if (supply.has_round_trip() && supply.evidence == Evidence::assumed) {
            Drill& drill = at(drills, supply.fill_source);
            drill.source = supply.fill_source;
            ++drill.parcels;
            ++drill.by_dump_site[supply.dump_site];
        }
    }
    std::erase_if(drills, [](const Drill& drill) { return drill.parcels == 0; });
    std::ranges::stable_sort(drills, std::greater<>{}, &Drill::parcels);
    return drills;
}

// The few evenings that would settle most.
void add_drills(const Findings& findings, std::vector<Task>& list) {
    constexpr std::size_t most_drills = 3;
    const std::vector<std::string> dump_sites = dump_site_names(findings);
    std::vector<Drill> drills = drills_that_would_settle(findings);
    drills.resize(std::min(drills.size(), most_drills));
    for (const Drill& drill : drills) {
        list.push_back({"water_sources", at(findings.district.sources, drill.source).id,
                        fmt::format("timed drill: fill here, dump at {}, for an hour; the "
                                    "answers of {} {} that fill here rest on an assumed value",
                                    at(dump_sites, drill.busiest()), drill.parcels,
                                    drill.parcels == 1 ? "parcel" : "parcels")});
    }
}

// What would be worth an evening or an afternoon before next year's review.
std::vector<Task> tasks(const Findings& findings) {
    std::vector<Task> list;
    add_drills(findings, list);
    add_source_tasks(findings.district, list);
    add_tests_to_do(findings, list);
    add_unweighed(findings.district, list);
    add_untimed_tankers(findings.district, list);
    add_untimed_nursing(findings, list);
    add_unsaid_of_units(findings.district, list);
    add_unrated_bridges(findings, list);
    add_unsounded_water(findings.district, list);
    return list;
}

}  // namespace

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

}  // namespace farwater::reports
