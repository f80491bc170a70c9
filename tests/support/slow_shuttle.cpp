#include "tests/support/slow_shuttle.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace farwater::slow {

namespace {

struct Load {
    double opened = 0.0;
    double all_in = 0.0;
    double gallons = 0.0;
    double rate = 0.0;
    double dump_rate = 0.0;
    double tanks_before = 0.0;   // gallons sent to the portable tanks before this load
    double nursed_before = 0.0;  // of a load for the tanks: gallons nursed in all
    bool nurses = false;
};

// One run at one flow.
struct Run {
    const Incident& incident;
    double start;
    double flow;
    std::vector<Load> loads{};

    double drawn(double minute) const { return std::max(0.0, flow * (minute - start)); }

    double when_drawn(double gallons) const {
        return gallons <= 0.0 ? -forever : start + gallons / flow;
    }

    // What of a load is in by a minute.
    double in(const Load& load, double minute) const {
        if (minute <= load.opened) {
            return 0.0;
        }
        if (minute >= load.all_in) {
            return load.gallons;
        }
        double gallons = load.rate * (minute - load.opened);
        if (load.nurses) {
            gallons = std::min(gallons, drawn(minute) - load.nursed_before);
            if (minute > incident.draft_ready) {
                gallons = std::max(gallons, load.dump_rate * (minute - incident.draft_ready));
            }
        } else {
            double room = incident.storage - load.tanks_before;
            if (minute >= incident.draft_ready) {
                room = std::max(room, room + drawn(minute) - load.nursed_before);
            }
            gallons = std::min(gallons, room);
        }
        return std::clamp(gallons, 0.0, load.gallons);
    }

    double usable(double minute, bool draft, bool engine) const {
        double sum = engine ? incident.engine_tank : 0.0;
        for (const Load& load : loads) {
            sum += load.nurses || draft ? in(load, minute) : 0.0;
        }
        return sum;
    }

    bool enough(double minute, bool draft, bool engine) const {
        const double water = usable(minute, draft, engine);
        return drawn(minute) <= water * (1.0 + 1e-7) + 1e-9;
    }

    // Looked at a moment before, so that water which comes at that very minute does not count.
    bool enough_by(double minute) const {
        return enough(minute, minute > incident.draft_ready, minute > incident.engine_arrives);
    }

    bool balanced(double until) const;
};

double& first_free(std::vector<double>& free_from) { return *std::ranges::min_element(free_from); }

// Where a tanker comes next, and whether it is full then.
struct Coming {
    double due = 0.0;
    bool full = true;
};

// The events of one run, in order of arrival; gives its loads to the run.
class Haul {
public:
    Haul(Run& run, double nursed_in_all) : run_(run), nursed_in_all_(nursed_in_all) {
        const Incident& incident = run.incident;
        for (const Tanker& tanker : incident.tankers) {
            coming_.push_back({tanker.arrives, true});
        }
        for (std::size_t slot = 0; slot < incident.slots; ++slot) {
            const bool waits = slot > 0 && slot <= incident.further_slots_from.size();
            slots_.push_back(
                waits ? std::max(incident.tanks_ready, incident.further_slots_from[slot - 1])
                      : incident.tanks_ready);
        }
        for (const FillSite& site : incident.fill_sites) {
            places_.emplace_back(site.places, site.ready);
            lines_.emplace_back(site.flows, site.ready);
        }
        taken_.assign(incident.fill_sites.size(), 0.0);
    }

    // Returns the gallons nursed.
    double go(double until) {
        run_.loads.clear();
        while (!coming_.empty()) {
            const auto next = std::ranges::min_element(coming_, {}, &Coming::due);
            if (next->due >= until) {
                break;
            }
            const auto number = static_cast<std::size_t>(next - coming_.begin());
            *next = after(run_.incident.tankers[number], *next);
        }
        return nursed_;
    }

private:
    Coming after(const Tanker& tanker, Coming now) {
        const Incident& incident = run_.incident;
        if (!now.full) {
            return {fill(tanker, now.due) + tanker.loaded_leg, true};
        }
        const double hooked = std::max(now.due, incident.engine_arrives) + incident.nurse_hookup;
        const bool nurses = tanker.can_nurse && nursings_ < incident.nursing_tankers &&
                            hooked < incident.draft_ready;
        const double leaves = nurses ? nurse(tanker, hooked) : offload(tanker, now.due);
        return {leaves + tanker.empty_leg, false};
    }

    double nurse(const Tanker& tanker, double hooked) {
        const Incident& incident = run_.incident;
        Load load{hooked,         0.0, tanker.delivered, tanker.nurse_rate,
                  tanker.offload, 0.0, nursed_,          true};
        nursed_ += tanker.delivered;
        ++nursings_;
        const double fed =
            std::max(hooked + tanker.delivered / tanker.nurse_rate, run_.when_drawn(nursed_));
        load.all_in = std::min(fed, incident.draft_ready + tanker.delivered / tanker.offload);
        run_.loads.push_back(load);
        return load.all_in + tanker.offload_after;
    }

    double offload(const Tanker& tanker, double due) {
        const Incident& incident = run_.incident;
        double& slot = first_free(slots_);
        const double opened = std::max(due, slot) + tanker.offload_before;
        Load load{opened, 0.0,       tanker.delivered, tanker.offload,
                  0.0,    in_tanks_, nursed_in_all_,   false};
        in_tanks_ += tanker.delivered;
        load.all_in = opened + tanker.delivered / tanker.offload;
        if (in_tanks_ > incident.storage + 1e-9) {
            const double room = run_.when_drawn(in_tanks_ + nursed_in_all_ - incident.storage);
            load.all_in = std::max({load.all_in, incident.draft_ready, room});
        }
        run_.loads.push_back(load);
        slot = load.all_in + tanker.offload_after;
        return slot;
    }

    double fill(const Tanker& tanker, double due) {
        const FillSite& site = run_.incident.fill_sites[tanker.fill_site];
        double& place = first_free(places_[tanker.fill_site]);
        double& line = first_free(lines_[tanker.fill_site]);
        const double rate =
            std::min(tanker.fill_limit, site.pump / static_cast<double>(site.flows));
        const double begin = std::max(std::max(due, place) + tanker.fill_before, line);
        double full = begin + tanker.refilled / rate;
        taken_[tanker.fill_site] += tanker.refilled;
        const double missing = taken_[tanker.fill_site] - site.usable;
        if (missing > 1e-9) {
            full = std::max(full, site.inflow > 0.0 ? missing / site.inflow : forever);
        }
        line = full;
        place = full + tanker.fill_after;
        return place;
    }

    Run& run_;
    double nursed_in_all_;
    std::vector<Coming> coming_;
    std::vector<double> slots_;
    std::vector<std::vector<double>> places_, lines_;
    std::vector<double> taken_;
    double in_tanks_ = 0.0;
    double nursed_ = 0.0;
    int nursings_ = 0;
};

// Every bend and a grid of tenths of a minute.
bool Run::balanced(double until) const {
    std::vector<double> looks{until, incident.draft_ready, incident.engine_arrives};
    for (const Load& load : loads) {
        for (const double gallons :
             {load.tanks_before + load.nursed_before - incident.storage, load.nursed_before}) {
            looks.push_back(when_drawn(gallons));
        }
        looks.insert(looks.end(), {load.opened, load.all_in});
        if (load.nurses && load.dump_rate > load.rate) {
            looks.push_back((load.dump_rate * incident.draft_ready - load.rate * load.opened) /
                            (load.dump_rate - load.rate));
        }
    }
    for (double minute = start; minute < until; minute += 0.1) {
        looks.push_back(minute);
    }
    return std::ranges::all_of(looks, [&](double minute) {
        return minute <= start || minute > until || enough_by(minute);
    });
}

// The lane as a part of the visit, so that nobody else is in it.
Incident lane_in_visit(Incident incident) {
    const double lane = incident.single_file;
    for (Tanker& tanker : incident.tankers) {
        tanker.arrives -= lane;
        tanker.offload_before += lane;
        tanker.offload_after += lane;
        tanker.empty_leg = std::max(0.0, tanker.empty_leg - lane);
        tanker.loaded_leg = std::max(0.0, tanker.loaded_leg - lane);
    }
    incident.nurse_hookup += lane;
    return incident;
}

}  // namespace

bool slow_holds(const Incident& given, double start, double duration, double flow) {
    const Incident incident = lane_in_visit(given);
    Run run{incident, start, flow};
    const double nursed_in_all = Haul(run, 0.0).go(start + duration);
    Haul(run, nursed_in_all).go(start + duration);
    return run.balanced(start + duration);
}

int slow_sustained_flow(const Incident& incident, double start, double duration, int most) {
    int holds = 0;
    int fails = most + 1;
    while (fails - holds > 1) {
        const int middle = (holds + fails) / 2;
        (slow_holds(incident, start, duration, middle / 10.0) ? holds : fails) = middle;
    }
    return holds;
}

}  // namespace farwater::slow
