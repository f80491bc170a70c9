#include <algorithm>

#include "reports/layers/table_builder.h"
#include "reports/proposals.h"

namespace farwater::reports {
namespace {

using planning::Candidate;
using planning::GainSum;

// A place that was looked at: a candidate, or one that was left out.
struct Looked {
    const ProposalFindings& findings;
    std::size_t chosen_from() const { return findings.found.candidates.size(); }
    const Candidate* candidate(std::size_t row) const {
        return row < chosen_from() ? &findings.found.candidates[row] : nullptr;
    }
    const planning::LeftOut& left_out(std::size_t row) const {
        return findings.found.left_out[row - chosen_from()];
    }
    const std::string& id(std::size_t row) const {
        return candidate(row) != nullptr ? candidate(row)->source.id : left_out(row).id;
    }
    const std::string& name(std::size_t row) const {
        return candidate(row) != nullptr ? candidate(row)->source.name : left_out(row).name;
    }
    planning::Origin origin(std::size_t row) const {
        return candidate(row) != nullptr ? candidate(row)->origin : left_out(row).origin;
    }
    const GainSum* alone(std::size_t row) const {
        return row < chosen_from() && findings.alone[row] ? &*findings.alone[row] : nullptr;
    }
    io::Value stands_in_for(std::size_t row) const {
        const Candidate* const place = candidate(row);
        return place != nullptr && place->stands_in_for
                   ? value_of(findings.found.candidates[*place->stands_in_for].source.id)
                   : io::Value{};
    }
    io::Value rank(std::size_t row) const {
        for (std::size_t i = 0; i < findings.proposals.size(); ++i) {
            if (findings.proposals[i].candidate == row && row < chosen_from()) {
                return value_of_count(i + 1);
            }
        }
        return {};
    }
};

std::vector<ColumnOf> looked_columns(const Looked& at) {
    return {
        integer("rank", "Order of choice; empty: not chosen.",
                [at](std::size_t row) { return at.rank(row); }),
        text("proposal_id", "The place's id.",
             [at](std::size_t row) { return value_of(at.id(row)); }),
        text("name", "What and where.", [at](std::size_t row) { return value_of(at.name(row)); }),
        text("origin", origins_in_words,
             [at](std::size_t row) { return io::Value{origin_word(at.origin(row))}; }),
        text("left_out", "Why it is no place to choose; empty: it is one.",
             [at](std::size_t row) {
                 return at.candidate(row) != nullptr ? io::Value{}
                                                     : value_of(at.left_out(row).reason);
             }),
        text("stands_in_for",
             "The place at the same water that it stands in for where its owner refuses "
             "(--rule-out); empty: for none.",
             [at](std::size_t row) { return at.stands_in_for(row); }),
        text("owner", "Whom to ask for the ground that its pipe crosses; empty: not known.",
             [at](std::size_t row) {
                 return at.candidate(row) != nullptr ? value_of(at.candidate(row)->source.owner)
                                                     : io::Value{};
             }),
        real("source_gpm", "What it would give, gpm.",
             [at](std::size_t row) {
                 return at.candidate(row) != nullptr ? io::Value{in_gpm(at.candidate(row)->rate)}
                                                     : io::Value{};
             }),
        real(
            "alone_gpm",
            "What it would gain as the only one, gpm, by each parcel's worst season and period; "
            "empty: not worked out, for it stands by, or no choice takes it (--every-gain works it "
            "out).",
            [at](std::size_t row) {
                return at.alone(row) != nullptr ? io::Value{at.alone(row)->gpm()} : io::Value{};
            }),
        integer("alone_newly_held", "Parcels that would meet their planned flow by it alone.",
                [at](std::size_t row) {
                    return at.alone(row) != nullptr ? io::Value{at.alone(row)->more_held()}
                                                    : io::Value{};
                }),
        real(
            "cost", "The district's own figure; empty: not known.",
            [at](std::size_t row) {
                return at.candidate(row) != nullptr ? value_of(at.candidate(row)->cost)
                                                    : io::Value{};
            },
            0),
    };
}

}  // namespace

std::string_view origin_word(planning::Origin origin) {
    switch (origin) {
        case planning::Origin::own:
            return "own";
        case planning::Origin::mapped_water:
            return "mapped_water";
        case planning::Origin::public_parcel:
            return "public_parcel";
        case planning::Origin::junction:
            return "junction";
    }
    return {};
}

PlacesLookedAt places_looked_at(const ProposalFindings& findings) {
    PlacesLookedAt looked;
    for (std::size_t i = 0; i < findings.alone.size(); ++i) {
        if (std::ranges::binary_search(findings.standing_by, i)) {
            continue;  // another stands for it
        }
        const bool worked_out = findings.alone[i].has_value();
        looked.worked_out += worked_out ? 1U : 0U;
        looked.refused += worked_out ? 0U : 1U;
    }
    return looked;
}

io::FeatureTable proposal_candidates(const ProposalFindings& findings) {
    const Looked at{findings};
    return layer({"proposal_candidates", "Places looked at for a source",
                  "Every place that was looked at, with what it would gain as the only one, or why "
                  "it was left out."},
                 io::ShapeKind::point, looked_columns(at),
                 findings.found.candidates.size() + findings.found.left_out.size(),
                 [at](std::size_t row) {
                     return Polyline{at.candidate(row) != nullptr ? at.candidate(row)->source.place
                                                                  : at.left_out(row).place};
                 });
}

}  // namespace farwater::reports
