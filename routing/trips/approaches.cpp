#include "routing/trips/approaches.h"

#include <algorithm>
#include <utility>

namespace farwater::routing {
namespace {

// A station that only engines come from is none.
bool same_stations(std::span<const StationDrive> a, std::span<const StationDrive> b,
                   std::span<const ProfileIndex> tankers) {
    const auto covers = [&](std::span<const StationDrive> one,
                            std::span<const StationDrive> other) {
        return std::ranges::all_of(one, [&](const StationDrive& drive) {
            return std::ranges::all_of(tankers, [&](ProfileIndex profile) {
                return drive_from(other, profile, drive.station) ==
                       drive.loaded[profile.position()];
            });
        });
    };
    return covers(a, b) && covers(b, a);
}

// The first row of a dump site that each of its rows is like; itself where there is none before.
template <class TripsOfRow>
class FirstAlike {
public:
    FirstAlike(const Approaches& approaches, const TripsOfRow& trips_of,
               const Lists<StationDrive>& stations, std::span<const ProfileIndex> tankers)
        : approaches_(approaches), trips_of_(trips_of), stations_(stations), tankers_(tankers) {}

    // Calls `tell(row, first)` for each.
    template <class Tell>
    void find(std::uint32_t site, Tell tell) const {
        std::vector<Row> known{{site, trips_of_(site)}};
        tell(site, site);
        const Approaches::Range rows = approaches_.of(site);
        for (std::uint32_t number = rows.begin; number < rows.end; ++number) {
            Row row{number, trips_of_(number)};
            const auto same =
                std::ranges::find_if(known, [&](const Row& other) { return alike(row, other); });
            tell(number, same == known.end() ? number : same->number);
            if (same == known.end()) {
                known.push_back(std::move(row));
            }
        }
    }

private:
    struct Row {
        std::uint32_t number = 0;
        std::vector<FillTrip> trips{};
    };
    bool alike(const Row& a, const Row& b) const {
        return a.trips == b.trips &&
               same_stations(stations_[a.number], stations_[b.number], tankers_);
    }

    const Approaches& approaches_;
    const TripsOfRow& trips_of_;
    const Lists<StationDrive>& stations_;
    std::span<const ProfileIndex> tankers_{};
};

}  // namespace

Approaches::Approaches(const Network& network, const DumpSites& dump_sites, std::size_t begin,
                       std::size_t end)
    : network_(network),
      sites_(dump_sites),
      begin_(static_cast<std::uint32_t>(begin)),
      spots_(std::span(dump_sites.spots).subspan(begin, end - begin)) {
    const std::vector<std::uint32_t>& site_of = dump_sites.lane_cases.site;
    auto lane_case = std::ranges::lower_bound(site_of, begin_);
    first_case_ = static_cast<std::uint32_t>(lane_case - site_of.begin());
    auto next = static_cast<std::uint32_t>(spots_.size());
    for (std::size_t site = begin; site < end; ++site) {
        first_.push_back(next);
        for (; lane_case != site_of.end() && *lane_case == site; ++lane_case) {
            ++next;
        }
    }
    first_.push_back(next);
}

std::uint32_t Approaches::dump_site_of(std::uint32_t row) const {
    return row < dump_sites() ? row : sites_.lane_cases.site[lane_case_of(row)] - begin_;
}

KeptRows rows_that_differ(const Approaches& approaches, const BestTrips& best,
                          const Lists<StationDrive>& stations,
                          std::span<const ProfileIndex> tankers, const Work& work) {
    constexpr std::size_t dump_sites_a_chunk = 1024;
    const auto trips_of = [&](std::uint32_t row) { return best.trips(row); };
    const FirstAlike alike(approaches, trips_of, stations, tankers);
    std::vector<std::uint32_t> first_alike(approaches.rows());
    const auto find_some = [&](std::size_t begin, std::size_t end) {
        for (std::size_t site = begin; site < end && !work.stopped(); ++site) {
            alike.find(static_cast<std::uint32_t>(site),
                       [&](std::uint32_t row, std::uint32_t first) { first_alike[row] = first; });
        }
    };
    for_each_chunk(work, "approaches", approaches.dump_sites(), dump_sites_a_chunk, find_some);
    KeptRows kept;
    kept.number_among.resize(approaches.rows());
    for (std::uint32_t row = 0; row < approaches.rows() && !work.stopped(); ++row) {
        if (first_alike[row] == row) {
            kept.number_among[row] = static_cast<std::uint32_t>(kept.rows.size());
            kept.rows.push_back(row);
        } else {
            kept.number_among[row] = kept.number_among[first_alike[row]];
        }
    }
    return kept;
}

std::vector<std::uint32_t> first_alike_rows(
    const Approaches& approaches, std::uint32_t dump_site,
    const std::function<std::vector<FillTrip>(std::uint32_t row)>& trips_of,
    const Lists<StationDrive>& stations, std::span<const ProfileIndex> tankers) {
    std::vector<std::uint32_t> rows;
    FirstAlike(approaches, trips_of, stations, tankers)
        .find(dump_site, [&](std::uint32_t, std::uint32_t first) { rows.push_back(first); });
    return rows;
}

}  // namespace farwater::routing
