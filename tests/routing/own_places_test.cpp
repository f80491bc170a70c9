#include "routing/sites/own_places.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;
using test::Routed;

namespace {

// The first parcel's lay from a dump site within a metre of there; none: null.
const HoseLay* lay_from(const RoundTrips& trips, Point place) {
    const std::span<const HoseLay> lays = trips.hose_lays[0];
    const auto found = std::ranges::find_if(lays, [&](const HoseLay& lay) {
        return distance(at(trips.dump_sites, lay.dump_site).place, place) < metres(1);
    });
    return found == lays.end() ? nullptr : &*found;
}

bool drives_through(const RoundTrips& trips, Point place) {
    const HoseLay* lay = lay_from(trips, place);
    return lay != nullptr && lay->lane == LaneClass::through;
}

std::ptrdiff_t lays_where(const RoundTrips& trips, auto is_there) {
    return std::ranges::count_if(trips.hose_lays[0], [&](const HoseLay& lay) {
        return is_there(at(trips.dump_sites, lay.dump_site).place);
    });
}

// Two blocks; the house H on the street between them.
AsciiRegion two_blocks() {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S-A---B---C---D
          |   |   |   |
          E---F---G---I
    )"));
    region.road("SABCD");
    region.road("EFGI");
    region.road("AE");
    region.road("BF");
    region.road("CG");
    region.road("DI");
    Parcel& parcel = region.parcel('B');
    parcel.house = {region.at('B').x + 190, region.at('B').y + 20};
    return region;
}

}  // namespace

TEST_CASE(
    "on each side of a house the junction that tankers drive through is offered, however few "
    "sites are spaced",
    "[map]") {
    AsciiRegion region = two_blocks();
    region.district.assumptions.dump_site_spacing = feet(5000);
    const Routed routed(region.district);
    const RoundTrips trips = routed.round_trips();
    CHECK(drives_through(trips, region.at('B')));
    CHECK(drives_through(trips, region.at('C')));
}

TEST_CASE("a junction where tankers could only back is offered for its nearness alone", "[map]") {
    AsciiRegion region = two_blocks();
    region.district.assumptions.dump_site_spacing = feet(5000);
    region.district.roads.erase(region.district.roads.begin() + 5);  // DI: no second block
    region.district.roads.erase(region.district.roads.begin() + 4);  // CG
    const Routed routed(region.district);
    const RoundTrips trips = routed.round_trips();
    CHECK(drives_through(trips, region.at('B')));
    CHECK_FALSE(drives_through(trips, region.at('C')));
    for (const HoseLay& lay : trips.hose_lays[0]) {
        const Point place = at(trips.dump_sites, lay.dump_site).place;
        CHECK((lay.lane == LaneClass::through) == (distance(place, region.at('B')) < metres(1)));
    }
}

TEST_CASE("a house too near to its junction has a place on each of the roads there", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S--W------J------X
                  |
                  |
                  E
    )"));
    region.road("SWJX");
    region.road("JE");
    Parcel& parcel = region.parcel('J');
    parcel.house = {region.at('J').x + 5, region.at('J').y - 30};
    const Routed routed(region.district);
    const RoundTrips trips = routed.round_trips();
    const Point junction = region.at('J');
    CHECK(lay_from(trips, junction) == nullptr);  // it does not stand off
    CHECK(lays_where(trips, [&](Point place) { return place.x < junction.x - 1; }) >= 1);
    CHECK(lays_where(trips, [&](Point place) { return place.x > junction.x + 1; }) >= 1);
    CHECK(lays_where(trips, [&](Point place) { return place.y < junction.y - 1; }) >= 1);
}

TEST_CASE("a site that takes much hose does not stand for a place near the house", "[map]") {
    AsciiRegion region = with_fleet(AsciiRegion("S-P---H-----B"));
    region.road("SPHB");
    region.dump_site_place('P');
    Parcel& parcel = region.parcel('H');
    parcel.house = {region.at('H').x, region.at('H').y - 20};
    region.district.assumptions.hose_reach = feet(2000);
    region.district.assumptions.dump_site_spacing = feet(2500);
    const double near = in_metres(feet(1250));
    const auto near_in_the_west = [&] {
        const Routed routed(region.district);
        const RoundTrips trips = routed.round_trips();
        return lays_where(trips, [&](Point place) {
            return place.x < region.at('H').x && place.x > region.at('P').x + 1;
        });
    };
    CHECK(distance(region.at('P'), region.at('H')) > metres(near));
    CHECK(near_in_the_west() == 1);
    region.district.assumptions.dump_site_spacing = feet(2700);
    CHECK(distance(region.at('P'), region.at('H')) < metres(in_metres(feet(1350))));
    CHECK(near_in_the_west() == 0);
}

TEST_CASE("a spaced site that its house would choose for itself stands once, and so does its lay",
          "[map]") {
    AsciiRegion region = two_blocks();
    CHECK(region.district.assumptions.dump_site_spacing / 2.0 < metres(190));  // B is not near
    const Routed routed(region.district);
    const RoundTrips trips = routed.round_trips();
    CHECK(drives_through(trips, region.at('B')));
    const auto& sites = trips.dump_sites;
    for (const DumpSiteCandidate& site : sites) {
        CHECK(std::ranges::count(sites, site.place, &DumpSiteCandidate::place) == 1);
    }
    for (const HoseLay& lay : trips.hose_lays[0]) {
        CHECK(std::ranges::count(trips.hose_lays[0], lay.dump_site, &HoseLay::dump_site) == 1);
    }
}
