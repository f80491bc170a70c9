#include <cmath>

#include <nlohmann/json.hpp>

#include "reports/cautions.h"
#include "reports/drive_times.h"
#include "reports/drive_words.h"
#include "reports/summary.h"

namespace farwater::reports {
namespace {

using nlohmann::json;

constexpr int summary_schema_version = 1;

json records_of(const District& district) {
    json list = json::array();
    for (const RecordCount& record : district.records) {
        list.push_back({{"layer", record.layer},
                        {"file", record.file},
                        {"read", record.read},
                        {"used", record.used},
                        {"repaired", record.repaired},
                        {"set_aside", record.set_aside}});
    }
    return list;
}

json problem_counts(std::span<const Problem> problems) {
    json counts = json::object();
    for (const Problem& problem : problems) {
        json& count = counts[std::string(name_of(problem.id))];
        count = count.is_null() ? 1 : count.get<int>() + 1;
    }
    return counts;
}

json variants_of(const Findings& findings) {
    json list = json::array();
    for (const auto& summary : findings.assessment.variants) {
        json states = json::object();
        for (std::size_t state = 0; state < summary.parcels_by_state.size(); ++state) {
            states[std::string(words_of(SupplyState{})[state])] = summary.parcels_by_state[state];
        }
        list.push_back({{"season", at(findings.district.seasons, summary.variant.season).name},
                        {"period", at(findings.district.periods, summary.variant.period).name},
                        {"parcels_by_state", states}});
    }
    return list;
}

// Names may hold any bytes; what is no UTF-8 is replaced, never an error.
std::string dumped(const json& document) {
    return document.dump(2, ' ', false, json::error_handler_t::replace) + "\n";
}

}  // namespace

std::string summary_json(const Findings& findings) {
    const Headline headline = headline_of(findings);
    json document = {
        {"schema_version", summary_schema_version},
        {"district", findings.district.name},
        {"headline",
         {{"improved", headline.improved},
          {"held", headline.held},
          {"tank_only", headline.tank_only},
          {"unknown", headline.unknown},
          {"held_on_assumed", headline.held_on_assumed},
          {"held_but_for_one_tanker", headline.held_but_for_one},
          {"late", headline.late},
          {"short", headline.short_flow},
          {"unreached", headline.unreached},
          {"no_building", headline.no_building}}},
        {"variants", variants_of(findings)},
        {"records", records_of(findings.district)},
        {"problems", problem_counts(findings.problems)},
        {"cautions", cautions},
        {"not_modelled", not_modelled(findings.district)},
        {"travel_time", word(findings.district.travel_time)},
        {"travel_time_in_words", travel_time_sentence(findings.district)},
    };
    return dumped(document);
}

std::string problems_json(const District& district, std::span<const Problem> problems) {
    json list = json::array();
    for (const Problem& problem : problems) {
        list.push_back({{"problem_id", name_of(problem.id)},
                        {"severity", name_of(kind_of(problem.id).severity)},
                        {"layer", problem.layer},
                        {"file", problem.file},
                        {"record", problem.record},
                        {"field", problem.field},
                        {"detail", problem.detail},
                        {"sentence", sentence(problem)}});
    }
    return dumped({{"schema_version", summary_schema_version},
                   {"district", district.name},
                   {"records", records_of(district)},
                   {"problems", list}});
}

namespace {

json json_of(const io::Value& value) {
    if (const auto* number = std::get_if<double>(&value)) {
        return std::round(*number * 100.0) / 100.0;
    }
    const auto* words = std::get_if<std::string_view>(&value);
    return words == nullptr ? json() : json(std::string(*words));
}

}  // namespace

// Row by row, for a table may have millions.
std::string drive_times_json(const DriveTable& drives) {
    json head = {{"schema_version", summary_schema_version},
                 {"district", drives.district},
                 {"from", drives.from.layer},
                 {"to", drives.to.layer},
                 {"season", drives.season},
                 {"vehicles", drives.vehicles},
                 {"travel_time_in_words", drives.time_model},
                 {"limit_min", drives.limit_min},
                 {"pairs", drives.pairs()},
                 {"problems", problem_counts(drives.problems)}};
    std::string text = dumped(head);
    text.erase(text.size() - 3);  // the closing brace and its lines
    text += ",\n  \"drives\": [";
    const io::FeatureTable table = drive_times(drives);
    io::Row row;
    for (std::size_t i = 0; i < table.rows; ++i) {
        row.values.assign(table.columns.size(), io::Value{});
        table.fill(i, row);
        json object = json::object();
        for (std::size_t c = 0; c < table.columns.size(); ++c) {
            object[table.columns[c].name] = json_of(row.values[c]);
        }
        text += (i == 0 ? "\n    " : ",\n    ") +
                object.dump(-1, ' ', false, json::error_handler_t::replace);
    }
    return text + "\n  ]\n}\n";
}

}  // namespace farwater::reports
