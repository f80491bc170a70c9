#include "analyzer/district/building_areas.h"
#include "analyzer/planning/improvement_words.h"
#include "analyzer/planning/stand_ins.h"
#include "reports/cautions.h"
#include "reports/improvements.h"
#include "reports/json/json_cells.h"
#include "reports/json/proposals_value.h"
#include "reports/proposals.h"

namespace farwater::reports {
namespace {

json gain_of(const planning::GainSum& sum) {
    return {{"gpm", sum.gpm()},
            {"parcels_gaining", sum.gaining},
            {"parcels_losing", sum.losing},
            {"lost_gpm", sum.lost_gpm()},
            {"newly_held", sum.more_held()}};
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
    json stand_ins = json::array();
    for (const std::uint32_t other :
         planning::stand_ins_of(findings.found.candidates, proposal.candidate)) {
        stand_ins.push_back(findings.found.candidates[other].source.id);
    }
    return {{"source_id", place.source.id},
            {"name", place.source.name},
            {"kind", word(place.source.kind)},
            {"planned", proposal.planned},
            {"origin", origin_word(place.origin)},
            {"cost", number_or_null(place.cost)},
            {"build_year", number_or_null(proposal.year)},
            {"weighted_gain", weighted_gain(findings.weights, proposal.added)},
            {"source_gpm", in_gpm(place.rate)},
            {"to_prove_gal", place.to_prove ? json(in_gallons(*place.to_prove)) : json(nullptr)},
            {"added", gain_of(proposal.added)},
            {"together", gain_of(proposal.together)},
            {"alone", gain_of(findings.alone[proposal.candidate].value_or(planning::GainSum{}))},
            {"owner", place.source.owner},
            {"stand_ins", stand_ins},
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
    one["weighted_gain"] = weighted_gain(findings.weights, weighed.sum);
    one["parcels_judged_earlier"] = weighed.sum.losing_earlier;
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
    json bought = json::array();
    for (const BoughtImprovement& one : findings.bought) {
        bought.push_back({{"name", findings.weighed[one.weighed].improvement.name},
                          {"year", one.year},
                          {"added", gain_of(one.added)},
                          {"together", gain_of(one.together)}});
    }
    return dumped({{"schema_version", json_schema_version},
                   {"district", findings.district.name},
                   {"improved_parcels", findings.now.improved},
                   {"held", findings.now.held},
                   {"short_of_gpm", findings.now.short_of_gpm},
                   {"named_by_nobody", findings.stock},
                   {"weighed_by", word(findings.weights.by)},
                   {"without_weight", findings.weights.not_known},
                   {"yearly_budget", number_or_null(findings.yearly_budget)},
                   {"bought", bought},
                   {"improvements", list},
                   {"cautions", cautions}});
}

json proposals_value(const ProposalFindings& findings) {
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
    return {{"improved_parcels", findings.now.improved},
            {"held", findings.now.held},
            {"short_of_gpm", findings.now.short_of_gpm},
            {"weighed_by", word(findings.weights.by)},
            {"without_weight", findings.weights.not_known},
            {"yearly_budget", number_or_null(findings.yearly_budget)},
            {"proof", proof_word(findings.proof)},
            {"sites", number_or_null(findings.sites)},
            {"budget", number_or_null(findings.budget)},
            {"candidates", findings.found.candidates.size() - findings.standing_by.size()},
            {"standing_by", findings.standing_by.size()},
            {"without_cost", findings.unpriced},
            {"gap", findings.gap},
            {"proposals", proposals},
            {"left_out", left_out},
            {"passed_over", passed_over}};
}

std::string proposals_json(const ProposalFindings& findings) {
    json document = proposals_value(findings);
    document["schema_version"] = json_schema_version;
    document["district"] = findings.district.name;
    document["cautions"] = cautions;
    return dumped(document);
}

}  // namespace farwater::reports
