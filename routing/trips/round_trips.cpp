#include <algorithm>
#include <memory>
#include <span>
#include <utility>

#include "routing/costs.h"
#include "routing/drive_times.h"
#include "routing/driving/travel_rule.h"
#include "routing/profiles.h"
#include "routing/search/search.h"
#include "routing/search/spot_times.h"
#include "routing/sites/season_lanes.h"
#include "routing/source_lays.h"
#include "routing/structures/pool.h"
#include "routing/trips/approaches.h"
#include "routing/trips/best_trips.h"
#include "routing/trips/closed_ways.h"
#include "routing/trips/station_drives.h"

namespace farwater::routing {
namespace {

constexpr std::size_t sources_a_chunk = 8;

// The roads for one profile in one season: loaded away from a place, or empty towards one.
class Driving {
public:
    Driving(const RoadSystem& roads, const Profile& profile, const Season& season, Load load)
        : network_(roads.network),
          heading_(load == Load::loaded ? Heading::away : Heading::towards),
          costs_(drive_costs(roads.district, roads.network, profile, season, load)),
          graph_(search_graph(roads.network, costs_, heading_)) {}

    DrivenRoads roads() const { return {network_, costs_, graph_, heading_}; }
    const EdgeCosts& costs() const { return costs_; }

private:
    const Network& network_;
    Heading heading_;
    EdgeCosts costs_;
    SearchGraph graph_;
};

// Working memory of one thread.
struct Desk {
    Desk(const Network& network, std::size_t spots)
        : search(network.nodes.size()),
          towards(network.nodes.size()),
          loaded(spots),
          empty(spots),
          closed(network) {}
    Search search, towards;
    SpotTimes loaded, empty;
    ClosedWays closed;
};

Pool<Desk> desks_for(const Network& network, std::size_t spots) {
    return Pool<Desk>([&network, spots] { return std::make_unique<Desk>(network, spots); });
}

struct Question {
    const RoadSystem& roads;
    const DumpSites& dump_sites;
    const Approaches& approaches;
    std::span<const FillSitePlace> fill_sites;
    const Season& season;
    const Work& work;
};

std::vector<RoadSpot> spots_of_fill_sites(const Question& question) {
    std::vector<RoadSpot> spots;
    for (const FillSitePlace& fill_site : question.fill_sites) {
        spots.push_back(at(question.roads.access.sources, fill_site.source));
    }
    return spots;
}

// Both legs of a profile's round trips, and how they end at the dump sites.
struct Shuttle {
    const Driving& loaded;
    const Driving& empty;
    SpotEnds ends;  // of the dump sites
};

// All round trips of one fill site that keep to the limit.
class TripsOf {
public:
    TripsOf(const Question& question, const Shuttle& shuttle, FillSiteIndex fill_site, Desk& desk,
            BestTrips& best)
        : question_(question),
          shuttle_(shuttle),
          fill_site_(fill_site),
          spot_(at(question.roads.access.sources, at(question.fill_sites, fill_site).source)),
          rule_(question.roads.district.travel_time),
          limit_(trip_limit_of(question.roads.district.assumptions)),
          away_(shuttle.loaded.roads()),
          towards_(shuttle.empty.roads()),
          desk_(desk),
          best_(best) {}

    void offer() {
        if (!spot_.valid()) {
            return;
        }
        const std::int32_t limit = rule_.most_of_leg(limit_);
        const std::span<const RoadSpot> sites = question_.dump_sites.spots;
        desk_.loaded.measure(away_, spot_, sites, shuttle_.ends, limit, desk_.search);
        desk_.empty.measure(towards_, spot_, sites, shuttle_.ends, limit, desk_.towards);
        for (const std::uint32_t site : desk_.loaded.reached()) {
            if (desk_.empty.cost(site) != no_way) {
                const LegTimes legs{rule_.leg(desk_.empty.cost(site)),
                                    rule_.leg(desk_.loaded.cost(site))};
                best_.offer(DumpSiteIndex(site), fill_site_, legs);
                offer_closed(site, legs);
            }
        }
        desk_.loaded.clear();
        desk_.empty.clear();
        desk_.search.clear();
        desk_.towards.clear();
    }

private:
    // With the legs where no road is closed, which are the least that there can be.
    void offer_closed(std::uint32_t site, const LegTimes& least) {
        const Approaches::Range rows = question_.approaches.of(site);
        for (std::uint32_t row = rows.begin; row < rows.end; ++row) {
            const DumpSiteIndex here(row);
            const DriveTime most = best_.most_kept(here, fill_site_);
            if (least.empty + least.loaded > most) {
                continue;
            }
            const HoseOnRoads hose = question_.approaches.hose(row);
            LegTimes legs;
            legs.loaded = closed_leg({away_, spot_, desk_.search}, hose, most, least.empty);
            if (reachable(legs.loaded)) {
                legs.empty = closed_leg({towards_, spot_, desk_.towards}, hose, most, legs.loaded);
            }
            if (reachable(legs.empty)) {
                best_.offer(here, fill_site_, legs);
            }
        }
    }

    // No longer than what `most` leaves beside the other leg.
    DriveTime closed_leg(const Searched& from, const HoseOnRoads& hose, DriveTime most,
                         DriveTime other) const {
        const std::int32_t left =
            reachable(most) ? std::min(limit_, in_tenths(most) - in_tenths(other)) : limit_;
        const std::int32_t cost = desk_.closed.cost(from, hose, rule_.most_of_leg(left));
        return cost == no_way ? no_time : rule_.leg(cost);
    }

    const Question& question_;
    const Shuttle& shuttle_;
    FillSiteIndex fill_site_;
    RoadSpot spot_;
    TravelRule rule_;
    std::int32_t limit_;  // tenths of a second
    DrivenRoads away_, towards_;
    Desk& desk_;
    BestTrips& best_;
};

// Searches from every fill site; what one finds is offered at once, so that memory holds the best
// trips and not all.
void offer_trips(const Question& question, const Shuttle& shuttle, BestTrips& best) {
    Pool<Desk> desks = desks_for(question.roads.network, question.dump_sites.spots.size());
    const auto search_some = [&](std::size_t begin, std::size_t end) {
        const Pool<Desk>::Borrowed desk(desks);
        for (std::size_t i = begin; i < end && !question.work.stopped(); ++i) {
            TripsOf(question, shuttle, FillSiteIndex(i), *desk, best).offer();
        }
    };
    for_each_chunk(question.work, "round trips", question.fill_sites.size(), sources_a_chunk,
                   search_some);
}

// A profile's drives from stations to a list of spots. With `approaches`, where the spots are the
// dump sites, those to the approaches too.
class Responses {
public:
    Responses(const Question& question, const Driving& loaded, ProfileIndex profile,
              std::span<const RoadSpot> spots, const Approaches* approaches)
        : question_(question),
          roads_(loaded.roads()),
          profile_(profile),
          spots_(spots),
          approaches_(approaches),
          ends_(spot_ends(question.roads.network, spots, loaded.costs(), loaded.costs())),
          rule_(question.roads.district.travel_time),
          limit_(rule_.most_of_response(trip_limit_of(question.roads.district.assumptions))) {}

    std::vector<Drive> from(StationIndex station, Desk& desk) const {
        std::vector<Drive> drives;
        const RoadSpot place = at(question_.roads.access.stations, station);
        if (!place.valid()) {
            return drives;
        }
        const DriveTime gate = gate_drive(at(question_.roads.district.stations, station));
        const auto add = [&](std::uint32_t row, std::int32_t cost) {
            if (cost != no_way) {
                drives.push_back({row, station, profile_, gate + rule_.response(cost)});
            }
        };
        desk.loaded.measure(roads_, place, spots_, ends_, limit_, desk.search);
        for (const std::uint32_t spot : desk.loaded.reached()) {
            add(spot, desk.loaded.cost(spot));
            const Approaches::Range rows = rows_of(spot);
            for (std::uint32_t row = rows.begin; row < rows.end; ++row) {
                add(row,
                    desk.closed.cost({roads_, place, desk.search}, approaches_->hose(row), limit_));
            }
        }
        desk.loaded.clear();
        desk.search.clear();
        return drives;
    }

private:
    Approaches::Range rows_of(std::uint32_t spot) const {
        return approaches_ == nullptr ? Approaches::Range{} : approaches_->of(spot);
    }

    const Question& question_;
    DrivenRoads roads_;
    ProfileIndex profile_;
    std::span<const RoadSpot> spots_;
    const Approaches* approaches_;
    SpotEnds ends_;
    TravelRule rule_;
    std::int32_t limit_;
};

std::vector<Drive> drives_to(const Question& question, const Driving& loaded, ProfileIndex profile,
                             std::span<const RoadSpot> spots, const Approaches* approaches) {
    const Responses responses(question, loaded, profile, spots, approaches);
    const std::size_t stations = question.roads.access.stations.size();
    Pool<Desk> desks = desks_for(question.roads.network, spots.size());
    std::vector<std::vector<Drive>> of_station(stations);
    const auto search_some = [&](std::size_t begin, std::size_t end) {
        const Pool<Desk>::Borrowed desk(desks);
        for (std::size_t s = begin; s < end && !question.work.stopped(); ++s) {
            of_station[s] = responses.from(StationIndex(s), *desk);
        }
    };
    for_each_chunk(question.work, "responses", stations, 1, search_some);
    std::vector<Drive> drives;
    for (const std::vector<Drive>& some : of_station) {
        drives.insert(drives.end(), some.begin(), some.end());
    }
    return drives;
}

void append(std::vector<Drive>& drives, const std::vector<Drive>& more) {
    drives.insert(drives.end(), more.begin(), more.end());
}

// Tankers by members, then the others: the order in which fill sites are ranked.
std::vector<ProfileIndex> in_order_of_rank(std::span<const Profile> profiles) {
    std::vector<ProfileIndex> order = tanker_profiles(profiles);
    for (std::size_t p = 0; p < profiles.size(); ++p) {
        if (profiles[p].kind != UnitKind::tanker) {
            order.emplace_back(p);
        }
    }
    return order;
}

// The hose lays with the lane classes of the season.
Lists<HoseLay> lays_with_lanes(const DumpSites& dump_sites, const SeasonLanes& lanes) {
    Lists<HoseLay> lays = dump_sites.hose_lays;
    for (std::size_t lay = 0; lay < lays.items.size(); ++lay) {
        lays.items[lay].lane = lanes.hose_lays[lay];
    }
    return lays;
}

std::vector<DumpSiteCandidate> sites_with_lanes(const DumpSites& dump_sites,
                                                const SeasonLanes& lanes) {
    std::vector<DumpSiteCandidate> sites = dump_sites.candidates;
    for (std::size_t site = 0; site < sites.size(); ++site) {
        sites[site].lane = lanes.dump_sites[site];
    }
    return sites;
}

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

void keep_what_differs(const Question& question, const BestTrips& best,
                       const Lists<StationDrive>& stations, RoundTrips& result) {
    const KeptRows kept = rows_that_differ(question.approaches, best, stations,
                                           tanker_profiles(question.roads.profiles), question.work);
    if (question.work.stopped()) {
        return;
    }
    tell_lays(question.approaches, question.dump_sites, kept, result.hose_lays);
    result.fill_trips = best.lists(kept.rows, question.work);
    result.stations_of_dump_site = only_rows(stations, kept.rows);
}

// The drives of all profiles, tankers by members first: that is how fill sites are ranked.
void add_drives(const Question& question, RoundTrips& result) {
    const std::vector<RoadSpot> fill_spots = spots_of_fill_sites(question);
    const Assumptions& assumptions = question.roads.district.assumptions;
    BestTrips best(question.approaches.rows(), question.fill_sites,
                   static_cast<std::size_t>(std::max(assumptions.fill_sites_per_class, 1)));
    std::vector<Drive> to_dump_sites;
    std::vector<Drive> to_fill_sites;
    for (const ProfileIndex profile : in_order_of_rank(question.roads.profiles)) {
        if (question.work.stopped()) {
            break;
        }
        const Profile& vehicles = at(question.roads.profiles, profile);
        const std::vector<RoadSpot>& sites = question.dump_sites.spots;
        const Driving loaded(question.roads, vehicles, question.season, Load::loaded);
        const bool tankers = vehicles.kind == UnitKind::tanker;
        if (tankers) {
            const Driving empty(question.roads, vehicles, question.season, Load::empty);
            best.begin(profile);
            offer_trips(question,
                        {loaded, empty,
                         spot_ends(question.roads.network, sites, loaded.costs(), empty.costs())},
                        best);
        }
        append(to_dump_sites, drives_to(question, loaded, profile, sites,
                                        tankers ? &question.approaches : nullptr));
        append(to_fill_sites, drives_to(question, loaded, profile, fill_spots, nullptr));
    }
    result.stations_of_fill_site = by_place(std::move(to_fill_sites), question.fill_sites.size());
    if (!question.work.stopped()) {
        keep_what_differs(question, best,
                          by_place(std::move(to_dump_sites), question.approaches.rows()), result);
    }
}

}  // namespace

RoundTrips round_trips(const RoadSystem& roads, const DumpSites& dump_sites,
                       std::span<const FillSitePlace> fill_sites, SeasonIndex season,
                       const Work& work) {
    const SeasonLanes lanes = season_lanes(roads.district, roads.network, roads.access,
                                           roads.profiles, dump_sites, fill_sites, season, work);
    RoundTrips result;
    result.season = season;
    result.dump_sites = sites_with_lanes(dump_sites, lanes);
    result.hose_lays = lays_with_lanes(dump_sites, lanes);
    result.fill_lanes = lanes.fill_sites;
    const Approaches approaches(roads.network, dump_sites, result.hose_lays);
    add_drives(
        {roads, dump_sites, approaches, fill_sites, at(roads.district.seasons, season), work},
        result);
    result.source_lays = find_source_lays(roads, fill_sites, work);
    const std::optional<ProfileIndex> engine = response_profile(roads.profiles);
    result.station_miles = engine ? station_miles(roads, *engine, season)
                                  : std::vector<std::optional<float>>(roads.access.points.size());
    return result;
}

}  // namespace farwater::routing
