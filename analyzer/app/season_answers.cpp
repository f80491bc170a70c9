#include "analyzer/app/season_answers.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace farwater::app {
namespace {

DriveTime least_of(const FillTrip& trip) {
    DriveTime least = no_time;
    for (const LegTimes& legs : trip.legs) {
        least = std::min(least, legs.empty + legs.loaded);
    }
    return least;
}

// Per round trip: it has an answer.
std::vector<bool> trips_in_use(const reports::SeasonFindings& season,
                               const supply::Assessment& assessment) {
    const FillTrips& trips = season.trips.fill_trips;
    std::vector<bool> in_use(trips.trips(), false);
    for (std::size_t row = 0; row < assessment.supplies.size(); ++row) {
        const supply::ParcelSupply& supply = assessment.supplies[row];
        const SeasonIndex of = assessment.variants[assessment.worst_variant[row]].variant.season;
        if (of != season.trips.season || !supply.has_round_trip()) {
            continue;
        }
        std::size_t number = trips.first_of(supply.approach.position());
        for (const FillTrip& trip : trips[supply.approach.position()]) {
            if (supply.fills_at(at(season.fill_places, trip.fill_site).source)) {
                in_use[number] = true;
            }
            ++number;
        }
    }
    return in_use;
}

void keep_shortest(const FillTrips& trips, std::vector<bool>& kept) {
    for (std::size_t row = 0; row < trips.size(); ++row) {
        const auto of_row = trips[row];
        const auto shortest = std::ranges::min_element(of_row, {}, least_of);
        if (shortest != of_row.end()) {
            kept[trips.first_of(row) + static_cast<std::size_t>(shortest - of_row.begin())] = true;
        }
    }
}

}  // namespace

void keep_what_is_reported(reports::SeasonFindings& season, const supply::Assessment& assessment) {
    const FillTrips& all = season.trips.fill_trips;
    std::vector<bool> kept = trips_in_use(season, assessment);
    keep_shortest(all, kept);
    FillTrips fewer(all.profiles());
    fewer.reserve(static_cast<std::size_t>(std::ranges::count(kept, true)));
    for (std::size_t row = 0; row < all.size(); ++row) {
        std::size_t number = all.first_of(row);
        for (const FillTrip& trip : all[row]) {
            if (kept[number++]) {
                fewer.add(trip);
            }
        }
        fewer.close_row();
    }
    season.trips.fill_trips = std::move(fewer);
    season.trips.hose_lays = {};
    season.trips.source_lays = {};
}

}  // namespace farwater::app
