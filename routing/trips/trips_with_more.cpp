#include "routing/trips/trips_with_more.h"

#include <algorithm>
#include <array>
#include <map>
#include <tuple>
#include <utility>
#include <vector>

#include "analyzer/district/sorted_once.h"
#include "routing/sites/season_lanes.h"
#include "routing/trips/kept_limits.h"

namespace farwater::routing {
namespace {

// Lists of which only some rows have items.
template <class Item>
class FewLists {
public:
    explicit FewLists(std::size_t rows) : rows_(rows) { lists_.begin.reserve(rows + 1); }

    // Rows ascending, each at most once.
    void add(std::uint32_t row, std::span<const Item> items) {
        close_before(row);
        lists_.items.insert(lists_.items.end(), items.begin(), items.end());
        lists_.close_row();
    }
    Lists<Item> finished() && {
        close_before(rows_);
        return std::move(lists_);
    }

private:
    void close_before(std::size_t row) {
        lists_.begin.resize(row + 1, static_cast<std::uint32_t>(lists_.items.size()));
    }

    std::size_t rows_;
    Lists<Item> lists_;
};

// Round trips with further fill sites, put together.
class TripsWithMore {
public:
    TripsWithMore(const KeptSeason& season, std::span<const FoundTrips* const> more)
        : kept_(season.trips),
          dump_sites_(season.dump_sites),
          before_(season.fill_sites.size()),
          places_(season.fill_sites.begin(), season.fill_sites.end()),
          more_(more) {
        for (const FoundTrips* found : more) {
            places_.push_back(found->place);
        }
    }

    void set_among(std::span<const ProfileIndex> order, std::size_t most);
    void tell_apart(std::span<const ProfileIndex> tankers);
    void lay_hose();
    std::vector<std::uint32_t> served(const Lists<std::uint32_t>& served_by_row) const;
    RoundTrips trips(std::span<const std::uint32_t> served) const;

private:
    std::vector<FillTrip> trips_of(std::uint32_t row) const {
        const auto other = lists_.find(row);
        return other == lists_.end() ? kept_.best->trips(row) : other->second;
    }
    std::uint32_t first_before(std::uint32_t row) const {
        return kept_.kept.rows[kept_.kept.number_among[row]];
    }
    std::uint32_t first_now(std::uint32_t row) const {
        const auto other = first_.find(row);
        return other == first_.end() ? first_before(row) : other->second;
    }
    bool takes_way(std::uint32_t row, std::uint32_t first) const {
        return first != kept_.approaches.dump_site_of(row);
    }
    bool is_new(FillSiteIndex fill_site) const { return fill_site.position() >= before_; }
    std::uint32_t row_of_lay(std::size_t item) const {
        return kept_.approaches.row_of(dump_sites_.lane_cases.of_lay[item]);
    }
    std::vector<FillTrip> set_in(std::uint32_t row, std::span<const FillTrip> further,
                                 std::span<const ProfileIndex> order, std::size_t most) const;
    void add_hose(SourceLay lay, std::uint32_t served);
    void add_lists(std::span<const std::uint32_t> served, RoundTrips& trips) const;

    const SeasonTrips& kept_;
    const DumpSites& dump_sites_;
    std::size_t before_;  // how many fill sites there were
    std::vector<FillSitePlace> places_;
    std::span<const FoundTrips* const> more_;
    std::map<std::uint32_t, std::vector<FillTrip>> lists_;  // of rows that have another one
    std::map<std::uint32_t, std::uint32_t> first_;          // of rows at dump sites with such
    std::map<std::uint32_t, std::vector<SourceLay>> hose_;  // of who has another list
};

// Further fill sites have no system: they only push the last ones out.
std::vector<FillTrip> TripsWithMore::set_in(std::uint32_t row, std::span<const FillTrip> further,
                                            std::span<const ProfileIndex> order,
                                            std::size_t most) const {
    std::vector<FillTrip> trips = kept_.best->trips(row);
    trips.insert(trips.end(), further.begin(), further.end());
    std::ranges::sort(trips, {}, [&](const FillTrip& trip) {
        const std::size_t rank = rank_of(trip, order);
        return std::tuple(rank, whole_trip(at(trip.legs, order[rank])), trip.fill_site);
    });
    std::array<std::size_t, 256> of_class{};
    std::erase_if(trips, [&](const FillTrip& trip) {
        return ++of_class[at(places_, trip.fill_site).strength_class] > most;
    });
    return trips;
}

void TripsWithMore::set_among(std::span<const ProfileIndex> order, std::size_t most) {
    std::map<std::uint32_t, std::vector<FillTrip>> further;
    for (std::size_t i = 0; i < more_.size(); ++i) {
        for (const FoundTrips::Trip& trip : more_[i]->trips) {
            further[trip.row].push_back({FillSiteIndex(before_ + i), trip.legs});
        }
    }
    for (const auto& [row, trips] : further) {
        std::vector<FillTrip> list = set_in(row, trips, order, most);
        if (std::ranges::any_of(list,
                                [&](const FillTrip& trip) { return is_new(trip.fill_site); })) {
            lists_.emplace(row, std::move(list));
        }
    }
}

void TripsWithMore::tell_apart(std::span<const ProfileIndex> tankers) {
    const auto of_row = [&](std::uint32_t row) { return trips_of(row); };
    for (const auto& [row, list] : lists_) {
        const std::uint32_t site = kept_.approaches.dump_site_of(row);
        if (first_.contains(site)) {
            continue;
        }
        const std::vector<std::uint32_t> first =
            first_alike_rows(kept_.approaches, site, of_row, kept_.stations, tankers);
        first_.emplace(site, first.front());
        const Approaches::Range rows = kept_.approaches.of(site);
        for (std::uint32_t one = rows.begin; one < rows.end; ++one) {
            first_.emplace(one, first[one - rows.begin + 1]);
        }
    }
}

// The nearest of each class; of equals the one that was there before.
void TripsWithMore::add_hose(SourceLay lay, std::uint32_t served) {
    const std::span<const SourceLay> was = kept_.trips.source_lays[served];
    const auto known = hose_.find(served);
    std::vector<SourceLay> lays =
        known == hose_.end() ? std::vector(was.begin(), was.end()) : known->second;
    const std::uint8_t strength = at(places_, lay.fill_site).strength_class;
    const auto same = std::ranges::find_if(lays, [&](const SourceLay& one) {
        const FillSitePlace& place = at(places_, one.fill_site);
        return place.is_for_all() && place.strength_class == strength;
    });
    if (same != lays.end() && same->length <= lay.length) {
        return;
    }
    if (same != lays.end()) {
        lays.erase(same);
    }
    const auto after = std::ranges::upper_bound(lays, lay.length, {}, &SourceLay::length);
    lays.insert(after, lay);
    hose_[served] = std::move(lays);
}

void TripsWithMore::lay_hose() {
    for (std::size_t i = 0; i < more_.size(); ++i) {
        for (const FoundTrips::Hose& hose : more_[i]->hose) {
            add_hose({FillSiteIndex(before_ + i), hose.length}, hose.served);
        }
    }
}

// Those who look at a row with another list, or one that now takes ways from its dump site, or no
// longer does; and those with other hose.
std::vector<std::uint32_t> TripsWithMore::served(const Lists<std::uint32_t>& served_by_row) const {
    std::vector<std::uint32_t> served;
    for (const auto& [row, first] : first_) {
        if (lists_.contains(row) || takes_way(row, first) != takes_way(row, first_before(row))) {
            const std::span<const std::uint32_t> some = served_by_row[row];
            served.insert(served.end(), some.begin(), some.end());
        }
    }
    for (const auto& [one, lays] : hose_) {
        served.push_back(one);
    }
    return sorted_once(std::move(served));
}

// The rows are their own numbers: those of dump sites, then those of approaches.
void TripsWithMore::add_lists(std::span<const std::uint32_t> served, RoundTrips& trips) const {
    std::vector<std::uint32_t> rows;
    for (const std::uint32_t one : served) {
        for (const HoseLay& lay : trips.hose_lays[one]) {
            rows.push_back(static_cast<std::uint32_t>(lay.dump_site.position()));
            rows.push_back(static_cast<std::uint32_t>(lay.ways().position()));
        }
    }
    FillTrips fill_trips(kept_.trips.fill_trips.profiles());
    StationDrives stations(kept_.trips.stations_of_dump_site.profiles());
    for (const std::uint32_t row : sorted_once(std::move(rows))) {
        while (fill_trips.size() < row) {
            fill_trips.close_row();
            stations.close_row();
        }
        for (const FillTrip& trip : trips_of(row)) {
            fill_trips.add(trip);
        }
        fill_trips.close_row();
        for (const StationDrive& drive : kept_.stations[row]) {
            stations.add(drive);
        }
        stations.close_row();
    }
    while (fill_trips.size() < kept_.approaches.rows()) {
        fill_trips.close_row();
        stations.close_row();
    }
    trips.fill_trips = std::move(fill_trips);
    trips.stations_of_dump_site = std::move(stations);
}

RoundTrips TripsWithMore::trips(std::span<const std::uint32_t> served) const {
    const RoundTrips& was = kept_.trips;
    RoundTrips trips;
    trips.season = was.season;
    trips.dump_sites = was.dump_sites;
    trips.fill_lanes = was.fill_lanes;
    trips.stations_of_fill_site = was.stations_of_fill_site;
    for (const FoundTrips* found : more_) {
        trips.fill_lanes.push_back(found->lane);
        trips.stations_of_fill_site.items.insert(trips.stations_of_fill_site.items.end(),
                                                 found->stations.begin(), found->stations.end());
        trips.stations_of_fill_site.close_row();
    }
    FewLists<HoseLay> hose_lays(was.hose_lays.size());
    FewLists<SourceLay> source_lays(was.source_lays.size());
    for (const std::uint32_t one : served) {
        const std::span<const HoseLay> all = was.hose_lays[one];
        std::vector<HoseLay> lays(all.begin(), all.end());
        for (std::size_t i = 0; i < lays.size(); ++i) {
            const std::uint32_t row = row_of_lay(was.hose_lays.begin[one] + i);
            const std::uint32_t first = first_now(row);
            lays[i].approach = takes_way(row, first) ? ApproachIndex(first) : ApproachIndex();
        }
        hose_lays.add(one, lays);
        const auto other = hose_.find(one);
        source_lays.add(one, other == hose_.end() ? was.source_lays[one]
                                                  : std::span<const SourceLay>(other->second));
    }
    trips.hose_lays = std::move(hose_lays).finished();
    trips.source_lays = std::move(source_lays).finished();
    add_lists(served, trips);
    return trips;
}

}  // namespace

TripsInPart set_among(const KeptSeason& season, std::span<const FoundTrips* const> more) {
    TripsWithMore part(season, more);
    part.set_among(season.tankers, season.most);
    part.tell_apart(season.tankers);
    part.lay_hose();
    TripsInPart found;
    found.served = part.served(season.served_by_row);
    found.trips = part.trips(found.served);
    return found;
}

}  // namespace farwater::routing
