#include "analyzer/app/analysis.h"

#include <algorithm>
#include <utility>

#include "analyzer/app/first_engines.h"
#include "analyzer/app/problem_list.h"
#include "analyzer/app/rate_district.h"
#include "analyzer/app/road_work.h"
#include "analyzer/app/routes_in_use.h"
#include "analyzer/app/season_answers.h"
#include "analyzer/supply/roster.h"
#include "routing/drive_times.h"
#include "routing/dump_sites.h"
#include "routing/profiles.h"

namespace farwater::app {
namespace {

// Problems of the whole district that no single reader sees.
std::vector<Problem> fleet_problems(const District& district) {
    const auto has = [&](UnitKind kind) {
        return std::ranges::any_of(district.units,
                                   [&](const Unit& unit) { return unit.kind == kind; });
    };
    std::vector<Problem> problems;
    if (!has(UnitKind::tanker)) {
        problems.push_back({.id = ProblemId::fleet_without_tankers, .layer = "apparatus"});
    }
    if (!has(UnitKind::engine)) {
        problems.push_back({.id = ProblemId::fleet_without_engines, .layer = "apparatus"});
    }
    return problems;
}

RoadTimes times_of_roads(const routing::RoadSystem& roads, const std::vector<Profile>& profiles,
                         const reports::SeasonFindings& season) {
    const auto engines = engines_at_alarm(roads.district, profiles,
                                          supply::roster(roads.district, PeriodIndex(0), ""));
    return routing::road_times(roads, engines, season.fill_places, SeasonIndex(0));
}

// Water that counts and that nobody from the stations can get to, in the season.
std::vector<Problem> unreached_sources(const District& district,
                                       const reports::SeasonFindings& found) {
    std::vector<Problem> problems;
    for (std::size_t i = 0; i < found.trips.stations_of_fill_site.size(); ++i) {
        if (found.trips.stations_of_fill_site[i].empty()) {
            const WaterSource& source = at(district.sources, found.fill_places[i].source);
            problems.push_back({.id = ProblemId::source_no_station,
                                .layer = "water_sources",
                                .record = source.id,
                                .detail = at(district.seasons, found.trips.season).name});
        }
    }
    return problems;
}

// Takes in what another season says.
void keep_farthest(std::vector<std::optional<float>>& miles,
                   std::vector<std::optional<float>> of_season) {
    if (miles.empty()) {
        miles = std::move(of_season);
        return;
    }
    for (std::size_t row = 0; row < miles.size(); ++row) {
        if (miles[row] && of_season[row]) {
            miles[row] = std::max(*miles[row], *of_season[row]);
        } else {
            miles[row] = std::nullopt;
        }
    }
}

// Answers of so many rows stand beside the worst ones at a time. More costs memory; with fewer,
// more cases are worked out more than once.
constexpr std::size_t rows_at_once = 32'768;

// One season: its round trips, then the supply in each period.
void assess_season(Analysis& analysis, const routing::RoadSystem& roads,
                   const routing::DumpSites& dump_sites, SeasonIndex index, const Work& work,
                   const StageBegins& begins, const Onlooker& onlooker) {
    const District& district = roads.district;
    const Season& season = at(district.seasons, index);
    begins("round trips, " + season.name);
    reports::SeasonFindings found;
    found.fill_places = supply::fill_site_places(district, analysis.water, season);
    found.trips = routing::round_trips(roads, dump_sites, found.fill_places, index, work);
    if (work.stopped()) {
        return;
    }
    keep_farthest(analysis.station_miles, std::move(found.trips.station_miles));
    add(analysis.problems, unreached_sources(district, found));
    for (std::size_t p = 0; p < district.periods.size() && !work.stopped(); ++p) {
        const PeriodIndex period(p);
        if (onlooker.wanted && !onlooker.wanted(index, period)) {
            continue;
        }
        begins("supply, " + season.name + ", " + district.periods[p].name);
        const supply::Situation situation{
            district,          analysis.water, analysis.profiles, roads.access.points, found.trips,
            found.fill_places, period,         analysis.order,    analysis.told};
        const std::vector<DriveTime> first = first_arrivals(roads, index, period);
        analysis.assessment.begin({index, period}, analysis.needs.size());
        const auto take = [&](const supply::RowAnswers& answers) {
            if (onlooker.takes) {
                onlooker.takes(answers);
            }
            analysis.assessment.keep(answers, district.parcels.size());
        };
        supply::assess_in_runs(situation, analysis.needs, first, rows_at_once, take, work);
        if (onlooker.sees && !work.stopped()) {
            onlooker.sees({roads, situation, analysis.needs, first});
        }
    }
    if (!work.stopped()) {
        keep_what_is_reported(found, analysis.assessment);
    }
    analysis.seasons.push_back(std::move(found));
}

// What was found up to the rating, and what it was found on.
struct Assessed {
    Analysis analysis;
    RoadWork road_work;
    routing::DumpSites dump_sites;

    routing::RoadSystem roads(const District& district) const {
        return {district, road_work.network, road_work.access, analysis.profiles};
    }
};

// False when stopped.
bool add_rating(Assessed& found, const District& district, const Work& work,
                const StageBegins& begins) {
    const auto assess = [&](Analysis& counted, const routing::RoadSystem& rated, SeasonIndex season,
                            const Onlooker& sees_rated) {
        assess_season(
            counted, rated, found.dump_sites, season, work,
            [&](std::string_view stage) { begins("rating, " + std::string(stage)); }, sees_rated);
    };
    if (district.rating) {
        found.analysis.rating = rate_district(found.analysis, found.roads(district), assess, work);
        return found.analysis.rating.has_value();
    }
    return true;
}

// None when stopped.
std::optional<Assessed> assess_district(const District& district,
                                        std::vector<std::optional<Need>> needs, supply::Told told,
                                        const Work& work, const StageBegins& begins,
                                        const Onlooker& onlooker) {
    if (work.stopped()) {
        return std::nullopt;  // the district is not complete
    }
    Assessed found;
    Analysis& analysis = found.analysis;
    analysis.told = told;
    analysis.profiles = routing::vehicle_profiles(district);
    analysis.water = supply::review_water(district);
    analysis.needs = std::move(needs);
    std::optional<RoadWork> road_work = work_on_roads(district, analysis.profiles, work, begins);
    if (!road_work) {
        return std::nullopt;
    }
    found.road_work = std::move(*road_work);
    analysis.problems = district.problems;
    add(analysis.problems, fleet_problems(district));
    add(analysis.problems, analysis.water.problems);
    add(analysis.problems, std::move(found.road_work.problems));

    begins("dump sites");
    const routing::RoadSystem roads = found.roads(district);
    found.dump_sites =
        routing::find_dump_sites(district, roads.network, roads.access, analysis.profiles,
                                 those_with_a_need(analysis.needs), work);
    for (std::size_t s = 0; s < district.seasons.size() && !work.stopped(); ++s) {
        assess_season(analysis, roads, found.dump_sites, SeasonIndex(s), work, begins, onlooker);
    }
    const bool complete = !work.stopped() && add_rating(found, district, work, begins);
    return complete ? std::optional(std::move(found)) : std::nullopt;
}

}  // namespace

std::optional<Analysis> analyse(const District& district, std::vector<std::optional<Need>> needs,
                                const Work& work, const StageBegins& begins,
                                const Onlooker& onlooker) {
    std::optional<Assessed> found = assess_district(
        district, std::move(needs), supply::Told::everything, work, begins, onlooker);
    if (!found) {
        return std::nullopt;
    }
    Analysis& analysis = found->analysis;
    const routing::RoadSystem roads = found->roads(district);
    begins("road times");
    analysis.road_times = times_of_roads(roads, analysis.profiles, analysis.seasons.front());
    begins("routes in use");
    const auto profile_of = supply::profile_of_units(district, analysis.profiles);
    analysis.routes = routes_in_use(
        {roads, found->dump_sites, analysis.seasons, analysis.assessment, profile_of}, work);
    analysis.access = std::move(found->road_work.access.points);
    return work.stopped() ? std::nullopt : std::optional(std::move(analysis));
}

std::optional<Analysis> analyse_flow(const District& district,
                                     std::vector<std::optional<Need>> needs, const Work& work) {
    std::optional<Assessed> found = assess_district(district, std::move(needs), supply::Told::flow,
                                                    work, [](std::string_view) {}, {});
    return found ? std::optional(std::move(found->analysis)) : std::nullopt;
}

std::optional<std::vector<Problem>> check_district(const District& district, const Work& work,
                                                   const StageBegins& begins) {
    if (work.stopped()) {
        return std::nullopt;
    }
    const std::vector<Profile> profiles = routing::vehicle_profiles(district);
    std::optional<RoadWork> road_work = work_on_roads(district, profiles, work, begins);
    if (!road_work) {
        return std::nullopt;
    }
    std::vector<Problem> problems = district.problems;
    add(problems, fleet_problems(district));
    add(problems, supply::review_water(district).problems);
    add(problems, std::move(road_work->problems));
    return problems;
}

}  // namespace farwater::app
