#include <fmt/format.h>

#include "reports/proposals.h"

namespace farwater::reports {

std::string what_to_do(const planning::Candidate& candidate) {
    std::string text;
    if (candidate.to_prove) {
        text = fmt::format("worth it only if at least {:.0f} gal remain at drought{}: sound it",
                           in_gallons(*candidate.to_prove),
                           candidate.drawdown ? fmt::format(" ({:.1f} ft off its mapped area)",
                                                            in_feet(*candidate.drawdown))
                                              : "");
    }
    const std::string owner = candidate.source.owner.empty() ? "the owner" : candidate.source.owner;
    const auto add = [&text](std::string_view more) {
        text += (text.empty() ? "" : "; ") + std::string(more);
    };
    if (!candidate.caution.empty()) {
        add(candidate.caution);
    }
    if (candidate.source.kind != SourceKind::hydrant && !candidate.source.suction.lift) {
        add("measure the lift, the highest that may be is taken");
    }
    if (candidate.origin == planning::Origin::junction ||
        candidate.origin == planning::Origin::public_parcel) {
        add(
            fmt::format("as if {:.0f} gal were buried there at a lift of {:.0f} ft: find the "
                        "ground and who gives it, have it designed, say who fills it",
                        in_gallons(candidate.source.usable->volume().value_or(gallons(0))),
                        in_feet(candidate.source.suction.lift.value_or(feet(0)))));
    } else if (candidate.source.kind == SourceKind::dry_hydrant) {
        add("ask " + owner + ", the road's owner and whoever permits work in wetlands and shores");
    } else {
        add("ask " + owner + " and the road's owner");
    }
    return text;
}

}  // namespace farwater::reports
