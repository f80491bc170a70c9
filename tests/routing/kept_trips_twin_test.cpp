// Further fill sites set among kept round trips, against round trips searched anew.
#include <algorithm>

#include <catch2/catch.hpp>

#include "routing/kept_trips.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"

using namespace farwater;
using test::Routed;

namespace {

constexpr std::uint64_t kept_seeds = 40;

bool same_trip(const FillTrip& a, const FillTrip& b) {
    return a.fill_site == b.fill_site &&
           std::ranges::equal(a.legs, b.legs, [](const LegTimes& x, const LegTimes& y) {
               return x.empty == y.empty && x.loaded == y.loaded;
           });
}
bool same_drive(const StationDrive& a, const StationDrive& b) {
    return a.station == b.station && a.loaded == b.loaded;
}
bool same_source_lay(const SourceLay& a, const SourceLay& b) {
    return a.fill_site == b.fill_site && a.length == b.length;
}

// What the supply of one parcel or target can see of both.
bool looks_same(const RoundTrips& a, const RoundTrips& b, std::size_t served) {
    const auto lays = a.hose_lays[served];
    const auto others = b.hose_lays[served];
    if (lays.size() != others.size() ||
        !std::ranges::equal(a.source_lays[served], b.source_lays[served], same_source_lay)) {
        return false;
    }
    for (std::size_t lay = 0; lay < lays.size(); ++lay) {
        const HoseLay& one = lays[lay];
        const HoseLay& other = others[lay];
        const auto equal_row = [&](const auto& list, const auto& list_of_other, auto same) {
            return std::ranges::equal(list[one.ways().position()],
                                      list_of_other[other.ways().position()], same);
        };
        if (one.dump_site != other.dump_site || one.lane != other.lane ||
            one.length != other.length || one.approach.valid() != other.approach.valid() ||
            !equal_row(a.fill_trips, b.fill_trips, same_trip) ||
            !equal_row(a.stations_of_dump_site, b.stations_of_dump_site, same_drive) ||
            !std::ranges::equal(a.stations_of_dump_site[one.dump_site.position()],
                                b.stations_of_dump_site[one.dump_site.position()], same_drive)) {
            return false;
        }
    }
    return true;
}

bool same_lanes(const RoundTrips& a, const RoundTrips& b) {
    const auto lane_of = [](const auto& one) { return one.lane; };
    return std::ranges::equal(a.dump_sites, b.dump_sites, {}, lane_of, lane_of) &&
           std::ranges::equal(a.hose_lays.items, b.hose_lays.items, {}, lane_of, lane_of);
}

// A district with some of its sources, and others that may come.
struct Growing {
    explicit Growing(std::uint64_t seed) : dice(seed * 77), district(test::random_district(seed)) {
        district.assumptions.fill_sites_per_class = 1 + static_cast<int>(dice.below(3));
        district.assumptions.relay_reach = feet(1500);
        district.assumptions.turnaround_reach = feet(dice.between(200, 3000));
        for (std::size_t i = 0; i < 6; ++i) {
            WaterSource source;
            source.id = "more " + std::to_string(i);
            source.place = {dice.between(0, 2000), dice.between(0, 2000)};
            more.push_back(source);
        }
        for (std::size_t i = 0; i < district.sources.size() + more.size(); ++i) {
            places.push_back({SourceIndex(i), {}, static_cast<std::uint8_t>(dice.below(2))});
            if (i < district.sources.size() && dice.one_in(2)) {
                places.back().system = static_cast<std::uint32_t>(dice.below(2));
            }
            if (i < district.sources.size() && dice.one_in(4)) {
                places.back().only_for = ParcelIndex(dice.below(district.parcels.size()));
            }
        }
        before = district.sources.size();
        if (seed % 3 == 0) {
            add_loop_at_the_end();
        }
    }

    // Of a road by a house: nobody comes by it before there is water on it.
    void add_loop_at_the_end() {
        for (const Polyline& line : {Polyline{{2000, 1000}, {2600, 1000}},
                                     Polyline{{2600, 1000}, {2680, 1050}, {2680, 1000}},
                                     Polyline{{2680, 1000}, {2680, 950}, {2600, 1000}}}) {
            Road road;
            road.row = static_cast<std::uint32_t>(district.roads.size());
            road.line = line;
            road.kind = RoadClass::paved;
            district.roads.push_back(road);
        }
        Parcel parcel;
        parcel.id = "by the road";
        parcel.house = {2450, 1030};
        district.parcels.push_back(parcel);
        more.front().place = {2680, 1010};
        district.assumptions.turnaround_reach = feet(1300);
        district.elevation = {};
    }

    // The fill sites that there are, and these of the others behind them.
    std::vector<FillSitePlace> fill_sites(const District& of,
                                          const std::vector<std::size_t>& which) const {
        std::vector<FillSitePlace> some(places.begin(),
                                        places.begin() + static_cast<std::ptrdiff_t>(before));
        for (const std::size_t one : which) {
            some.push_back(places[before + one]);
            some.back().source = SourceIndex(some.size() - 1);
        }
        for (FillSitePlace& place : some) {
            place.place = of.sources[place.source.position()].place;
        }
        return some;
    }
    District with(const std::vector<std::size_t>& which) const {
        District grown = district;
        for (const std::size_t one : which) {
            grown.sources.push_back(more[one]);
        }
        return grown;
    }

    test::Dice dice;
    District district;
    std::vector<WaterSource> more;
    std::vector<FillSitePlace> places;
    std::size_t before = 0;
};

RoundTrips searched_anew(const Growing& growing, const std::vector<std::size_t>& which,
                         SeasonIndex season) {
    const District grown = growing.with(which);
    Routed routed(grown);
    routed.fill_sites = growing.fill_sites(grown, which);
    return routed.round_trips(season);
}

struct Seen {
    std::size_t changed = 0, unchanged = 0, hose = 0, lanes = 0, pairs = 0, missed = 0;
};

}  // namespace

TEST_CASE("further fill sites among kept round trips are as round trips searched anew", "[twin]") {
    Seen seen;
    for (std::uint64_t seed = 1; seed <= kept_seeds; ++seed) {
        Growing growing(seed);
        Routed routed(growing.district);
        routed.fill_sites = growing.fill_sites(growing.district, {});
        const SeasonIndex season(seed % growing.district.seasons.size());
        const routing::KeptTrips kept(routed.roads(), routed.dump_sites, routed.fill_sites, season,
                                      routed.work);
        const RoundTrips& before = kept.trips();
        const auto spots = routing::source_spots(growing.district, routed.network.network,
                                                 routed.profiles, growing.more);
        std::vector<routing::FoundTrips> found;
        std::vector<std::size_t> without_lanes;
        for (std::size_t i = 0; i < growing.more.size(); ++i) {
            CAPTURE(seed, i);
            FillSitePlace place = growing.places[growing.before + i];
            place.place = growing.more[i].place;
            const routing::NewFillSite site{growing.more[i], place, spots[i]};
            found.push_back(kept.search(site));
            const RoundTrips anew = searched_anew(growing, {i}, season);
            REQUIRE(found.back().changes_lanes == !same_lanes(before, anew));
            const std::vector<std::uint32_t> may_change = kept.may_change(site);
            for (std::uint32_t served = 0; served < before.hose_lays.size(); ++served) {
                const bool told = std::ranges::binary_search(may_change, served);
                REQUIRE((told || looks_same(before, anew, served)));
                seen.missed += told ? 0U : 1U;
            }
            seen.lanes += found.back().changes_lanes ? 1U : 0U;
            if (!found.back().changes_lanes) {
                without_lanes.push_back(i);
            }
        }
        for (std::size_t count = 1; count <= without_lanes.size(); ++count) {
            std::vector<std::size_t> which(
                without_lanes.begin(), without_lanes.begin() + static_cast<std::ptrdiff_t>(count));
            if (growing.dice.one_in(2)) {
                which = {growing.dice.of(without_lanes)};
            }
            CAPTURE(seed, which);
            std::vector<const routing::FoundTrips*> more;
            for (const std::size_t one : which) {
                more.push_back(&found[one]);
            }
            const routing::TripsInPart part = kept.with(more);
            const RoundTrips anew = searched_anew(growing, which, season);
            REQUIRE(part.trips.fill_lanes == anew.fill_lanes);
            for (std::size_t f = 0; f < anew.fill_lanes.size(); ++f) {
                REQUIRE(std::ranges::equal(part.trips.stations_of_fill_site[f],
                                           anew.stations_of_fill_site[f], same_drive));
            }
            for (std::uint32_t served = 0; served < before.hose_lays.size(); ++served) {
                CAPTURE(served);
                const bool told = std::ranges::binary_search(part.served, served);
                REQUIRE(looks_same(told ? part.trips : before, anew, served));
                seen.changed += told && !looks_same(before, anew, served) ? 1U : 0U;
                seen.unchanged += told ? 0U : 1U;
                seen.hose += !std::ranges::equal(before.source_lays[served],
                                                 anew.source_lays[served], same_source_lay)
                                 ? 1U
                                 : 0U;
            }
            seen.pairs += count > 1 ? 1U : 0U;
        }
    }
    CAPTURE(seen.changed, seen.unchanged, seen.hose, seen.lanes, seen.pairs, seen.missed);
    CHECK(seen.changed > 300);
    CHECK(seen.unchanged > 300);
    CHECK(seen.hose > 50);
    CHECK(seen.lanes > 3);
    CHECK(seen.pairs > 50);
    CHECK(seen.missed > 50);
}
