#include "reports/public/public_tables.h"

#include <algorithm>
#include <array>
#include <utility>

#include "reports/zones.h"

namespace farwater::reports {
namespace {

using ColumnNames = std::vector<std::string_view>;

const ColumnNames shown_of_fill_sites{"source_id",  "kind",    "standing",     "evidence",
                                      "rate_gpm",   "places",  "needs_engine", "usable_gal",
                                      "lane_class", "open_in", "unlimited",    "parcels_served"};
const ColumnNames shown_of_dump_sites{"dump_site_id",     "officers_place", "lane_class",
                                      "single_file",      "round_trip_min", "parcels_served",
                                      "nearest_source_id"};
const ColumnNames shown_of_flow_zones{"band",    "from_gpm",  "to_gpm",
                                      "parcels", "buildings", "acres"};
const ColumnNames shown_of_stations{"station_id", "name", "parcels", "held_pct", "unknown",
                                    "unreached",  "held", "late",    "short",    "tank_only"};
const ColumnNames shown_of_states{"season", "period", "unknown", "no_building", "unreached",
                                  "held",   "late",   "short",   "tank_only"};
const ColumnNames shown_of_assumptions{"key",           "topic", "value", "given",
                                       "default_value", "sure",  "what",  "source"};

constexpr std::array shown_of_record{
    std::string_view("schema_version"),
    std::string_view("program"),
    std::string_view("libraries"),
    std::string_view("district"),
    std::string_view("district_file_sha256"),
    std::string_view("crs"),
    std::string_view("crs_worst_scale_error"),
    std::string_view("travel_time"),
    std::string_view("travel_time_in_words"),
    std::string_view("what_if"),
    std::string_view("not_modelled"),
    std::string_view("caution"),
};

}  // namespace

std::string_view public_sentence() {
    return "For the public: without the parcels and what each can be given, names of water "
           "sources, "
           "owners, key-holders, codes, phones and notes; ground where fewer than five properties "
           "hang together is not shown.";
}

io::FeatureTable only_columns(io::FeatureTable table, const std::vector<std::string_view>& names) {
    std::vector<std::size_t> places;
    std::vector<io::Column> columns;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        if (std::ranges::find(names, table.columns[i].name) != names.end()) {
            places.push_back(i);
            columns.push_back(table.columns[i]);
        }
    }
    table.fill = [fill = std::move(table.fill), all = table.columns.size(), places](
                     std::size_t index, io::Row& out) {
        io::Row whole;
        whole.values.assign(all, io::Value{});
        fill(index, whole);
        out.shape = std::move(whole.shape);
        out.areas = std::move(whole.areas);
        for (std::size_t i = 0; i < places.size(); ++i) {
            out.values[i] = whole.values[places[i]];
        }
    };
    table.columns = std::move(columns);
    return table;
}

std::vector<io::FeatureTable> public_layers(const Findings& findings) {
    return {only_columns(flow_zones(findings), shown_of_flow_zones),
            only_columns(fill_sites(findings), shown_of_fill_sites),
            only_columns(dump_sites(findings), shown_of_dump_sites)};
}

std::vector<io::FeatureTable> public_tables(const Findings& findings) {
    std::vector<io::FeatureTable> tables = public_layers(findings);
    tables.push_back(only_columns(by_state(findings), shown_of_states));
    tables.push_back(only_columns(by_station(findings), shown_of_stations));
    tables.push_back(only_columns(assumptions(findings), shown_of_assumptions));
    return tables;
}

std::vector<SheetOfWorkbook> public_sheets(const Findings& findings, const RunRecord& record,
                                           std::span<const io::FeatureTable> dictionary) {
    std::vector<SheetOfWorkbook> sheets{{"Summary", summary_lines(findings, record)}};
    constexpr std::array names{"Ground by flow", "By fill site", "By dump site",
                               "By state",       "By station",   "Assumptions"};
    std::vector<io::FeatureTable> tables = public_tables(findings);
    for (std::size_t i = 0; i < tables.size(); ++i) {
        sheets.push_back({names.at(i), std::move(tables[i])});
    }
    sheets.push_back({"What columns mean", column_meanings(dictionary)});
    sheets.push_back({"Cautions", caution_lines(findings)});
    return sheets;
}

RunRecord public_record(const RunRecord& record) {
    RunRecord shown{{"audience", std::string(public_sentence())}};
    for (const auto& line : record) {
        if (std::ranges::find(shown_of_record, line.first) != shown_of_record.end()) {
            shown.push_back(line);
        }
    }
    return shown;
}

}  // namespace farwater::reports
