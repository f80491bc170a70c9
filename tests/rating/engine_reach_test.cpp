// To which sources an engine comes whose apparatus counts, in one season and in all.
#include "analyzer/rating/engine_reach.h"

#include <catch2/catch.hpp>

#include "analyzer/rating/source_evidence.h"
#include "tests/rating/built_in_terms.h"

using namespace farwater;
using namespace farwater::rating;

namespace {

// An own engine, an own tanker, an engine of mutual aid: each of a station and a profile of its
// own.
struct Fleet {
    District district;
    std::vector<Profile> profiles;

    Fleet() {
        add(UnitKind::engine, Aid::own);
        add(UnitKind::tanker, Aid::own);
        add(UnitKind::engine, Aid::mutual);
        district.sources.resize(2);
    }

    void add(UnitKind kind, Aid aid) {
        const std::size_t number = district.units.size();
        district.stations.push_back({.id = "S", .aid = aid});
        district.units.push_back(
            {.id = "U", .station = StationIndex(number), .kind = kind, .aid = aid});
        profiles.push_back({.members = {UnitIndex(number)}, .kind = kind});
    }

    // A season in which the stations of these units get to both sources' places.
    void see(const std::vector<std::size_t>& units, EngineReach& reach) const {
        const std::vector<FillSitePlace> places{{.source = SourceIndex(0)},
                                                {.source = SourceIndex(1)}};
        Lists<StationDrive> stations;
        for (std::size_t place = 0; place < places.size(); ++place) {
            for (const std::size_t unit : units) {
                StationDrive drive{.station = StationIndex(unit)};
                drive.loaded[unit] = tenths_of_second(600);
                stations.items.push_back(drive);
            }
            stations.close_row();
        }
        reach.see_season(district, profiles, places, stations, schedule());
    }
};

}  // namespace

TEST_CASE("an engine gets to a source where one whose apparatus counts has a way") {
    const Fleet fleet;
    const auto seen = [&](const std::vector<std::size_t>& units) {
        EngineReach reach(fleet.district);
        fleet.see(units, reach);
        CHECK(reach.always(SourceIndex(1)) == reach.ever(SourceIndex(1)));
        return reach.ever(SourceIndex(0));
    };
    CHECK(seen({0}));
    CHECK(seen({0, 1, 2}));
    CHECK_FALSE(seen({1}));  // a tanker draws nothing from a pond
    CHECK_FALSE(seen({2}));  // mutual aid does not count
    CHECK_FALSE(seen({}));
}

TEST_CASE("an engine gets to a source always where it does in each season that was seen") {
    const Fleet fleet;
    EngineReach reach(fleet.district);
    CHECK(reach.always(SourceIndex(0)));
    CHECK(reach.ever(SourceIndex(0)));
    fleet.see({0}, reach);
    CHECK(reach.always(SourceIndex(0)));
    fleet.see({}, reach);
    CHECK_FALSE(reach.always(SourceIndex(0)));
    CHECK(reach.ever(SourceIndex(0)));
}
