#include <algorithm>
#include <array>
#include <memory>
#include <mutex>
#include <span>
#include <utility>

#include "routing/best_trips.h"
#include "routing/costs.h"
#include "routing/drive_times.h"
#include "routing/pool.h"
#include "routing/profiles.h"
#include "routing/search.h"
#include "routing/season_lanes.h"
#include "routing/source_lays.h"
#include "routing/spot_times.h"
#include "routing/station_drives.h"
#include "routing/travel_rule.h"

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
    Desk(std::size_t nodes, std::size_t spots) : search(nodes), loaded(spots), empty(spots) {}
    Search search;
    SpotTimes loaded, empty;
};

Pool<Desk> desks_for(const Network& network, std::size_t spots) {
    const std::size_t nodes = network.nodes.size();
    return Pool<Desk>([nodes, spots] { return std::make_unique<Desk>(nodes, spots); });
}

struct OfferedTrip {
    DumpSiteIndex dump_site;
    FillSiteIndex fill_site;
    LegTimes legs;
};

struct Question {
    const RoadSystem& roads;
    const DumpSites& dump_sites;
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
    SpotEnds ends;
};

// All round trips of one fill site that keep to the limit.
std::vector<OfferedTrip> trips_of(const Question& question, const Shuttle& shuttle,
                                  FillSiteIndex fill_site, Desk& desk) {
    std::vector<OfferedTrip> trips;
    const RoadSpot spot =
        at(question.roads.access.sources, at(question.fill_sites, fill_site).source);
    if (!spot.valid()) {
        return trips;
    }
    const TravelRule rule(question.roads.district.travel_time);
    const std::int32_t limit = rule.most_of_leg(trip_limit_of(question.roads.district.assumptions));
    const std::span<const RoadSpot> sites = question.dump_sites.spots;
    desk.loaded.measure(shuttle.loaded.roads(), spot, sites, shuttle.ends, limit, desk.search);
    desk.empty.measure(shuttle.empty.roads(), spot, sites, shuttle.ends, limit, desk.search);
    for (const std::uint32_t site : desk.loaded.reached()) {
        if (desk.empty.cost(site) != no_way) {
            trips.push_back(
                {DumpSiteIndex(site), fill_site,
                 LegTimes{rule.leg(desk.empty.cost(site)), rule.leg(desk.loaded.cost(site))}});
        }
    }
    desk.loaded.clear();
    desk.empty.clear();
    return trips;
}

// The best trips while several threads offer theirs. What is kept does not depend on the order, so
// a thread only keeps others away from the stretch of dump sites that it is at.
class SharedBest {
public:
    SharedBest(BestTrips& best, std::size_t dump_sites)
        : best_(best), sites_a_stretch_(dump_sites / stretches_.size() + 1) {}

    void offer(std::span<const OfferedTrip> trips) {
        std::unique_lock<std::mutex> here;
        for (const OfferedTrip& trip : trips) {
            std::mutex& stretch = stretches_[trip.dump_site.position() / sites_a_stretch_];
            if (here.mutex() != &stretch) {
                here = {};  // let go of one before the next is taken
                here = std::unique_lock(stretch);
            }
            best_.offer(trip.dump_site, trip.fill_site, trip.legs);
        }
    }

private:
    BestTrips& best_;
    std::array<std::mutex, 64> stretches_;
    std::size_t sites_a_stretch_;
};

// Searches from every fill site; what one finds is offered at once, so that memory holds the best
// trips and not all.
void offer_trips(const Question& question, const Shuttle& shuttle, BestTrips& best) {
    const std::size_t dump_sites = question.dump_sites.spots.size();
    SharedBest shared(best, dump_sites);
    Pool<Desk> desks = desks_for(question.roads.network, dump_sites);
    const auto search_some = [&](std::size_t begin, std::size_t end) {
        const Pool<Desk>::Borrowed desk(desks);
        for (std::size_t i = begin; i < end && !question.work.stopped(); ++i) {
            shared.offer(trips_of(question, shuttle, FillSiteIndex(i), *desk));
        }
    };
    for_each_chunk(question.work, "round trips", question.fill_sites.size(), sources_a_chunk,
                   search_some);
}

// A profile's drives from every station to a list of spots.
std::vector<Drive> drives_to(const Question& question, const Driving& loaded, ProfileIndex profile,
                             std::span<const RoadSpot> spots) {
    const SpotEnds ends = spot_ends(question.roads.network, spots, loaded.costs(), loaded.costs());
    const std::vector<RoadSpot>& stations = question.roads.access.stations;
    const TravelRule rule(question.roads.district.travel_time);
    const std::int32_t limit =
        rule.most_of_response(trip_limit_of(question.roads.district.assumptions));
    Pool<Desk> desks = desks_for(question.roads.network, spots.size());
    std::vector<std::vector<Drive>> of_station(stations.size());
    const auto search_some = [&](std::size_t begin, std::size_t end) {
        const Pool<Desk>::Borrowed desk(desks);
        for (std::size_t s = begin; s < end && !question.work.stopped(); ++s) {
            if (!stations[s].valid()) {
                continue;
            }
            desk->loaded.measure(loaded.roads(), stations[s], spots, ends, limit, desk->search);
            const DriveTime gate = gate_drive(question.roads.district.stations[s]);
            for (const std::uint32_t spot : desk->loaded.reached()) {
                of_station[s].push_back({spot, StationIndex(s), profile,
                                         gate + rule.response(desk->loaded.cost(spot))});
            }
            desk->loaded.clear();
        }
    };
    for_each_chunk(question.work, "responses", stations.size(), 1, search_some);
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

// The lane classes of the season, written where they belong.
void set_lanes(RoundTrips& trips, const SeasonLanes& lanes) {
    for (std::size_t site = 0; site < trips.dump_sites.size(); ++site) {
        trips.dump_sites[site].lane = lanes.dump_sites[site];
    }
    for (std::size_t lay = 0; lay < trips.hose_lays.items.size(); ++lay) {
        trips.hose_lays.items[lay].lane = lanes.hose_lays[lay];
    }
    trips.fill_lanes = lanes.fill_sites;
}

}  // namespace

RoundTrips round_trips(const RoadSystem& roads, const DumpSites& dump_sites,
                       std::span<const FillSitePlace> fill_sites, SeasonIndex season,
                       const Work& work) {
    const Question question{roads, dump_sites, fill_sites, at(roads.district.seasons, season),
                            work};
    const std::vector<RoadSpot> fill_spots = spots_of_fill_sites(question);
    BestTrips best(
        dump_sites.spots.size(), fill_sites,
        static_cast<std::size_t>(std::max(roads.district.assumptions.fill_sites_per_class, 1)));
    std::vector<Drive> to_dump_sites;
    std::vector<Drive> to_fill_sites;
    for (const ProfileIndex profile : in_order_of_rank(roads.profiles)) {
        if (work.stopped()) {
            break;
        }
        const Profile& vehicles = at(roads.profiles, profile);
        const Driving loaded(roads, vehicles, question.season, Load::loaded);
        if (vehicles.kind == UnitKind::tanker) {
            const Driving empty(roads, vehicles, question.season, Load::empty);
            best.begin(profile);
            offer_trips(question,
                        {loaded, empty,
                         spot_ends(roads.network, dump_sites.spots, loaded.costs(), empty.costs())},
                        best);
        }
        append(to_dump_sites, drives_to(question, loaded, profile, dump_sites.spots));
        append(to_fill_sites, drives_to(question, loaded, profile, fill_spots));
    }
    RoundTrips result;
    result.season = season;
    result.dump_sites = dump_sites.candidates;
    result.fill_trips = best.lists(work);
    result.stations_of_dump_site = by_place(std::move(to_dump_sites), dump_sites.spots.size());
    result.stations_of_fill_site = by_place(std::move(to_fill_sites), fill_sites.size());
    result.hose_lays = dump_sites.hose_lays;
    result.source_lays = find_source_lays(roads, fill_sites, work);
    set_lanes(result, season_lanes(roads.district, roads.network, roads.access, roads.profiles,
                                   dump_sites, fill_sites, season, work));
    const std::optional<ProfileIndex> engine = response_profile(roads.profiles);
    result.station_miles = engine ? station_miles(roads, *engine, season)
                                  : std::vector<std::optional<float>>(roads.access.points.size());
    return result;
}

}  // namespace farwater::routing
