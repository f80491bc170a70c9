// Laws that the incident run keeps, on random incidents. That more of something never lowers the
// flow is proved for tankers of one kind only (with mixed tankers first in, first out has
// scheduling anomalies), so it is asserted for those only, without nursing.
#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "analyzer/supply/handbook.h"
#include "analyzer/supply/incident_run.h"
#include "tests/supply/random_incidents.h"
#include "tests/support/draws.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

constexpr std::uint64_t incidents = test::draws(1000);

// Calls law(incident, window, dice) for many incidents, each of which can be had again by its seed.
template <class Law>
void for_random_incidents(Wild wild, Law law) {
    for (std::uint64_t seed = 1; seed <= incidents; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const Incident incident = random_incident(dice, wild);
        const Window window = random_window(dice);
        law(incident, window, dice);
    }
}

HeldFlow one_more(HeldFlow flow) { return tenths_of_gpm(in_tenths(flow) + 1); }
int held_tenths(const Incident& incident, Window window) {
    return in_tenths(sustained_flow(incident, window));
}

template <class... Quantities>
void scale(double factor, Quantities&... quantities) {
    ((quantities = quantities * factor), ...);
}

Incident with_more_water(Incident incident, double k) {
    DumpSite& dump = incident.dump_site;
    scale(k, dump.engine_tank, incident.initial_attack.flow);
    dump.storage = dump.storage ? std::optional(*dump.storage * k) : std::nullopt;
    for (Tanker& tanker : incident.tankers) {
        scale(k, tanker.delivered, tanker.refilled, tanker.fill_limit, tanker.offload,
              tanker.nurse_rate);
    }
    for (FillSite& site : incident.fill_sites) {
        scale(k, site.pump, site.inflow);
        site.usable = site.usable ? std::optional(*site.usable * k) : std::nullopt;
    }
    return incident;
}

Incident with_longer_minutes(Incident incident, double k) {
    DumpSite& dump = incident.dump_site;
    scale(k, dump.engine_arrives, dump.tanks_ready, dump.draft_ready, dump.nurse_hookup,
          incident.initial_attack.from);
    scale(1 / k, incident.initial_attack.flow);
    for (Tanker& tanker : incident.tankers) {
        scale(k, tanker.fill_before, tanker.fill_after, tanker.offload_before, tanker.offload_after,
              tanker.arrives, tanker.leg.empty, tanker.leg.loaded);
        scale(1 / k, tanker.fill_limit, tanker.offload, tanker.nurse_rate);
    }
    for (FillSite& site : incident.fill_sites) {
        scale(k, site.ready);
        scale(1 / k, site.pump, site.inflow);
    }
    return incident;
}

constexpr Wild one_kind{.identical = true, .nursing = false, .attack = false};

}  // namespace

TEST_CASE("a sustained flow holds and one tenth more does not") {
    for_random_incidents({.open_flows = true}, [](const Incident& incident, Window window, Dice&) {
        const HeldFlow flow = sustained_flow(incident, window);
        CHECK(holds(incident, window, flow));
        CHECK_FALSE(holds(incident, window, one_more(flow)));
        CHECK(lasts(incident, window.start, flow, window.duration) == window.duration);
        CHECK(lasts(incident, window.start, one_more(flow), window.duration) < window.duration);
        CHECK(sustained_flow(slowed(incident, cautious_factor(0.0)), window) == flow);
    });
}

TEST_CASE("zeros anywhere still give an answer that holds") {
    for_random_incidents({.open_flows = true}, [](Incident incident, Window window, Dice& dice) {
        const auto maybe_zero = [&dice](auto&... quantities) {
            ((quantities = dice.chance(0.2) ? quantities * 0.0 : quantities), ...);
        };
        DumpSite& dump = incident.dump_site;
        maybe_zero(dump.engine_tank, dump.engine_arrives, dump.tanks_ready, dump.draft_ready,
                   dump.nurse_hookup, incident.tankers.front().nurse_rate, window.start,
                   incident.initial_attack.from);
        dump.offload_slots *= dice.whole(0, 3) / 2;
        dump.storage = dice.chance(0.2) ? std::optional(Volume{}) : dump.storage;
        for (FillSite& site : incident.fill_sites) {
            site.places *= dice.whole(0, 3) / 2;
            maybe_zero(site.pump, site.ready, site.inflow);
            site.usable = dice.chance(0.2) ? std::optional(Volume{}) : site.usable;
        }
        for (Tanker& tanker : incident.tankers) {
            maybe_zero(tanker.delivered, tanker.refilled, tanker.fill_limit, tanker.offload,
                       tanker.fill_before, tanker.fill_after, tanker.offload_before,
                       tanker.offload_after, tanker.arrives, tanker.leg.empty, tanker.leg.loaded);
        }
        const HeldFlow flow = sustained_flow(incident, window);
        CHECK(flow >= HeldFlow{});
        CHECK(flow_of(flow) <= window_bound(incident, window) * (1.0 + 1e-6));
        CHECK(holds(incident, window, flow));
        CHECK_FALSE(holds(incident, window, one_more(flow)));
        const Duration lasted = lasts(incident, window.start, one_more(flow), window.duration);
        CHECK((lasted >= Duration{} && lasted < window.duration));
        const FirstMinutes clocks = first_minutes(incident, window);
        CHECK((clocks.dry >= Duration{} && clocks.dry <= window.start + window.duration));
        CHECK((!clocks.continuous || *clocks.continuous >= clocks.tank_water));
    });
}

TEST_CASE("no flow is above the bound of the window") {
    for_random_incidents({}, [](const Incident& incident, Window window, Dice& dice) {
        const Flow bound = window_bound(incident, window);
        CHECK(flow_of(sustained_flow(incident, window)) <= bound * (1.0 + 1e-6));
        const HeldFlow above = one_more(held(bound * dice.between(1.0, 2.0)));
        CHECK_FALSE(holds(incident, window, above));
        // Every gallon was in some tank, on some tanker or taken from a source.
        CHECK(bound * window.duration >=
              flow_of(sustained_flow(incident, window)) * window.duration - gallons(1));
    });
}

TEST_CASE("over a long run no flow is above the resource bound") {
    for_random_incidents({.attack = false, .open_flows = true}, [](const Incident& incident, Window,
                                                                   Dice&) {
        const Window long_window{minutes(60), minutes(2000)};
        Volume rolling = incident.dump_site.engine_tank;
        for (const Tanker& tanker : incident.tankers) {
            rolling += tanker.delivered * 2.0;
        }
        const Volume drawn = flow_of(sustained_flow(incident, long_window)) * long_window.duration;
        const Volume most =
            resource_bound(incident, long_window) * (long_window.start + long_window.duration);
        CHECK(drawn <= most + rolling);
        CHECK(resource_bound(incident, long_window) <= handbook_flow(incident) * (1.0 + 1e-9));
    });
}

TEST_CASE("k times the gallons and rates give k times the flow") {
    for_random_incidents({}, [](const Incident& incident, Window window, Dice&) {
        const int flow = held_tenths(incident, window);
        const Incident doubled = with_more_water(incident, 2.0);
        CHECK(holds(doubled, window, tenths_of_gpm(2 * flow)));
        CHECK_FALSE(holds(doubled, window, tenths_of_gpm(2 * (flow + 1))));
    });
}

TEST_CASE("k times the minutes at rates of one k-th give one k-th of the flow") {
    for_random_incidents({}, [](const Incident& incident, Window window, Dice&) {
        const int flow = held_tenths(incident, window);
        const Window shorter{window.start * 0.5, window.duration * 0.5};
        const Incident halved = with_longer_minutes(incident, 0.5);
        CHECK(holds(halved, shorter, tenths_of_gpm(2 * flow)));
        CHECK_FALSE(holds(halved, shorter, tenths_of_gpm(2 * (flow + 1))));
    });
}

TEST_CASE("the order of the list does not matter where nobody arrives at the same time") {
    for_random_incidents({}, [](const Incident& incident, Window window, Dice& dice) {
        Incident turned = incident;
        const auto middle = dice.whole(0, static_cast<int>(incident.tankers.size()) - 1);
        std::rotate(turned.tankers.begin(), turned.tankers.begin() + middle, turned.tankers.end());
        CHECK(held_tenths(turned, window) == held_tenths(incident, window));
    });
}

TEST_CASE("a cap takes what is above it and nothing else") {
    for_random_incidents(one_kind, [](const Incident& incident, Window window, Dice& dice) {
        const int flow = held_tenths(incident, window);
        Incident capped = incident;
        const int cap = dice.whole(0, 2 * flow);
        capped.dump_site.flow_cap = gpm(cap / 10.0);
        CHECK(held_tenths(capped, window) == std::min(cap, flow));
    });
}

TEST_CASE("what holds for long holds for a part of it") {
    for_random_incidents({}, [](const Incident& incident, Window window, Dice& dice) {
        const HeldFlow flow = sustained_flow(incident, window);
        CHECK(holds(incident, {window.start, window.duration * dice.between(0.05, 1.0)}, flow));
    });
}

TEST_CASE("for tankers of one kind nothing better lowers the flow") {
    for_random_incidents(one_kind, [](const Incident& incident, Window window, Dice& dice) {
        const int flow = held_tenths(incident, window);
        const auto check = [&](const char* what, Window when, auto change) {
            INFO(what);
            Incident better = incident;
            change(better);
            CHECK(held_tenths(better, when) >= flow);
        };
        const double k = dice.between(1.0, 2.0);
        const Duration sooner = minutes(dice.between(0.0, 4.0));
        check("later start", {window.start + sooner, window.duration}, [](Incident&) {});
        check("more storage", window, [&](Incident& i) {
            i.dump_site.storage =
                i.dump_site.storage ? std::optional(*i.dump_site.storage * k) : std::nullopt;
        });
        check("unlimited storage", window, [](Incident& i) { i.dump_site.storage.reset(); });
        check("stronger pump", window, [&](Incident& i) { scale(k, i.fill_sites[0].pump); });
        check("one place more", window, [](Incident& i) { i.fill_sites[0].places += 1; });
        check("one slot more", window, [](Incident& i) { i.dump_site.offload_slots += 1; });
        check("more inflow", window, [&](Incident& i) { scale(k, i.fill_sites[0].inflow); });
        check("unlimited source", window, [](Incident& i) { i.fill_sites[0].usable.reset(); });
        check("fill site ready sooner", window,
              [&](Incident& i) { i.fill_sites[0].ready -= sooner; });
        check("tanks and draft ready sooner", window, [&](Incident& i) {
            i.dump_site.tanks_ready -= sooner;
            i.dump_site.draft_ready -= sooner;
        });
        check("shorter legs", window, [&](Incident& i) {
            for (Tanker& tanker : i.tankers) {
                scale(1 / k, tanker.leg.empty, tanker.leg.loaded);
            }
        });
        check("earlier arrivals", window, [&](Incident& i) {
            for (Tanker& tanker : i.tankers) {
                tanker.arrives -= sooner;
            }
        });
        check("one tanker more", window, [&](Incident& i) {
            i.tankers.push_back(i.tankers.front());
            i.tankers.back().arrives = minutes(dice.between(5.0, 40.0));
        });
    });
}

TEST_CASE("the earliest start is the first that holds") {
    for_random_incidents(
        {.open_flows = true}, [](const Incident& incident, Window window, Dice& dice) {
            const HeldFlow flow = tenths_of_gpm(dice.whole(1, 1 + held_tenths(incident, window)));
            const auto at_start = earliest_start(incident, flow, window.duration, window.start);
            if (holds(incident, window, flow)) {
                REQUIRE(at_start);
                CHECK(*at_start <= window.start);
            }
            const auto start = earliest_start(incident, flow, window.duration, minutes(90));
            if (start) {
                CHECK(holds(incident, {*start, window.duration}, flow));
                CHECK((*start < minutes(0.05) ||
                       !holds(incident, {*start - minutes(0.1), window.duration}, flow)));
            }
        });
}

TEST_CASE("for tankers of one kind the earliest start is what trying every tenth finds") {
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const Incident incident = random_incident(dice, one_kind);
        const Duration duration = random_window(dice).duration;
        const HeldFlow flow = tenths_of_gpm(dice.whole(1, 6000));
        std::optional<Duration> first;
        for (int tenth = 0; tenth <= 600 && !first; ++tenth) {
            if (holds(incident, {minutes(tenth / 10.0), duration}, flow)) {
                first = minutes(tenth / 10.0);
            }
        }
        CHECK(earliest_start(incident, flow, duration, minutes(60)) == first);
    }
}

TEST_CASE("no attack, or one that begins after the start, changes nothing") {
    for_random_incidents(
        {.attack = false}, [](const Incident& incident, Window window, Dice& dice) {
            const int flow = held_tenths(incident, window);
            Incident attacked = incident;
            attacked.initial_attack = {Flow{}, minutes(10)};
            CHECK(held_tenths(attacked, window) == flow);
            attacked.initial_attack = {gpm(300), window.start + minutes(dice.between(0.0, 10.0))};
            CHECK(held_tenths(attacked, window) == flow);
        });
}

TEST_CASE("an attack that goes on as the flow is one flow from its beginning") {
    for_random_incidents(
        {.attack = false}, [](const Incident& incident, Window window, Dice& dice) {
            const Duration from = std::max(incident.dump_site.engine_arrives,
                                           window.start - minutes(dice.between(0.0, 15.0)));
            if (from >= window.start) {
                return;
            }
            const Window all{from, window.start + window.duration - from};
            Incident attacked = incident;
            const HeldFlow flow = sustained_flow(incident, all);
            attacked.initial_attack = {flow_of(flow), from};
            CHECK(holds(attacked, window, flow));
            CHECK(first_minutes(attacked, window).dry == Duration{});
            attacked.initial_attack.flow = flow_of(one_more(flow));
            CHECK(first_minutes(attacked, window).dry > Duration{});
        });
}
