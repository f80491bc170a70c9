// Choices of tankers that are kept against searches anew.
#include <functional>
#include <vector>

#include <catch2/catch.hpp>

#include "analyzer/supply/filling/fingerprint.h"
#include "analyzer/supply/filling/tanker_choice.h"
#include "analyzer/supply/kept_choices.h"
#include "tests/supply/drawn_lays.h"
#include "tests/supply/incidents.h"
#include "tests/supply/random_incidents.h"
#include "tests/support/draws.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

constexpr double factor = 1.07;

// One number of it is another one.
Incident with_a_change(Dice& dice, Incident incident) {
    Tanker& tanker = incident.tankers[static_cast<std::size_t>(
        dice.whole(0, static_cast<int>(incident.tankers.size()) - 1))];
    switch (dice.whole(0, 3)) {
        case 0:
            tanker.leg.loaded = tanker.leg.loaded + minutes(0.1 * dice.whole(0, 3));
            break;
        case 1:
            tanker.arrives = tanker.arrives + minutes(0.1 * dice.whole(0, 3));
            break;
        case 2:
            incident.fill_sites.front().ready = minutes(5 * dice.whole(0, 3));
            break;
        default:
            incident.dump_site.flow_cap = gpm(250 * dice.whole(1, 4));
    }
    return incident;
}

bool same(const Choice& a, const Choice& b) {
    return a.running == b.running && a.nursing == b.nursing && a.merit == b.merit;
}

using Change = std::function<void(Incident&)>;

}  // namespace

TEST_CASE("a choice of tankers that is kept is the one that would be searched for", "[twin]") {
    KeptChoices kept(32);
    int known = 0;
    for (std::uint64_t seed = 1; seed <= test::draws(60); ++seed) {
        Dice dice(seed + 910'000);
        const Incident base = random_incident(dice, {.open_flows = true});
        const Window window = random_window(dice);
        for (int change = 0; change < 8; ++change) {
            CAPTURE(seed, change);
            const Incident incident = with_a_change(dice, base);
            const PlanJudge judge({window.start + minutes(dice.whole(0, 1)), window.duration},
                                  factor);
            const Choice anew = full_choice(incident, judge, Merit{});
            const Fingerprint print = judge.added_to(fingerprint_of(incident));
            const auto found = kept.find(print);
            CHECK((!found || same(*found, anew)));
            known += found ? 1 : 0;
            kept.keep(print, anew);
        }
    }
    CHECK(known > static_cast<int>(test::draws(60)) / 4);
}

TEST_CASE("whatever a run sees changes the fingerprint, and nothing else does") {
    const std::vector<Change> changes{
        [](Incident& one) { one.tankers[1].delivered = gallons(2001); },
        [](Incident& one) { one.tankers[1].refilled = gallons(2001); },
        [](Incident& one) { one.tankers[1].fill_limit = gpm(901); },
        [](Incident& one) { one.tankers[1].offload = gpm(901); },
        [](Incident& one) { one.tankers[1].fill_before = minutes(9); },
        [](Incident& one) { one.tankers[1].fill_after = minutes(9); },
        [](Incident& one) { one.tankers[1].offload_before = minutes(9); },
        [](Incident& one) { one.tankers[1].offload_after = minutes(9); },
        [](Incident& one) { one.tankers[1].arrives = minutes(9); },
        [](Incident& one) { one.tankers[1].leg.empty = minutes(9); },
        [](Incident& one) { one.tankers[1].leg.loaded = minutes(9); },
        [](Incident& one) { one.tankers[1].can_nurse = !one.tankers[1].can_nurse; },
        [](Incident& one) { one.tankers[1].nurse_rate = gpm(9); },
        [](Incident& one) { one.tankers[1].fill_site = 1; },
        [](Incident& one) { std::swap(one.tankers[0], one.tankers[1]); },
        [](Incident& one) { one.tankers.pop_back(); },
        [](Incident& one) { one.fill_sites[0].places = 7; },
        [](Incident& one) { one.fill_sites[0].flows = 7; },
        [](Incident& one) { one.fill_sites[0].pump = gpm(901); },
        [](Incident& one) { one.fill_sites[0].ready = minutes(9); },
        [](Incident& one) { one.fill_sites[0].usable = gallons(9); },
        [](Incident& one) { one.fill_sites[0].usable = gallons(0); },
        [](Incident& one) { one.fill_sites[0].inflow = gpm(9); },
        [](Incident& one) { one.fill_sites[0].backing = minutes(9); },
        [](Incident& one) { one.fill_sites.push_back(one.fill_sites.front()); },
        [](Incident& one) { one.dump_site.offload_slots = 3; },
        [](Incident& one) { one.dump_site.further_slots_from[0] = minutes(9); },
        [](Incident& one) { one.dump_site.single_file = minutes(9); },
        [](Incident& one) { one.dump_site.storage = gallons(9); },
        [](Incident& one) { one.dump_site.engine_tank = gallons(9); },
        [](Incident& one) { one.dump_site.engine_arrives = minutes(99); },
        [](Incident& one) { one.dump_site.tanks_ready = minutes(99); },
        [](Incident& one) { one.dump_site.draft_ready = minutes(99); },
        [](Incident& one) { one.dump_site.nursing_tankers = 1; },
        [](Incident& one) { one.dump_site.nurse_hookup = minutes(9); },
        [](Incident& one) { one.dump_site.flow_cap = gpm(0); },
        [](Incident& one) { one.initial_attack.flow = gpm(9); },
        [](Incident& one) { one.initial_attack.from = minutes(99); },
    };
    Incident base = ordinary_case();
    base.tankers = {usual_tanker(2500, 12), usual_tanker(2000, 14)};
    std::vector<Fingerprint> prints{fingerprint_of(base)};
    for (const Change& change : changes) {
        Incident changed = base;
        change(changed);
        CAPTURE(prints.size());
        CHECK(std::ranges::count(prints, fingerprint_of(changed)) == 0);
        prints.push_back(fingerprint_of(changed));
    }
    base.tankers[1].unit = UnitIndex(5);
    base.tankers[1].evidence = Evidence::assumed;
    CHECK(fingerprint_of(base) == prints.front());
}

TEST_CASE("the answers of a district are the same with choices of others kept or none", "[twin]") {
    KeptChoices kept(1024);
    int shuttles = 0;
    for (std::uint64_t seed = 1; seed <= test::draws(60); ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 920'000);
        DrawnLays drawn(dice);
        const ParcelSupply anew = drawn.supply();
        for (int time = 1; time <= 2; ++time) {
            Situation situation = drawn.district.situation();
            situation.kept = &kept;
            const ParcelSupply again =
                assess(situation, drawn.district.needs, drawn.district.arrivals, Work{}).front();
            CHECK(again.state == anew.state);
            CHECK(again.cautious == anew.cautious);
            CHECK(again.sustained == anew.sustained);
            CHECK(again.later == anew.later);
            CHECK(again.gains == anew.gains);
            CHECK(again.gain_engine == anew.gain_engine);
            CHECK(again.tankers == anew.tankers);
            CHECK(again.fill_source == anew.fill_source);
            CHECK(again.dump_site == anew.dump_site);
        }
        shuttles += anew.has_round_trip() ? 1 : 0;
    }
    CHECK(shuttles > static_cast<int>(test::draws(60)) / 2);
}
