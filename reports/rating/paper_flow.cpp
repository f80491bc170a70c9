#include "reports/rating/paper_flow.h"

namespace farwater::reports {

bool is_on_paper(const Findings& findings, const Unit& unit) {
    return unit.kind == UnitKind::tanker &&
           rating::unit_counts(findings.district, unit, findings.rating->terms);
}

Duration handling_on_paper(const Findings& findings, const Unit& unit) {
    const Assumptions& assumptions = findings.district.assumptions;
    const Flow fill = unit.fill_limit.value_or(assumptions.fill_limit);
    const Flow offload = unit.offload.value_or(assumptions.offload);
    const Volume delivered = unit.tank * findings.rating->terms.delivered_share;
    Duration handling = assumptions.fill_before + assumptions.fill_after +
                        assumptions.offload_before + assumptions.offload_after;
    handling += unit.backs_to_offload ? assumptions.backing : Duration{};
    handling += fill > gpm(0) ? unit.tank * assumptions.refill_fraction / fill : Duration{};
    handling += offload > gpm(0) ? delivered / offload : Duration{};
    return handling;
}

Flow flow_on_paper(const Findings& findings, const Unit& unit, Length round_trip) {
    const rating::Terms& terms = findings.rating->terms;
    const Length leg = round_trip * 0.5;
    return rating::tanker_on_paper(terms, unit.tank, rating::drive_on_paper(terms, leg, leg),
                                   handling_on_paper(findings, unit));
}

}  // namespace farwater::reports
