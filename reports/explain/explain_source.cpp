#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "analyzer/hydraulics/hydrant_flow.h"
#include "analyzer/hydraulics/suction.h"
#include "analyzer/hydraulics/suction_head.h"
#include "analyzer/supply/suction_point.h"
#include "analyzer/supply/water_review.h"
#include "reports/cards/card_words.h"
#include "reports/explain/explanation.h"
#include "reports/explain/source_worksheet.h"

namespace farwater::reports {
namespace {

using supply::CountedSource;

std::string_view default_rate_key(SourceKind kind) {
    switch (kind) {
        case SourceKind::hydrant:
            return "hydrant_rate_gpm";
        case SourceKind::dry_hydrant:
            return "dry_hydrant_rate_gpm";
        case SourceKind::draft_site:
            return "draft_site_rate_gpm";
        case SourceKind::cistern:
            break;
    }
    return "cistern_rate_gpm";
}

void hydrant_lines(const District& district, const WaterSource& source,
                   const CountedSource& counted, WorkedPage& page) {
    const Assumptions& assumptions = district.assumptions;
    const HydrantData& hydrant = source.hydrant;
    const bool by_test = counted.limit == RateLimit::flow_test && hydrant.test_flow;
    if (by_test && counted.rate == *hydrant.test_flow &&
        !hydraulics::drops_enough(
            {*hydrant.static_psi, *hydrant.residual_psi, *hydrant.test_flow})) {
        page.number("flow of the test", in_gpm(counted.rate), Digits::one, "gpm",
                    "not carried on: the pressure hardly fell");
    } else if (by_test) {
        page.rests_on({"hydrant_residual_psi"});
        page.sum("flow test carried on",
                 fmt::format("{} x ({} - {})^0.54 / ({} - {})^0.54", plain(*hydrant.test_flow),
                             plain(*hydrant.static_psi), plain(assumptions.hydrant_residual_psi),
                             plain(*hydrant.static_psi), plain(*hydrant.residual_psi)),
                 in_gpm(counted.rate), Digits::one, "gpm", "static and residual in psi");
    }
    if (counted.limit == RateLimit::main) {
        page.rests_on({"weak_main_rate_gpm", "weak_main_in"});
    }
    if (counted.limit == RateLimit::colour) {
        page.rests_on({"weak_main_rate_gpm"});
    }
}

Length friction(const hydraulics::SuctionPipe& pipe, Flow flow, bool manning) {
    return manning ? hydraulics::manning_loss(pipe, flow)
                   : hydraulics::hazen_williams_loss(pipe, flow);
}

// Friction by one formula in one bore, with the numbers in it.
void friction_line(std::string what, const hydraulics::SuctionPipe& pipe, Flow flow, bool manning,
                   WorkedPage& page) {
    if (!(pipe.length > feet(0))) {
        return;
    }
    const std::string length = in_plain_feet(pipe.length);
    const std::string bore = plain(in_inches(pipe.diameter));
    const std::string q = plain(flow);
    if (manning) {
        page.sum(std::move(what),
                 fmt::format("{} x {}^2 x (0.40853 x {} / {}^2)^2 / (1.486^2 x ({} / 48)^(4 / 3))",
                             length, plain(pipe.roughness.manning_n, 4), q, bore, bore),
                 in_feet(friction(pipe, flow, manning)), Digits::two, "ft",
                 "Manning: ft, n, gpm, inches");
    } else {
        page.sum(std::move(what),
                 fmt::format("10.472 x {} x ({} / {})^1.852 / {}^4.871", length, q,
                             plain(pipe.roughness.hazen_williams_c), bore),
                 in_feet(friction(pipe, flow, manning)), Digits::two, "ft",
                 "Hazen-Williams: ft, gpm, C, inches");
    }
}

void suction_lines(const District& district, const WaterSource& source,
                   const CountedSource& counted, WorkedPage& page) {
    const supply::SuctionPoint point = supply::suction_point(source, district);
    const hydraulics::SuctionLine& line = point.line;
    const Flow flow = counted.rate;
    const bool manning =
        point.formula == SuctionFriction::manning ||
        (point.formula == SuctionFriction::conservative &&
         hydraulics::suction_loss(line, flow, SuctionFriction::manning) >
             hydraulics::suction_loss(line, flow, SuctionFriction::hazen_williams));
    page.number(
        "static lift", in_feet(point.lift), Digits::one, "ft",
        source.suction.lift ? "from the drought level" : "not known: the highest that may be");
    page.number(
        "pumps lift in practice", in_feet(hydraulics::practical_lift(point.altitude)), Digits::one,
        "ft",
        fmt::format("at {} ft above the sea; not to plan on", plain(in_feet(point.altitude), 0)));
    page.number("lift and losses may use up", in_feet(point.head_limit), Digits::two, "ft",
                "the planning limit, or less where the air is thin or the water warm");
    friction_line("friction in the pipe, fittings in it", line.pipe, flow, manning, page);
    friction_line("friction in the hard suction", line.hose, flow, manning, page);
    page.sum("strainer and entrance",
             fmt::format("{} x ({} / 500)^2", in_plain_feet(line.entrance_at_500), plain(flow)),
             in_feet(line.entrance_at_500) * std::pow(in_gpm(flow) / 500.0, 2.0), Digits::two,
             "ft");
    page.sum("velocity head",
             fmt::format("(0.40853 x {} / {}^2)^2 / 64.348", plain(flow),
                         plain(in_inches(line.hose.diameter))),
             in_feet(hydraulics::velocity_head(line.hose.diameter, flow)), Digits::two, "ft");
    const double entrance = in_feet(line.entrance_at_500) * std::pow(in_gpm(flow) / 500.0, 2.0);
    page.sum("lift and all losses at that rate",
             fmt::format("{} + {} + {} + {} + {}", plain(in_feet(point.lift)),
                         plain(in_feet(friction(line.pipe, flow, manning))),
                         plain(in_feet(friction(line.hose, flow, manning))), plain(entrance),
                         plain(in_feet(hydraulics::velocity_head(line.hose.diameter, flow)))),
             in_feet(point.head_at(flow)), Digits::two, "ft",
             "by the formula that loses more, unless the district chose one");
    if (const auto most = point.most()) {
        page.number("lift and pipe let through", in_gpm(*most), Digits::one, "gpm",
                    "where lift and losses use all of it up");
    }
    if (!point.assumed.empty()) {
        page.words("not known, stated values stand", point.assumed_in_words());
    }
    page.rests_on({"most_lift_ft", "most_suction_head_ft", "suction_hose_ft", "suction_hose_in",
                   "elbow_90_ft", "elbow_45_ft", "pipe_strainer_loss_ft", "hose_strainer_loss_ft",
                   "water_temperature_f", "altitude_ft"});
}

void volume_lines(const CountedSource& counted, WorkedPage& page) {
    if (counted.usable) {
        page.number("usable water", in_gallons(*counted.usable), Digits::none, "gal");
        page.number("inflow", in_gpm(counted.inflow), Digits::one, "gpm");
    } else {
        page.words("usable water", "unlimited, said in so many words");
    }
}

}  // namespace

void add_source_lines(const District& district, const WaterSource& source,
                      const CountedSource& counted, WorkedPage& page) {
    page.words("standing", std::string(word(source.standing)),
               fmt::format("counts as {}", word(counted.evidence)));
    page.number("gives", in_gpm(counted.rate), Digits::one, "gpm",
                std::string(rate_sentence(counted.limit)));
    if (source.kind == SourceKind::hydrant) {
        hydrant_lines(district, source, counted, page);
    } else if (counted.suction) {
        suction_lines(district, source, counted, page);
    }
    if (std::ranges::find(counted.assumed, "rate_gpm") != counted.assumed.end()) {
        page.rests_on({default_rate_key(source.kind)});
    }
    if (std::ranges::find(counted.assumed, "usable_gal") != counted.assumed.end()) {
        page.rests_on({"hydrant_system_storage_gal"});
    }
    volume_lines(counted, page);
    page.number("tankers connected at once", counted.places, Digits::none, "");
}

void explain_source(const Explained& explained, SourceIndex index, WorkedPage& page) {
    add_source_lines(explained.district(), at(explained.district().sources, index),
                     supply::counted_source(explained.findings.water, index), page);
}

namespace {

std::string_view setup_key(SourceKind kind) {
    switch (kind) {
        case SourceKind::hydrant:
            return "setup_hydrant_min";
        case SourceKind::draft_site:
            return "setup_open_bank_min";
        case SourceKind::dry_hydrant:
        case SourceKind::cistern:
            break;
    }
    return "setup_dry_hydrant_min";
}

// What fills the tankers.
void filling_lines(const District& district, const CountedSource& counted, const Unit* engine,
                   Flow pump, WorkedPage& page) {
    Flow alone = counted.rate;
    if (counted.needs_engine && engine != nullptr) {
        const Flow rated = engine->pump.value_or(district.assumptions.engine_pump);
        alone = counted.with_pump(rated);
        page.sum("tankers are filled with",
                 fmt::format("least({}, {} x {})", plain(counted.rate), plain(rated),
                             plain(counted.pump_share, 3)),
                 in_gpm(alone), Digits::one, "gpm",
                 "the source, and the rating of the engine's pump at that lift");
        if (!engine->pump) {
            page.rests_on({"engine_pump_gpm"});
        }
    }
    if (pump < alone) {
        page.number("of it while other places of the system fill", in_gpm(pump), Digits::one, "gpm",
                    "its part of what the whole system gives");
    }
}

// Who runs it, and from when it fills.
void running_lines(const Explained& explained, const supply::ShuttleWorking& look,
                   const supply::FillUse& fill, const supply::FillSite& site, WorkedPage& page) {
    const District& district = explained.district();
    const CountedSource& counted = supply::counted_source(explained.findings.water, fill.source);
    const Duration setup = counted.setup + season_at(explained).extra_setup;
    page.rests_on({setup_key(at(district.sources, fill.source).kind)});
    const UnitIndex runs = fill.run_by.engine;
    filling_lines(district, counted, runs.valid() ? &at(district.units, runs) : nullptr, site.pump,
                  page);
    const auto engine = std::ranges::find(look.scene.engines, runs, &supply::Arrival::unit);
    if (fill.run_by.opened_by_tanker || engine == look.scene.engines.end()) {
        page.number(
            "ready to fill", in_minutes(site.ready), Digits::two, "min",
            fmt::format("opened by the first tanker that comes to fill, {} min set-up in it",
                        plain(setup)));
        return;
    }
    page.words("run by", unit_words(district, runs),
               look.shuttle.fills.size() > 1
                   ? "an engine without another job; who runs which so that all are ready soonest"
                   : "the engine without another job that can have it running first");
    page.sum("ready to fill",
             fmt::format("{} + {} drive + {} to set up",
                         rolling_sum(explained, engine->unit, engine->leaves),
                         plain(site.ready - setup - engine->leaves), plain(setup)),
             in_minutes(site.ready), Digits::two, "min");
}

// What else was listed for the dump site.
void others_looked_at(const Explained& explained, const supply::ShuttleWorking& look,
                      WorkedPage& page) {
    for (const supply::FillSiteSeen& seen : look.fill_sites) {
        const bool in_use = std::ranges::find(look.shuttle.fills, seen.source,
                                              &supply::FillUse::source) != look.shuttle.fills.end();
        if (in_use || seen.plan.incident.tankers.empty()) {
            continue;
        }
        const supply::Leg& leg = seen.plan.incident.tankers.front().leg;
        const CountedSource& counted =
            supply::counted_source(explained.findings.water, seen.source);
        const std::string figures = fmt::format("{} min round trip, {} gpm",
                                                plain(leg.empty + leg.loaded), plain(counted.rate));
        page.words("not " + source_words(explained.district(), seen.source), figures,
                   seen.plan.usable()
                       ? std::string()
                       : "nobody can fill there: " + std::string(word(seen.plan.missing)));
    }
}

std::string names_of_tankers(const Explained& explained, const supply::CasePlan& shuttle,
                             std::size_t fill) {
    std::string names;
    for (const supply::Tanker& tanker : shuttle.incident.tankers) {
        if (tanker.fill_site == fill) {
            names += (names.empty() ? "" : ", ") + unit_words(explained.district(), tanker.unit);
        }
    }
    return names;
}

// More than one in use at the same time.
void fills_together(const Explained& explained, const supply::ShuttleWorking& look,
                    WorkedPage& page) {
    const supply::CasePlan& shuttle = look.shuttle;
    for (std::size_t i = 0; i < shuttle.fills.size(); ++i) {
        const supply::FillUse& fill = shuttle.fills[i];
        page.part(fmt::format("Fill site {} of {}, {}", i + 1, shuttle.fills.size(),
                              source_words(explained.district(), fill.source)));
        if (i == 0) {
            page.words("why these",
                       fmt::format("of {} listed for the dump site they give the largest cautious "
                                   "flow that was found",
                                   look.fill_sites.size()),
                       "each takes a crew, a suction point with an engine; places of one water "
                       "share what it gives");
            page.number("with one fill site, through the line",
                        in_gpm(flow_of(look.supply.one_site)), Digits::one, "gpm",
                        "cautious, the best of them");
            page.rests_on({"one_water_within_ft"});
        }
        page.words("tankers that fill here", names_of_tankers(explained, shuttle, i));
        explain_source(explained, fill.source, page);
        running_lines(explained, look, fill, shuttle.incident.fill_sites[i], page);
    }
}

}  // namespace

void explain_fill_site(const Explained& explained, const supply::ShuttleWorking& look,
                       WorkedPage& page) {
    const auto chosen =
        std::ranges::find(look.fill_sites, look.shuttle.source, &supply::FillSiteSeen::source);
    if (chosen == look.fill_sites.end() || !chosen->plan.usable()) {
        if (!look.fill_sites.empty()) {
            page.part("No fill site");
            others_looked_at(explained, look, page);
        }
        return;
    }
    if (look.shuttle.fills.size() > 1) {
        fills_together(explained, look, page);
    } else {
        page.part("The fill site, " + source_words(explained.district(), chosen->source));
        page.words("why this one",
                   fmt::format("of {} listed for the dump site it gives the largest cautious flow",
                               look.fill_sites.size()),
                   "the nearer of equals; none was passed over that a bound says may hold more");
        explain_source(explained, chosen->source, page);
        running_lines(explained, look, look.shuttle.fills.front(),
                      look.shuttle.incident.fill_sites.front(), page);
    }
    page.rests_on({"fill_sites_per_class"});
    others_looked_at(explained, look, page);
}

}  // namespace farwater::reports
