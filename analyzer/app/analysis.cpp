#include "analyzer/app/analysis.h"

#include <algorithm>
#include <utility>

#include "analyzer/app/first_engines.h"
#include "analyzer/app/problem_list.h"
#include "analyzer/app/rate_district.h"
#include "analyzer/app/road_work.h"
#include "analyzer/app/routes_in_use.h"
#include "analyzer/app/season_answers.h"
#include "analyzer/district/fleet_problems.h"
#include "analyzer/supply/roster.h"
#include "routing/drive_times.h"
#include "routing/dump_sites.h"
#include "routing/profiles.h"

namespace farwater::app {
namespace {

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

// What was found up to the rating, and what it was found on.
struct Assessed {
    Analysis analysis;
    RoadWork road_work;
    routing::DumpSites dump_sites;

    routing::RoadSystem roads(const District& district) const {
        return {district, road_work.network, road_work.access, analysis.asked.profiles};
    }
};

// One season, of which what is reported is kept.
void add_season(Assessed& found, const District& district, SeasonIndex index, const Work& work,
                const StageBegins& begins, const Onlooker& onlooker) {
    Analysis& analysis = found.analysis;
    const AnswerTaker keep_worst{.begins =
                                     [&](supply::Variant variant) {
                                         analysis.assessment.begin(variant,
                                                                   analysis.asked.needs.size());
                                     },
                                 .takes =
                                     [&](const supply::RowAnswers& answers) {
                                         analysis.assessment.keep(answers, district.parcels.size());
                                     }};
    reports::SeasonFindings season =
        assess_season(analysis.asked, found.roads(district), found.dump_sites, index, keep_worst,
                      onlooker, work, begins);
    if (work.stopped()) {
        return;
    }
    keep_farthest(analysis.station_miles, std::move(season.trips.station_miles));
    add(analysis.problems, unreached_sources(district, season));
    keep_what_is_reported(season, analysis.assessment);
    analysis.seasons.push_back(std::move(season));
}

// False when stopped.
bool add_rating(Assessed& found, const District& district, const Work& work,
                const StageBegins& begins) {
    if (district.rating) {
        found.analysis.rating =
            rate_district(found.analysis, found.roads(district), found.dump_sites, work,
                          [&](std::string_view stage) { begins("rating, " + std::string(stage)); });
        return found.analysis.rating.has_value();
    }
    return true;
}

// All where none is named.
void keep_needs_of(std::vector<std::optional<Need>>& needs, std::span<const std::size_t> rows) {
    if (rows.empty()) {
        return;
    }
    std::vector<std::optional<Need>> kept(needs.size());
    for (const std::size_t row : rows) {
        kept[row] = needs[row];
    }
    needs = std::move(kept);
}

// Up to the dump sites. None when stopped.
std::optional<Assessed> before_supply(const District& district,
                                      std::vector<std::optional<Need>> needs, supply::Told told,
                                      const Work& work, const StageBegins& begins) {
    if (work.stopped()) {
        return std::nullopt;  // the district is not complete
    }
    Assessed found;
    Analysis& analysis = found.analysis;
    analysis.asked = {.profiles = routing::vehicle_profiles(district),
                      .water = supply::review_water(district),
                      .needs = std::move(needs),
                      .order = {},
                      .told = told};
    std::optional<RoadWork> road_work =
        work_on_roads(district, analysis.asked.profiles, work, begins);
    if (!road_work) {
        return std::nullopt;
    }
    found.road_work = std::move(*road_work);
    analysis.problems = district.problems;
    add(analysis.problems, fleet_problems(district.units));
    add(analysis.problems, analysis.asked.water.problems);
    add(analysis.problems, std::move(found.road_work.problems));

    begins("dump sites");
    const routing::RoadSystem roads = found.roads(district);
    found.dump_sites =
        routing::find_dump_sites(district, roads.network, roads.access, analysis.asked.profiles,
                                 those_with_a_need(analysis.asked.needs), work);
    return work.stopped() ? std::nullopt : std::optional(std::move(found));
}

// None when stopped.
std::optional<Assessed> assess_district(const District& district,
                                        std::vector<std::optional<Need>> needs, supply::Told told,
                                        const Work& work, const StageBegins& begins,
                                        const Onlooker& onlooker,
                                        std::span<const std::size_t> only_rows) {
    std::optional<Assessed> found = before_supply(district, std::move(needs), told, work, begins);
    if (!found) {
        return std::nullopt;
    }
    keep_needs_of(found->analysis.asked.needs, only_rows);
    for (std::size_t s = 0; s < district.seasons.size() && !work.stopped(); ++s) {
        add_season(*found, district, SeasonIndex(s), work, begins, onlooker);
    }
    const bool complete = !work.stopped() && add_rating(*found, district, work, begins);
    return complete ? std::move(found) : std::nullopt;
}

}  // namespace

std::optional<Analysis> analyse(const District& district, std::vector<std::optional<Need>> needs,
                                const Work& work, const StageBegins& begins,
                                const Onlooker& onlooker, std::span<const std::size_t> only_rows) {
    std::optional<Assessed> found = assess_district(
        district, std::move(needs), supply::Told::everything, work, begins, onlooker, only_rows);
    if (!found) {
        return std::nullopt;
    }
    Analysis& analysis = found->analysis;
    const routing::RoadSystem roads = found->roads(district);
    begins("road times");
    analysis.road_times = times_of_roads(roads, analysis.asked.profiles, analysis.seasons.front());
    begins("routes in use");
    const auto profile_of = supply::profile_of_units(district, analysis.asked.profiles);
    analysis.routes = routes_in_use(
        {roads, found->dump_sites, analysis.seasons, analysis.assessment, profile_of}, work);
    analysis.access = std::move(found->road_work.access.points);
    return work.stopped() ? std::nullopt : std::optional(std::move(analysis));
}

std::optional<Analysis> analyse_flow(const District& district,
                                     std::vector<std::optional<Need>> needs, const Work& work) {
    std::optional<Assessed> found = assess_district(district, std::move(needs), supply::Told::flow,
                                                    work, [](std::string_view) {}, {}, {});
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
    add(problems, fleet_problems(district.units));
    add(problems, supply::review_water(district).problems);
    add(problems, std::move(road_work->problems));
    return problems;
}

}  // namespace farwater::app
