// Where the next source of water helps most: what `propose` found, as layers, tables and text.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/planning/candidates.h"
#include "analyzer/planning/choose_sites.h"
#include "analyzer/planning/gains.h"
#include "analyzer/planning/weights.h"
#include "io/feature_table.h"
#include "reports/as_it_is.h"
#include "reports/build_years.h"

namespace farwater::reports {

// One of the chosen places, in order of choice.
struct Proposal {
    std::size_t candidate = 0;
    bool planned = false;                   // the officer's decision, not a choice
    planning::GainSum added;                // to those before it
    planning::GainSum together;             // with those before it
    std::optional<double> cost_together;    // none where one of them is not known
    std::optional<std::int64_t> year;       // from 1, in which it is built; none: not dealt
    std::vector<planning::Change> changes;  // by this step
};

// Only a view of the district; the rest is its own.
struct ProposalFindings {
    const District& district;
    planning::Candidates found;
    planning::Weights weights;
    std::vector<std::optional<planning::GainSum>>
        alone;                            // per candidate; none: ruled out, or no choice takes it
    std::vector<planning::Gain> at_most;  // per candidate, weighted: no less than it gains alone
    std::vector<Proposal> proposals;
    std::optional<std::size_t> sites;  // what was asked for: so many,
    std::optional<double> budget;      // or for so much
    std::optional<double> yearly_budget;
    std::vector<std::uint32_t>
        standing_by;           // candidates for which another at the same water stands
    std::size_t unpriced = 0;  // candidates that a budget cannot buy, for their cost is not known
    std::size_t idle = 0;      // chosen, but nothing is added to those before it
    planning::Proof proof = planning::Proof::not_asked;
    double gap = 0.0;  // share that the best choice may have more, each property counted
                       // with the best of the chosen places
    AsItIs now;
    std::vector<std::size_t> held_back_by;  // of those that are not held: by Limit
};

// source_proposals: points in order of choice. Its columns include those of [water_sources], so
// that [what_if_sources] can name this layer.
io::FeatureTable source_proposals(const ProposalFindings& findings);
// proposal_candidates: every place that was looked at, with its gain alone or why it was left out.
io::FeatureTable proposal_candidates(const ProposalFindings& findings);
// proposal_gains: a row for each property that a proposal changes.
io::FeatureTable proposal_gains(const ProposalFindings& findings);

// proposal_years: what each year builds, costs and gains; no rows without a yearly budget.
io::FeatureTable proposal_years(const ProposalFindings& findings);
// All of them, in the order in which a result has them.
std::vector<io::FeatureTable> proposal_tables(const ProposalFindings& findings);

// None without a yearly budget.
std::vector<BuildYear> build_years(const ProposalFindings& findings);
// The same as lines of text; empty likewise.
std::string years_text(const ProposalFindings& findings);

// How many places were worked out, and how many of the others no choice can take, by a bound on
// what they gain.
struct PlacesLookedAt {
    std::size_t worked_out = 0, refused = 0;
};
PlacesLookedAt places_looked_at(const ProposalFindings& findings);

// In what the choice goes by: gpm, or gpm times square feet, money, people.
double weighted_gain(const planning::Weights& weights, const planning::GainSum& sum);
// "parcels", "square feet of building", "value", "people": what gpm are times.
std::string_view weighing_unit(WeighBy by);

// As columns and their descriptions have it.
std::string_view origin_word(planning::Origin origin);
constexpr const char* origins_in_words =
    "own: from [proposals]; mapped_water: a road comes near mapped water; public_parcel, junction: "
    "a cistern there.";

// What must be found out, asked and built before it helps; clauses, one after another.
std::string what_to_do(const planning::Candidate& candidate);

// The places in order of choice, as a table, or why there are none.
std::string chosen_text(const ProposalFindings& findings);
// That, after what the district is now and what was looked at, with what each place takes.
std::string proposals_text(const ProposalFindings& findings);
std::string proposals_json(const ProposalFindings& findings);

}  // namespace farwater::reports
