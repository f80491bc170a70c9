#include "analyzer/planning/calibration.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace farwater::planning {
namespace {

constexpr double close_to_the_plan = 0.05;
constexpr double hair = 1e-9;  // so that a share that is not exact in binary is itself

// A figure and the planned one.
struct Pair {
    double timed = 0.0;
    double planned = 0.0;
};

// Precondition: there is one.
double rank(const std::vector<double>& sorted, double share) {
    const auto place =
        static_cast<std::size_t>(std::ceil(share * static_cast<double>(sorted.size()) - hair));
    return sorted[std::max<std::size_t>(place, 1) - 1];
}

Spread spread_of(const std::vector<Pair>& pairs) {
    Spread spread;
    if (pairs.empty()) {
        return spread;
    }
    std::vector<double> sorted;
    for (const Pair& pair : pairs) {
        sorted.push_back(pair.timed);
        spread.within += pair.timed <= pair.planned ? 1U : 0U;
    }
    std::ranges::sort(sorted);
    spread.runs = pairs.size();
    spread.half = rank(sorted, 0.5);
    spread.eight_of_ten = rank(sorted, 0.8);
    return spread;
}

template <class Key>
using DrivesBy = std::map<Key, std::vector<Pair>>;

template <class Key>
std::vector<DriveGroup<Key>> groups_of(const DrivesBy<Key>& drives) {
    std::vector<DriveGroup<Key>> groups;
    for (const auto& [key, pairs] : drives) {
        groups.push_back({key, spread_of(pairs)});
    }
    return groups;
}

std::vector<TurnoutGroup> turnout_groups(std::span<const RunBesidePlan> runs) {
    std::map<std::tuple<StationIndex, PeriodIndex, double>, std::vector<Pair>> turnouts;
    for (const RunBesidePlan& run : runs) {
        if (run.turnout && run.planned_turnout) {
            const double planned = in_minutes(*run.planned_turnout);
            turnouts[{run.station, run.period, planned}].push_back(
                {in_minutes(*run.turnout), planned});
        }
    }
    std::vector<TurnoutGroup> groups;
    for (const auto& [key, pairs] : turnouts) {
        const auto& [station, period, planned] = key;
        groups.push_back({station, period, minutes(planned), spread_of(pairs)});
    }
    return groups;
}

}  // namespace

Calibration calibration_of(std::span<const RunBesidePlan> runs) {
    std::vector<Pair> all;
    DrivesBy<UnitKind> by_kind;
    DrivesBy<SeasonIndex> by_season;
    DrivesBy<StationIndex> by_station;
    for (const RunBesidePlan& run : runs) {
        if (!run.drive || !run.planned_drive || *run.planned_drive <= Duration{}) {
            continue;
        }
        const Pair pair{*run.drive / *run.planned_drive, 1.0};
        all.push_back(pair);
        by_kind[run.kind].push_back(pair);
        by_season[run.season].push_back(pair);
        by_station[run.station].push_back(pair);
    }
    return {.drives = spread_of(all),
            .by_kind = groups_of(by_kind),
            .by_season = groups_of(by_season),
            .by_station = groups_of(by_station),
            .turnouts = turnout_groups(runs)};
}

std::optional<double> speed_factor(const Spread& drives) {
    if (drives.runs < fewest_to_judge || drives.half <= 0.0 ||
        std::abs(drives.half - 1.0) <= close_to_the_plan + hair) {
        return std::nullopt;
    }
    return 1.0 / drives.half;
}

}  // namespace farwater::planning
