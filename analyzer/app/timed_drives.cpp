#include "analyzer/app/timed_drives.h"

#include <algorithm>
#include <array>
#include <map>
#include <tuple>

#include "analyzer/supply/roster.h"
#include "analyzer/supply/situation.h"
#include "routing/costs.h"
#include "routing/drive_table.h"
#include "routing/stops.h"

namespace farwater::app {
namespace {

const DriveTime longest = tenths_of_second(300 * 600);

SeasonIndex season_of(const District& district, const std::optional<Date>& date) {
    const auto season = std::ranges::find_if(district.seasons, [&](const Season& one) {
        return date && one.months.contains(date->month());
    });
    return SeasonIndex(season == district.seasons.end()
                           ? 0
                           : static_cast<std::size_t>(season - district.seasons.begin()));
}

routing::RoadSpot spot_of(const routing::RoadSystem& roads, const RunStart& from) {
    if (from.station.valid()) {
        return at(roads.access.stations, from.station);
    }
    return from.source.valid() ? at(roads.access.sources, from.source)
                               : roads.access.dump_site_places[*from.dump_site_place];
}

DriveTime to_gate(const District& district, const RunStart& from, SeasonIndex season) {
    return from.station.valid() ? routing::gate_drive(at(district.stations, from.station),
                                                      at(district.seasons, season))
                                : DriveTime{};
}

// Runs that one search answers.
using Together =
    std::map<std::tuple<ProfileIndex, SeasonIndex, RunStart>, std::vector<std::size_t>>;

Together together(const routing::RoadSystem& roads, std::span<const TimedRun> runs,
                  std::span<const planning::RunBesidePlan> beside) {
    const auto profile_of = supply::profile_of_units(roads.district, roads.profiles);
    Together groups;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const ProfileIndex profile = at(profile_of, runs[i].unit);
        if (runs[i].drive && profile.valid()) {
            groups[{profile, beside[i].season, runs[i].from}].push_back(i);
        }
    }
    return groups;
}

void plan_drives(const routing::RoadSystem& roads, std::span<const TimedRun> runs,
                 const Together::value_type& group, const Work& work,
                 std::vector<planning::RunBesidePlan>& beside) {
    const auto& [profile, season, from] = group.first;
    std::vector<Point> ends;
    for (const std::size_t run : group.second) {
        ends.push_back(runs[run].to);
    }
    const std::vector<routing::RoadSpot> to =
        routing::stops_near(roads.district, roads.network, ends, at(roads.profiles, profile),
                            at(roads.district.seasons, season), work);
    const std::array starts{spot_of(roads, from)};
    for (const DrivePair& pair :
         routing::drives_between(roads, profile, season, starts, to, longest, work)) {
        const DriveTime there = pair.loaded.time + to_gate(roads.district, from, season);
        if (reachable(pair.loaded.time)) {
            beside[group.second[pair.to]].planned_drive = duration_of(there);
        }
    }
}

}  // namespace

std::vector<planning::RunBesidePlan> beside_plan(const routing::RoadSystem& roads,
                                                 std::span<const TimedRun> runs, const Work& work) {
    const District& district = roads.district;
    std::vector<planning::RunBesidePlan> beside;
    for (const TimedRun& run : runs) {
        const Unit& unit = at(district.units, run.unit);
        planning::RunBesidePlan one{.kind = unit.kind,
                                    .station = unit.station,
                                    .season = season_of(district, run.date),
                                    .period = run.period,
                                    .turnout = run.turnout,
                                    .planned_turnout = {},
                                    .drive = run.drive,
                                    .planned_drive = {}};
        if (run.period.valid()) {
            one.planned_turnout = supply::turnout_of(district, run.unit, run.period,
                                                     aid_of(district, unit) == Aid::mutual);
        }
        beside.push_back(one);
    }
    for (const auto& group : together(roads, runs, beside)) {
        if (!work.stopped()) {
            plan_drives(roads, runs, group, work, beside);
        }
    }
    return beside;
}

}  // namespace farwater::app
