#include <nlohmann/json.hpp>

#include "reports/cautions.h"
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

}  // namespace farwater::reports
