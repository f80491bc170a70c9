// What one source gives, before its volume: a hydrant at the residual pressure that must be left, a
// suction point through its lift and pipe. The lowest of what is said and what is worked out
// counts, and what is not known takes a stated value that is no better than what is usually built.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/problem.h"

namespace farwater::supply {

// How water gets to the pump there.
struct SuctionFinding {
    Length lift;  // from the drought level; most_lift_ft where it is not known
    Length head;  // lift, losses and velocity head together, at the rate that counts
    Flow most;    // what the head limit lets through, whatever is said
};

struct SourceRate {
    Flow rate;              // into any pump
    double pump_share = 1;  // of a pump's rating at that lift
    RateLimit limit = RateLimit::standard;
    Evidence evidence = Evidence::assumed;
    std::optional<SuctionFinding> suction;  // none for hydrants and where nothing can be drafted
    std::optional<ProblemId> obstacle;      // why it gives nothing
    std::vector<std::string_view> assumed;  // keys and columns for which a stated value stands
    struct Note {
        ProblemId id;
        std::string detail;
    };
    std::vector<Note> notes;
};

// `proved`: it was tested and the test has not lapsed. A proved rate counts as it was measured, a
// declared one at most what suction lets through. Hydrants: the flow test carried on to
// hydrant_residual_psi, else the rate, else the low end of the colour class, else the planning
// default; of a flow test and a rate the lower. A cell that is blanked never gives more than it
// gave or than the stated value gives, and where a stated value makes the rate `evidence` is
// assumed.
// `system_most` is what the whole system gives, where that is told.
SourceRate source_rate(const WaterSource& source, const District& district, bool proved,
                       std::optional<Flow> system_most);

}  // namespace farwater::supply
