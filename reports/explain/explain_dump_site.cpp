#include <algorithm>
#include <string>

#include <fmt/format.h>

#include "reports/explain/explanation.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

using supply::ShuttleWorking;

// Minutes before the tanks are up and the draft is.
void dump_site_clocks(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    const Assumptions& assumptions = explained.district().assumptions;
    const supply::DumpSite& site = look.scene.set_up;
    const Duration extra = season_at(explained).extra_setup;
    page.rests_on({"setup_portable_tank_min", "setup_draft_min"});
    page.number("first portable tank up", in_minutes(site.tanks_ready), Digits::two, "min");
    const Duration set_up = std::max(site.tanks_ready, look.scene.engines[1].at_scene) +
                            assumptions.setup_draft + extra;
    const bool line_is_later = site.draft_ready > set_up;
    page.sum(line_is_later ? "draft set up" : "draft ready",
             fmt::format("most({}, {}) + {} + {} of the season", plain(site.tanks_ready),
                         plain(look.scene.engines[1].at_scene), plain(assumptions.setup_draft),
                         plain(extra)),
             in_minutes(set_up), Digits::two, "min", "tank up and draft engine there, then set-up");
    if (line_is_later) {
        const supply::LaidLine& line = look.scene.to_house;
        page.rests_on({"lay_1000ft_min"});
        page.sum("supply line laid",
                 fmt::format("{} + {} x {} / 1000", plain(line.from), plain(assumptions.lay_1000ft),
                             plain(in_feet(line.hose), 0)),
                 in_minutes(line.lies), Digits::two, "min",
                 "from when its hose is there, in lengths of 50 ft, beside the draft's set-up");
        page.sum("draft ready", fmt::format("most({}, {})", plain(set_up), plain(line.lies)),
                 in_minutes(site.draft_ready), Digits::two, "min", "nothing flows before both");
    }
}

std::string_view job_of(std::size_t place) {
    switch (place) {
        case 0:
            return "attacks";
        case 1:
            return "drafts at the dump site";
        default:
            return "free: may run a fill site";
    }
}

void engines_there(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    for (std::size_t i = 0; i < look.scene.engines.size(); ++i) {
        const supply::Arrival& engine = look.scene.engines[i];
        page.sum(unit_words(explained.district(), engine.unit),
                 fmt::format("{} + {} drive", rolling_sum(explained, engine.unit, engine.leaves),
                             plain(engine.at_scene - engine.leaves)),
                 in_minutes(engine.at_scene), Digits::two, "min", std::string(job_of(i)));
        rest_on_turnout(explained, engine.unit, page);
    }
}

void tankers_held_back(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    for (const supply::Arrival& tanker : look.scene.held_back) {
        page.sum(unit_words(explained.district(), tanker.unit),
                 fmt::format("{} + {} drive", rolling_sum(explained, tanker.unit, tanker.leaves),
                             plain(tanker.at_scene - tanker.leaves)),
                 in_minutes(tanker.at_scene), Digits::two, "min",
                 "would come over the hose or past the house: not in the shuttle, "
                 "only its tank counts");
        rest_on_turnout(explained, tanker.unit, page);
    }
}

std::string why_this_lay(const Explained& explained, const ShuttleWorking& look) {
    const auto& lays = explained.working.lays;
    const auto place = std::ranges::find(lays, look.lay.dump_site, &HoseLay::dump_site);
    const DumpSiteCandidate& site =
        at(explained.findings.seasons.front().trips.dump_sites, look.lay.dump_site);
    const std::string order = fmt::format(
        "{} of {} in hose reach, the officer's own places first, "
        "then the nearest",
        place - lays.begin() + 1, lays.size());
    const bool first = place == lays.begin();
    return (site.officers_place ? "the officer's own place; " : "") + order +
           (first ? "" : "; with what hose closes the answer from there is better");
}

// All lays where more than one was worked out.
void lays_looked_at(const Explained& explained, WorkedPage& page) {
    const auto names = dump_site_names(explained.findings);
    if (explained.working.looked.size() < 2) {
        return;
    }
    for (const ShuttleWorking& look : explained.working.looked) {
        if (look.shuttle.passed_over) {
            page.words("from " + on_one_line(at(names, look.lay.dump_site)),
                       "no better than what was found before");
            continue;
        }
        page.number("cautious flow from " + on_one_line(at(names, look.lay.dump_site)),
                    in_gpm(flow_of(look.supply.cautious)), Digits::one, "gpm",
                    fmt::format("{}, {} ft of hose; the better answer is taken",
                                word(look.scene.lane), plain(in_feet(look.lay.length), 0)));
    }
}

void lane_line(const ShuttleWorking& look, WorkedPage& page) {
    const bool roads_let = look.lay.lane == LaneClass::through;
    const std::string why = look.scene.lane == LaneClass::through ? "tankers drive through"
                            : roads_let ? "tankers must back: no lane is known beside the tanks"
                                        : "tankers must back or turn there";
    page.words("lane", std::string(word(look.scene.lane)),
               why + ", with the road under the hose closed");
}

// "2000 + 3000", of those that are there by the horizon.
std::string sum_of_tanks(const District& district, const std::vector<supply::Arrival>& arrivals) {
    std::string sum;
    for (const supply::Arrival& arrival : arrivals) {
        if (arrival.at_scene <= district.assumptions.late_horizon) {
            sum += (sum.empty() ? "" : " + ") + plain(at(district.units, arrival.unit).tank);
        }
    }
    return sum;
}

// "1000 + (2000 + 3000) x 0.9".
std::string sum_on_wheels(const District& district, const supply::Scene& scene) {
    const std::string engines = sum_of_tanks(district, scene.engines);
    std::string tankers = sum_of_tanks(district, scene.tankers);
    const std::string others = sum_of_tanks(district, scene.held_back);
    tankers += (tankers.empty() || others.empty() ? "" : " + ") + others;
    return (engines.empty() ? "0" : engines) +
           (tankers.empty() ? ""
                            : fmt::format(" + ({}) x {}", tankers,
                                          plain(district.assumptions.delivered_fraction, 3)));
}

void water_on_wheels(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    page.rests_on({"delivered_fraction", "late_horizon_min"});
    page.sum("water on wheels", sum_on_wheels(explained.district(), look.scene),
             in_gallons(look.scene.on_wheels), Digits::none, "gal",
             fmt::format("in the tanks that are there by minute {}; of a tanker the part "
                         "that comes out",
                         plain(explained.district().assumptions.late_horizon)));
}

}  // namespace

void explain_dump_site(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    const auto names = dump_site_names(explained.findings);
    const DumpSiteCandidate& site =
        at(explained.findings.seasons.front().trips.dump_sites, look.lay.dump_site);
    page.part("The dump site, " + on_one_line(at(names, look.lay.dump_site)));
    page.words("why here", why_this_lay(explained, look));
    lays_looked_at(explained, page);
    page.rests_on({"hose_reach_ft", "standoff_ft", "dump_site_spacing_ft", "turnaround_reach_ft"});
    page.number("hose from there to the house", in_feet(look.lay.length), Digits::none, "ft");
    lane_line(look, page);
    if (look.lay.single_file_s > 0) {
        page.number("single file", look.lay.single_file_s / 60.0, Digits::two, "min",
                    "each way from the last place where two tankers can pass, as the slowest "
                    "drives: one at a time, so there is one slot");
        page.rests_on({"two_way_width_ft"});
    }
    if (site.grade_pct) {
        page.number("steepest grade there", *site.grade_pct, Digits::one, "%");
    }
    engines_there(explained, look, page);
    tankers_held_back(explained, look, page);
    explain_tank_line(explained, look, page);
    if (look.scene.missing == Limit::none) {
        dump_site_clocks(explained, look, page);
    } else {
        page.words("no continuous flow", std::string(word(look.scene.missing)),
                   look.scene.missing == Limit::no_route
                       ? "no tanker gets there but over the hose or past the house"
                       : "it takes a tanker, a second engine to draft, and a portable tank");
    }
    water_on_wheels(explained, look, page);
}

}  // namespace farwater::reports
