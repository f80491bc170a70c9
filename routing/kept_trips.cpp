#include "routing/kept_trips.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "analyzer/district/sorted_once.h"
#include "routing/profiles.h"
#include "routing/sites/season_lanes.h"
#include "routing/source_lays.h"
#include "routing/trips/kept_limits.h"
#include "routing/trips/season_trips.h"
#include "routing/trips/trip_search.h"
#include "routing/trips/trips_with_more.h"
#include "routing/trips/useful_trips.h"

namespace farwater::routing {
namespace {

// Lists by row out of pairs of row and item.
Lists<std::uint32_t> lists_by_row(std::vector<std::pair<std::uint32_t, std::uint32_t>> pairs,
                                  std::size_t rows) {
    pairs = sorted_once(std::move(pairs));
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
    Lists<std::uint32_t> served_by_row;   // per row: who has a lay by it
    Lists<std::uint32_t> served_by_site;  // per dump site: who has a lay from it
    std::unique_ptr<Pool<Desk>> desks;
    mutable Pool<Search> searches;
};

void KeptTrips::State::tell_who_looks() {
    const Lists<HoseLay>& lays = kept.trips.hose_lays;
    std::vector<std::pair<std::uint32_t, std::uint32_t>> by_row;
    std::vector<std::pair<std::uint32_t, std::uint32_t>> by_site;
    for (std::uint32_t served = 0; served < lays.size(); ++served) {
        for (std::uint32_t item = lays.begin[served]; item < lays.begin[served + 1]; ++item) {
            by_row.emplace_back(kept.approaches.row_of(dump_sites.lane_cases.of_lay[item]), served);
            by_site.emplace_back(static_cast<std::uint32_t>(lays.items[item].dump_site.position()),
                                 served);
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
                gate_drive(at(roads.district.stations, StationIndex(station)),
                           driven.loaded.season()) +
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
    return sorted_once(std::move(served));
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

TripsInPart KeptTrips::with(std::span<const FoundTrips* const> more) const {
    return set_among({state_->kept, state_->dump_sites, state_->fill_sites, state_->tankers,
                      state_->most, state_->served_by_row},
                     more);
}

}  // namespace farwater::routing
