#include "tests/support/slow_shuttle.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace farwater::slow {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

struct Load {
    double opened = 0.0;
    double all_in = 0.0;
    double gallons = 0.0;
    double rate = 0.0;
    double dump_rate = 0.0;
    double tanks_before = 0.0;  // gallons sent to the portable tanks before this load
    double nursed_before = 0.0;
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
        return gallons <= 0.0 ? -never : start + gallons / flow;
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

    double haul(double until, double nursed_in_all);
    bool balanced(double until) const;
};

std::size_t first_free(const std::vector<double>& free_from) {
    return static_cast<std::size_t>(std::ranges::min_element(free_from) - free_from.begin());
}

// Returns the gallons nursed.
double Run::haul(double until, double nursed_in_all) {
    loads.clear();
    struct Coming {
        double due;
        bool full;
    };
    std::vector<Coming> coming;
    for (const Tanker& tanker : incident.tankers) {
        coming.push_back({tanker.arrives, true});
    }
    std::vector<double> slots(incident.slots, incident.tanks_ready);
    std::vector<std::vector<double>> places, lines;
    for (const FillSite& site : incident.fill_sites) {
        places.emplace_back(site.places, site.ready);
        lines.emplace_back(site.flows, site.ready);
    }
    std::vector<double> taken(incident.fill_sites.size(), 0.0);
    double in_tanks = 0.0, nursed = 0.0;
    int nursings = 0;

    while (!coming.empty()) {
        const auto next = std::ranges::min_element(coming, {}, &Coming::due);
        if (next->due >= until) {
            return nursed;
        }
        const Tanker& tanker = incident.tankers[static_cast<std::size_t>(next - coming.begin())];
        const double hooked = std::max(next->due, incident.engine_arrives) + incident.nurse_hookup;
        if (next->full && tanker.can_nurse && nursings < incident.nursing_tankers &&
            hooked < incident.draft_ready) {
            Load load{hooked,         0.0, tanker.delivered, incident.nurse_rate,
                      tanker.offload, 0.0, nursed,           true};
            nursed += tanker.delivered;
            ++nursings;
            const double fed =
                std::max(hooked + tanker.delivered / incident.nurse_rate, when_drawn(nursed));
            load.all_in = std::min(fed, incident.draft_ready + tanker.delivered / tanker.offload);
            loads.push_back(load);
            *next = {load.all_in + tanker.offload_after + tanker.empty_leg, false};
        } else if (next->full) {
            double& slot = slots[first_free(slots)];
            Load load{std::max(next->due, slot) + tanker.offload_before,
                      0.0,
                      tanker.delivered,
                      tanker.offload,
                      0.0,
                      in_tanks,
                      nursed_in_all,
                      false};
            in_tanks += tanker.delivered;
            load.all_in = load.opened + tanker.delivered / tanker.offload;
            if (in_tanks > incident.storage + 1e-9) {
                const double room = when_drawn(in_tanks + nursed_in_all - incident.storage);
                load.all_in = std::max({load.all_in, incident.draft_ready, room});
            }
            loads.push_back(load);
            slot = load.all_in + tanker.offload_after;
            *next = {slot + tanker.empty_leg, false};
        } else {
            const FillSite& site = incident.fill_sites[tanker.fill_site];
            double& place = places[tanker.fill_site][first_free(places[tanker.fill_site])];
            double& line = lines[tanker.fill_site][first_free(lines[tanker.fill_site])];
            const double rate =
                std::min(tanker.fill_limit, site.pump / static_cast<double>(site.flows));
            const double begin = std::max(std::max(next->due, place) + tanker.fill_before, line);
            double full = begin + tanker.refilled / rate;
            taken[tanker.fill_site] += tanker.refilled;
            const double missing = taken[tanker.fill_site] - site.usable;
            if (missing > 1e-9) {
                full = std::max(full, site.inflow > 0.0 ? missing / site.inflow : never);
            }
            line = full;
            place = full + tanker.fill_after;
            *next = {place + tanker.loaded_leg, true};
        }
    }
    return nursed;
}

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

}  // namespace

bool slow_holds(const Incident& incident, double start, double duration, double flow) {
    Run run{incident, start, flow};
    const double nursed_in_all = run.haul(start + duration, 0.0);
    run.haul(start + duration, nursed_in_all);
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
