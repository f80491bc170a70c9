#include <cmath>

#include <nlohmann/json.hpp>

#include "analyzer/demand/need_bands.h"
#include "analyzer/district/building_areas.h"
#include "analyzer/planning/improvement_words.h"
#include "reports/cautions.h"
#include "reports/drive_times.h"
#include "reports/drive_words.h"
#include "reports/explain/explanation.h"
#include "reports/improvements.h"
#include "reports/layers.h"
#include "reports/need_columns.h"
#include "reports/proposals.h"
#include "reports/shuttle_page.h"
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
        {"needed_flow", needed_flow_of(findings)},
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

json drive_cell_of(const io::Value& value) {
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
            object[table.columns[c].name] = drive_cell_of(row.values[c]);
        }
        text += (i == 0 ? "\n    " : ",\n    ") +
                object.dump(-1, ' ', false, json::error_handler_t::replace);
    }
    return text + "\n  ]\n}\n";
}

namespace {

json json_of(HeldFlow flow) { return in_tenths(flow) / 10.0; }
// Figures that are not whole tenths are rounded down to them.
json json_of(Flow flow) { return std::floor(in_gpm(flow) * 10.0 + 1e-6) / 10.0; }
json json_of(Duration time) { return std::round(in_minutes(time) * 100.0) / 100.0; }
json json_of(Volume volume) { return std::floor(in_gallons(volume) * 10.0 + 1e-6) / 10.0; }
json json_of(double number) { return number; }
template <class Value>
json json_of(const std::optional<Value>& value) {
    return value ? json_of(*value) : json();
}

json gains_of(const supply::ShuttleAnswer& answer) {
    json gains = json::object();
    for (const GainWords& gain : gain_words(answer)) {
        gains[std::string(gain.key)] = json_of(gain.gain);
    }
    return gains;
}

json tankers_of(const ShuttlePage& page) {
    json list = json::array();
    for (std::size_t t = 0; t < page.typed.tankers.size(); ++t) {
        const std::size_t site = page.answer.incident.tankers[t].fill_site;
        list.push_back({{"tanker", page.typed.tankers[t]},
                        {"fill_site", page.typed.fill_sites[site]},
                        {"without_it_gpm", json_of(page.answer.without[t])}});
    }
    return list;
}

json out_of(const ShuttlePage& page, std::optional<std::size_t> tanker) {
    return tanker ? json{{"id", page.typed.tankers[*tanker]},
                         {"gpm", json_of(page.answer.without[*tanker])}}
                  : json();
}

json build_up_of(const supply::ShuttleAnswer& answer) {
    json list = json::array();
    for (const supply::HeldFrom& from : answer.build_up) {
        list.push_back({{"from_min", json_of(from.start)},
                        {"sustained_gpm", json_of(from.sustained)},
                        {"cautious_gpm", json_of(from.cautious)}});
    }
    return list;
}

json assumed_of(const supply::TypedShuttle& typed) {
    json list = json::array();
    for (const supply::Assumed& one : typed.assumed) {
        list.push_back(
            {{"key", one.key},
             {"of", one.of},
             {"value", std::visit([](const auto& value) { return json_of(value); }, one.value)},
             {"why", one.why}});
    }
    return list;
}

void add_need(json& document, const supply::NeedAnswer& need) {
    document["needed_gpm"] = json_of(need.needed);
    document["state"] = word(need.state);
    document["margin"] = word(need.margin);
    document["earliest_start_min"] = json_of(need.earliest_start);
    document["holds_for_min"] = json_of(need.holds_for);
    document["holds_for_min_is_a_least"] = need.holds_beyond;
}

}  // namespace

std::string shuttle_json(const ShuttlePage& page) {
    const supply::ShuttleAnswer& answer = page.answer;
    json document = {
        {"schema_version", summary_schema_version},
        {"scenario", page.file},
        {"start_min", json_of(page.typed.window.start)},
        {"duration_min", json_of(page.typed.window.duration)},
        {"sustained_gpm", json_of(answer.sustained)},
        {"cautious_gpm", json_of(answer.cautious)},
        {"planned_gpm", planned_gpm(answer.cautious)},
        {"binding_limit", word(answer.limit)},
        {"gains", gains_of(answer)},
        {"handbook_gpm", json_of(answer.handbook)},
        {"upper_bound_gpm", json_of(answer.bound)},
        {"long_run_bound_gpm", json_of(answer.long_run)},
        {"disorder_gpm", json_of(answer.disorder)},
        {"worst_tanker_out", out_of(page, supply::worst_out(answer))},
        {"better_without", out_of(page, supply::better_without(answer))},
        {"allocation", tankers_of(page)},
        {"allocation_searched", answer.allocated},
        {"allocation_proved", answer.allocation_proved},
        {"build_up", build_up_of(answer)},
        {"tank_water_min", json_of(answer.first_minutes.tank_water)},
        {"continuous_min", json_of(answer.first_minutes.continuous)},
        {"gap_min", json_of(answer.first_minutes.dry)},
        {"wheels_gal", json_of(answer.on_wheels)},
        {"assumed", assumed_of(page.typed)},
        {"cautions", cautions},
        {"not_modelled", shuttle_not_modelled()},
    };
    if (answer.need) {
        add_need(document, *answer.need);
    }
    return dumped(document);
}

namespace {

// A cell as supply.gpkg holds it.
json cell_of(const io::Value& value) {
    return std::visit(
        [](const auto& cell) -> json {
            using Cell = std::decay_t<decltype(cell)>;
            if constexpr (std::is_same_v<Cell, std::monostate>) {
                return nullptr;
            } else if constexpr (std::is_same_v<Cell, std::string_view>) {
                return std::string(cell);
            } else {
                return cell;
            }
        },
        value);
}

json answer_of(const Explained& explained) {
    const io::FeatureTable table = supply_of_one(explained.findings, explained.row);
    io::Row row;
    row.values.assign(table.columns.size(), io::Value{});
    table.fill(0, row);
    json answer = json::object();
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        answer[table.columns[i].name] = cell_of(row.values[i]);
    }
    return answer;
}

json lines_of(const WorkedPart& part) {
    json lines = json::array();
    for (const WorkedLine& line : part.lines) {
        json one = {{"what", line.what}};
        if (!line.sum.empty()) {
            one["sum"] = line.sum;
        }
        if (line.value) {
            one["value"] = *line.value;
            one["unit"] = line.unit;
        } else {
            one["words"] = line.words;
        }
        if (!line.note.empty()) {
            one["note"] = line.note;
        }
        lines.push_back(std::move(one));
    }
    return lines;
}

json assumptions_of(const District& district, const WorkedPage& page) {
    json list = json::array();
    for (const AssumptionRow& row : assumption_rows()) {
        if (page.assumptions().contains(row.key)) {
            const bool given = district.assumptions.is_given(row.key);
            list.push_back({{"key", row.key},
                            {"value", value_in_key_unit(district.assumptions, row)},
                            {"given", given},
                            {"what", row.what},
                            {"source", given ? std::string_view("district file") : row.source}});
        }
    }
    return list;
}

json gain_of(const planning::GainSum& sum) {
    return {{"gpm", sum.gpm()},
            {"parcels_gaining", sum.gaining},
            {"parcels_losing", sum.losing},
            {"lost_gpm", sum.lost_gpm()},
            {"newly_held", sum.more_held()}};
}

template <class Number>
json number_or_null(const std::optional<Number>& number) {
    return number ? json(*number) : json(nullptr);
}

std::string_view proof_word(planning::Proof proof) {
    switch (proof) {
        case planning::Proof::not_asked:
            return "not_asked";
        case planning::Proof::best:
            return "best";
        case planning::Proof::out_of_time:
            return "out_of_time";
    }
    return {};
}

json proposal_of(const ProposalFindings& findings, const Proposal& proposal) {
    const planning::Candidate& place = findings.found.candidates[proposal.candidate];
    return {{"source_id", place.source.id},
            {"name", place.source.name},
            {"kind", word(place.source.kind)},
            {"planned", proposal.planned},
            {"origin", origin_word(place.origin)},
            {"cost", number_or_null(place.cost)},
            {"build_year", number_or_null(proposal.year)},
            {"weighted_gain", weighted_gain(findings, proposal.added)},
            {"source_gpm", in_gpm(place.rate)},
            {"to_prove_gal", place.to_prove ? json(in_gallons(*place.to_prove)) : json(nullptr)},
            {"added", gain_of(proposal.added)},
            {"together", gain_of(proposal.together)},
            {"alone", gain_of(findings.alone[proposal.candidate].value_or(planning::GainSum{}))},
            {"what_to_do", what_to_do(place)}};
}

json improvement_of(const ImprovementFindings& findings, const WeighedImprovement& weighed,
                    const std::vector<double>& building_areas) {
    const Improvement& improvement = weighed.improvement;
    const Spending& spending = improvement.spending;
    json one{{"name", improvement.name},
             {"kind", word(improvement.kind)},
             {"offered_by", word(improvement.by)},
             {"cost", number_or_null(spending.cost)},
             {"yearly_cost", number_or_null(spending.per_year())},
             {"what_to_settle", improvement.to_prove.empty()
                                    ? std::string(planning::what_to_settle(improvement.kind))
                                    : improvement.to_prove}};
    const NewlyMet met = newly_met(findings.district, weighed, building_areas);
    one["gain"] = gain_of(weighed.sum);
    one["no_longer_held"] = weighed.sum.no_longer_held;
    one["better_state"] = weighed.sum.better_state;
    one["worse_state"] = weighed.sum.worse_state;
    one["buildings_newly_held"] = met.buildings;
    one["area_newly_held_sqft"] = met.area_sqft;
    one["value_newly_held"] = number_or_null(met.value);
    if (weighed.rating) {
        one["rating"] = {{"gained", weighed.rating->gained}, {"lost", weighed.rating->lost}};
    }
    return one;
}

}  // namespace

std::string improvements_json(const ImprovementFindings& findings) {
    const std::vector<double> areas = building_areas(findings.district);
    json list = json::array();
    for (const WeighedImprovement& weighed : findings.weighed) {
        list.push_back(improvement_of(findings, weighed, areas));
    }
    return dumped({{"schema_version", summary_schema_version},
                   {"district", findings.district.name},
                   {"improved_parcels", findings.improved},
                   {"held", findings.held},
                   {"short_of_gpm", findings.short_of_gpm},
                   {"named_by_nobody", findings.stock},
                   {"improvements", list},
                   {"cautions", cautions}});
}

std::string explanation_json(const Explained& explained) {
    const WorkedPage page = explanation(explained);
    json parts = json::array();
    for (const WorkedPart& part : page.parts()) {
        parts.push_back({{"title", part.title}, {"lines", lines_of(part)}});
    }
    return dumped({{"schema_version", summary_schema_version},
                   {"district", explained.district().name},
                   {explained.is_parcel() ? "parcel_id" : "target_id", explained.id()},
                   {"answer", answer_of(explained)},
                   {"parts", parts},
                   {"assumptions", assumptions_of(explained.district(), page)},
                   {"cautions", cautions},
                   {"not_modelled", not_modelled(explained.district())}});
}

std::string proposals_json(const ProposalFindings& findings) {
    json proposals = json::array();
    for (const Proposal& proposal : findings.proposals) {
        proposals.push_back(proposal_of(findings, proposal));
    }
    json left_out = json::array();
    for (const planning::LeftOut& place : findings.found.left_out) {
        left_out.push_back({{"proposal_id", place.id}, {"reason", place.reason}});
    }
    json passed_over = json::array();
    for (const planning::PassedPlaces& places : findings.found.passed_over) {
        passed_over.push_back({{"reason", places.reason}, {"count", places.count}});
    }
    return dumped({{"schema_version", summary_schema_version},
                   {"district", findings.district.name},
                   {"improved_parcels", findings.improved},
                   {"held", findings.held},
                   {"short_of_gpm", findings.short_of_gpm},
                   {"weighed_by", word(findings.weights.by)},
                   {"without_weight", findings.weights.not_known},
                   {"yearly_budget", number_or_null(findings.yearly_budget)},
                   {"proof", proof_word(findings.proof)},
                   {"sites", number_or_null(findings.sites)},
                   {"budget", number_or_null(findings.budget)},
                   {"candidates", findings.found.candidates.size()},
                   {"without_cost", findings.unpriced},
                   {"gap", findings.gap},
                   {"proposals", proposals},
                   {"left_out", left_out},
                   {"passed_over", passed_over},
                   {"cautions", cautions}});
}

}  // namespace farwater::reports
