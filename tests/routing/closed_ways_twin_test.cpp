// Round trips and responses while hose lies, against all ways on roads from which it was taken.
#include <catch2/catch.hpp>

#include "routing/blocked_ways.h"
#include "routing/route_lines.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"
#include "tests/routing/slow_ways.h"
#include "tests/support/slow_routes.h"

using namespace farwater;
using test::cost_of;
using test::Routed;
using test::within;

namespace {

constexpr std::uint64_t closed_seeds = 60;

// The roads while the hose of one lay is in use. Pieces stand for edges: both are numbered by road,
// then along it.
struct HoseLies {
    const slow::Streets& streets;
    std::vector<bool> closed;  // per piece
    slow::Spot house;
    slow::Spot site;

    bool inside(slow::Spot spot) const {
        return spot.along > 0.001 && spot.along < streets.pieces[spot.piece].length() - 0.001;
    }
    bool hose_at(std::size_t junction) const {
        for (std::size_t i = 0; i < streets.pieces.size(); ++i) {
            const slow::Piece& piece = streets.pieces[i];
            if (closed[i] && i != site.piece && (piece.from == junction || piece.to == junction)) {
                return true;
            }
        }
        return false;
    }
    // Whether hose lies on the site's piece, towards its start or its end.
    bool hose_towards(bool end) const {
        if (house.piece == site.piece) {
            return end ? house.along >= site.along : house.along <= site.along;
        }
        const slow::Piece& piece = streets.pieces[site.piece];
        return hose_at(end ? piece.to : piece.from);
    }

    slow::PieceCosts only(const slow::PieceCosts& costs, bool the_closed) const {
        slow::PieceCosts some = costs;
        for (std::size_t i = 0; i < closed.size(); ++i) {
            if (the_closed ? i != site.piece : bool(closed[i])) {
                some.forward[i] = some.backward[i] = slow::never;
            }
        }
        return some;
    }

    // From one spot to another of which one is the site.
    long way(const slow::PieceCosts& costs, slow::Spot from, slow::Spot to) const {
        const slow::PieceCosts open = only(costs, false);
        const bool to_site = to.piece == site.piece && to.along == site.along;
        const slow::Spot other = to_site ? from : to;
        if (inside(other) && closed[other.piece] && other.piece != site.piece) {
            return slow::never;
        }
        if (!inside(site)) {
            return inside(other) && closed[other.piece]
                       ? slow::never
                       : slow::way_between(streets, open, from, to);
        }
        // Out of the site's piece by the ends that are free, then on other roads.
        const slow::PieceCosts here = only(costs, true);
        long least = slow::never;
        if (inside(other) && other.piece == site.piece) {
            const bool end = other.along > site.along;
            if (other.along != site.along && hose_towards(end)) {
                return slow::never;
            }
            return slow::way_between(streets, here, from, to);
        }
        for (const bool end : {false, true}) {
            if (!hose_towards(end)) {
                const slow::Spot at{site.piece, end ? streets.pieces[site.piece].length() : 0.0};
                const long part = to_site ? slow::way_between(streets, here, at, to)
                                          : slow::way_between(streets, here, from, at);
                const long rest = to_site ? slow::way_between(streets, open, from, at)
                                          : slow::way_between(streets, open, at, to);
                if (part < slow::never && rest < slow::never) {
                    least = std::min(least, part + rest);
                }
            }
        }
        return least;
    }
};

struct OneDistrict {
    explicit OneDistrict(std::uint64_t seed)
        : district(with_all_listed(seed)), routed(district), streets(slow::streets_of(district)) {}

    static District with_all_listed(std::uint64_t seed) {
        District district = test::random_district(seed);
        district.assumptions.fill_sites_per_class = 8;
        return district;
    }
    slow::Spot spot(routing::RoadSpot one) const {
        return test::slow_spot(streets, routed.network.network, one);
    }
    HoseLies hose(std::size_t served, std::size_t item) const {
        const routing::LaneCases& cases = routed.dump_sites.lane_cases;
        const std::uint32_t one = cases.of_lay[item];
        std::vector<bool> closed(streets.pieces.size(), false);
        for (const routing::EdgeIndex edge : cases.closed[one]) {
            closed[edge.position()] = true;
        }
        return {streets, closed, spot(routed.access.access.spots[served]),
                spot(routed.dump_sites.spots[cases.site[one]])};
    }

    District district;
    Routed routed;
    slow::Streets streets;
};

struct Counts {
    std::size_t free = 0, round = 0, none = 0;

    void add(long open, long closed) {
        free += closed == open && open < slow::never ? 1U : 0U;
        round += closed > open && closed < slow::never ? 1U : 0U;
        none += closed == slow::never && open < slow::never ? 1U : 0U;
    }
};

}  // namespace

TEST_CASE("while hose lies, legs and responses are the least of ways that keep off it", "[twin]") {
    Counts counts;
    std::size_t routes = 0;
    for (std::uint64_t seed = 1; seed <= closed_seeds; ++seed) {
        const OneDistrict one(seed);
        const Routed& routed = one.routed;
        const RoundTrips trips = routed.round_trips();
        const ProfileIndex tanker = routed.profile_of(UnitKind::tanker);
        const Profile& vehicles = at(routed.profiles, tanker);
        const Season& season = one.district.seasons[0];
        const auto loaded = slow::drive_times(one.district, one.streets, vehicles, season, true);
        const auto empty = slow::drive_times(one.district, one.streets, vehicles, season, false);
        for (std::size_t served = 0; served < trips.hose_lays.size(); ++served) {
            for (std::size_t lay = 0; lay < trips.hose_lays[served].size(); ++lay) {
                const HoseLay& hose = trips.hose_lays[served][lay];
                const std::size_t item = trips.hose_lays.begin[served] + lay;
                const HoseLies lies = one.hose(served, item);
                for (std::size_t s = 0; s < routed.fill_sites.size(); ++s) {
                    CAPTURE(seed, served, lay, s);
                    const routing::RoadSpot source = routed.access.access.sources[s];
                    if (!source.valid()) {
                        continue;
                    }
                    const long out =
                        within(lies.way(empty, lies.site, one.spot(source)), one.district);
                    const long back =
                        within(lies.way(loaded, one.spot(source), lies.site), one.district);
                    LegTimes legs;
                    for (const FillTrip& trip : trips.fill_trips[hose.ways().position()]) {
                        legs = trip.fill_site == FillSiteIndex(s) ? trip.legs[tanker.position()]
                                                                  : legs;
                    }
                    const bool both = out < slow::never && back < slow::never;
                    REQUIRE(cost_of(legs.empty) == (both ? out : slow::never));
                    REQUIRE(cost_of(legs.loaded) == (both ? back : slow::never));
                    counts.add(
                        within(slow::way_between(one.streets, loaded, one.spot(source), lies.site),
                               one.district),
                        back);
                    if (both && served % 4 == 0) {
                        const routing::HoseOnRoads on_roads(
                            routed.network.network, routed.dump_sites,
                            routed.dump_sites.lane_cases.of_lay[item]);
                        WantedRoute wanted{
                            RouteKind::loaded, SeasonIndex(0), tanker, hose.dump_site,
                            SourceIndex(s),    StationIndex(), no_time};
                        wanted.lane_case = routed.dump_sites.lane_cases.of_lay[item];
                        bool barred = false;
                        const auto found = routing::route_lines(
                            routed.roads(), routed.dump_sites, std::span(&wanted, 1), routed.work,
                            [&](std::size_t, const routing::Way& way) {
                                barred = on_roads.bars_any(way);
                            });
                        REQUIRE(cost_of(found[0].time) == back);
                        REQUIRE_FALSE(barred);
                        ++routes;
                    }
                }
                for (std::size_t s = 0; s < one.district.stations.size(); ++s) {
                    const routing::RoadSpot station = routed.access.access.stations[s];
                    if (station.valid()) {
                        CAPTURE(seed, served, lay, s);
                        REQUIRE(
                            cost_of(
                                trips.tanker_from_station(tanker, StationIndex(s), hose.ways())) ==
                            within(lies.way(loaded, one.spot(station), lies.site), one.district));
                    }
                }
            }
        }
    }
    CHECK(counts.free > 1000);
    CHECK(counts.round > 300);
    CHECK(counts.none > 300);
    CHECK(routes > 200);
}
