#include "analyzer/app/season_answers.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace farwater::app {
namespace {

DriveTime least_of(const FillTrip& trip) {
    DriveTime least = no_time;
    for (const LegTimes& legs : trip.legs) {
        least = std::min(least, whole_trip(legs));
    }
    return least;
}

// Calls `look` for each answer of the season that tankers drive for.
template <class Look>
void for_each_shuttle(const reports::SeasonFindings& season, const supply::Assessment& assessment,
                      Look look) {
    for (std::size_t row = 0; row < assessment.supplies.size(); ++row) {
        const supply::ParcelSupply& supply = assessment.supplies[row];
        const SeasonIndex of = assessment.variants[assessment.worst_variant[row]].variant.season;
        if (of == season.trips.season && supply.has_round_trip()) {
            look(supply);
        }
    }
}

// Per round trip: it has an answer.
std::vector<bool> trips_in_use(const reports::SeasonFindings& season,
                               const supply::Assessment& assessment) {
    const FillTrips& trips = season.trips.fill_trips;
    std::vector<bool> in_use(trips.trips(), false);
    for_each_shuttle(season, assessment, [&](const supply::ParcelSupply& supply) {
        std::size_t number = trips.first_of(supply.approach.position());
        for (const FillTrip& trip : trips[supply.approach.position()]) {
            if (supply.fills_at(at(season.fill_places, trip.fill_site).source)) {
                in_use[number] = true;
            }
            ++number;
        }
    });
    return in_use;
}

void keep_shortest(const FillTrips& trips, std::size_t dump_sites, std::vector<bool>& kept) {
    for (std::size_t row = 0; row < dump_sites; ++row) {
        const auto of_row = trips[row];
        const auto shortest = std::ranges::min_element(of_row, {}, least_of);
        if (shortest != of_row.end()) {
            kept[trips.first_of(row) + static_cast<std::size_t>(shortest - of_row.begin())] = true;
        }
    }
}

void keep_trips(reports::SeasonFindings& season, const supply::Assessment& assessment) {
    const FillTrips& all = season.trips.fill_trips;
    std::vector<bool> kept = trips_in_use(season, assessment);
    keep_shortest(all, season.trips.dump_sites.size(), kept);
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
}

// Per dump site: the drives there are asked for. The first season's are a layer of the result.
std::vector<bool> sites_in_use(const reports::SeasonFindings& season,
                               const supply::Assessment& assessment) {
    const bool all = season.trips.season == SeasonIndex(0);
    std::vector<bool> in_use(season.trips.dump_sites.size(), all);
    for_each_shuttle(season, assessment, [&](const supply::ParcelSupply& supply) {
        in_use[supply.dump_site.position()] = true;
    });
    return in_use;
}

void keep_station_drives(reports::SeasonFindings& season, const supply::Assessment& assessment) {
    const StationDrives& all = season.trips.stations_of_dump_site;
    const std::vector<bool> in_use = sites_in_use(season, assessment);
    std::size_t drives = 0;
    for (std::size_t site = 0; site < in_use.size(); ++site) {
        drives += in_use[site] ? all[site].size() : 0;
    }
    StationDrives fewer(all.profiles());
    fewer.reserve(drives);
    for (std::size_t site = 0; site < in_use.size(); ++site) {
        if (in_use[site]) {
            for (const StationDrive& drive : all[site]) {
                fewer.add(drive);
            }
        }
        fewer.close_row();
    }
    season.trips.stations_of_dump_site = std::move(fewer);
}

}  // namespace

void keep_what_is_reported(reports::SeasonFindings& season, const supply::Assessment& assessment) {
    RoundTrips& trips = season.trips;
    keep_trips(season, assessment);
    keep_station_drives(season, assessment);
    trips.hose_lays = {};
    trips.source_lays = {};
    if (trips.season != SeasonIndex(0)) {
        trips.dump_sites = {};
    }
}

}  // namespace farwater::app
