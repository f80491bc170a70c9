#include "analyzer/app/season_answers.h"

#include <cstddef>
#include <optional>
#include <vector>

#include <catch2/catch.hpp>

namespace {

using namespace farwater;

FillTrip trip(std::size_t fill_site, int minutes_each_way) {
    FillTrip trip;
    trip.fill_site = FillSiteIndex(fill_site);
    const DriveTime leg = tenths_of_second(minutes_each_way * 600);
    trip.legs[1] = {leg, leg};
    return trip;
}

// Two dump sites that can be served from three fill sites each, one that cannot, and ways that hose
// takes from the first.
reports::SeasonFindings season_with_trips(std::size_t of = 1) {
    reports::SeasonFindings season;
    season.trips.season = SeasonIndex(of);
    season.trips.dump_sites.resize(3);
    for (std::size_t i = 0; i < 3; ++i) {
        season.fill_places.push_back({SourceIndex(10 + i), {}});
    }
    for (const auto& row : std::vector<std::vector<FillTrip>>{{trip(2, 9), trip(0, 5), trip(1, 5)},
                                                              {trip(1, 3), trip(0, 4), trip(2, 8)},
                                                              {},
                                                              {trip(0, 6), trip(1, 7)}}) {
        for (const FillTrip& trip : row) {
            season.trips.fill_trips.add(trip);
        }
        season.trips.fill_trips.close_row();
        season.trips.stations_of_dump_site.add({StationIndex(4)});
        season.trips.stations_of_dump_site.add({StationIndex(5)});
        season.trips.stations_of_dump_site.close_row();
    }
    season.trips.hose_lays.items.resize(4);
    season.trips.hose_lays.begin = {0, 4};
    return season;
}

template <class ListsOf>
std::vector<std::size_t> sizes_of(const ListsOf& lists) {
    std::vector<std::size_t> sizes;
    for (std::size_t row = 0; row < lists.size(); ++row) {
        sizes.push_back(lists[row].size());
    }
    return sizes;
}

// With no road closed where no approach is said.
supply::ParcelSupply served(std::size_t dump_site, std::size_t source,
                            std::optional<std::size_t> approach = {}) {
    supply::ParcelSupply supply;
    supply.dump_site = DumpSiteIndex(dump_site);
    supply.approach = ApproachIndex(approach.value_or(dump_site));
    supply.fill_source = SourceIndex(source);
    return supply;
}

}  // namespace

TEST_CASE("a season keeps the round trips of its answers and the shortest of each dump site") {
    reports::SeasonFindings season = season_with_trips();
    supply::Assessment assessment;
    assessment.variants = {{{SeasonIndex(0), PeriodIndex(0)}, {}},
                           {{SeasonIndex(1), PeriodIndex(0)}, {}}};
    assessment.supplies = {served(0, 12), served(1, 10), {}};
    assessment.worst_variant = {1, 0, 1};  // the second place's answer is another season's
    app::keep_what_is_reported(season, assessment);
    const FillTrips& trips = season.trips.fill_trips;
    REQUIRE(sizes_of(trips) == std::vector<std::size_t>{2, 1, 0, 0});
    CHECK(trips[0][0].fill_site == FillSiteIndex(2));  // in use
    CHECK(trips[0][1].fill_site == FillSiteIndex(0));  // the first of the two shortest
    CHECK(trips[1][0].fill_site == FillSiteIndex(1));  // the shortest
    CHECK(season.trips.hose_lays.size() == 0);
}

TEST_CASE("a season keeps the round trips to further fill sites too") {
    reports::SeasonFindings season = season_with_trips();
    supply::Assessment assessment;
    assessment.variants = {{{SeasonIndex(1), PeriodIndex(0)}, {}}};
    assessment.supplies = {served(0, 12)};
    assessment.supplies[0].further_fills[0].source = SourceIndex(11);
    assessment.worst_variant = {0};
    app::keep_what_is_reported(season, assessment);
    CHECK(sizes_of(season.trips.fill_trips) == std::vector<std::size_t>{3, 1, 0, 0});
}

TEST_CASE("a season keeps the round trips of ways that are driven while hose lies") {
    reports::SeasonFindings season = season_with_trips();
    supply::Assessment assessment;
    assessment.variants = {{{SeasonIndex(1), PeriodIndex(0)}, {}}};
    assessment.supplies = {served(0, 11, 3)};
    assessment.worst_variant = {0};
    app::keep_what_is_reported(season, assessment);
    REQUIRE(sizes_of(season.trips.fill_trips) == std::vector<std::size_t>{1, 1, 0, 1});
    CHECK(season.trips.fill_trips[3][0].fill_site == FillSiteIndex(1));
}

TEST_CASE("the first season keeps its dump sites and all drives to them, another what is used") {
    supply::Assessment assessment;
    assessment.variants = {{{SeasonIndex(0), PeriodIndex(0)}, {}},
                           {{SeasonIndex(1), PeriodIndex(0)}, {}}};
    assessment.supplies = {served(1, 10), served(0, 11, 3)};
    assessment.worst_variant = {0, 1};
    reports::SeasonFindings first = season_with_trips(0);
    app::keep_what_is_reported(first, assessment);
    CHECK(first.trips.dump_sites.size() == 3);
    CHECK(sizes_of(first.trips.stations_of_dump_site) == std::vector<std::size_t>{2, 2, 2});
    reports::SeasonFindings second = season_with_trips(1);
    app::keep_what_is_reported(second, assessment);
    CHECK(second.trips.dump_sites.empty());
    CHECK(sizes_of(second.trips.stations_of_dump_site) == std::vector<std::size_t>{2, 0, 0});
    CHECK(second.trips.stations_of_dump_site[0][1].station == StationIndex(5));
}
