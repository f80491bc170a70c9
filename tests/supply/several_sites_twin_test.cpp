// The answer of a case against everything that could be done with its tankers, engines and water:
// every set of up to three fill sites, every engine at each, every tanker at each or standing by.
// Its incidents are put together from the plain numbers of the drawn district.
#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/places/shuttle_case.h"
#include "tests/supply/honest_merit.h"
#include "tests/supply/one_dump_site.h"
#include "tests/supply/random_incidents.h"
#include "tests/support/draws.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

constexpr int drawn_cases = test::draws(150);
constexpr double slower = 1.0 + 0.35 * 0.2;

struct DrawnWater {
    WaterSource source;
    Leg leg;
    bool backs = false;
};

struct DrawnCase {
    OneDumpSite district;
    std::vector<DrawnWater> waters;
};

DrawnWater drawn_water(Dice& dice, int number) {
    DrawnWater water;
    WaterSource& source = water.source;
    source.id = "W" + std::to_string(number);
    source.system = "S" + std::to_string(number);
    source.kind = dice.chance(0.4) ? SourceKind::hydrant : SourceKind::dry_hydrant;
    source.standing = Standing::declared;
    source.rate = gpm(10 * dice.whole(15, 90));
    source.places = dice.whole(1, 2);
    source.usable = dice.chance(0.6) ? UsableWater::unlimited()
                                     : UsableWater::of(gallons(1'000.0 * dice.whole(10, 60)));
    water.leg = {minutes(dice.whole(10, 80) / 10.0), minutes(dice.whole(10, 90) / 10.0)};
    water.backs = dice.chance(0.3);
    return water;
}

DrawnCase drawn_case(Dice& dice, int most_tankers, int waters) {
    DrawnCase drawn;
    District& district = drawn.district.district;
    district.units.resize(2);
    for (int engine = dice.whole(0, 3); engine > 0; --engine) {
        Unit unit = unit_of("F" + std::to_string(engine), UnitKind::engine, 1000);
        unit.pump = gpm(250 * dice.whole(4, 6));
        district.units.push_back(unit);
    }
    for (int tanker = dice.whole(2, most_tankers); tanker > 0; --tanker) {
        Unit unit =
            unit_of("T" + std::to_string(tanker), UnitKind::tanker, 100.0 * dice.whole(10, 35));
        unit.fill_limit = gpm(50 * dice.whole(8, 20));
        unit.offload = gpm(50 * dice.whole(8, 24));
        unit.pump = dice.chance(0.3) ? std::optional(gpm(500)) : std::nullopt;
        unit.portable_tank = gallons(dice.chance(0.5) ? 2500 : 0);
        district.units.push_back(unit);
    }
    district.units.back().portable_tank = gallons(2500);
    district.sources.clear();
    for (int water = 1; water <= waters; ++water) {
        drawn.waters.push_back(drawn_water(dice, water));
        district.sources.push_back(drawn.waters.back().source);
    }
    drawn.district.refresh();
    RoundTrips& trips = drawn.district.trips;
    trips.fill_trips = {};
    for (std::size_t i = 0; i < drawn.waters.size(); ++i) {
        const auto tenths = [](Duration leg) {
            return tenths_of_second(static_cast<int>(std::lround(in_minutes(leg) * 600.0)));
        };
        const Leg& leg = drawn.waters[i].leg;
        FillTrip trip{FillSiteIndex(i), {}};
        trip.legs.fill({.empty = tenths(leg.empty), .loaded = tenths(leg.loaded)});
        trips.fill_trips.add(trip);
        trips.fill_lanes[i] = drawn.waters[i].backs ? LaneClass::dead_end : LaneClass::through;
    }
    trips.fill_trips.close_row();
    return drawn;
}

// Tries everything, tanker by tanker, and keeps the largest cautious flow; by terms the best merit.
class Everything {
public:
    Everything(const DrawnCase& drawn, const Situation& situation, const Scene& scene,
               Window window, std::optional<HonestTerms> terms = std::nullopt)
        : drawn_(drawn), situation_(situation), scene_(scene), window_(window), terms_(terms) {
        engines_.assign(drawn.waters.size(), none);
        where_.assign(scene.tankers.size(), none);
        man(0, 0);
    }

    HeldFlow best() const { return best_; }
    Merit best_by_terms() const { return best_by_terms_; }

private:
    static constexpr std::size_t none = static_cast<std::size_t>(-1);

    // An engine, or none, for every source; a source without one may still be a hydrant.
    void man(std::size_t water, unsigned busy) {
        if (water == engines_.size()) {
            send(0);
            return;
        }
        engines_[water] = none;
        man(water + 1, busy);
        for (std::size_t engine = 2; engine < scene_.engines.size(); ++engine) {
            if ((busy >> engine & 1U) == 0) {
                engines_[water] = engine;
                man(water + 1, busy | 1U << engine);
            }
        }
        engines_[water] = none;
    }

    void send(std::size_t tanker) {
        if (tanker == where_.size()) {
            judge();
            return;
        }
        where_[tanker] = none;
        send(tanker + 1);
        for (std::size_t water = 0; water < engines_.size(); ++water) {
            const bool hydrant = drawn_.waters[water].source.kind == SourceKind::hydrant;
            if (hydrant || engines_[water] != none) {
                where_[tanker] = water;
                send(tanker + 1);
            }
        }
        where_[tanker] = none;
    }

    FillSite site_of(std::size_t water) const {
        const DrawnWater& drawn = drawn_.waters[water];
        const CountedSource& counted = counted_source(situation_.water, SourceIndex(water));
        FillSite site;
        site.places = *drawn.source.places;
        site.usable = counted.usable;
        site.inflow = counted.inflow;
        site.pump = counted.rate;
        site.ready = minutes(1e6);
        if (engines_[water] != none) {
            const Arrival& engine = scene_.engines[engines_[water]];
            site.pump = counted.with_pump(*at(situation_.district.units, engine.unit).pump);
            site.ready = engine.leaves + minutes(5.0) + counted.setup;
        }
        return site;
    }

    void judge() {
        Incident incident;
        incident.dump_site = scene_.set_up;
        incident.initial_attack = {situation_.district.assumptions.initial_attack,
                                   scene_.first_arrival + minutes(1.5)};
        for (std::size_t water = 0; water < engines_.size(); ++water) {
            incident.fill_sites.push_back(site_of(water));
        }
        bool one_can_nurse = false;
        for (std::size_t t = 0; t < where_.size(); ++t) {
            if (where_[t] != none) {
                incident.tankers.push_back(tanker_of(t));
                one_can_nurse = one_can_nurse || incident.tankers.back().can_nurse;
                FillSite& site = incident.fill_sites[where_[t]];
                if (drawn_.waters[where_[t]].source.kind == SourceKind::hydrant) {
                    const Tanker& tanker = incident.tankers.back();
                    site.ready = std::min(site.ready, tanker.arrives + tanker.offload_before +
                                                          tanker.delivered / tanker.offload +
                                                          tanker.offload_after + tanker.leg.empty +
                                                          minutes(3.0));
                }
            }
        }
        for (int nursing = 0; nursing <= (one_can_nurse ? 1 : 0); ++nursing) {
            incident.dump_site.nursing_tankers = nursing;
            if (terms_) {
                const Merit merit = plain_merit(*terms_, incident, slowed(incident, slower));
                best_by_terms_ = better(merit, best_by_terms_) ? merit : best_by_terms_;
                continue;
            }
            best_ = sustained_flow_above(slowed(incident, slower), window_, best_);
        }
    }

    Tanker tanker_of(std::size_t t) const {
        const Unit& unit = at(situation_.district.units, scene_.tankers[t].unit);
        Tanker tanker;
        tanker.delivered = unit.tank * 0.9;
        tanker.refilled = unit.tank;
        tanker.fill_limit = *unit.fill_limit;
        tanker.offload = *unit.offload;
        tanker.fill_before = minutes(drawn_.waters[where_[t]].backs ? 3.0 : 1.0);
        tanker.fill_after = minutes(1.0);
        tanker.offload_before = minutes(1.0);
        tanker.offload_after = minutes(0.5);
        tanker.arrives = scene_.tankers[t].at_scene;
        tanker.can_nurse = unit.pump.has_value();
        tanker.nurse_rate = std::min(gpm(400), unit.pump.value_or(gpm(0)));
        tanker.fill_site = where_[t];
        tanker.leg = drawn_.waters[where_[t]].leg;
        return tanker;
    }

    const DrawnCase& drawn_;
    const Situation& situation_;
    const Scene& scene_;
    Window window_;
    std::vector<std::size_t> engines_;  // per source
    std::vector<std::size_t> where_;    // per tanker of the scene
    HeldFlow best_{};
    std::optional<HonestTerms> terms_;
    Merit best_by_terms_;
};

}  // namespace

TEST_CASE("of all ways to use tankers, engines and water few hold more than the case's answer") {
    int with_several = 0;
    int as_good = 0;
    double worst = 1.0;
    double sum = 0.0;
    for (std::uint64_t seed = 1; seed <= drawn_cases; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 900);
        const DrawnCase drawn = drawn_case(dice, 5, 3);
        const Situation situation = drawn.district.situation();
        const Scene scene =
            scene_at(situation, profile_of_units(situation.district, situation.profiles),
                     roster(situation.district, PeriodIndex(0), ""),
                     situation.trips.hose_lays[0][0], minutes(12.5));
        const CasePlans plans = work_out(situation, scene, {minutes(120)});
        const CasePlan& found = plans.front();
        const CasePlan& answer = plans.back();
        CHECK(answer.cautious >= found.cautious);
        CHECK(answer.sustained >= found.sustained);
        CHECK(answer.later >= found.later);
        CHECK(answer.one_tanker_out >= found.one_tanker_out);
        const HeldFlow best = Everything(drawn, situation, scene, found.window).best();
        CHECK(answer.cautious <= best);
        with_several += plans.size() > 1 ? 1 : 0;
        as_good += answer.cautious == best ? 1 : 0;
        const double share =
            in_tenths(best) == 0 ? 1.0 : in_tenths(answer.cautious) / double(in_tenths(best));
        worst = std::min(worst, share);
        sum += share;
    }
    const double mean = sum / drawn_cases;
    CAPTURE(with_several, as_good, worst, mean);
    CHECK(with_several >= drawn_cases / 4);
    CHECK(as_good >= drawn_cases * 4 / 5);
    CHECK(worst > 0.93);
    CHECK(mean > 0.995);
}

TEST_CASE("of all ways to use tankers, engines and water few are better by terms than the answer") {
    constexpr int cases = test::draws(80);
    int can_be_met = 0;
    int met = 0;
    int as_good = 0;
    for (std::uint64_t seed = 1; seed <= cases; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 7'000);
        DrawnCase drawn = drawn_case(dice, 4, 2);
        const double within = dice.whole(8, 24) / 2.0;
        const HeldFlow flow = tenths_of_gpm(500 * dice.whole(2, 6));
        drawn.district.district.units.back().pump = gpm(500);
        Situation situation = drawn.district.situation();
        situation.order.terms = FirstMinutesTerms{flow, minutes(within), minutes(15), false};
        const Scene scene =
            scene_at(situation, profile_of_units(situation.district, situation.profiles),
                     roster(situation.district, PeriodIndex(0), ""),
                     situation.trips.hose_lays[0][0], minutes(12.5));
        const CasePlans plans = work_out(situation, scene, {minutes(120)});
        const CasePlan& found = plans.front();
        const CasePlan& answer = plans.back();
        const HonestTerms terms{flow, honest_tenths(minutes(12.5 + within)), 600, found.window};
        const Merit chosen = plain_merit(terms, answer.incident, answer.slow);
        CHECK(chosen == answer.merit);
        const Merit best = Everything(drawn, situation, scene, found.window, terms).best_by_terms();
        CHECK_FALSE(better(chosen, best));
        const auto meets = [&](const Merit& merit) {
            return merit.begins && *merit.begins <= terms.begin_by && merit.gap == 0;
        };
        can_be_met += meets(best) ? 1 : 0;
        met += meets(chosen) ? 1 : 0;
        as_good += chosen == best ? 1 : 0;
    }
    CAPTURE(can_be_met, met, as_good);
    CHECK(can_be_met >= cases / 5);
    CHECK(met >= can_be_met * 97 / 100);
    CHECK(as_good >= cases * 4 / 5);
}
