#include "reports/rating/rated_source.h"

#include <vector>

#include <fmt/format.h>

#include "analyzer/supply/suction_point.h"
#include "reports/cards/card_words.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

std::string feet_in_words(std::optional<Length> length) {
    return length ? fmt::format("{:.1f} ft", in_feet(*length)) : std::string();
}
std::string inches_in_words(std::optional<Length> length) {
    return length ? fmt::format("{:.3g} in", in_inches(*length)) : std::string();
}
std::string psi_in_words(std::optional<double> psi) {
    return psi ? fmt::format("{:.0f} psi", *psi) : std::string();
}
void add_hydrant_worksheet(SheetBlocks& sheet, const RatedSource& view) {
    const HydrantData& hydrant = view.source.hydrant;
    sheet.subheading("Flow test worksheet")
        .facts({{"Static pressure", psi_in_words(hydrant.static_psi)},
                {"Residual pressure", psi_in_words(hydrant.residual_psi)},
                {"Flow during the test",
                 hydrant.test_flow ? gpm_in_words(*hydrant.test_flow)
                 : hydrant.pitot_psi && hydrant.outlet
                     ? fmt::format("pitot {:.0f} psi in a {:.3g}-in outlet", *hydrant.pitot_psi,
                                   in_inches(*hydrant.outlet))
                     : std::string()},
                {"Main", inches_in_words(hydrant.main)},
                {fmt::format("Flow at {:.0f} psi residual",
                             view.findings.district.assumptions.hydrant_residual_psi),
                 view.counted != nullptr ? gpm_in_words(view.counted->rate) : std::string()}});
}

void add_heads(SheetBlocks& sheet, const RatedSource& view) {
    const rating::Terms& terms = view.findings.rating->terms;
    const supply::SuctionPoint point = supply::suction_point(view.source, view.findings.district);
    std::vector<SheetBlocks::Cells> rows;
    std::vector<Flow> flows{terms.minimum};
    for (const double flow : {250.0, 500.0, 750.0, 1000.0, 1500.0}) {
        if (gpm(flow) > terms.minimum) {
            flows.push_back(gpm(flow));
        }
    }
    for (const Flow flow : flows) {
        const Length head = point.head_at(flow);
        rows.push_back({in_thousands(in_gpm(flow)), fmt::format("{:.1f}", in_feet(head)),
                        head <= terms.most_head ? "within the terms" : "too much"});
    }
    sheet.table({"#Flow, gpm", "#Lift, losses and velocity head, ft",
                 fmt::format("Limit {:.0f} ft", in_feet(terms.most_head))},
                rows);
    if (!point.assumed.empty()) {
        sheet.note("Not measured, so a stated cautious value stands in the worksheet: " +
                   point.assumed_in_words() + ".");
    }
}

void add_suction_worksheet(SheetBlocks& sheet, const RatedSource& view) {
    const SuctionData& suction = view.source.suction;
    const auto count = [](std::optional<int> number) {
        return number ? fmt::format("{}", *number) : std::string();
    };
    sheet.subheading("Hydraulics worksheet")
        .facts(
            {{"Lift from drought level to the pump", feet_in_words(suction.lift)},
             {"Suction pipe, length", feet_in_words(suction.pipe)},
             {"Suction pipe, bore", inches_in_words(suction.pipe_diameter)},
             {"Pipe material", suction.material ? spoken(word(*suction.material)) : std::string()},
             {"90-degree elbows", count(suction.elbows_90)},
             {"45-degree elbows and reducers", count(suction.elbows_45)},
             {"Strainer and standpipe loss at 500 gpm", feet_in_words(suction.strainer_loss)},
             {"Hard suction of the engine",
              suction.hose ? feet_in_words(suction.hose)
                           : feet_in_words(view.findings.district.assumptions.suction_hose) +
                                 ", a planning value"}});
    add_heads(sheet, view);
    if (view.counted != nullptr) {
        sheet.note(fmt::format("At that lift a pump gives {:.0f} % of its rating.",
                               view.counted->pump_share * 100.0));
    }
}

}  // namespace

RatedSource rated_source(const Findings& findings, std::size_t source) {
    return {findings, findings.district.sources[source], findings.rating->sources[source],
            findings.water.counts[source]
                ? &supply::counted_source(findings.water, SourceIndex(source))
                : nullptr,
            findings.district.is_there(SourceIndex(source))};
}

void add_source_worksheet(SheetBlocks& sheet, const RatedSource& of) {
    if (of.source.kind == SourceKind::hydrant) {
        add_hydrant_worksheet(sheet, of);
    } else {
        add_suction_worksheet(sheet, of);
    }
}

}  // namespace farwater::reports
