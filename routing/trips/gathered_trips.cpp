#include "routing/trips/gathered_trips.h"

#include <utility>

namespace farwater::routing {
void GatheredTrips::add(const Approaches& approaches, const BestTrips& best,
                        const Lists<StationDrive>& stations, const KeptRows& kept) {
    for (const std::uint32_t row : kept.rows) {
        const bool is_site = row < approaches.dump_sites();
        (is_site ? row_of_site_ : row_of_approach_)
            .push_back(static_cast<std::uint32_t>(trips_.size()));
        for (const FillTrip& trip : best.trips(row)) {
            trips_.add(trip);
        }
        trips_.close_row();
        for (const StationDrive& drive : stations[row]) {
            stations_.add(drive);
        }
        stations_.close_row();
    }
    for (std::size_t row = approaches.dump_sites(); row < approaches.rows(); ++row) {
        const std::size_t number = kept.number_among[row];
        approach_of_.push_back(
            number < approaches.dump_sites()
                ? ApproachIndex{}
                : ApproachIndex(dump_sites_ + approaches_ + number - approaches.dump_sites()));
    }
    approaches_ += kept.rows.size() - approaches.dump_sites();
}

void GatheredTrips::give(const DumpSites& dump_sites, RoundTrips& result) && {
    for (std::size_t lay = 0; lay < result.hose_lays.items.size(); ++lay) {
        result.hose_lays.items[lay].approach = approach_of_[dump_sites.lane_cases.of_lay[lay]];
    }
    row_of_site_.insert(row_of_site_.end(), row_of_approach_.begin(), row_of_approach_.end());
    trips_.put_rows_in_order(row_of_site_);
    result.fill_trips = std::move(trips_);
    stations_.put_rows_in_order(row_of_site_);
    result.stations_of_dump_site = std::move(stations_);
}

}  // namespace farwater::routing
