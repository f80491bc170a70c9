#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "analyzer/supply/disorder.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/visits.h"
#include "reports/explain/explanation.h"

namespace farwater::reports {
namespace {

using supply::CasePlan;
using supply::Incident;
using supply::ShuttleWorking;

void first_minutes_lines(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    const CasePlan& shuttle = look.shuttle;
    const Incident& incident = shuttle.incident;
    const Assumptions& assumptions = explained.district().assumptions;
    page.rests_on({"initial_attack_gpm", "initial_attack_after_arrival_min"});
    if (incident.initial_attack.flow > gpm(0)) {
        page.sum("tank water on the fire",
                 fmt::format("{} + {}", plain(incident.dump_site.engine_arrives),
                             plain(assumptions.initial_attack_after_arrival)),
                 in_minutes(shuttle.tank_water), Digits::two, "min");
        if (!at(explained.district().units, look.scene.engines.front().unit).tank_known) {
            page.rests_on({"engine_tank_gal"});
        }
        page.sum("the engine's own tank lasts",
                 fmt::format("{} gal / {} gpm", plain(incident.dump_site.engine_tank),
                             plain(incident.initial_attack.flow)),
                 in_minutes(incident.dump_site.engine_tank / incident.initial_attack.flow),
                 Digits::two, "min", "the initial attack draws on the same water");
    }
    if (shuttle.continuous) {
        page.number("water that goes on, from", in_minutes(*shuttle.continuous), Digits::two, "min",
                    "found by running the first minutes, load by load");
    } else {
        page.words("water that goes on", "not to the end of the window");
    }
    explain_gap(shuttle.gap, incident.initial_attack.flow, page);
    if (shuttle.gap_nursing) {
        page.number("gap if the first tanker that can feeds the engine",
                    in_minutes(*shuttle.gap_nursing), Digits::two, "min",
                    fmt::format("until the draft is up; then {} gpm is held, cautious",
                                plain(in_gpm(flow_of(shuttle.nursing_flow)))));
    }
    if (const supply::Tanker* nurse = supply::first_to_nurse(incident)) {
        page.rests_on({"nurse_gpm", "nurse_hookup_min"});
        const Unit& unit = at(explained.district().units, nurse->unit);
        page.words("nursing", unit.id + " feeds the engine before the draft is up",
                   fmt::format("hooked up in {} min", plain(incident.dump_site.nurse_hookup)));
        explain_nurse_rate(unit, assumptions, page);
    }
}

std::string gain_name(Limit limit) {
    switch (limit) {
        case Limit::fleet:
            return "one more tanker like the largest";
        case Limit::fill_site:
            return "one more fill place, with pump";
        case Limit::source_volume:
            return "twice the water in the source";
        case Limit::draft:
            return "the draft without its cap";
        case Limit::storage:
            return "one more tank of 2,500 gal";
        case Limit::transfer:
            return "one more siphon that runs";
        case Limit::road_room:
            return "road for one more of the tanks that came";
        case Limit::offload:
            return "one more offload slot";
        case Limit::readiness:
            return "everything ready 5 min earlier";
        case Limit::crew:
            return "people for one more fill site";
        default:
            return std::string(word(limit));
    }
}

void gain_lines(const Explained& explained, const CasePlan& shuttle, WorkedPage& page) {
    const supply::ParcelSupply& supply = explained.supply();
    const bool for_want_of_engine =
        supply.mode == SupplyMode::shuttle && supply.limit == Limit::engines;
    page.part("What limits the shuttle, and the sustained flow that one more of each thing gains");
    page.words("limit of the shuttle",
               std::string(word(for_want_of_engine ? Limit::engines : shuttle.limit)),
               "the largest gain; each is a run of its own. The supply line may hold it lower");
    for (const supply::Gain& gain : shuttle.gains) {
        page.number(gain_name(gain.limit), in_gpm(flow_of(gain.flow)), Digits::one, "gpm more");
    }
    page.number("one more engine", supply::in_gpm(supply.gain_engine), Digits::none, "gpm more",
                "like the last one there by the start, and with it; above what the answer holds");
}

void slot_lines(const Assumptions& assumptions, const CasePlan& shuttle, WorkedPage& page) {
    if (assumptions.offload_slots < 2) {
        return;
    }
    page.rests_on({"crew_offload_slot"});
    const supply::DumpSite& site = shuttle.incident.dump_site;
    page.number("slots to offload at", site.offload_slots, Digits::none, "slots",
                fmt::format("of {}: a further one is not run without people for it and every job",
                            assumptions.offload_slots));
    for (int slot = 2; slot <= site.offload_slots; ++slot) {
        page.number(fmt::format("people for slot {} are there at", slot),
                    in_minutes(site.further_slots_from[static_cast<std::size_t>(slot) - 2]),
                    Digits::two, "min");
    }
}

void crew_lines(const Explained& explained, const CasePlan& shuttle, WorkedPage& page) {
    const Assumptions& a = explained.district().assumptions;
    page.part("The people it takes, and those who are there by the start");
    page.rests_on({"crew_attack", "crew_dump_site", "crew_fill_site", "crew_traffic",
                   "crew_water_supply", "crew_tanker"});
    const int further = shuttle.incident.dump_site.offload_slots - 1;
    page.sum("people needed",
             fmt::format("{} + {} + {}{} x {} + {} + {} + {} x {}", a.crew_attack, a.crew_dump_site,
                         further > 0 ? fmt::format("{} x {} + ", a.crew_offload_slot, further) : "",
                         a.crew_fill_site, shuttle.fills.size(), a.crew_traffic,
                         a.crew_water_supply, a.crew_tanker, shuttle.tankers),
             shuttle.crew_needed, Digits::none, "people",
             further > 0
                 ? "attack, dump site, its further slots, fill sites, traffic, water supply "
                   "officer, tankers"
                 : "attack, dump site, fill sites, traffic, water supply officer, tankers");
    slot_lines(a, shuttle, page);
    page.number("people there", shuttle.crew.people, Digits::none, "people",
                "a further fill site is not opened without people for every job");
    if (shuttle.crew.not_listed > 0) {
        page.number("units there whose crew nobody lists",
                    static_cast<double>(shuttle.crew.not_listed), Digits::none, "units",
                    "they count as enough");
    }
}

void balance_lines(const CasePlan& shuttle, WorkedPage& page) {
    const Incident& incident = shuttle.incident;
    const Flow sustained = flow_of(shuttle.sustained);
    page.number("sustained flow of the shuttle", in_gpm(sustained), Digits::one, "gpm",
                "searched: the shuttle is run load by load, and the engine never runs dry");
    const Duration dry =
        supply::lasts(incident, shuttle.window.start,
                      tenths_of_gpm(in_tenths(shuttle.sustained) + 1), shuttle.window.duration);
    if (dry < shuttle.window.duration) {
        page.number("a tenth of a gpm more is dry after", in_minutes(dry), Digits::two, "min",
                    "from the start of the window; 0: at once, or above the draft's limit");
    }
    page.sum("gallons drawn in the window",
             fmt::format("{} x {}", plain(sustained), plain(shuttle.window.duration)),
             in_gallons(sustained * shuttle.window.duration), Digits::none, "gal");
    page.number("no order of dispatch holds more than",
                in_gpm(supply::window_bound(incident, shuttle.window)), Digits::one, "gpm",
                "an upper bound for this window, not a flow to plan on");
    page.number("disorder", in_gpm(supply::disorder_flow(incident, shuttle.window)), Digits::one,
                "gpm", "long run, every stage as irregular as it well can be");
}

void supply_line_lines(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    const Assumptions& assumptions = explained.district().assumptions;
    page.part("The supply line from the dump site to the house");
    page.rests_on({"supply_line_pressure_psi", "residual_pressure_psi"});
    for (std::size_t i = 0; i < std::min<std::size_t>(2, look.scene.engines.size()); ++i) {
        if (!at(explained.district().units, look.scene.engines[i].unit).hose) {
            page.rests_on({"engine_hose_2_5in_ft"});
        }
    }
    if (!look.line) {
        page.words("supply line", "no hose that is there is long enough",
                   fmt::format("{} ft are needed", plain(in_feet(look.lay.length), 0)));
        return;
    }
    const supply::HouseLine& line = *look.line;
    page.words("hose", std::string(hose_words(line.size)),
               "the largest of which attack and draft engine have enough");
    page.sum("it carries",
             fmt::format("least(10000, 100 x sqrt(({} - {} - 0.4335 x {}) / ({} x {} / 100)))",
                         plain(assumptions.supply_line_pressure_psi),
                         plain(assumptions.residual_pressure_psi),
                         in_plain_feet(std::max(line.rise, feet(0))),
                         plain(hydraulics::friction_coefficient(line.size)),
                         in_plain_feet(look.lay.length)),
             in_gpm(line.flow), Digits::one, "gpm",
             "discharge, residual psi, rise in ft; coefficient x length in ft");
}

}  // namespace

void explain_shuttle_flow(const Explained& explained, const ShuttleWorking& look,
                          WorkedPage& page) {
    const CasePlan& shuttle = look.shuttle;
    if (shuttle.incident.tankers.empty()) {
        return;
    }
    page.part("The first minutes");
    first_minutes_lines(explained, look, page);
    supply_line_lines(explained, look, page);
    page.part("The flow that the shuttle holds");
    page.rests_on({"stage_cv", "late_horizon_min", "offload_slots"});
    page.sum("it has to hold until",
             fmt::format("{} + {}", plain(shuttle.window.start), plain(shuttle.window.duration)),
             in_minutes(shuttle.window.start + shuttle.window.duration), Digits::two, "min");
    balance_lines(shuttle, page);
    const Assumptions& assumptions = explained.district().assumptions;
    page.sum("every stage made longer by",
             fmt::format("1 + 0.35 x {}", plain(assumptions.stage_cv)),
             supply::cautious_factor(assumptions), Digits::three, "times",
             "0.35 of the scatter of stage times: holds in about nine shuttles of ten");
    page.number("cautious flow of the shuttle", in_gpm(flow_of(shuttle.cautious)), Digits::one,
                "gpm", "the same search with the longer stages");
    page.sum(
        "taken off for caution",
        fmt::format("{} - {}", plain(flow_of(shuttle.sustained)), plain(flow_of(shuttle.cautious))),
        (in_tenths(shuttle.sustained) - in_tenths(shuttle.cautious)) / 10.0, Digits::one, "gpm");
    if (look.line) {
        const auto through = [&](std::string what, HeldFlow flow, HeldFlow held_flow) {
            page.sum(std::move(what),
                     fmt::format("least({}, {})", plain(flow_of(flow)), plain(look.line->flow)),
                     in_gpm(flow_of(held_flow)), Digits::one, "gpm");
        };
        through("sustained, through the line", shuttle.sustained, look.supply.sustained);
        through("cautious, through the line", shuttle.cautious, look.supply.cautious);
        through("one tanker out, through the line", shuttle.one_tanker_out,
                look.supply.one_tanker_out);
        through("from the late horizon on", shuttle.later, look.supply.later);
    }
    crew_lines(explained, shuttle, page);
    gain_lines(explained, shuttle, page);
}

}  // namespace farwater::reports
