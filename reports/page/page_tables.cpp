#include "reports/page/page_tables.h"

#include <algorithm>
#include <map>
#include <memory>

#include <fmt/format.h>

#include "reports/layers/routes.h"
#include "reports/layers/table_builder.h"
#include "reports/page/packed_table.h"
#include "reports/proposals.h"
#include "reports/zones.h"

namespace farwater::reports {
namespace {

// More rows make the page slow and nobody reads them there; tables/ has all.
constexpr std::size_t most_rows_of_a_list = 2000;

std::string packed(const io::FeatureTable& table, const MapPage& page,
                   std::size_t most = SIZE_MAX) {
    PackedTable result(table.title, table.description, std::min(table.rows, most));
    result.add(table, page.grid);
    return result.bytes();
}

// --- parcels ------------------------------------------------------------------------------------

// What a document may say of a parcel: one flow, the cautious one.
const std::vector<std::string_view> shown_of_parcels{"parcel_id",
                                                     "state",
                                                     "margin",
                                                     "evidence",
                                                     "binding_limit",
                                                     "supply_mode",
                                                     "runner_up_mode",
                                                     "runner_up_gpm",
                                                     "reason",
                                                     "needed_gpm",
                                                     "duration_min",
                                                     "cautious_gpm",
                                                     "shortfall_gpm",
                                                     "one_tanker_out_gpm",
                                                     "from_5_min_gpm",
                                                     "from_8_min_gpm",
                                                     "from_10_min_gpm",
                                                     "from_15_min_gpm",
                                                     "from_20_min_gpm",
                                                     "from_30_min_gpm",
                                                     "from_60_min_gpm",
                                                     "gain_tanker_gpm",
                                                     "gain_fill_place_gpm",
                                                     "gain_double_source_gpm",
                                                     "gain_no_draft_limit_gpm",
                                                     "gain_portable_tank_gpm",
                                                     "gain_siphon_gpm",
                                                     "gain_road_room_gpm",
                                                     "gain_offload_slot_gpm",
                                                     "gain_ready_5_min_gpm",
                                                     "gain_crew_gpm",
                                                     "gain_engine_gpm",
                                                     "more_tankers",
                                                     "first_engine_min",
                                                     "tank_water_min",
                                                     "continuous_min",
                                                     "gap_min",
                                                     "gap_gal",
                                                     "nursing_tanker_id",
                                                     "gap_nursing_min",
                                                     "gap_nursing_gpm",
                                                     "earliest_start_min",
                                                     "dump_site_id",
                                                     "hose_ft",
                                                     "lane_class",
                                                     "fill_source_id",
                                                     "second_fill_source_id",
                                                     "second_fill_tankers",
                                                     "third_fill_source_id",
                                                     "third_fill_tankers",
                                                     "round_trip_min",
                                                     "round_trip_mi",
                                                     "default_speed_pct",
                                                     "tankers",
                                                     "wheels_gal",
                                                     "worst_season",
                                                     "worst_period",
                                                     "station_mi",
                                                     "setback_ft",
                                                     "access_doubtful"};

io::Value station_of_first_engine(const Findings& findings, std::size_t row) {
    const UnitIndex unit = findings.supply(row).first_at_site;
    if (!unit.valid()) {
        return {};
    }
    const District& district = findings.district;
    return value_of(at(district.stations, at(district.units, unit).station).id);
}

// The place of each route in the layer shuttle_routes.
std::map<std::uint32_t, std::size_t> places_of_routes(const Findings& findings) {
    std::map<std::uint32_t, std::size_t> places;
    for (const std::uint32_t route : drawn_routes(findings.routes)) {
        places.emplace(route, places.size());
    }
    return places;
}

RowValue route_row(const Findings& findings, std::uint32_t RoutesInUse::OfPlace::* leg) {
    const auto places =
        std::make_shared<const std::map<std::uint32_t, std::size_t>>(places_of_routes(findings));
    return [findings, places, leg](std::size_t row) {
        const auto found = row < findings.routes.of.size()
                               ? places->find(findings.routes.of[row].*leg)
                               : places->end();
        return found == places->end() ? io::Value{} : value_of_count(found->second);
    };
}

io::FeatureTable beside_parcels(const MapPage& page) {
    const Findings& findings = page.findings;
    return layer(
        {"parcels", "", ""}, io::ShapeKind::point,
        {
            text("address", "Address.",
                 [&page](std::size_t row) { return value_of(page.address(row)); }),
            text("first_station_id", "Station of the first engine at the dump site.",
                 [&findings](std::size_t row) { return station_of_first_engine(findings, row); }),
            integer("loaded_route", "Row of shuttle_routes, loaded.",
                    route_row(findings, &RoutesInUse::OfPlace::loaded)),
            integer("empty_route", "Row of shuttle_routes, empty.",
                    route_row(findings, &RoutesInUse::OfPlace::empty)),
        },
        findings.parcels(),
        [&findings](std::size_t row) { return Polyline{findings.district.parcels[row].house}; });
}

std::string parcels(const MapPage& page) {
    const Findings& findings = page.findings;
    io::FeatureTable supply = parcel_supply(findings).results;
    supply.shape = io::ShapeKind::none;
    supply.fill = [fill = std::move(supply.fill), &findings](std::size_t row, io::Row& out) {
        fill(findings.district.parcels[row].row, out);
    };
    PackedTable result(supply.title, supply.description, findings.parcels());
    result.add(supply, page.grid, shown_of_parcels);
    result.add(beside_parcels(page), page.grid);
    if (page.areas != nullptr) {
        result.add_shapes(*page.areas, "area");
    }
    return result.bytes();
}

std::string targets(const MapPage& page) {
    const io::FeatureTable table = target_supply(page.findings);
    std::vector<std::string_view> shown{"target_id", "name"};
    shown.insert(shown.end(), shown_of_parcels.begin(), shown_of_parcels.end());
    PackedTable result(table.title, "Places that get an answer as parcels do.", table.rows);
    result.add(table, page.grid, shown);
    return result.bytes();
}

// --- the map's other layers ---------------------------------------------------------------------

std::string roads(const MapPage& page) {
    const auto& all = page.findings.district.roads;
    const auto& tanker_may_use = page.findings.road_times.tanker_may_use;
    return packed(
        layer({"roads", "Roads", "Centrelines as the analysis used them."}, io::ShapeKind::line,
              {
                  text("name", "Its name.",
                       [&all](std::size_t row) { return value_of(all[row].name); }),
                  text("class", "What its default speed goes by.",
                       [&all](std::size_t row) { return io::Value{word(all[row].kind)}; }),
                  yes_no("tanker_may_use", "A tanker may use it.",
                         [&tanker_may_use](std::size_t row) {
                             return row < tanker_may_use.size()
                                        ? io::Value{bool{tanker_may_use[row]}}
                                        : io::Value{};
                         }),
              },
              all.size(), [&all](std::size_t row) { return all[row].line; }),
        page);
}

std::string stations(const MapPage& page) {
    const auto& all = page.findings.district.stations;
    return packed(layer({"stations", "Stations",
                         "A neighbour's station beyond the data stands at its gate point."},
                        io::ShapeKind::point,
                        {
                            text("station_id", "Station.",
                                 [&all](std::size_t row) { return value_of(all[row].id); }),
                            text("name", "Its name.",
                                 [&all](std::size_t row) { return value_of(all[row].name); }),
                            text("aid", "own, automatic or mutual.",
                                 [&all](std::size_t row) { return io::Value{word(all[row].aid)}; }),
                            yes_no("staffed", "Somebody sleeps there.",
                                   [&all](std::size_t row) { return io::Value{all[row].staffed}; }),
                        },
                        all.size(), [&all](std::size_t row) { return Polyline{all[row].place}; }),
                  page);
}

// Water that is known of and stands in no answer.
struct OtherWater {
    std::string_view id, name, kind;
    Point place;
};

std::vector<OtherWater> other_water(const Findings& findings) {
    std::vector<OtherWater> all;
    for (std::size_t i = 0; i < findings.district.sources.size(); ++i) {
        const WaterSource& source = findings.district.sources[i];
        if (i >= findings.water.counts.size() || !findings.water.counts[i]) {
            all.push_back({source.id, source.name, word(source.kind), source.place});
        }
    }
    for (const MappedWater& water : findings.district.mapped_water) {
        all.push_back({water.id, water.name, "mapped_water", water.place});
    }
    return all;
}

std::string resting_water(const MapPage& page) {
    const std::vector<OtherWater> all = other_water(page.findings);
    return packed(
        layer(
            {"resting_water", "Water that does not count",
             "Known, but neither declared nor tested, or its volume is not known; data_problems "
             "and worklist say what is missing."},
            io::ShapeKind::point,
            {
                text("water_id", "Id.", [&all](std::size_t row) { return value_of(all[row].id); }),
                text("name", "Its name.",
                     [&all](std::size_t row) { return value_of(all[row].name); }),
                text("kind", "What it is.",
                     [&all](std::size_t row) { return value_of(all[row].kind); }),
            },
            all.size(), [&all](std::size_t row) { return Polyline{all[row].place}; }),
        page);
}

// --- what it rests on ---------------------------------------------------------------------------

std::string problem_kinds(const MapPage& page) {
    std::map<ProblemId, std::size_t> counts;
    for (const Problem& problem : page.findings.problems) {
        ++counts[problem.id];
    }
    const std::vector<std::pair<ProblemId, std::size_t>> kinds(counts.begin(), counts.end());
    return packed(
        table({"problem_kinds", "What is wrong with the data, by kind",
               "Nothing is dropped silently: each record is in tables/data_problems.csv."},
              {
                  text("problem_id", "What kind of problem.",
                       [&kinds](std::size_t row) { return io::Value{name_of(kinds[row].first)}; }),
                  text("severity", "How grave it is.",
                       [&kinds](std::size_t row) {
                           return io::Value{name_of(kind_of(kinds[row].first).severity)};
                       }),
                  integer("records", "How many.",
                          [&kinds](std::size_t row) { return value_of_count(kinds[row].second); }),
                  text("what", "What it means.",
                       [&kinds](std::size_t row) {
                           return io::Value{kind_of(kinds[row].first).what};
                       }),
                  text("mend", "How to mend it.",
                       [&kinds](std::size_t row) {
                           return io::Value{kind_of(kinds[row].first).mend};
                       }),
              },
              kinds.size()),
        page);
}

template <io::FeatureTable (*make)(const Findings&)>
std::string all_rows(const MapPage& page) {
    return packed(make(page.findings), page);
}
template <io::FeatureTable (*make)(const Findings&)>
std::string first_rows(const MapPage& page) {
    return packed(make(page.findings), page, most_rows_of_a_list);
}

// Single facts that the page's own words need.
std::string about(const MapPage& page) {
    const District& district = page.findings.district;
    const RunRecord facts{
        {"district", district.name},
        {"tanker_word", district.tanker_word},
        {"step_m", fmt::format("{}", PageGrid::step_m)},
        {"start_after_arrival_min",
         fmt::format("{}", in_minutes(district.assumptions.start_after_arrival))},
        {"most_rows_of_a_list", std::to_string(most_rows_of_a_list)},
        {"data_problems", std::to_string(page.findings.problems.size())},
    };
    return packed(run_record_table(facts), page);
}

// --- proposals ----------------------------------------------------------------------------------

// A step of one proposal at one parcel, for the parcel's sheet and the map.
struct GainAtParcel {
    std::size_t rank;
    const planning::Change* change;
};

std::string next_source_gains(const MapPage& page) {
    std::vector<GainAtParcel> rows;
    const std::vector<Proposal>& proposals = page.findings.next_source->proposals;
    for (std::size_t rank = 0; rank < proposals.size(); ++rank) {
        for (const planning::Change& change : proposals[rank].changes) {
            rows.push_back({rank, &change});
        }
    }
    return packed(
        table(
            {"next_source_gains", "Who gains by the proposed sources", ""},
            {
                integer("proposal", "Row of source_proposals.",
                        [&rows](std::size_t row) { return value_of_count(rows[row].rank); }),
                integer("parcel", "Row of parcels.",
                        [&rows](std::size_t row) { return value_of_count(rows[row].change->row); }),
                real("before_gpm", "Held from the start with the proposals before it, gpm.",
                     [&rows](std::size_t row) {
                         return value_of(supply::flow_from_start(rows[row].change->before));
                     }),
                real("after_gpm", "The same with it, gpm.",
                     [&rows](std::size_t row) {
                         return value_of(supply::flow_from_start(rows[row].change->after));
                     }),
                real("gained_gpm", "Of what is needed, gpm.",
                     [&rows](std::size_t row) {
                         return io::Value{static_cast<double>(rows[row].change->gain()) / 10.0};
                     }),
            },
            rows.size()),
        page);
}

template <io::FeatureTable (*make)(const ProposalFindings&)>
std::string of_proposals(const MapPage& page) {
    return packed(make(*page.findings.next_source), page);
}

std::string run_record(const MapPage& page) { return packed(run_record_table(page.record), page); }

}  // namespace

std::vector<PageTable> page_tables(const Findings& findings) {
    std::vector<PageTable> tables{
        {"about", about},
        {"parcels", parcels},
        {"roads", roads},
        {"fill_sites", all_rows<fill_sites>},
        {"resting_water", resting_water},
        {"dump_sites", all_rows<dump_sites>},
        {"stations", stations},
        {"shuttle_routes", all_rows<shuttle_routes>},
        {"target_supply", targets},
        {"shortfall_zones", all_rows<shortfall_zones>},
        {"by_state", all_rows<by_state>},
        {"fleet", all_rows<fleet>},
        {"assumptions", all_rows<assumptions>},
        {"problem_kinds", problem_kinds},
        {"data_problems", first_rows<data_problems>},
        {"worklist", first_rows<worklist>},
        {"input_records", all_rows<input_records>},
        {"run_record", run_record},
    };
    if (findings.next_source != nullptr) {
        tables.insert(tables.end(), {{"source_proposals", of_proposals<source_proposals>},
                                     {"proposal_years", of_proposals<proposal_years>},
                                     {"next_source_gains", next_source_gains}});
    }
    return tables;
}

}  // namespace farwater::reports
