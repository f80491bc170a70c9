#include "reports/rating/tanker_lines.h"

#include <algorithm>

#include "analyzer/supply/visits.h"

namespace farwater::reports {
namespace {

// The shuttle that the answer is of: among those that were looked at the one with its dump site,
// hose and tankers. Null where hose or nothing brings the water.
const supply::ShuttleWorking* shuttle_behind(const supply::Working& working) {
    const supply::ParcelSupply& answer = working.supply;
    const auto is_it = [&](const supply::ShuttleWorking& look) {
        const supply::ParcelSupply& of = look.supply;
        return of.dump_site == answer.dump_site && of.approach == answer.approach &&
               of.hose_ft == answer.hose_ft && of.tankers == answer.tankers &&
               of.handbook == answer.handbook;
    };
    const auto found = std::ranges::find_if(working.looked, is_it);
    return answer.mode != SupplyMode::shuttle || found == working.looked.end() ? nullptr : &*found;
}

}  // namespace

std::vector<TankerLine> tanker_lines(const rating::PlaceCalculation& calculation) {
    std::vector<TankerLine> lines;
    const supply::ShuttleWorking* look = shuttle_behind(calculation.working);
    if (look == nullptr) {
        return lines;
    }
    const supply::Incident& incident = look->shuttle.incident;
    for (const supply::Tanker& tanker : incident.tankers) {
        const supply::FillSite& site = incident.fill_sites[tanker.fill_site];
        lines.push_back({.unit = tanker.unit,
                         .source = look->shuttle.fills.at(tanker.fill_site).source,
                         .usable = tanker.delivered,
                         .fill = supply::fill_visit(site, tanker).in_place(),
                         .loaded = tanker.leg.loaded,
                         .offload = supply::offload_visit(tanker),
                         .empty = tanker.leg.empty});
    }
    return lines;
}

}  // namespace farwater::reports
