#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "analyzer/hydraulics/pump.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/water_review.h"
#include "reports/explain/explanation.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

using supply::HoseLine;
using supply::HoseOption;

void option_engines(const Explained& explained, const HoseOption& option, WorkedPage& page) {
    for (std::size_t i = 0; i < option.engines.size(); ++i) {
        const supply::Arrival& engine = option.engines[i];
        page.sum(unit_words(explained.district(), engine.unit),
                 fmt::format("{} + {} drive", rolling_sum(explained, engine.unit, engine.leaves),
                             plain(engine.at_scene - engine.leaves)),
                 in_minutes(engine.at_scene), Digits::two, "min",
                 i == 0   ? "stands for the engine that attacks"
                 : i == 1 ? "pumps at the source"
                          : "in line");
    }
}

std::string lines_in_words(const HoseLine& line) {
    return fmt::format("{} line{} of {}", line.lines, line.lines == 1 ? "" : "s",
                       hose_words(line.size));
}

void limits_of_line(const Explained& explained, const HoseOption& option, WorkedPage& page) {
    const Assumptions& assumptions = explained.district().assumptions;
    const HoseLine& line = option.line;
    page.words("hose", lines_in_words(line));
    page.sum("from engine to engine",
             fmt::format("{} / {}", in_plain_feet(option.lay), line.engines - 1),
             in_feet(line.stretch), Digits::none, "ft");
    page.sum("the hose carries",
             fmt::format("{} x least(10000, 100 x sqrt(({} - {} - 0.4335 x {}) / ({} x {} / 100)))",
                         line.lines, plain(assumptions.supply_line_pressure_psi),
                         plain(assumptions.residual_pressure_psi),
                         in_plain_feet(std::max(line.rise_of_stretch, feet(0))),
                         plain(hydraulics::friction_coefficient(line.size)),
                         in_plain_feet(line.stretch)),
             in_gpm(line.by_hose), Digits::one, "gpm",
             "discharge, residual psi, rise in ft; coefficient x length in ft");
    page.number(
        "the weakest pump gives", in_gpm(line.by_pump), Digits::one, "gpm",
        fmt::format(
            "{} of its rating at {} psi",
            plain(hydraulics::pump_share_at_pressure(assumptions.supply_line_pressure_psi), 3),
            plain(assumptions.supply_line_pressure_psi)));
    page.number("the engine draws from the source", in_gpm(line.by_source), Digits::one, "gpm");
    if (line.by_volume) {
        const supply::CountedSource& source =
            supply::counted_source(explained.findings.water, option.source);
        page.sum("the water lasts for",
                 fmt::format("{} gal / {} + {}", plain(*source.usable),
                             plain(explained.working.need->duration), plain(source.inflow)),
                 in_gpm(*line.by_volume), Digits::one, "gpm", "over the duration, with its inflow");
    }
    page.number("the least of them", in_gpm(line.flow), Digits::one, "gpm",
                "limit: " + std::string(word(line.limit)));
}

void explain_nurse_at_house(const Explained& explained, const supply::NurseAtHouse& nurse,
                            const HoseOption& option, WorkedPage& page) {
    const District& district = explained.district();
    const Assumptions& assumptions = district.assumptions;
    const Unit& unit = at(district.units, nurse.tanker);
    const bool told = option.supply.nurse.valid();
    page.rests_on({"nurse_gpm", "nurse_hookup_min"});
    const std::vector<std::string> names = dump_site_names(explained.findings);
    page.words("nursing",
               fmt::format("{} {} the engine from {} until the hose lies", on_one_line(unit.id),
                           told ? "feeds" : "could feed", on_one_line(at(names, nurse.stands_at))));
    page.sum("it feeds from",
             fmt::format("{} + {} x {} / 1000 + {}", plain(nurse.there), in_plain_feet(nurse.hose),
                         plain(assumptions.lay_1000ft), plain(assumptions.nurse_hookup)),
             in_minutes(nurse.feeds_from), Digits::two, "min", "it is there, lays and couples");
    explain_nurse_rate(unit, assumptions, page);
    page.sum("what it delivers lasts",
             fmt::format("{} gal / {} gpm", plain(nurse.water), plain(assumptions.initial_attack)),
             in_minutes(nurse.water / assumptions.initial_attack), Digits::two, "min");
    page.number("gap without water that leaves",
                supply::in_tenths(told ? *option.supply.gap : *option.supply.gap_nursing) / 10.0,
                Digits::one, "min", "rounded up");
}

// Of the engine that attacks, before the hose lies.
void explain_gap_of_line(const Explained& explained, const HoseOption& option, WorkedPage& page) {
    const Assumptions& assumptions = explained.district().assumptions;
    if (assumptions.initial_attack <= gpm(0) || option.line.flow <= gpm(0)) {
        return;
    }
    page.rests_on({"initial_attack_gpm", "initial_attack_after_arrival_min"});
    const Volume tank = at(explained.district().units, option.engines.front().unit).tank;
    const Duration first = duration_of(explained.working.first_arrival);
    const Duration attack = first + assumptions.initial_attack_after_arrival;
    page.sum("its own tank is empty",
             fmt::format("{} + {} + {} gal / {} gpm", plain(first),
                         plain(assumptions.initial_attack_after_arrival), plain(tank),
                         plain(assumptions.initial_attack)),
             in_minutes(attack + tank / assumptions.initial_attack), Digits::two, "min",
             "the engine that attacks");
    explain_gap(supply::dry_before(option.line.ready, attack, tank, assumptions.initial_attack,
                                   std::nullopt),
                assumptions.initial_attack, page);
    if (option.nurse) {
        explain_nurse_at_house(explained, *option.nurse, option, page);
    }
}

void clocks_of_line(const Explained& explained, const HoseOption& option, WorkedPage& page) {
    const Assumptions& assumptions = explained.district().assumptions;
    const HoseLine& line = option.line;
    page.sum("set up and lay",
             fmt::format("{} + {} x {} / 1000 x {}", plain(option.setup), line.lines,
                         in_plain_feet(option.lay), plain(assumptions.lay_1000ft)),
             in_minutes(line.work), Digits::two, "min", "one length after the other");
    page.sum("water at the house",
             fmt::format("{} + {}", plain(option.engines.back().at_scene), plain(line.work)),
             in_minutes(line.ready), Digits::two, "min", "when the last of the engines has come");
    page.sum("cautiously",
             fmt::format("{} + {} x {} x {}", plain(line.ready), plain(line.work),
                         plain(supply::share_of_scatter), plain(assumptions.stage_cv)),
             in_minutes(line.ready + line.work * (supply::cautious_factor(assumptions) - 1.0)),
             Digits::two, "min", "set-up and laying slowed");
    const Duration first = duration_of(explained.working.first_arrival);
    page.sum("the flow has to hold from",
             fmt::format("{} + {}", plain(first), plain(assumptions.start_after_arrival)),
             in_minutes(first + assumptions.start_after_arrival), Digits::two, "min",
             "a line that is not there by then counts 0");
    explain_gap_of_line(explained, option, page);
    page.number("cautious flow by hose", in_gpm(flow_of(option.supply.cautious)), Digits::one,
                "gpm", std::string(word(option.supply.state)));
    page.number("from the late horizon on", in_gpm(flow_of(option.supply.later)), Digits::one,
                "gpm");
}

// The first of the best, as the answer has it.
const HoseOption* best_option(const std::vector<HoseOption>& options) {
    const HoseOption* best = nullptr;
    for (const HoseOption& option : options) {
        if (best == nullptr || supply::worse(supply::PlanOrder{}, best->supply, option.supply)) {
            best = &option;
        }
    }
    return best;
}

}  // namespace

void explain_hose(const Explained& explained, WorkedPage& page) {
    const HoseOption* best = best_option(explained.working.options);
    if (best == nullptr) {
        return;
    }
    const District& district = explained.district();
    page.part(fmt::format("By hose from {}, {}", source_words(district, best->source),
                          word(best->supply.mode)));
    explain_source(explained, best->source, page);
    page.rests_on({"relay_reach_ft", "lay_1000ft_min", "supply_line_pressure_psi",
                   "residual_pressure_psi", "engine_hose_2_5in_ft", "engine_pump_gpm", "stage_cv",
                   "start_after_arrival_min", "late_horizon_min"});
    const bool own = !supply::counted_source(explained.findings.water, best->source).is_for_all();
    page.number(
        "hose from there to the house", in_feet(best->lay), Digits::none, "ft",
        own ? "water of this property alone: straight over its ground, where that is shorter" : "");
    page.number("rise", in_feet(best->rise), Digits::one, "ft", "a fall counts as level");
    option_engines(explained, *best, page);
    limits_of_line(explained, *best, page);
    clocks_of_line(explained, *best, page);
    for (const HoseOption& other : explained.working.options) {
        if (&other != best) {
            page.number(fmt::format("also: {} with {} engines, {}",
                                    on_one_line(at(district.sources, other.source).id),
                                    other.line.engines, lines_in_words(other.line)),
                        in_gpm(flow_of(other.supply.cautious)), Digits::one, "gpm cautious",
                        fmt::format("{} gpm from minute {}", plain(other.line.flow),
                                    plain(other.line.ready)));
        }
    }
}

}  // namespace farwater::reports
