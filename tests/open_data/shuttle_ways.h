// The ways in which the shuttle of slow::shuttle_at can be run, each asked of the ticking twin.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <vector>

#include "tests/support/parcel_twin.h"
#include "tests/support/slow_shuttle.h"

namespace farwater::open_data {

inline constexpr double tick = 0.01;  // minutes
inline constexpr std::array a_tick_or_two{0.0, -2 * tick, -tick, tick, 2 * tick};

// What a tick may miss of a flow, gpm.
inline double tolerance(double flow) { return 0.005 * flow + 0.5; }

// A shuttle of some of the tankers, of which none or one nurses.
struct Way {
    slow::Incident incident;
    std::size_t places = 1;
    double start = 0.0, duration = 0.0;

    // With one tanker filling at a time, or as many as there are places.
    bool holds(double flow, double slower, double later) const {
        slow::Incident tried = slow::with_slow_stages(incident, slower);
        for (slow::Tanker& tanker : tried.tankers) {
            tanker.loaded_leg += later;
        }
        const double end = start + duration;
        for (std::size_t flows = 1; flows <= places; ++flows) {
            tried.fill_sites[0].flows = flows;
            if (slow::ticked_run(tried, start, flow, end, tick).first_dry > end) {
                return true;
            }
        }
        return false;
    }
    // Tankers of different kinds overtake each other as the flow changes, so a flow may hold where
    // a slightly smaller one does not; and where two come at almost the same moment, a tick may
    // change who goes first. So the answer is looked for in all that a tick may miss.
    bool may_hold(double flow, double slower) const {
        const auto tries = {1.0, 0.5, 0.25, 0.1, 0.0};
        return flow <= tolerance(flow) ||
               std::any_of(tries.begin(), tries.end(), [&](double share) {
                   return holds(flow - share * tolerance(flow), slower, 0.0) ||
                          holds(flow - share * tolerance(flow), slower, -tick);
               });
    }
    bool may_not_hold_more(double flow, double slower) const {
        return std::any_of(a_tick_or_two.begin(), a_tick_or_two.end(), [&](double later) {
            return !holds(flow + tolerance(flow), slower, later);
        });
    }
    bool holds_about(double flow, double slower) const {
        return may_hold(flow, slower) && may_not_hold_more(flow, slower);
    }
    double round_trip() const {
        return incident.tankers.front().empty_leg + incident.tankers.front().loaded_leg;
    }
};

// All ways that use so many tankers.
inline std::vector<Way> ways_with(const slow::Shuttle& shuttle, std::size_t tankers,
                                  double duration) {
    std::vector<Way> ways;
    const std::vector<slow::Tanker>& all = shuttle.incident.tankers;
    for (unsigned chosen = 0; chosen < 1U << all.size(); ++chosen) {
        Way way{shuttle.incident, shuttle.places, shuttle.start, duration};
        way.incident.tankers.clear();
        bool one_can_nurse = false;
        for (std::size_t i = 0; i < all.size(); ++i) {
            if ((chosen >> i & 1U) != 0) {
                way.incident.tankers.push_back(all[i]);
                one_can_nurse = one_can_nurse || all[i].can_nurse;
            }
        }
        if (way.incident.tankers.size() == tankers) {
            ways.push_back(way);
            way.incident.nursing_tankers = 1;
            if (one_can_nurse) {
                ways.push_back(way);
            }
        }
    }
    return ways;
}

}  // namespace farwater::open_data
