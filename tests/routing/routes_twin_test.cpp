// Routing against its slow twin on random districts.
#include <algorithm>
#include <optional>

#include <catch2/catch.hpp>

#include "routing/driving/road_use.h"
#include "routing/sites/hose_lays.h"
#include "routing/sites/hose_paths.h"
#include "routing/sites/site_rules.h"
#include "routing/sites/site_spacing.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"
#include "tests/routing/slow_ways.h"
#include "tests/support/draws.h"
#include "tests/support/slow_routes.h"

using namespace farwater;
using test::cost_of;
using test::Routed;
using test::slow_spot;
using test::within;

namespace {

constexpr std::uint64_t route_seeds = test::draws(150);

}  // namespace

TEST_CASE("junctions and pieces of road equal those found by comparing all vertices", "[twin]") {
    for (std::uint64_t seed = 1; seed <= route_seeds; ++seed) {
        CAPTURE(seed);
        const District district = test::random_district(seed);
        const slow::Streets streets = slow::streets_of(district);
        const auto result = routing::build_network(district, Work{});
        REQUIRE(result.network.nodes.size() == streets.junctions);
        REQUIRE(result.network.edges.size() == streets.pieces.size());
        for (std::size_t i = 0; i < streets.pieces.size(); ++i) {
            const routing::Edge& edge = result.network.edges[i];
            REQUIRE(edge.road.position() == streets.pieces[i].road);
            REQUIRE(edge.begin == Approx(streets.pieces[i].begin));
            REQUIRE(edge.end == Approx(streets.pieces[i].end));
        }
    }
}

TEST_CASE("access points are as near as a look at every segment finds", "[twin]") {
    for (std::uint64_t seed = 1; seed <= route_seeds; ++seed) {
        CAPTURE(seed);
        District district = test::random_district(seed);
        district.assumptions.access_reach = metres(150);
        const Routed routed(district);
        const auto usable = [&](std::size_t road) {
            for (const Profile& profile : routed.profiles) {
                for (const Season& season : district.seasons) {
                    if (profile.kind == UnitKind::tanker &&
                        slow::may_drive(district.roads[road], profile, season, true,
                                        district.assumptions)) {
                        return true;
                    }
                }
            }
            return false;
        };
        std::vector<bool> of_tankers;
        for (std::size_t road = 0; road < district.roads.size(); ++road) {
            of_tankers.push_back(usable(road));
        }
        for (std::size_t i = 0; i < district.parcels.size(); ++i) {
            const auto expected =
                slow::served_from(district, of_tankers, district.parcels[i].house, metres(150));
            const AccessPoint& found = routed.access.access.points[i];
            REQUIRE(found.road.valid() == expected.has_value());
            if (expected) {
                REQUIRE(in_metres(found.off_road) == Approx(expected->apart).margin(1e-9));
            }
        }
        for (std::size_t i = 0; i < district.sources.size(); ++i) {
            const auto expected =
                slow::nearest_place(district, district.sources[i].place, metres(150), usable);
            const routing::RoadSpot found = routed.access.access.sources[i];
            REQUIRE(found.valid() == expected.has_value());
            if (expected) {
                const Point place = routing::place_of(district, routed.network.network, found);
                REQUIRE(in_metres(distance(place, district.sources[i].place)) ==
                        Approx(expected->apart).margin(2e-3));
            }
        }
    }
}

TEST_CASE("round trips equal those of the slow twin, both legs, every profile and season",
          "[twin]") {
    std::size_t compared = 0;
    for (std::uint64_t seed = 1; seed <= route_seeds; ++seed) {
        const District district = test::random_district(seed);
        const Routed routed(district);
        const routing::Network& network = routed.network.network;
        const slow::Streets streets = slow::streets_of(district);
        for (std::size_t s = 0; s < district.seasons.size(); ++s) {
            const RoundTrips trips = routed.round_trips(SeasonIndex(s));
            for (std::size_t p = 0; p < routed.profiles.size(); ++p) {
                const Profile& profile = routed.profiles[p];
                if (profile.kind != UnitKind::tanker) {
                    continue;
                }
                const auto loaded =
                    slow::drive_times(district, streets, profile, district.seasons[s], true);
                const auto empty =
                    slow::drive_times(district, streets, profile, district.seasons[s], false);
                for (std::size_t d = 0; d < trips.dump_sites.size(); ++d) {
                    const slow::Spot site = slow_spot(streets, network, routed.dump_sites.spots[d]);
                    for (std::size_t f = 0; f < district.sources.size(); ++f) {
                        const routing::RoadSpot source = routed.access.access.sources[f];
                        long there = slow::never;
                        long back = slow::never;
                        if (source.valid()) {
                            const slow::Spot spot = slow_spot(streets, network, source);
                            there =
                                within(slow::way_between(streets, loaded, spot, site), district);
                            back = within(slow::way_between(streets, empty, site, spot), district);
                        }
                        const bool round = there < slow::never && back < slow::never;
                        const LegTimes legs =
                            test::legs_between(trips, DumpSiteIndex(d), f, ProfileIndex(p));
                        CAPTURE(seed, s, p, d, f);
                        REQUIRE(cost_of(legs.loaded) == (round ? there : slow::never));
                        REQUIRE(cost_of(legs.empty) == (round ? back : slow::never));
                        compared += round ? 1U : 0U;
                    }
                }
            }
        }
    }
    CHECK(compared > test::draws(5000));
}

namespace {

// Where an engine can be, asked of the slow twin.
struct EngineRoads {
    const District& district;
    const Routed& routed;
    const slow::Streets& streets;
    slow::PieceCosts times;
    std::vector<slow::Start> starts;

    bool open(std::size_t piece) const {
        return times.forward[piece] < slow::never || times.backward[piece] < slow::never;
    }

    // Millimetres, on pieces that may be driven where they may, or on the others both ways.
    slow::PieceCosts lengths(bool driven) const {
        slow::PieceCosts costs = slow::lengths_in_mm(streets);
        for (std::size_t i = 0; i < streets.pieces.size(); ++i) {
            const bool closed = !open(i);
            if (driven ? times.forward[i] == slow::never : !closed) {
                costs.forward[i] = slow::never;
            }
            if (driven ? times.backward[i] == slow::never : !closed) {
                costs.backward[i] = slow::never;
            }
        }
        return costs;
    }

    struct Stop {
        slow::Spot spot;
        long along = slow::never;  // hose or road from there to the parcel
    };
    // The place itself, or the nearest reached junction along closed pieces that hose reaches from.
    Stop stop_at(std::size_t parcel, slow::Spot spot) const {
        if (slow::first_arrival(streets, times, starts, spot) < slow::never) {
            return {spot, 0};
        }
        const auto setback = routing::setback_of(district, routed.access.access, parcel);
        Stop best;
        const slow::PieceCosts closed = lengths(false);
        for (std::size_t i = 0; !open(spot.piece) && setback && i < streets.pieces.size(); ++i) {
            for (const double end : {0.0, streets.pieces[i].length()}) {
                const slow::Spot junction{i, end};
                const long along = slow::way_between(streets, closed, junction, spot);
                const double hose = static_cast<double>(along) / 1e3 + in_metres(*setback);
                if (along < best.along && hose <= in_metres(district.assumptions.hose_reach) &&
                    slow::first_arrival(streets, times, starts, junction) < slow::never) {
                    best = {junction, along};
                }
            }
        }
        return best;
    }
};

}  // namespace

TEST_CASE("station drives equal those of the slow twin", "[twin]") {
    std::size_t compared = 0;
    for (std::uint64_t seed = 1; seed <= route_seeds; ++seed) {
        const District district = test::random_district(seed);
        const Routed routed(district);
        const routing::Network& network = routed.network.network;
        const slow::Streets streets = slow::streets_of(district);
        const RoundTrips trips = routed.round_trips();
        for (std::size_t p = 0; p < routed.profiles.size(); ++p) {
            const auto costs =
                slow::drive_times(district, streets, routed.profiles[p], district.seasons[0], true);
            for (std::size_t s = 0; s < district.stations.size(); ++s) {
                const routing::RoadSpot station = routed.access.access.stations[s];
                for (std::size_t d = 0; station.valid() && d < trips.dump_sites.size(); ++d) {
                    CAPTURE(seed, p, s, d);
                    const slow::Spot from = slow_spot(streets, network, station);
                    const slow::Spot to = slow_spot(streets, network, routed.dump_sites.spots[d]);
                    REQUIRE(cost_of(trips.from_station(ProfileIndex(p), StationIndex(s),
                                                       DumpSiteIndex(d))) ==
                            within(slow::way_between(streets, costs, from, to), district));
                    ++compared;
                }
            }
        }
    }
    CHECK(compared > test::draws(3000));
}

TEST_CASE("first arrivals and station miles equal those of the slow twin, at gates too", "[twin]") {
    std::size_t at_the_place = 0;
    std::size_t at_a_gate = 0;
    for (std::uint64_t seed = 1; seed <= route_seeds; ++seed) {
        District district = test::random_district(seed);
        district.assumptions.private_roads_usable = false;
        const Routed routed(district);
        const routing::Network& network = routed.network.network;
        const slow::Streets streets = slow::streets_of(district);
        const ProfileIndex engine = routed.profile_of(UnitKind::engine);
        EngineRoads roads{district,
                          routed,
                          streets,
                          slow::drive_times(district, streets, at(routed.profiles, engine),
                                            district.seasons[0], true),
                          {}};
        std::vector<routing::Departure> departures;
        for (std::size_t s = 0; s < district.stations.size(); ++s) {
            const routing::RoadSpot station = routed.access.access.stations[s];
            departures.push_back({StationIndex(s), tenths_of_second(static_cast<int>(s) * 500)});
            if (station.valid()) {
                roads.starts.push_back(
                    {slow_spot(streets, network, station), static_cast<long>(s) * 500});
            }
        }
        const auto arrivals =
            routing::first_arrivals(routed.roads(), engine, departures, SeasonIndex(0));
        const auto miles = routing::station_miles(routed.roads(), engine, SeasonIndex(0));
        std::vector<slow::Start> at_once = roads.starts;
        for (slow::Start& start : at_once) {
            start.cost = 0;
        }
        for (std::size_t i = 0; i < district.parcels.size(); ++i) {
            CAPTURE(seed, i);
            const routing::RoadSpot spot = routed.access.access.spots[i];
            const auto stop = spot.valid() ? roads.stop_at(i, slow_spot(streets, network, spot))
                                           : EngineRoads::Stop{};
            if (stop.along == slow::never) {
                REQUIRE_FALSE(reachable(arrivals[i]));
                REQUIRE_FALSE(miles[i].has_value());
                continue;
            }
            REQUIRE(cost_of(arrivals[i]) ==
                    slow::first_arrival(streets, roads.times, roads.starts, stop.spot));
            const long way =
                slow::first_arrival(streets, roads.lengths(true), at_once, stop.spot) + stop.along;
            REQUIRE(miles[i].has_value());
            REQUIRE(*miles[i] == Approx(static_cast<double>(way) / 1609344.0).margin(1e-6));
            (stop.along == 0 ? at_the_place : at_a_gate) += 1;
        }
    }
    CHECK(at_the_place > test::draws(1000));
    CHECK(at_a_gate > test::draws(30));
}

namespace {

struct Expected {
    bool officers = false;
    long along = 0;
    std::uint32_t site = 0;
    friend auto operator<=>(const Expected&, const Expected&) = default;
};

struct HoseCase {
    const District& district;
    const Routed& routed;
    const slow::Streets& streets;
    slow::PieceCosts lengths;
    const routing::SiteRules& rules;

    // Millimetres of hose that are left for the road; below 0 when no hose reaches.
    double left(std::size_t parcel) const {
        const auto setback = routing::setback_of(district, routed.access.access, parcel);
        return setback ? in_metres(district.assumptions.hose_reach - *setback) * 1e3 : -1.0;
    }
    long way(std::size_t parcel, routing::RoadSpot site) const {
        return slow::way_between(
            streets, lengths, slow_spot(streets, routed.network.network, site),
            slow_spot(streets, routed.network.network, routed.access.access.spots[parcel]));
    }
    bool stands_off(std::size_t parcel, Point site) const {
        return distance(site, district.parcels[parcel].house) >= district.assumptions.standoff;
    }

    std::vector<Expected> lays(std::size_t parcel,
                               const std::vector<routing::SitePlace>& sites) const {
        std::vector<Expected> found;
        for (std::uint32_t i = 0; i < sites.size(); ++i) {
            const Point on_road =
                routing::place_of(district, routed.network.network, sites[i].spot);
            const long off = sites[i].officers_place
                                 ? std::lround(in_metres(distance(on_road, sites[i].place)) * 1e3)
                                 : 0;
            const long along = way(parcel, sites[i].spot) + off;
            if (static_cast<double>(along) <= left(parcel) && stands_off(parcel, sites[i].place)) {
                found.push_back({!sites[i].officers_place, along, i});
            }
        }
        std::sort(found.begin(), found.end());
        found.resize(std::min<std::size_t>(found.size(), routing::most_hose_lays));
        return found;
    }

    // By which end of the house's piece the shortest way comes; none where both are as near, or the
    // house stands at an end.
    std::optional<bool> from_end(std::size_t parcel, routing::RoadSpot site) const {
        const slow::Spot house =
            slow_spot(streets, routed.network.network, routed.access.access.spots[parcel]);
        const slow::Spot from = slow_spot(streets, routed.network.network, site);
        const double length = streets.pieces[house.piece].length();
        if (house.along < 0.01 || house.along > length - 0.01) {
            return std::nullopt;
        }
        if (from.piece == house.piece && from.along > 0.0 && from.along < length) {
            return from.along > house.along;
        }
        slow::PieceCosts others = lengths;
        others.forward[house.piece] = others.backward[house.piece] = slow::never;
        const long by_start = slow::way_between(streets, others, from, {house.piece, 0.0}) +
                              std::lround(house.along * 1e3);
        const long by_end = slow::way_between(streets, others, from, {house.piece, length}) +
                            std::lround((length - house.along) * 1e3);
        return std::abs(by_start - by_end) < 5 ? std::nullopt : std::optional(by_end < by_start);
    }

    // The least way to a place of its own that comes by an end, looking at every step of every
    // edge.
    long own_place(std::size_t parcel, bool by_end) const {
        const routing::Network& network = routed.network.network;
        const double step = in_metres(district.assumptions.dump_site_spacing) / 4;
        long best = slow::never;
        for (std::size_t e = 0; e < network.edges.size(); ++e) {
            const routing::EdgeIndex edge(e);
            const double length = in_metres(network.edges[e].length());
            const int steps = std::max(1, static_cast<int>(std::ceil(length / step)));
            for (int i = 0; rules.has_sites(edge) && i <= steps; ++i) {
                const double here = i == steps ? length : length * i / steps;
                const auto level =
                    rules.level().nearest({edge, here}, std::max(0.0, here - step / 2),
                                          std::min(length, here + step / 2));
                if (!level) {
                    continue;
                }
                const routing::RoadSpot spot = *level;
                const Point place = routing::place_of(district, network, spot);
                const bool inside = spot.along > 0.0 && spot.along < length;
                const bool allowed =
                    inside ||
                    rules.has_site(spot.along > 0.0 ? network.edges[e].to : network.edges[e].from);
                const long along = way(parcel, spot);
                if (allowed && rules.clear_of_rail(spot) && stands_off(parcel, place) &&
                    static_cast<double>(along) <= left(parcel) &&
                    from_end(parcel, spot) == by_end) {
                    best = std::min(best, along);
                }
            }
        }
        return best;
    }
};

// Junctions that a dump site may be at and that tankers drive through while hose from there lies.
class ThroughJunctions {
public:
    ThroughJunctions(const District& district, const routing::Network& network,
                     const routing::SiteRules& rules, const routing::DriveThrough& drive_through)
        : network_(network),
          rules_(rules),
          drive_through_(drive_through),
          lengths_(routing::lengths_of(
              network, std::vector<std::uint8_t>(network.edges.size(), std::uint8_t{1}))),
          graph_(routing::search_graph(network, lengths_, routing::Heading::away)),
          reach_(routing::millimetres(district.assumptions.hose_reach)) {}

    template <class Keep>
    std::vector<routing::RoadSpot> of(routing::RoadSpot house, const Keep& keep) const {
        routing::HosePaths paths(network_, lengths_, graph_);
        paths.begin(house, reach_);
        std::vector<routing::RoadSpot> found;
        for (const std::uint32_t node : paths.search().reached()) {
            const routing::RoadSpot spot = rules_.spot_at(NodeIndex(node));
            if (rules_.has_site(NodeIndex(node)) && rules_.clear_of_rail(spot) && keep(spot) &&
                drive_through_.at_spot(spot, paths.edges_to(spot))) {
                found.push_back(spot);
            }
        }
        return found;
    }

private:
    const routing::Network& network_;
    const routing::SiteRules& rules_;
    const routing::DriveThrough& drive_through_;
    routing::EdgeCosts lengths_;
    routing::SearchGraph graph_;
    std::int32_t reach_;
};

long least_way(const std::vector<routing::RoadSpot>& places, const HoseCase& hose,
               std::size_t parcel) {
    long least = slow::never;
    for (const routing::RoadSpot place : places) {
        least = std::min(least, hose.way(parcel, place));
    }
    return least;
}

}  // namespace

TEST_CASE("hose lays equal those measured from every site to every parcel", "[twin]") {
    std::size_t compared = 0;
    std::size_t own = 0;
    std::size_t through = 0;
    for (std::uint64_t seed = 1; seed <= route_seeds / 3; ++seed) {
        const District district = test::random_district(seed);
        const Routed routed(district);
        const routing::Network& network = routed.network.network;
        const routing::SiteRules rules(district, network, routed.profiles);
        std::vector<routing::SitePlace> sites;
        for (std::uint32_t i = 0; i < district.dump_site_places.size(); ++i) {
            if (routed.access.access.dump_site_places[i].valid()) {
                sites.push_back({routed.access.access.dump_site_places[i],
                                 district.dump_site_places[i].place, i});
            }
        }
        for (const routing::RoadSpot& spot :
             routing::spaced_sites(network, rules, {}, metres(300), metres(100))) {
            sites.push_back({spot, routing::place_of(district, network, spot), {}});
        }
        const routing::DriveThrough drive_through(district, network, routed.access.access,
                                                  routed.profiles);
        routing::Lays lays =
            routing::find_hose_lays(district, network, routed.access.access, rules, drive_through,
                                    sites, std::vector(district.parcels.size(), true), Work{});
        const ThroughJunctions junctions(district, network, rules, drive_through);
        const long near =
            std::lround(in_metres(district.assumptions.dump_site_spacing) * 1e3 / 2.0);
        const slow::Streets streets = slow::streets_of(district);
        const HoseCase hose{district, routed, streets, slow::lengths_in_mm(streets), rules};
        const auto by_served = [](const auto& a, const auto& b) { return a.served < b.served; };
        std::stable_sort(lays.from_sites.begin(), lays.from_sites.end(), by_served);
        std::stable_sort(lays.own.begin(), lays.own.end(), by_served);
        auto lay = lays.from_sites.begin();
        auto own_lay = lays.own.begin();
        for (std::size_t parcel = 0; parcel < district.parcels.size(); ++parcel) {
            CAPTURE(seed, parcel);
            if (!routed.access.access.spots[parcel].valid()) {
                continue;
            }
            const std::vector<Expected> expected = hose.lays(parcel, sites);
            for (const Expected& one : expected) {
                REQUIRE(lay != lays.from_sites.end());
                REQUIRE(lay->served == parcel);
                REQUIRE(lay->site == one.site);
                REQUIRE(lay->along == one.along);
                ++lay;
                ++compared;
            }
            std::vector<long> own_ways;
            bool told = true;
            for (; own_lay != lays.own.end() && own_lay->served == parcel; ++own_lay) {
                own_ways.push_back(own_lay->along);
                REQUIRE(own_lay->along == hose.way(parcel, own_lay->spot));
            }
            for (const Expected& one : expected) {
                told = told && hose.from_end(parcel, sites[one.site].spot).has_value();
            }
            for (const bool by_end : {false, true}) {
                const bool has_lay = std::ranges::any_of(expected, [&](const Expected& one) {
                    return one.along <= near &&
                           hose.from_end(parcel, sites[one.site].spot) == by_end;
                });
                const long least = hose.own_place(parcel, by_end);
                if (told && !has_lay && least < slow::never) {
                    REQUIRE(std::ranges::count(own_ways, least) > 0);
                    ++own;
                }
                const auto in_question = [&](routing::RoadSpot spot) {
                    return static_cast<double>(hose.way(parcel, spot)) <= hose.left(parcel) &&
                           hose.stands_off(parcel, routing::place_of(district, network, spot)) &&
                           hose.from_end(parcel, spot) == by_end;
                };
                const long junction = least_way(
                    junctions.of(routed.access.access.spots[parcel], in_question), hose, parcel);
                if (told && !has_lay && junction < slow::never) {
                    REQUIRE(std::ranges::count(own_ways, junction) > 0);
                    ++through;
                }
            }
        }
        REQUIRE(lay == lays.from_sites.end());
        REQUIRE(own_lay == lays.own.end());
    }
    CHECK(compared > test::draws(500));
    CHECK(own > test::draws(20));
    CHECK(through > test::draws(20));
}
