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
    const Lists<FillTrip>& trips = season.trips.fill_trips;
    std::vector<bool> in_use(trips.items.size(), false);
    for (std::size_t row = 0; row < assessment.supplies.size(); ++row) {
        const supply::ParcelSupply& supply = assessment.supplies[row];
        const SeasonIndex of = assessment.variants[assessment.worst_variant[row]].variant.season;
        if (of != season.trips.season || !supply.has_round_trip()) {
            continue;
        }
        const std::size_t begin = trips.begin[supply.approach.position()];
        const std::size_t end = trips.begin[supply.approach.position() + 1];
        for (std::size_t i = begin; i < end; ++i) {
            const SourceIndex source = at(season.fill_places, trips.items[i].fill_site).source;
            in_use[i] = in_use[i] || supply.fills_at(source);
        }
    }
    return in_use;
}

void keep_shortest(const Lists<FillTrip>& trips, std::vector<bool>& kept) {
    for (std::size_t row = 0; row < trips.size(); ++row) {
        const auto of_row = trips[row];
        const auto shortest = std::ranges::min_element(of_row, {}, least_of);
        if (shortest != of_row.end()) {
            kept[trips.begin[row] + static_cast<std::size_t>(shortest - of_row.begin())] = true;
        }
    }
}

}  // namespace

void keep_what_is_reported(reports::SeasonFindings& season, const supply::Assessment& assessment) {
    const Lists<FillTrip>& all = season.trips.fill_trips;
    std::vector<bool> kept = trips_in_use(season, assessment);
    keep_shortest(all, kept);
    Lists<FillTrip> fewer;
    fewer.begin.reserve(all.begin.size());
    fewer.items.reserve(static_cast<std::size_t>(std::ranges::count(kept, true)));
    for (std::size_t row = 0; row < all.size(); ++row) {
        for (std::size_t i = all.begin[row]; i < all.begin[row + 1]; ++i) {
            if (kept[i]) {
                fewer.items.push_back(all.items[i]);
            }
        }
        fewer.close_row();
    }
    season.trips.fill_trips = std::move(fewer);
    season.trips.hose_lays = {};
    season.trips.source_lays = {};
}

}  // namespace farwater::app
