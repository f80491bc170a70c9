#include "reports/proposals.h"

#include <memory>
#include <utility>

#include <fmt/format.h>

#include "analyzer/district/building_areas.h"
#include "reports/layers/source_cells.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {
namespace {

using planning::Candidate;
using planning::Change;
using planning::GainSum;

io::Value whole(std::int64_t count) { return io::Value{count}; }

template <class Quantity>
io::Value known(const std::optional<Quantity>& quantity, double (*in)(Quantity)) {
    return quantity ? io::Value{in(*quantity)} : io::Value{};
}
double gallons_in(Volume volume) { return in_gallons(volume); }
double feet_in(Length length) { return in_feet(length); }

// What one more of something costs; empty without a cost or a gain.
io::Value cost_for(const std::optional<double>& cost, double gained) {
    return cost && gained > 0.0 ? io::Value{*cost / gained} : io::Value{};
}

// What stands on the parcels that newly meet their planned flow.
struct CoveredSoFar {
    planning::Covered added, together;
};

void add_to(std::optional<double>& sum, const std::optional<double>& more) {
    if (more) {
        sum = sum.value_or(0.0) + *more;
    }
}

std::shared_ptr<const std::vector<CoveredSoFar>> covered_so_far(const ProposalFindings& findings) {
    const std::vector<double> areas = building_areas(findings.district);
    auto rows = std::make_shared<std::vector<CoveredSoFar>>();
    planning::Covered together;
    for (const Proposal& proposal : findings.proposals) {
        const planning::Covered added =
            planning::covered_by(proposal.changes, findings.district, areas);
        together.building_sqft += added.building_sqft;
        add_to(together.value, added.value);
        add_to(together.people, added.people);
        rows->push_back({added, together});
    }
    return rows;
}

// Rows of source_proposals.
struct Ranked {
    const ProposalFindings& findings;
    std::shared_ptr<const std::vector<CoveredSoFar>> covered;  // per row
    const Proposal& operator()(std::size_t row) const { return findings.proposals[row]; }
    const Candidate& place(std::size_t row) const {
        return findings.found.candidates[findings.proposals[row].candidate];
    }
};

std::vector<ColumnOf> head_columns(const Ranked& at) {
    return {
        integer("rank", "Order of choice.",
                [](std::size_t row) { return whole(static_cast<std::int64_t>(row) + 1); }),
        yes_no("planned", "Decided by the officer, not chosen.",
               [at](std::size_t row) { return io::Value{at(row).planned}; }),
        text("source_id", "The proposal's id.",
             [at](std::size_t row) { return value_of(at.place(row).source.id); }),
        text("name", "What and where.",
             [at](std::size_t row) { return value_of(at.place(row).source.name); }),
        text("origin", origins_in_words,
             [at](std::size_t row) { return io::Value{origin_word(at.place(row).origin)}; }),
        text("standing", "As [what_if_sources] reads it: it is not there.",
             [](std::size_t) { return io::Value{word(Standing::declared)}; }),
        text("standing_by", "Nobody vouches for it.",
             [](std::size_t) { return io::Value{std::string_view("proposal")}; }),
    };
}

std::vector<ColumnOf> gain_columns(const Ranked& at) {
    return {
        real("gained_gpm",
             "Added to the proposals before it: over all parcels, what more of the needed flow is "
             "held in the worst season and period, less what is lost, gpm.",
             [at](std::size_t row) { return io::Value{at(row).added.gpm()}; }),
        integer("parcels_gaining", "Parcels that hold more of their need by it.",
                [at](std::size_t row) { return value_of_count(at(row).added.gaining); }),
        integer("parcels_losing",
                "Parcels of which the answer is less by it: the search for the best fill site does "
                "not look at all of them in full. A crew would fill where it filled before.",
                [at](std::size_t row) { return value_of_count(at(row).added.losing); }),
        integer("newly_held",
                "Parcels that meet their planned flow by it, less those that no longer do.",
                [at](std::size_t row) { return whole(at(row).added.more_held()); }),
        real("lost_gpm", "What those parcels lose; gained_gpm is less it.",
             [at](std::size_t row) { return io::Value{at(row).added.lost_gpm()}; }),
        real("gained_together_gpm", "With all proposals before it, gpm.",
             [at](std::size_t row) { return io::Value{at(row).together.gpm()}; }),
        integer("newly_held_together", "With all proposals before it.",
                [at](std::size_t row) { return whole(at(row).together.more_held()); }),
        real("alone_gpm", "What it would gain as the only one, gpm.",
             [at](std::size_t row) {
                 return io::Value{at.findings.alone[at(row).candidate].value_or(GainSum{}).gpm()};
             }),
    };
}

std::vector<ColumnOf> covered_columns(const Ranked& at) {
    const auto covered = at.covered;
    return {
        real(
            "building_sqft_newly_held",
            "Area of the buildings on the parcels that newly meet their planned flow, less those "
            "that no longer do, sq ft.",
            [covered](std::size_t row) { return io::Value{(*covered)[row].added.building_sqft}; },
            0),
        real(
            "value_newly_held", "Their value, by the parcels' column; empty: no parcel has one.",
            [covered](std::size_t row) { return value_of((*covered)[row].added.value); }, 0),
        real(
            "people_newly_held", "The people there, by the parcels' column; likewise.",
            [covered](std::size_t row) { return value_of((*covered)[row].added.people); }, 0),
        real("weighted_gain",
             "What the choice goes by: gained_gpm, each parcel's times its weight; with weight 1 "
             "for each parcel it is gained_gpm.",
             [at](std::size_t row) {
                 return io::Value{weighted_gain(at.findings.weights, at(row).added)};
             }),
        real("weighted_gain_together", "With all proposals before it.",
             [at](std::size_t row) {
                 return io::Value{weighted_gain(at.findings.weights, at(row).together)};
             }),
    };
}

std::vector<ColumnOf> cost_columns(const Ranked& at) {
    return {
        real(
            "cost", "The district's own figure; empty: not known.",
            [at](std::size_t row) { return value_of(at.place(row).cost); }, 0),
        real(
            "cost_together", "With all proposals before it that are not planned.",
            [at](std::size_t row) { return value_of(at(row).cost_together); }, 0),
        real(
            "cost_per_gpm", "Cost by gained_gpm.",
            [at](std::size_t row) { return cost_for(at.place(row).cost, at(row).added.gpm()); }, 2),
        real(
            "cost_per_sqft", "Cost by building_sqft_newly_held.",
            [at](std::size_t row) {
                return cost_for(at.place(row).cost, (*at.covered)[row].added.building_sqft);
            },
            2),
        real(
            "value_per_cost", "value_newly_held by cost: what each unit of money covers.",
            [at](std::size_t row) {
                return cost_for((*at.covered)[row].added.value, at.place(row).cost.value_or(0.0));
            },
            2),
        integer(
            "build_year",
            "The year that builds it, by --yearly-budget; empty: none was given, or planned.",
            [at](std::size_t row) { return at(row).year ? whole(*at(row).year) : io::Value{}; }),
        real(
            "cost_per_newly_held", "Cost by newly_held.",
            [at](std::size_t row) {
                return cost_for(at.place(row).cost, static_cast<double>(at(row).added.more_held()));
            },
            0),
    };
}

std::vector<ColumnOf> proof_columns(const Ranked& at) {
    const auto kept = std::make_shared<std::string>();
    return {
        real("source_gpm", "What it gives: its rate as far as lift and pipe let it through.",
             [at](std::size_t row) { return io::Value{in_gpm(at.place(row).rate)}; }),
        real(
            "to_prove_gal",
            "Worth it only if at least so many gallons remain at drought; empty: the officer says.",
            [at](std::size_t row) { return known(at.place(row).to_prove, gallons_in); }, 0),
        real("drawdown_ft", "What they would take off the mapped area, ft.",
             [at](std::size_t row) { return known(at.place(row).drawdown, feet_in); }),
        text("what_to_do", "To find out, to ask and to build before it helps.",
             [at, kept](std::size_t row) {
                 *kept = what_to_do(at.place(row));
                 return value_of(*kept);
             }),
    };
}

void append(std::vector<ColumnOf>& columns, std::vector<ColumnOf> more) {
    columns.insert(columns.end(), std::make_move_iterator(more.begin()),
                   std::make_move_iterator(more.end()));
}

// What a row of proposal_gains is about.
struct GainRow {
    std::uint32_t rank = 0;
    const Change* change = nullptr;
};

std::shared_ptr<std::vector<GainRow>> gain_rows(const ProposalFindings& findings) {
    auto rows = std::make_shared<std::vector<GainRow>>();
    for (std::uint32_t rank = 0; rank < findings.proposals.size(); ++rank) {
        for (const Change& change : findings.proposals[rank].changes) {
            rows->push_back({rank, &change});
        }
    }
    return rows;
}

}  // namespace

double weighted_gain(const planning::Weights& weights, const GainSum& sum) {
    return static_cast<double>(sum.weighted) * weights.unit / 10.0;
}

std::string_view weighing_unit(WeighBy by) {
    switch (by) {
        case WeighBy::parcels:
            return "parcels";
        case WeighBy::building_area:
            return "square feet of building";
        case WeighBy::value:
            return "value";
        case WeighBy::people:
            return "people";
    }
    return {};
}

io::FeatureTable source_proposals(const ProposalFindings& findings) {
    const Ranked at{findings, covered_so_far(findings)};
    std::vector<ColumnOf> columns = head_columns(at);
    append(columns, gain_columns(at));
    append(columns, covered_columns(at));
    append(columns, cost_columns(at));
    append(columns, proof_columns(at));
    append(columns, source_cells([at](std::size_t row) -> const WaterSource& {
               return at.place(row).source;
           }));
    return layer({"source_proposals", "Proposed sources",
                  "Where new sources help most, in order of choice; none of them is there. "
                  "Planning figures: ask the owner, sound the water, have it designed."},
                 io::ShapeKind::point, std::move(columns), findings.proposals.size(),
                 [at](std::size_t row) { return Polyline{at.place(row).source.place}; });
}

io::FeatureTable proposal_gains(const ProposalFindings& findings) {
    const auto rows = gain_rows(findings);
    const auto change = [rows](std::size_t row) -> const Change& { return *(*rows)[row].change; };
    std::vector<ColumnOf> columns{
        integer("rank", "Of the proposal.",
                [rows](std::size_t row) {
                    return whole(static_cast<std::int64_t>((*rows)[row].rank) + 1);
                }),
        text("source_id", "The proposal.",
             [&findings, rows](std::size_t row) {
                 const Proposal& proposal = findings.proposals[(*rows)[row].rank];
                 return value_of(findings.found.candidates[proposal.candidate].source.id);
             }),
        text("parcel_id", "The property.",
             [&findings, change](std::size_t row) {
                 return value_of(findings.district.parcels[change(row).row].id);
             }),
        real("needed_gpm", "What it needs, gpm.",
             [change](std::size_t row) { return value_of(change(row).after.needed); }),
        real(
            "before_gpm",
            "The larger of cautious_gpm and runner_up_gpm with the proposals before this one, gpm.",
            [change](std::size_t row) {
                return value_of(supply::flow_from_start(change(row).before));
            }),
        real("after_gpm", "The same with this one, gpm.",
             [change](std::size_t row) {
                 return value_of(supply::flow_from_start(change(row).after));
             }),
        real("gained_gpm", "Of what is needed; flow beyond the need is no gain.",
             [change](std::size_t row) {
                 return io::Value{static_cast<double>(change(row).gain()) / 10.0};
             }),
        text("state_before", "Supply state with the proposals before this one.",
             [change](std::size_t row) { return io::Value{word(change(row).before.state)}; }),
        text("state_after", "The same with this one.",
             [change](std::size_t row) { return io::Value{word(change(row).after.state)}; }),
    };
    return table({"proposal_gains", "Who gains by the proposed sources",
                  "A row for each property whose answer a proposal changes, by rank."},
                 std::move(columns), rows->size());
}

std::vector<io::FeatureTable> proposal_tables(const ProposalFindings& findings) {
    return {source_proposals(findings), proposal_candidates(findings), proposal_gains(findings),
            proposal_years(findings)};
}

}  // namespace farwater::reports
