// Ways on random districts: as long as the slow twin's, continuous, and drivable stretch by
// stretch.
#include <cmath>
#include <set>

#include <catch2/catch.hpp>

#include "routing/drive_table.h"
#include "routing/route_lines.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"
#include "tests/routing/slow_ways.h"
#include "tests/support/draws.h"
#include "tests/support/slow_routes.h"

using namespace farwater;
using test::Routed;
using test::slow_spot;

namespace {

constexpr std::uint64_t line_seeds = test::draws(80);

// Every drive between the stations or sources and the dump sites.
std::vector<WantedRoute> all_wanted(const Routed& routed, SeasonIndex season) {
    std::vector<WantedRoute> wanted;
    for (std::size_t p = 0; p < routed.profiles.size(); ++p) {
        for (std::size_t d = 0; d < routed.dump_sites.spots.size(); ++d) {
            for (std::size_t s = 0; s < routed.district.sources.size(); ++s) {
                for (const RouteKind kind : {RouteKind::loaded, RouteKind::empty}) {
                    wanted.push_back({kind, season, ProfileIndex(p), DumpSiteIndex(d),
                                      SourceIndex(s), StationIndex(), no_time, true});
                }
            }
            for (std::size_t s = 0; s < routed.district.stations.size(); ++s) {
                wanted.push_back({RouteKind::response, season, ProfileIndex(p), DumpSiteIndex(d),
                                  SourceIndex(), StationIndex(s), no_time, true});
            }
        }
    }
    return wanted;
}

routing::RoadSpot start_of(const Routed& routed, const WantedRoute& wanted) {
    return wanted.kind == RouteKind::response ? at(routed.access.access.stations, wanted.station)
                                              : at(routed.access.access.sources, wanted.source);
}

// Whether a vehicle may go straight from p to q on the road, and the minutes that takes; none where
// it may not.
std::optional<double> minutes_on(const District& district, const Road& road, const Profile& profile,
                                 const Season& season, bool loaded, Point p, Point q) {
    constexpr double slack = 0.003;  // metres: points are rounded to a millimetre
    if (!slow::may_drive(road, profile, season, loaded, district.assumptions)) {
        return std::nullopt;
    }
    const auto off = [](Point a, Point b, Point x) {
        const double length = in_metres(distance(a, b));
        const double along = ((x.x - a.x) * (b.x - a.x) + (x.y - a.y) * (b.y - a.y)) / length;
        const double beside = std::abs((x.x - a.x) * (b.y - a.y) - (x.y - a.y) * (b.x - a.x));
        return std::max({beside / length, -along, along - length});
    };
    for (std::size_t i = 1; i < road.line.size(); ++i) {
        const Point a = road.line[i - 1];
        const Point b = road.line[i];
        if (a == b || off(a, b, p) > slack || off(a, b, q) > slack) {
            continue;
        }
        const bool as_drawn = (q.x - p.x) * (b.x - a.x) + (q.y - p.y) * (b.y - a.y) >= 0.0;
        const bool allowed = road.one_way == OneWay::both ||
                             (road.one_way == OneWay::forward) == as_drawn ||
                             in_metres(distance(p, q)) < slack;
        if (allowed) {
            return in_miles(distance(p, q)) /
                   slow::miles_per_hour(road, profile, season, loaded, district.assumptions) * 60.0;
        }
    }
    return std::nullopt;
}

// The road's speed is the default of its class, since no posted limit is as low.
bool at_default(const Road& road, const Assumptions& assumptions) {
    const Speed defaults[] = {assumptions.speed_state,      assumptions.speed_paved,
                              assumptions.speed_paved_lane, assumptions.speed_gravel,
                              assumptions.speed_narrow,     assumptions.speed_drive};
    Speed standard = defaults[static_cast<std::size_t>(road.kind)];
    if (road.surface == Surface::gravel) {
        standard = std::min(standard, assumptions.speed_gravel);
    }
    return !road.posted_speed || *road.posted_speed > standard;
}

}  // namespace

TEST_CASE("the time of each way is the twin's and that of the round trip", "[twin]") {
    std::size_t compared = 0;
    for (std::uint64_t seed = 1; seed <= line_seeds; ++seed) {
        const District district = test::random_district(seed);
        const Routed routed(district);
        const slow::Streets streets = slow::streets_of(district);
        const SeasonIndex season(seed % 2);
        const std::vector<WantedRoute> wanted = all_wanted(routed, season);
        const auto found =
            routing::route_lines(routed.roads(), routed.dump_sites, wanted, routed.work);
        const RoundTrips trips = routed.round_trips(season);
        REQUIRE(found.size() == wanted.size());
        for (std::size_t i = 0; i < wanted.size(); i += 1 + seed % 5) {
            CAPTURE(seed, i);
            const WantedRoute& trip = wanted[i];
            const routing::RoadSpot start = start_of(routed, trip);
            if (!start.valid()) {
                CHECK_FALSE(reachable(found[i].time));
                continue;
            }
            const bool loaded = trip.kind != RouteKind::empty;
            const auto costs =
                slow::drive_times(district, streets, at(routed.profiles, trip.profile),
                                  at(district.seasons, season), loaded);
            slow::Spot from = slow_spot(streets, routed.network.network, start);
            slow::Spot to = slow_spot(streets, routed.network.network,
                                      at(routed.dump_sites.spots, trip.dump_site));
            if (!loaded) {
                std::swap(from, to);
            }
            const long cost = slow::way_between(streets, costs, from, to);
            const bool in_limit =
                static_cast<double>(cost) <= in_minutes(district.assumptions.trip_limit) * 600.0;
            REQUIRE(reachable(found[i].time) == in_limit);
            if (in_limit) {
                REQUIRE(in_tenths(found[i].time) == cost);
                ++compared;
            }
            const LegTimes legs = test::legs_between(
                trips, trip.dump_site, trip.source.valid() ? trip.source.position() : 1000,
                trip.profile);
            if (reachable(legs.loaded)) {
                CHECK(found[i].time == (loaded ? legs.loaded : legs.empty));
            }
            if (trip.kind == RouteKind::response) {
                CHECK(found[i].time ==
                      trips.from_station(trip.profile, trip.station, trip.dump_site));
            }
        }
    }
    CHECK(compared > test::draws(5000));
}

TEST_CASE("lines are continuous, on roads that may be driven that way, and as long as they take",
          "[twin]") {
    std::size_t driven = 0;
    for (std::uint64_t seed = 1; seed <= line_seeds; ++seed) {
        const District district = test::random_district(seed);
        const Routed routed(district);
        const SeasonIndex season(seed % 2);
        const std::vector<WantedRoute> wanted = all_wanted(routed, season);
        const auto found =
            routing::route_lines(routed.roads(), routed.dump_sites, wanted, routed.work);
        for (std::size_t i = 0; i < wanted.size(); ++i) {
            const RouteLine& route = found[i];
            if (!reachable(route.time) || route.line.empty()) {
                continue;
            }
            CAPTURE(seed, i);
            const bool loaded = wanted[i].kind != RouteKind::empty;
            Point from =
                routing::place_of(district, routed.network.network, start_of(routed, wanted[i]));
            Point to = routing::place_of(district, routed.network.network,
                                         at(routed.dump_sites.spots, wanted[i].dump_site));
            if (!loaded) {
                std::swap(from, to);
            }
            REQUIRE(in_metres(distance(route.line.front(), from)) < 0.003);
            REQUIRE(in_metres(distance(route.line.back(), to)) < 0.003);
            double minutes = 0.0;
            double minutes_at_default = 0.0;
            for (std::size_t k = 1; k < route.line.size(); ++k) {
                std::optional<double> best;
                bool by_default = false;
                for (const RoadIndex road : route.roads) {
                    const auto here = minutes_on(
                        district, at(district.roads, road), at(routed.profiles, wanted[i].profile),
                        at(district.seasons, season), loaded, route.line[k - 1], route.line[k]);
                    if (here && (!best || *here < *best)) {
                        best = here;
                        by_default = at_default(at(district.roads, road), district.assumptions);
                    }
                }
                REQUIRE(best);
                minutes += *best;
                minutes_at_default += by_default ? *best : 0.0;
            }
            const double tenths = minutes * 600.0;
            REQUIRE(tenths <=
                    in_tenths(route.time) + 0.01 * static_cast<double>(route.line.size()));
            const bool level = district.elevation.empty();  // uphill it takes longer
            REQUIRE((!level || tenths > in_tenths(route.time) -
                                            2.0 * static_cast<double>(route.line.size())));
            REQUIRE(in_metres(route.length) ==
                    Approx(in_metres(length_of(route.line)))
                        .margin(0.002 * static_cast<double>(route.line.size())));
            const double at_defaults = minutes_at_default * 600.0;
            const double slack = 2.0 * static_cast<double>(route.line.size());
            REQUIRE(at_defaults < in_tenths(route.on_defaults) + slack);
            REQUIRE((!level || at_defaults > in_tenths(route.on_defaults) - slack));
            std::set<RoadIndex> bridges;
            for (const RoadIndex road : route.roads) {
                if (at(district.roads, road).bridge && !at(district.roads, road).weight_limit) {
                    bridges.insert(road);
                }
            }
            REQUIRE(route.unposted_bridges ==
                    std::vector<RoadIndex>(bridges.begin(), bridges.end()));
            ++driven;
        }
    }
    CHECK(driven > test::draws(5000));
}

TEST_CASE("a table of drives has the routes' times and lengths, whichever list is searched",
          "[twin]") {
    std::size_t compared = 0;
    for (std::uint64_t seed = 1; seed <= line_seeds; ++seed) {
        const District district = test::random_district(seed);
        const Routed routed(district);
        const SeasonIndex season(0);
        const ProfileIndex tanker = routed.profile_of(UnitKind::tanker);
        const std::vector<WantedRoute> wanted = all_wanted(routed, season);
        const auto lines =
            routing::route_lines(routed.roads(), routed.dump_sites, wanted, routed.work);
        const auto& sources = routed.access.access.sources;
        std::vector<routing::RoadSpot> many = routed.dump_sites.spots;
        many.resize(std::max(many.size(), sources.size() + 1));
        const DriveTime limit = tenths_of_second(
            static_cast<std::int32_t>(in_minutes(district.assumptions.trip_limit) * 600.0));
        const auto table = routing::drives_between(routed.roads(), tanker, season, sources, many,
                                                   limit, routed.work);
        // With more sources than dump sites the dump sites are searched from.
        std::vector<routing::RoadSpot> padded = sources;
        padded.resize(many.size() + 1);
        const auto other_way = routing::drives_between(routed.roads(), tanker, season, padded, many,
                                                       limit, routed.work);
        REQUIRE(table.size() == other_way.size());
        for (std::size_t row = 0; row < table.size(); ++row) {
            CAPTURE(seed, row);
            REQUIRE(table[row].from == other_way[row].from);
            REQUIRE(table[row].to == other_way[row].to);
            REQUIRE(table[row].loaded.time == other_way[row].loaded.time);
            REQUIRE(table[row].empty.time == other_way[row].empty.time);
            REQUIRE(table[row].loaded.length == other_way[row].loaded.length);
            REQUIRE(table[row].empty.length == other_way[row].empty.length);
        }
        for (std::size_t i = 0; i < wanted.size(); ++i) {
            if (wanted[i].profile != tanker || wanted[i].kind == RouteKind::response) {
                continue;
            }
            const auto pair = std::ranges::find_if(table, [&](const DrivePair& drive) {
                return drive.from == wanted[i].source.position() &&
                       drive.to == wanted[i].dump_site.position();
            });
            const OneWayDrive drive = pair == table.end()                   ? OneWayDrive{}
                                      : wanted[i].kind == RouteKind::loaded ? pair->loaded
                                                                            : pair->empty;
            CAPTURE(seed, i);
            REQUIRE(drive.time == lines[i].time);
            if (reachable(drive.time)) {
                REQUIRE(in_metres(drive.length) == Approx(in_metres(lines[i].length)).margin(0.05));
                ++compared;
            }
        }
    }
    CHECK(compared > test::draws(3000));
}

TEST_CASE("the same lines come from one thread and from many", "[twin]") {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        CAPTURE(seed);
        const District district = test::random_district(seed);
        const Routed one(district, 1);
        const Routed many(district, 4);
        const std::vector<WantedRoute> wanted = all_wanted(one, SeasonIndex(0));
        const auto a = routing::route_lines(one.roads(), one.dump_sites, wanted, one.work);
        const auto b = routing::route_lines(many.roads(), many.dump_sites, wanted, many.work);
        for (std::size_t i = 0; i < wanted.size(); ++i) {
            REQUIRE(a[i].line == b[i].line);
            REQUIRE(a[i].roads == b[i].roads);
            REQUIRE(a[i].on_defaults == b[i].on_defaults);
        }
    }
}
