#include "analyzer/app/season_supply.h"

#include "analyzer/app/first_engines.h"

namespace farwater::app {
namespace {

// Answers of so many rows stand beside the worst ones at a time. More costs memory; with fewer,
// more cases are worked out more than once.
constexpr std::size_t rows_at_once = 32'768;

void assess_period(const SupplyAsked& asked, const routing::RoadSystem& roads,
                   const reports::SeasonFindings& found, PeriodIndex period,
                   const AnswerTaker& taker, const Onlooker& onlooker, const Work& work) {
    const supply::Situation situation{
        roads.district,    asked.water, asked.profiles, roads.access.points, found.trips,
        found.fill_places, period,      asked.order,    asked.told};
    const std::vector<DriveTime> first = first_arrivals(roads, found.trips.season, period);
    taker.begins({found.trips.season, period});
    supply::assess_in_runs(situation, asked.needs, first, rows_at_once, taker.takes, work);
    if (onlooker.sees && !work.stopped()) {
        onlooker.sees({roads, situation, asked.needs, first});
    }
}

}  // namespace

reports::SeasonFindings assess_season(const SupplyAsked& asked, const routing::RoadSystem& roads,
                                      const routing::DumpSites& dump_sites, SeasonIndex season,
                                      const AnswerTaker& taker, const Onlooker& onlooker,
                                      const Work& work, const StageBegins& begins) {
    const District& district = roads.district;
    const std::string& name = at(district.seasons, season).name;
    begins("round trips, " + name);
    reports::SeasonFindings found;
    found.fill_places =
        supply::fill_site_places(district, asked.water, at(district.seasons, season));
    found.trips = routing::round_trips(roads, dump_sites, found.fill_places, season, work);
    for (std::size_t p = 0; p < district.periods.size() && !work.stopped(); ++p) {
        const PeriodIndex period(p);
        if (!onlooker.wanted || onlooker.wanted({season, period})) {
            begins("supply, " + name + ", " + district.periods[p].name);
            assess_period(asked, roads, found, period, taker, onlooker, work);
        }
    }
    return found;
}

}  // namespace farwater::app
