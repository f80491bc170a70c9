#include "analyzer/demand/need_bands.h"
#include "reports/cautions.h"
#include "reports/drive_words.h"
#include "reports/headline.h"
#include "reports/json/json_cells.h"
#include "reports/json/proposals_value.h"
#include "reports/need_columns.h"
#include "reports/rating/rating_tables.h"
#include "reports/summary.h"
#include "reports/zones.h"

namespace farwater::reports {
namespace {

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

// Parcels by band, the last one without an upper bound; first under the run's own rule.
json needed_flow_of(const Findings& findings) {
    json rules = json::array();
    for (const demand::NeedBands& bands : demand::need_bands(findings.district, findings.needs)) {
        json list = json::array();
        for (std::size_t i = 0; i < bands.parcels.size(); ++i) {
            const bool last = i == demand::need_band_gpm.size();
            list.push_back({{"up_to_gpm", last ? json() : json(demand::need_band_gpm.at(i))},
                            {"parcels", bands.parcels[i]}});
        }
        rules.push_back({{"rule", bands.rule}, {"bands", list}});
    }
    json words = json::object();
    for (const auto& [key, value] : need_in_words(findings.district)) {
        words[key] = value;
    }
    return {{"rules", rules}, {"method", words}};
}

// What not every run has: zones (not above a number of parcels, not for the public), a rating.
void add_zones_and_rating(json& document, const Findings& findings) {
    if (findings.zones != nullptr && !findings.zones->left_out) {
        document["shortfall_zones"] = printed_rows(shortfall_zones(findings));
        document["flow_zones"] = printed_rows(flow_zones(findings));
    }
    if (findings.rating != nullptr) {
        document["rating"] = {{"terms", findings.district.rating->standard.name},
                              {"categories", printed_rows(rating_categories(findings))},
                              {"fails_first", printed_rows(rating_reasons(findings))}};
    }
}

}  // namespace

std::string summary_json(const Findings& findings, std::string_view results) {
    const Headline headline = headline_of(findings);
    json document = {
        {"schema_version", json_schema_version},
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
        {"months", month_words(months_covered(findings.district.seasons).once)},
        {"variants", variants_of(findings)},
        {"needed_flow", needed_flow_of(findings)},
        {"records", records_of(findings.district)},
        {"problems", problem_counts(findings.problems)},
        {"cautions", cautions},
        {"not_modelled", not_modelled(findings.district)},
        {"travel_time", word(findings.district.travel_time)},
        {"travel_time_in_words", travel_time_sentence(findings.district)},
        {"results", results},
    };
    add_zones_and_rating(document, findings);
    if (findings.next_source != nullptr) {
        document["next_source"] = proposals_value(*findings.next_source);
    }
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
    return dumped({{"schema_version", json_schema_version},
                   {"district", district.name},
                   {"records", records_of(district)},
                   {"problems", list}});
}

}  // namespace farwater::reports
