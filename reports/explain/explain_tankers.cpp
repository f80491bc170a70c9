#include <algorithm>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "analyzer/supply/handbook.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/visits.h"
#include "reports/explain/explanation.h"

namespace farwater::reports {
namespace {

using supply::CasePlan;
using supply::Incident;
using supply::ShuttleWorking;
using supply::Tanker;

const supply::Arrival* arrival_of(const ShuttleWorking& look, UnitIndex unit) {
    const auto found = std::ranges::find(look.scene.tankers, unit, &supply::Arrival::unit);
    return found == look.scene.tankers.end() ? nullptr : &*found;
}

void arrival_line(const Explained& explained, const ShuttleWorking& look, const Tanker& tanker,
                  WorkedPage& page) {
    const supply::Arrival* arrival = arrival_of(look, tanker.unit);
    if (arrival != nullptr) {
        page.sum("  there, full",
                 fmt::format("{} + {} drive", rolling_sum(explained, tanker.unit, arrival->leaves),
                             plain(arrival->at_scene - arrival->leaves)),
                 in_minutes(arrival->at_scene), Digits::two, "min");
        rest_on_turnout(explained, tanker.unit, page);
    }
}

std::string backing_note(Duration before, Duration usual) {
    return before > usual ? fmt::format("{} min of backing in it", plain(before - usual))
                          : std::string();
}

void flow_without_line(const ShuttleWorking& look, UnitIndex tanker, WorkedPage& page) {
    const auto found = std::ranges::find(look.without, tanker, &supply::FlowWithout::tanker);
    if (found != look.without.end()) {
        page.number("  cautious flow without it", in_gpm(flow_of(found->flow)), Digits::one, "gpm",
                    "of the shuttle, the others as they are, and without the tanks it carries");
    }
}

// One tanker: when it is there, what a trip takes and what it brings in by itself.
void lines_of_tanker(const Explained& explained, const ShuttleWorking& look, const Tanker& tanker,
                     WorkedPage& page) {
    if (!at(explained.district().units, tanker.unit).fill_limit) {
        page.rests_on({"fill_limit_gpm"});
    }
    if (!at(explained.district().units, tanker.unit).offload) {
        page.rests_on({"offload_gpm"});
    }
    const District& district = explained.district();
    const Incident& incident = look.shuttle.incident;
    const supply::FillSite& site = incident.fill_sites[tanker.fill_site];
    const Unit& unit = at(district.units, tanker.unit);
    const supply::FillVisit fill = supply::fill_visit(site, tanker);
    page.words(unit_words(district, tanker.unit), fmt::format("{} gal tank", plain(unit.tank)),
               fmt::format("fill limit {}, offload {}: {}", plain(tanker.fill_limit),
                           plain(tanker.offload),
                           tanker.evidence == Evidence::assumed ? "at least one is assumed"
                                                                : word(tanker.evidence)));
    arrival_line(explained, look, tanker, page);
    page.sum(
        "  gallons a load",
        fmt::format("{} x {}", plain(unit.tank), plain(district.assumptions.delivered_fraction, 3)),
        in_gallons(tanker.delivered), Digits::none, "gal");
    page.sum(
        "  in the fill place",
        fmt::format("{} + {} gal / least({}, {}) + {}", plain(fill.before), plain(tanker.refilled),
                    plain(tanker.fill_limit), plain(site.pump), plain(fill.after)),
        in_minutes(fill.in_place()), Digits::two, "min",
        backing_note(fill.before, district.assumptions.fill_before));
    page.sum(
        "  in the offload slot",
        fmt::format("{} + {} gal / {} + {}", plain(tanker.offload_before), plain(tanker.delivered),
                    plain(tanker.offload), plain(tanker.offload_after)),
        in_minutes(supply::offload_visit(tanker)), Digits::two, "min",
        backing_note(tanker.offload_before, district.assumptions.offload_before));
    const Duration cycle = supply::undisturbed_cycle(incident, tanker);
    page.sum("  one trip, nobody in its way",
             fmt::format("{} fill + {} loaded + {} offload + {} empty", plain(fill.in_place()),
                         plain(tanker.leg.loaded), plain(supply::offload_visit(tanker)),
                         plain(tanker.leg.empty)),
             in_minutes(cycle), Digits::two, "min");
    if (const Duration way = incident.dump_site.single_file; way > minutes(0)) {
        const Duration visit = supply::offload_visit(tanker);
        page.sum("  alone on the narrow way",
                 fmt::format("{} in + {} offload + {} out", plain(way), plain(visit), plain(way)),
                 in_minutes(way + visit + way), Digits::two, "min",
                 "a part of the trip; the next tanker waits as long");
    }
    page.sum("  its own gpm", fmt::format("{} / {}", plain(tanker.delivered), plain(cycle)),
             in_gpm(tanker.delivered / cycle), Digits::one, "gpm");
    flow_without_line(look, tanker.unit, page);
}

void standing_by(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    bool first = true;
    for (const supply::Arrival& arrival : look.scene.tankers) {
        const auto& run = look.shuttle.incident.tankers;
        if (std::ranges::find(run, arrival.unit, &Tanker::unit) == run.end()) {
            page.words(
                unit_words(explained.district(), arrival.unit),
                fmt::format("stands by, there at minute {}", plain(arrival.at_scene)),
                std::exchange(first, false)
                    ? "in the shuttle it would add nothing or hold up others, or it has no way"
                    : "");
            flow_without_line(look, arrival.unit, page);
        }
    }
}

void handbook_line(const Incident& incident, WorkedPage& page) {
    std::string sum;
    for (const Tanker& tanker : incident.tankers) {
        sum += fmt::format("{}{} / {}", sum.empty() ? "" : " + ", plain(tanker.delivered),
                           plain(supply::undisturbed_cycle(incident, tanker)));
    }
    page.sum("handbook sum", sum, in_gpm(supply::handbook_flow(incident)), Digits::one, "gpm",
             "no queue, no storage, no start: for rating sheets, not to plan on");
}

}  // namespace

void explain_tankers(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    if (look.shuttle.incident.tankers.empty()) {
        return;
    }
    page.part("The tankers of the shuttle");
    page.rests_on({"delivered_fraction", "refill_fraction", "fill_before_min", "fill_after_min",
                   "offload_before_min", "offload_after_min", "backing_min"});
    for (const Tanker& tanker : look.shuttle.incident.tankers) {
        lines_of_tanker(explained, look, tanker, page);
    }
    standing_by(explained, look, page);
    handbook_line(look.shuttle.incident, page);
}

}  // namespace farwater::reports
