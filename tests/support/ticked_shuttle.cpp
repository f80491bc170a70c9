#include <algorithm>
#include <limits>
#include <numeric>

#include "tests/support/slow_shuttle.h"

namespace farwater::slow {

namespace {

constexpr double hair = 1e-9;

enum class Doing {
    drive_loaded,
    wait_for_slot,
    open_valve,
    offload,
    leave_slot,
    hook_up,
    nurse,
    leave_engine,
    drive_empty,
    wait_for_place,
    connect,
    wait_for_line,
    fill,
    leave_place,
};

// One tanker at this moment.
struct Unit {
    const Tanker* tanker = nullptr;
    Doing doing = Doing::drive_loaded;
    double until = 0.0;          // the end of what has a fixed length
    double opened = 0.0;         // since when water runs
    double moved = 0.0;          // gallons put in, or taken at the fill site
    double tanks_before = 0.0;   // gallons that others had sent to the portable tanks
    double nursed_before = 0.0;  // gallons that others had brought to nurse
    long order = 0;              // of arrival
};

class Scene {
public:
    Scene(const Incident& incident, double tick) : incident_(incident), tick_(tick) {
        for (const Tanker& tanker : incident.tankers) {
            units_.push_back({.tanker = &tanker, .until = tanker.arrives - incident.single_file});
        }
        taken_.assign(incident.fill_sites.size(), 0.0);
    }

    double now() const { return now_; }

    // One tick in which the fire asks for `demand` gallons; returns how many of them it got.
    double step(double demand) {
        std::ranges::sort(in_order_, {}, [&](std::size_t i) { return units_[i].order; });
        for (const std::size_t i : in_order_) {
            while (go_on(units_[i])) {
            }
        }
        now_ += tick_;
        asked_ = drawn_ + demand;
        std::ranges::sort(in_order_, {}, [&](std::size_t i) { return units_[i].order; });
        for (const std::size_t i : in_order_) {
            move_water(units_[i]);
        }
        const double met = std::clamp(level(), 0.0, demand);
        drawn_ += met;
        return met;
    }

private:
    double level() const {
        const double engine = now_ >= incident_.engine_arrives - hair ? incident_.engine_tank : 0.0;
        return engine + nursed_ + (draft_up() ? in_tanks_ : 0.0) - drawn_;
    }

    bool go_on(Unit& unit);
    bool arrive_full(Unit& unit);
    void move_water(Unit& unit);
    void offload(Unit& unit);
    void nurse(Unit& unit);
    void fill(Unit& unit);

    bool draft_up() const { return now_ >= incident_.draft_ready - hair; }
    bool over(const Unit& unit) const { return now_ >= unit.until - hair; }

    static bool begin(Unit& unit, Doing doing, double from, double minutes) {
        unit.doing = doing;
        unit.until = from + minutes;
        unit.opened = from;
        return true;
    }

    // Begins `doing` as soon as fewer than `at_once` who came before are still at one of `these`.
    bool begin_when_free(Unit& unit, Doing doing, double minutes, std::size_t at_once, Doing first,
                         Doing last) const {
        const auto before = std::ranges::count_if(units_, [&](const Unit& other) {
            const bool elsewhere =
                first >= Doing::wait_for_place && other.tanker->fill_site != unit.tanker->fill_site;
            return other.order < unit.order && other.doing >= first && other.doing <= last &&
                   !elsewhere;
        });
        return static_cast<std::size_t>(before) < at_once && begin(unit, doing, now_, minutes);
    }

    // The rest of a leg, to where the next tanker waits.
    double beyond_lane(double leg) const { return std::max(0.0, leg - incident_.single_file); }

    std::size_t slots_now() const {
        std::size_t slots = incident_.slots;
        for (const double from : incident_.further_slots_from) {
            slots -= now_ < from - hair ? 1 : 0;
        }
        return slots;
    }

    // What nursing tankers and those who came before this one still have to put in.
    double promised_before(const Unit& unit) const {
        double sum = 0.0;
        for (const Unit& other : units_) {
            const bool nurses = other.doing == Doing::hook_up || other.doing == Doing::nurse;
            const bool dumps = other.doing == Doing::open_valve || other.doing == Doing::offload;
            if (nurses || (dumps && other.order < unit.order)) {
                sum += other.tanker->delivered - other.moved;
            }
        }
        return sum;
    }

    const Incident& incident_;
    double tick_;
    double now_ = 0.0;
    double drawn_ = 0.0;
    double asked_ = 0.0;  // drawn, with what this tick asks for
    double in_tanks_ = 0.0;
    double sent_to_tanks_ = 0.0;
    double sent_to_engine_ = 0.0;
    double nursed_ = 0.0;
    int nursings_ = 0;
    long arrivals_ = 0;
    std::vector<double> taken_;
    std::vector<Unit> units_;
    std::vector<std::size_t> in_order_ = numbered(incident_.tankers.size());

    static std::vector<std::size_t> numbered(std::size_t count) {
        std::vector<std::size_t> list(count);
        std::iota(list.begin(), list.end(), std::size_t{0});
        return list;
    }
};

// One change of what a tanker does, if it is time for it.
bool Scene::go_on(Unit& unit) {
    const Tanker& tanker = *unit.tanker;
    const double from = unit.until;
    switch (unit.doing) {
        case Doing::drive_loaded:
            return over(unit) && arrive_full(unit);
        case Doing::wait_for_slot:
            if (now_ < incident_.tanks_ready - hair ||
                !begin_when_free(unit, Doing::open_valve,
                                 incident_.single_file + tanker.offload_before, slots_now(),
                                 Doing::wait_for_slot, Doing::leave_slot)) {
                return false;
            }
            unit.tanks_before = sent_to_tanks_;
            sent_to_tanks_ += tanker.delivered;
            return true;
        case Doing::open_valve:
            return over(unit) && begin(unit, Doing::offload, from, forever);
        case Doing::hook_up:
            return over(unit) && begin(unit, Doing::nurse, from, forever);
        case Doing::leave_slot:
        case Doing::leave_engine:
            return over(unit) &&
                   begin(unit, Doing::drive_empty, from, beyond_lane(tanker.empty_leg));
        case Doing::drive_empty:
            unit.order = over(unit) ? ++arrivals_ : unit.order;
            unit.moved = over(unit) ? 0.0 : unit.moved;
            return over(unit) && begin(unit, Doing::wait_for_place, from, forever);
        case Doing::wait_for_place: {
            const FillSite& site = incident_.fill_sites[tanker.fill_site];
            return now_ >= site.ready - hair &&
                   begin_when_free(unit, Doing::connect, tanker.fill_before, site.places,
                                   Doing::wait_for_place, Doing::leave_place);
        }
        case Doing::connect:
            return over(unit) && begin(unit, Doing::wait_for_line, from, forever);
        case Doing::wait_for_line:
            return begin_when_free(unit, Doing::fill, forever,
                                   incident_.fill_sites[tanker.fill_site].flows,
                                   Doing::wait_for_place, Doing::fill);
        case Doing::leave_place:
            return over(unit) &&
                   begin(unit, Doing::drive_loaded, from, beyond_lane(tanker.loaded_leg));
        case Doing::offload:
        case Doing::nurse:
        case Doing::fill:
            return false;
    }
    return false;
}

bool Scene::arrive_full(Unit& unit) {
    const double met = std::max(unit.until, incident_.engine_arrives);
    unit.order = ++arrivals_;
    unit.moved = 0.0;
    if (unit.tanker->can_nurse && nursings_ < incident_.nursing_tankers &&
        met + incident_.nurse_hookup + incident_.single_file < incident_.draft_ready) {
        ++nursings_;
        unit.nursed_before = sent_to_engine_;
        sent_to_engine_ += unit.tanker->delivered;
        return begin(unit, Doing::hook_up, met, incident_.nurse_hookup + incident_.single_file);
    }
    return begin(unit, Doing::wait_for_slot, unit.until, forever);
}

void Scene::move_water(Unit& unit) {
    if (unit.doing == Doing::offload) {
        offload(unit);
    } else if (unit.doing == Doing::nurse) {
        nurse(unit);
    } else if (unit.doing == Doing::fill) {
        fill(unit);
    }
}

void Scene::offload(Unit& unit) {
    const Tanker& tanker = *unit.tanker;
    double room = incident_.storage - unit.tanks_before - unit.moved;
    if (draft_up()) {
        const double in_all = incident_.engine_tank + in_tanks_ + nursed_ - asked_;
        room = std::max(room,
                        incident_.storage + incident_.engine_tank - in_all - promised_before(unit));
    }
    const double run_in = tanker.offload * (now_ - unit.opened) - unit.moved;
    const double left = tanker.delivered - unit.moved;
    const double moved = std::clamp(std::min(run_in, room), 0.0, left);
    unit.moved += moved;
    in_tanks_ += moved;
    if (moved >= left - 1e-6) {
        begin(unit, Doing::leave_slot, now_, tanker.offload_after + incident_.single_file);
    }
}

void Scene::nurse(Unit& unit) {
    const Tanker& tanker = *unit.tanker;
    const double room = asked_ - unit.nursed_before - unit.moved;
    double run_in = std::min(unit.tanker->nurse_rate * (now_ - unit.opened) - unit.moved, room);
    if (draft_up()) {
        run_in = std::max(run_in, tanker.offload * (now_ - incident_.draft_ready) - unit.moved);
    }
    const double left = tanker.delivered - unit.moved;
    const double moved = std::clamp(run_in, 0.0, left);
    unit.moved += moved;
    nursed_ += moved;
    if (moved >= left - 1e-6) {
        begin(unit, Doing::leave_engine, now_, tanker.offload_after + incident_.single_file);
    }
}

void Scene::fill(Unit& unit) {
    const Tanker& tanker = *unit.tanker;
    const FillSite& site = incident_.fill_sites[tanker.fill_site];
    double& taken = taken_[tanker.fill_site];
    double promised = 0.0;
    for (const Unit& other : units_) {
        const bool earlier =
            other.order < unit.order && other.tanker->fill_site == tanker.fill_site;
        if (earlier && other.doing >= Doing::wait_for_place && other.doing <= Doing::fill) {
            promised += other.tanker->refilled - other.moved;
        }
    }
    const double rate = std::min(tanker.fill_limit, site.pump / static_cast<double>(site.flows));
    const double there = site.usable + site.inflow * now_ - taken - promised;
    const double run_in = rate * (now_ - unit.opened) - unit.moved;
    const double left = tanker.refilled - unit.moved;
    const double moved = std::clamp(std::min(run_in, there), 0.0, left);
    unit.moved += moved;
    taken += moved;
    if (moved >= left - 1e-6) {
        begin(unit, Doing::leave_place, now_, tanker.fill_after);
    }
}

}  // namespace

Ticked ticked_run(const Incident& incident, double start, double flow, double until, double tick) {
    const double attack_from = std::max(incident.attack_from, incident.engine_arrives);
    Ticked found{.first_dry = forever};
    Scene scene(incident, tick);
    while (scene.now() < until - hair) {
        const double begun = scene.now();
        const bool sustained = begun >= start - hair;
        const bool attacked = !sustained && begun >= attack_from - hair;
        const double demand = (sustained ? flow : attacked ? incident.attack_flow : 0.0) * tick;
        const double met = scene.step(demand);
        if (met < demand - hair && sustained) {
            found.first_dry = scene.now();
            return found;
        }
        if (met < demand - hair) {
            found.attack_dry += tick;
            found.attack_dry_until = scene.now();
        }
    }
    return found;
}

double ticked_sustained_flow(const Incident& incident, double start, double duration, double most,
                             double tick) {
    double holds = 0.0;
    double fails = most;
    while (fails - holds > 0.2) {
        const double middle = (holds + fails) / 2.0;
        const Ticked found = ticked_run(incident, start, middle, start + duration, tick);
        (found.first_dry < forever ? fails : holds) = middle;
    }
    return holds;
}

}  // namespace farwater::slow
