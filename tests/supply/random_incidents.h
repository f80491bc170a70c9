// Random incidents for property and twin tests, the same on every machine for the same seed, and
// their translation for the slow twins.
#pragma once

#include <algorithm>
#include <cstdint>
#include <limits>

#include "analyzer/supply/incident.h"
#include "tests/support/slow_shuttle.h"

namespace farwater::supply {

// splitmix64 (public domain, S. Vigna): the standard library's distributions differ by platform.
class Dice {
public:
    explicit Dice(std::uint64_t seed) : state_(seed) {}

    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(next() >> 11) * 0x1.0p-53;
    }
    int whole(int low, int high) {
        return low + static_cast<int>(next() % static_cast<std::uint64_t>(high - low + 1));
    }
    bool chance(double share) { return between(0.0, 1.0) < share; }

private:
    std::uint64_t next() {
        std::uint64_t z = (state_ += 0x9e3779b97f4a7c15U);
        z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31);
    }

    std::uint64_t state_;
};

// What a random incident may have in it.
struct Wild {
    bool identical = false;  // tankers but for their arrivals
    bool nursing = true;
    bool attack = true;
    bool open_flows = false;  // leave the flows of fill sites to the search
};

inline Tanker random_tanker(Dice& dice) {
    Tanker tanker;
    const double tank = 250.0 * dice.whole(4, 14);
    tanker.delivered = gallons(tank * dice.between(0.85, 1.0));
    tanker.refilled = gallons(tank);
    tanker.fill_limit = gpm(dice.between(350.0, 1500.0));
    tanker.offload = gpm(dice.between(300.0, 2000.0));
    tanker.fill_before = minutes(dice.between(0.5, 2.0));
    tanker.fill_after = minutes(dice.between(0.2, 1.5));
    tanker.offload_before = minutes(dice.between(0.2, 3.0));
    tanker.offload_after = minutes(dice.between(0.2, 1.0));
    tanker.can_nurse = dice.chance(0.6);
    tanker.leg = {minutes(dice.between(1.0, 12.0)), minutes(dice.between(1.0, 14.0))};
    return tanker;
}

inline FillSite random_fill_site(Dice& dice, const Wild& wild) {
    FillSite site;
    site.places = dice.whole(1, 3);
    site.pump = gpm(dice.between(300.0, 1500.0));
    site.ready = minutes(dice.between(5.0, 35.0));
    if (!wild.open_flows) {
        site.flows = dice.whole(1, site.places);
    }
    if (dice.chance(0.5)) {
        site.usable = gallons(dice.between(2'000.0, 70'000.0));
        site.inflow = gpm(dice.chance(0.5) ? dice.between(20.0, 400.0) : 0.0);
    }
    return site;
}

inline Incident random_incident(Dice& dice, const Wild& wild) {
    Incident incident;
    DumpSite& dump = incident.dump_site;
    dump.offload_slots = dice.whole(1, 2);
    if (dice.chance(0.8)) {
        dump.storage = gallons(dice.between(800.0, 8'000.0));
    }
    dump.engine_tank = gallons(dice.chance(0.8) ? dice.between(300.0, 1'500.0) : 0.0);
    dump.engine_arrives = minutes(dice.between(4.0, 15.0));
    dump.tanks_ready = minutes(dice.between(6.0, 22.0));
    dump.draft_ready = dump.tanks_ready + minutes(dice.between(0.0, 8.0));
    Flow nurse_rate = gpm(400);  // of the first tanker; the next ones give less
    if (wild.nursing && dice.chance(0.5)) {
        dump.nursing_tankers = dice.whole(1, 2);
        nurse_rate = gpm(dice.between(150.0, 800.0));
    }
    for (int site = dice.whole(1, 3); site > 0; --site) {
        incident.fill_sites.push_back(random_fill_site(dice, wild));
    }
    const Tanker one = random_tanker(dice);
    for (int count = dice.whole(1, 8); count > 0; --count) {
        Tanker tanker = wild.identical ? one : random_tanker(dice);
        tanker.arrives = minutes(dice.between(5.0, 40.0));
        tanker.nurse_rate = wild.identical ? nurse_rate : nurse_rate / (1.0 + 0.3 * (count % 3));
        tanker.fill_site = wild.identical
                               ? 0
                               : static_cast<std::size_t>(dice.whole(
                                     0, static_cast<int>(incident.fill_sites.size()) - 1));
        incident.tankers.push_back(tanker);
    }
    if (wild.attack && dice.chance(0.5)) {
        incident.initial_attack = {gpm(dice.between(50.0, 300.0)),
                                   dump.engine_arrives + minutes(dice.between(-1.0, 3.0))};
    }
    return incident;
}

inline Window random_window(Dice& dice) {
    return {minutes(dice.whole(60, 400) / 10.0), minutes(dice.whole(100, 1800) / 10.0)};
}

// For the twins. Precondition: every fill site's flows are given.
inline slow::Incident slow_of(const Incident& incident) {
    Flow least = gpm(1e9);  // of those who can nurse
    for (const Tanker& tanker : incident.tankers) {
        least = tanker.can_nurse ? std::min(least, tanker.nurse_rate) : least;
    }
    const bool several = incident.dump_site.nursing_tankers > 1;
    constexpr double unlimited = std::numeric_limits<double>::infinity();
    const DumpSite& dump = incident.dump_site;
    slow::Incident slow;
    slow.slots = static_cast<std::size_t>(dump.offload_slots);
    for (int slot = 1; slot < std::min(dump.offload_slots, most_offload_slots); ++slot) {
        slow.further_slots_from.push_back(
            in_minutes(dump.further_slots_from[static_cast<std::size_t>(slot) - 1]));
    }
    slow.single_file = in_minutes(dump.single_file);
    slow.storage = dump.storage ? in_gallons(*dump.storage) : unlimited;
    slow.engine_tank = in_gallons(dump.engine_tank);
    slow.engine_arrives = in_minutes(dump.engine_arrives);
    slow.tanks_ready = in_minutes(dump.tanks_ready);
    slow.draft_ready = in_minutes(dump.draft_ready);
    slow.nursing_tankers = dump.nursing_tankers;
    slow.nurse_hookup = in_minutes(dump.nurse_hookup);
    slow.attack_flow = in_gpm(incident.initial_attack.flow);
    slow.attack_from = in_minutes(incident.initial_attack.from);
    for (const FillSite& site : incident.fill_sites) {
        slow.fill_sites.push_back(
            {static_cast<std::size_t>(site.places), static_cast<std::size_t>(site.flows.value()),
             in_gpm(site.pump), in_minutes(site.ready),
             site.usable ? in_gallons(*site.usable) : unlimited, in_gpm(site.inflow)});
    }
    for (const Tanker& t : incident.tankers) {
        slow.tankers.push_back({in_gallons(t.delivered), in_gallons(t.refilled),
                                in_gpm(t.fill_limit), in_gpm(t.offload), in_minutes(t.fill_before),
                                in_minutes(t.fill_after), in_minutes(t.offload_before),
                                in_minutes(t.offload_after), in_minutes(t.arrives), t.can_nurse,
                                t.fill_site, in_minutes(t.leg.empty), in_minutes(t.leg.loaded),
                                in_gpm(several ? least : t.nurse_rate)});
    }
    return slow;
}

}  // namespace farwater::supply
