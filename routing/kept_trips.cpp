#include "routing/kept_trips.h"

#include <algorithm>
#include <functional>
#include <map>
#include <optional>
#include <tuple>
#include <utility>

#include "routing/profiles.h"
#include "routing/sites/season_lanes.h"
#include "routing/source_lays.h"
#include "routing/trips/kept_limits.h"
#include "routing/trips/season_trips.h"
#include "routing/trips/trip_search.h"

namespace farwater::routing {
namespace {

DriveTime whole_trip(const LegTimes& legs) { return legs.empty + legs.loaded; }

// A profile's trips of a fill site that come among those that are kept, by row.
class UsefulTrips final : public TripTaker {
public:
    // `earlier`: its trips by the profiles before, by row.
    UsefulTrips(const KeptLimits& limits, std::uint8_t strength_class, std::size_t rank,
                const std::vector<FoundTrips::Trip>& earlier)
        : limits_(limits), class_(strength_class), rank_(rank), earlier_(earlier) {}

    DriveTime most_kept(std::uint32_t row) const override {
        return std::ranges::binary_search(earlier_, row, {}, &FoundTrips::Trip::row)
                   ? no_time
                   : limits_.most(row, class_, rank_);
    }
    void offer(std::uint32_t row, LegTimes legs) override {
        if (whole_trip(legs) <= most_kept(row)) {
            found.emplace_back(row, legs);
        }
    }

    std::vector<std::pair<std::uint32_t, LegTimes>> found;

private:
    const KeptLimits& limits_;
    std::uint8_t class_;
    std::size_t rank_;
    const std::vector<FoundTrips::Trip>& earlier_;
};

void add_legs(std::vector<FoundTrips::Trip>& trips, ProfileIndex profile,
              std::vector<std::pair<std::uint32_t, LegTimes>> found) {
    std::ranges::sort(found, {}, [](const auto& one) { return one.first; });
    const auto known = static_cast<std::ptrdiff_t>(trips.size());
    for (const auto& [row, legs] : found) {
        const auto old = std::ranges::lower_bound(trips.begin(), trips.begin() + known, row, {},
                                                  &FoundTrips::Trip::row);
        if (old != trips.begin() + known && old->row == row) {
            at(old->legs, profile) = legs;
        } else {
            trips.push_back({row, {}});
            at(trips.back().legs, profile) = legs;
        }
    }
    std::ranges::inplace_merge(trips, trips.begin() + known, {}, &FoundTrips::Trip::row);
}

std::vector<std::uint32_t> each_once(std::vector<std::uint32_t> rows) {
    std::ranges::sort(rows);
    const auto rest = std::ranges::unique(rows);
    rows.erase(rest.begin(), rest.end());
    return rows;
}

// Lists by row out of pairs of row and item.
Lists<std::uint32_t> lists_by_row(std::vector<std::pair<std::uint32_t, std::uint32_t>> pairs,
                                  std::size_t rows) {
    std::ranges::sort(pairs);
    const auto rest = std::ranges::unique(pairs);
    pairs.erase(rest.begin(), rest.end());
    Lists<std::uint32_t> lists;
    auto pair = pairs.begin();
    for (std::size_t row = 0; row < rows; ++row) {
        for (; pair != pairs.end() && pair->first == row; ++pair) {
            lists.items.push_back(pair->second);
        }
        lists.close_row();
    }
    return lists;
}

}  // namespace

// A tanker profile's round trips, and every profile's drives from stations, the search being from
// the place that is driven to.
struct ProfileRoads {
    ProfileRoads(const RoadSystem& roads, const DumpSites& dump_sites, ProfileIndex one,
                 const Season& season)
        : profile(one),
          loaded(roads, at(roads.profiles, one), season, Load::loaded),
          towards(search_graph(roads.network, loaded.costs(), Heading::towards)),
          stations(
              spot_ends(roads.network, roads.access.stations, loaded.costs(), loaded.costs())) {
        if (at(roads.profiles, one).kind == UnitKind::tanker) {
            shuttle.emplace(roads, dump_sites.spots, at(roads.profiles, one), season);
        }
    }

    DrivenRoads to_place(const Network& network) const {
        return {network, loaded.costs(), towards, Heading::towards};
    }

    ProfileIndex profile;
    Driving loaded;
    SearchGraph towards;
    SpotEnds stations;
    std::optional<Shuttle> shuttle;
};

struct KeptTrips::State {
    State(const RoadSystem& of, const DumpSites& sites, std::vector<FillSitePlace> places,
          SeasonIndex season, const Work& work)
        : roads(of),
          dump_sites(sites),
          fill_sites(std::move(places)),
          most(static_cast<std::size_t>(std::max(of.district.assumptions.fill_sites_per_class, 1))),
          tankers(tanker_profiles(of.profiles)),
          kept(season_trips(of, sites, fill_sites, season, work)),
          limits(*kept.best, kept.approaches.rows(), fill_sites, tankers, most, work),
          lanes(of.district, of.network, of.access, of.profiles, sites, season),
          hose(of),
          desks(desks_for(of.network, std::max(sites.spots.size(), of.access.stations.size()))),
          searches([this] { return std::make_unique<Search>(roads.network.nodes.size()); }) {
        for (const ProfileIndex profile : in_order_of_rank(of.profiles)) {
            profiles.emplace_back(of, sites, profile, at(of.district.seasons, season));
        }
        if (!work.stopped()) {
            tell_who_looks();
        }
    }

    void tell_who_looks();
    void add_served(std::uint32_t dump_site, DriveTime least, std::uint8_t strength_class,
                    std::size_t rank, std::vector<std::uint32_t>& served) const;
    std::vector<StationDrive> stations_of(RoadSpot spot) const;
    std::vector<FoundTrips::Hose> hose_of(const NewFillSite& site) const;

    RoadSystem roads;
    const DumpSites& dump_sites;
    std::vector<FillSitePlace> fill_sites;
    std::size_t most;
    std::vector<ProfileIndex> tankers;  // in order of rank
    SeasonTrips kept;
    KeptLimits limits;
    FurtherLanes lanes;
    HoseFromPlaces hose;
    std::vector<ProfileRoads> profiles;   // in order of rank
    Lists<std::uint32_t> served_by_row;   // per row: who has a lay by it that is looked at
    Lists<std::uint32_t> served_by_site;  // per dump site: who has a lay from it
    std::unique_ptr<Pool<Desk>> desks;
    mutable Pool<Search> searches;
};

void KeptTrips::State::tell_who_looks() {
    const Lists<HoseLay>& lays = kept.trips.hose_lays;
    std::vector<std::pair<std::uint32_t, std::uint32_t>> by_row;
    std::vector<std::pair<std::uint32_t, std::uint32_t>> by_site;
    for (std::uint32_t served = 0; served < lays.size(); ++served) {
        for (const std::size_t lay : lays_looked_at(lays[served])) {
            const std::uint32_t one = dump_sites.lane_cases.of_lay[lays.begin[served] + lay];
            by_row.emplace_back(kept.approaches.row_of(one), served);
        }
        for (const HoseLay& lay : lays[served]) {
            by_site.emplace_back(static_cast<std::uint32_t>(lay.dump_site.position()), served);
        }
    }
    served_by_row = lists_by_row(std::move(by_row), kept.approaches.rows());
    served_by_site = lists_by_row(std::move(by_site), kept.approaches.dump_sites());
}

// Who looks at rows of the dump site that a round trip of at least `least` could come into. Where
// its own row changes, its approaches may come to differ from it.
void KeptTrips::State::add_served(std::uint32_t dump_site, DriveTime least,
                                  std::uint8_t strength_class, std::size_t rank,
                                  std::vector<std::uint32_t>& served) const {
    const auto comes_in = [&](std::uint32_t row) {
        return least <= limits.most(row, strength_class, rank);
    };
    const auto add = [&](std::uint32_t row) {
        const std::span<const std::uint32_t> some = served_by_row[row];
        served.insert(served.end(), some.begin(), some.end());
    };
    const bool own = comes_in(dump_site);
    if (own) {
        add(dump_site);
    }
    const Approaches::Range rows = kept.approaches.of(dump_site);
    for (std::uint32_t row = rows.begin; row < rows.end; ++row) {
        if (own || comes_in(row)) {
            add(row);
        }
    }
}

// By one search for each profile of all that leads to the place, where round trips search from
// every station: sums of whole costs are the same either way.
std::vector<StationDrive> KeptTrips::State::stations_of(RoadSpot spot) const {
    std::vector<StationDrive> drives;
    if (!spot.valid()) {
        return drives;
    }
    const TravelRule rule(roads.district.travel_time);
    const std::int32_t limit = rule.most_of_response(trip_limit_of(roads.district.assumptions));
    const Pool<Desk>::Borrowed desk(*desks);
    for (const ProfileRoads& driven : profiles) {
        desk->loaded.measure(driven.to_place(roads.network), spot, roads.access.stations,
                             driven.stations, limit, desk->search);
        for (const std::uint32_t station : desk->loaded.reached()) {
            auto known =
                std::ranges::lower_bound(drives, StationIndex(station), {}, &StationDrive::station);
            if (known == drives.end() || known->station != StationIndex(station)) {
                known = drives.insert(known, {StationIndex(station)});
            }
            at(known->loaded, driven.profile) =
                gate_drive(at(roads.district.stations, StationIndex(station))) +
                rule.response(desk->loaded.cost(station));
        }
        desk->loaded.clear();
        desk->search.clear();
    }
    return drives;
}

// The shortest to each.
std::vector<FoundTrips::Hose> KeptTrips::State::hose_of(const NewFillSite& site) const {
    const Pool<Search>::Borrowed search(searches);
    std::vector<HoseTo> ways = hose.from(site.place.place, site.spot, *search);
    std::ranges::sort(ways, {}, [](const HoseTo& to) { return std::pair(to.served, to.along); });
    std::vector<FoundTrips::Hose> lays;
    std::optional<std::uint32_t> last;
    for (const HoseTo& to : ways) {
        const auto length = last == to.served ? std::nullopt : hose.whole(to);
        last = to.served;
        if (length) {
            lays.push_back({to.served, *length});
        }
    }
    return lays;
}

KeptTrips::KeptTrips(const RoadSystem& roads, const DumpSites& dump_sites,
                     std::vector<FillSitePlace> fill_sites, SeasonIndex season, const Work& work)
    : state_(std::make_unique<State>(roads, dump_sites, std::move(fill_sites), season, work)) {}
KeptTrips::~KeptTrips() = default;
KeptTrips::KeptTrips(KeptTrips&&) noexcept = default;
KeptTrips& KeptTrips::operator=(KeptTrips&&) noexcept = default;

const RoundTrips& KeptTrips::trips() const { return state_->kept.trips; }
const std::vector<FillSitePlace>& KeptTrips::fill_sites() const { return state_->fill_sites; }

std::vector<std::uint32_t> KeptTrips::may_change(const NewFillSite& site) const {
    std::vector<std::uint32_t> served;
    // No way with a road closed is shorter than the open one.
    class Reached final : public TripTaker {
    public:
        DriveTime most_kept(std::uint32_t) const override { return no_time; }
        void offer(std::uint32_t row, LegTimes legs) override {
            sites.emplace_back(row, whole_trip(legs));
        }
        std::vector<std::pair<std::uint32_t, DriveTime>> sites;
    };
    const Pool<Desk>::Borrowed desk(*state_->desks);
    for (std::size_t rank = 0; rank < state_->tankers.size(); ++rank) {
        Reached reached;
        TripsOf(state_->roads, *state_->profiles[rank].shuttle, site.spot, *desk)
            .offer_open(reached);
        for (const auto& [row, least] : reached.sites) {
            state_->add_served(row, least, site.place.strength_class, rank, served);
        }
    }
    for (const FoundTrips::Hose& lay : state_->hose_of(site)) {
        served.push_back(lay.served);
    }
    for (const std::uint32_t dump_site : state_->lanes.changed_by(site.spot)) {
        const std::span<const std::uint32_t> some = state_->served_by_site[dump_site];
        served.insert(served.end(), some.begin(), some.end());
    }
    return each_once(std::move(served));
}

FoundTrips KeptTrips::search(const NewFillSite& site) const {
    FoundTrips found;
    found.place = site.place;
    found.lane = state_->lanes.of_fill_site(site.source, site.spot);
    found.changes_lanes = !state_->lanes.changed_by(site.spot).empty();
    const Pool<Desk>::Borrowed desk(*state_->desks);
    for (std::size_t rank = 0; rank < state_->tankers.size(); ++rank) {
        UsefulTrips useful(state_->limits, site.place.strength_class, rank, found.trips);
        TripsOf(state_->roads, *state_->profiles[rank].shuttle, site.spot, *desk)
            .offer_all(state_->kept.approaches, useful);
        add_legs(found.trips, state_->tankers[rank], std::move(useful.found));
    }
    found.stations = state_->stations_of(site.spot);
    found.hose = state_->hose_of(site);
    return found;
}

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
class Part {
public:
    Part(const SeasonTrips& kept, const DumpSites& dump_sites,
         std::span<const FillSitePlace> fill_sites, std::span<const FoundTrips* const> more)
        : kept_(kept),
          dump_sites_(dump_sites),
          before_(fill_sites.size()),
          places_(fill_sites.begin(), fill_sites.end()),
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
std::vector<FillTrip> Part::set_in(std::uint32_t row, std::span<const FillTrip> further,
                                   std::span<const ProfileIndex> order, std::size_t most) const {
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

void Part::set_among(std::span<const ProfileIndex> order, std::size_t most) {
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

void Part::tell_apart(std::span<const ProfileIndex> tankers) {
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
void Part::add_hose(SourceLay lay, std::uint32_t served) {
    const std::span<const SourceLay> was = kept_.trips.source_lays[served];
    const auto known = hose_.find(served);
    std::vector<SourceLay> lays =
        known == hose_.end() ? std::vector(was.begin(), was.end()) : known->second;
    const auto of_class = [&](const SourceLay& one) {
        return at(places_, one.fill_site).strength_class;
    };
    const auto same = std::ranges::find(lays, of_class(lay), of_class);
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

void Part::lay_hose() {
    for (std::size_t i = 0; i < more_.size(); ++i) {
        for (const FoundTrips::Hose& hose : more_[i]->hose) {
            add_hose({FillSiteIndex(before_ + i), hose.length}, hose.served);
        }
    }
}

// Those who look at a row with another list, or one that now takes ways from its dump site, or no
// longer does; and those with other hose.
std::vector<std::uint32_t> Part::served(const Lists<std::uint32_t>& served_by_row) const {
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
    return each_once(std::move(served));
}

// The rows are their own numbers: those of dump sites, then those of approaches.
void Part::add_lists(std::span<const std::uint32_t> served, RoundTrips& trips) const {
    std::vector<std::uint32_t> rows;
    for (const std::uint32_t one : served) {
        for (const std::size_t lay : lays_looked_at(trips.hose_lays[one])) {
            const HoseLay& looked = trips.hose_lays[one][lay];
            rows.push_back(static_cast<std::uint32_t>(looked.dump_site.position()));
            rows.push_back(static_cast<std::uint32_t>(looked.ways().position()));
        }
    }
    FillTrips fill_trips(kept_.trips.fill_trips.profiles());
    FewLists<StationDrive> stations(kept_.approaches.rows());
    for (const std::uint32_t row : each_once(std::move(rows))) {
        while (fill_trips.size() < row) {
            fill_trips.close_row();
        }
        for (const FillTrip& trip : trips_of(row)) {
            fill_trips.add(trip);
        }
        fill_trips.close_row();
        stations.add(row, kept_.stations[row]);
    }
    while (fill_trips.size() < kept_.approaches.rows()) {
        fill_trips.close_row();
    }
    trips.fill_trips = std::move(fill_trips);
    trips.stations_of_dump_site = std::move(stations).finished();
}

RoundTrips Part::trips(std::span<const std::uint32_t> served) const {
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

TripsInPart KeptTrips::with(std::span<const FoundTrips* const> more) const {
    Part part(state_->kept, state_->dump_sites, state_->fill_sites, more);
    part.set_among(state_->tankers, state_->most);
    part.tell_apart(state_->tankers);
    part.lay_hose();
    TripsInPart found;
    found.served = part.served(state_->served_by_row);
    found.trips = part.trips(found.served);
    return found;
}

}  // namespace farwater::routing
