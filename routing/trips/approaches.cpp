#include "routing/trips/approaches.h"

#include <algorithm>

namespace farwater::routing {
namespace {

bool same(const FillTrip& a, const FillTrip& b) {
    return a.fill_site == b.fill_site &&
           std::ranges::equal(a.legs, b.legs, [](const LegTimes& x, const LegTimes& y) {
               return x.empty == y.empty && x.loaded == y.loaded;
           });
}

// The rows of one result while those that are as another one are left out.
class Differing {
public:
    Differing(const RoundTrips& trips, std::span<const ProfileIndex> tankers)
        : trips_(trips), tankers_(tankers) {}

    bool same_rows(std::size_t a, std::size_t b) const {
        return std::ranges::equal(trips_.fill_trips[a], trips_.fill_trips[b], same) &&
               same_stations(trips_.stations_of_dump_site[a], trips_.stations_of_dump_site[b]);
    }

private:
    // A station that only engines come from is none.
    bool same_stations(std::span<const StationDrive> a, std::span<const StationDrive> b) const {
        const auto covers = [&](std::span<const StationDrive> one,
                                std::span<const StationDrive> other) {
            return std::ranges::all_of(one, [&](const StationDrive& drive) {
                return std::ranges::all_of(tankers_, [&](ProfileIndex profile) {
                    return drive_from(other, profile, drive.station) ==
                           drive.loaded[profile.position()];
                });
            });
        };
        return covers(a, b) && covers(b, a);
    }

    const RoundTrips& trips_;
    std::span<const ProfileIndex> tankers_;
};

template <class Item>
Lists<Item> only_rows(const Lists<Item>& all, std::span<const std::uint32_t> rows) {
    Lists<Item> lists;
    lists.begin.reserve(rows.size() + 1);
    for (const std::uint32_t row : rows) {
        const std::span<const Item> items = all[row];
        lists.items.insert(lists.items.end(), items.begin(), items.end());
        lists.close_row();
    }
    return lists;
}

std::vector<std::uint32_t> lane_cases_looked_at(const DumpSites& dump_sites,
                                                const Lists<HoseLay>& lays) {
    std::vector<bool> wanted(dump_sites.lane_cases.site.size(), false);
    for (std::size_t served = 0; served < lays.size(); ++served) {
        for (const std::size_t lay : lays_looked_at(lays[served])) {
            wanted[dump_sites.lane_cases.of_lay[lays.begin[served] + lay]] = true;
        }
    }
    std::vector<std::uint32_t> cases;
    for (std::uint32_t one = 0; one < wanted.size(); ++one) {
        if (wanted[one]) {
            cases.push_back(one);
        }
    }
    return cases;
}

}  // namespace

Approaches::Approaches(const Network& network, const DumpSites& dump_sites,
                       const Lists<HoseLay>& lays)
    : network_(network), sites_(dump_sites), lane_cases_(lane_cases_looked_at(dump_sites, lays)) {
    auto next = static_cast<std::uint32_t>(dump_sites.spots.size());
    auto lane_case = lane_cases_.begin();
    for (std::uint32_t site = 0; site < dump_sites.spots.size(); ++site) {
        first_.push_back(next);
        for (; lane_case != lane_cases_.end() && dump_sites.lane_cases.site[*lane_case] == site;
             ++lane_case) {
            ++next;
        }
    }
    first_.push_back(next);
}

std::uint32_t Approaches::row_of(std::uint32_t lane_case) const {
    const auto found = std::ranges::lower_bound(lane_cases_, lane_case);
    return found != lane_cases_.end() && *found == lane_case
               ? static_cast<std::uint32_t>(dump_sites()) +
                     static_cast<std::uint32_t>(found - lane_cases_.begin())
               : sites_.lane_cases.site[lane_case];
}

void keep_what_differs(const Approaches& approaches, const DumpSites& dump_sites,
                       std::span<const ProfileIndex> tankers, RoundTrips& trips) {
    const Differing differing(trips, tankers);
    std::vector<std::uint32_t> kept;                           // old numbers
    std::vector<std::uint32_t> stands_for(approaches.rows());  // per old row, its new one
    for (std::uint32_t site = 0; site < approaches.dump_sites(); ++site) {
        kept.push_back(site);
        stands_for[site] = site;
    }
    for (std::uint32_t site = 0; site < approaches.dump_sites(); ++site) {
        std::vector<std::uint32_t> known{site};
        const Approaches::Range rows = approaches.of(site);
        for (std::uint32_t row = rows.begin; row < rows.end; ++row) {
            const auto same = std::ranges::find_if(
                known, [&](std::uint32_t other) { return differing.same_rows(row, other); });
            if (same != known.end()) {
                stands_for[row] = stands_for[*same];
            } else {
                stands_for[row] = static_cast<std::uint32_t>(kept.size());
                kept.push_back(row);
                known.push_back(row);
            }
        }
    }
    for (std::size_t lay = 0; lay < trips.hose_lays.items.size(); ++lay) {
        const std::uint32_t row = stands_for[approaches.row_of(dump_sites.lane_cases.of_lay[lay])];
        if (row >= approaches.dump_sites()) {
            trips.hose_lays.items[lay].approach = ApproachIndex(row);
        }
    }
    trips.fill_trips = only_rows(trips.fill_trips, kept);
    trips.stations_of_dump_site = only_rows(trips.stations_of_dump_site, kept);
}

}  // namespace farwater::routing
