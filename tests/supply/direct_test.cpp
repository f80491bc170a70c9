// Direct supply and relay: worked examples of hose lines, and what they are good for.
#include "analyzer/supply/places/direct.h"

#include <catch2/catch.hpp>

using namespace farwater;
using namespace farwater::supply;

namespace {

// Engines at one station that get to the source minute by minute, pumps of 1,250 gpm.
struct Lane {
    District district;
    std::vector<Arrival> engines;
    CountedSource source;

    Lane(std::initializer_list<double> feet_of_5in) {
        double minute = 10.0;
        for (const double hose : feet_of_5in) {
            Unit unit;
            unit.kind = UnitKind::engine;
            unit.pump = gpm(1250);
            unit.hose =
                HoseLoad{.hose_2_5in = {}, .hose_3in = {}, .hose_4in = {}, .hose_5in = feet(hose)};
            district.units.push_back(unit);
            engines.push_back({UnitIndex(district.units.size() - 1), ProfileIndex(0), minutes(2),
                               minutes(minute)});
            minute += 2.0;
        }
        source.rate = gpm(1500);
    }

    std::optional<HoseLine> line(std::size_t count, double lay_ft, double rise_ft = 0.0) const {
        return hose_line(district, std::span(engines).first(count), source, feet(lay_ft),
                         feet(rise_ft), minutes(5), minutes(120));
    }
};

}  // namespace

// 185 psi, 20 psi residual, 20 ft of rise, 2,600 ft of 5-in hose: by hand from the friction formula
// of hydraulics/hose.h and the rating points of hydraulics/pump.h.
TEST_CASE("a long line carries what friction leaves, and a relay what the pumps give") {
    const Lane lane{1000, 1000, 800};
    CHECK_FALSE(lane.line(2, 2600, 20));  // 2,000 ft there
    const auto relay = lane.line(3, 2600, 20);
    REQUIRE(relay);
    CHECK(in_gpm(relay->flow) == Approx(1250 * 0.79));
    CHECK(relay->limit == Limit::engines);

    const Lane with_more_hose{1800, 1000, 800};
    const auto direct = with_more_hose.line(2, 2600, 20);
    REQUIRE(direct);
    CHECK(in_gpm(direct->flow) == Approx(866.9).margin(0.1));
    CHECK(direct->limit == Limit::supply_line);
    CHECK(in_minutes(direct->ready) == Approx(12 + 5 + 13));  // 5 min for each 1,000 ft
}

TEST_CASE("two lines are laid where the hose is there, and take twice as long") {
    const Lane lane{1000, 1000};
    const auto one = lane.line(2, 1500);
    const auto two = lane.line(2, 900);
    REQUIRE(one);
    REQUIRE(two);
    CHECK(in_minutes(one->work) == Approx(5 + 7.5));
    CHECK(in_minutes(two->work) == Approx(5 + 9.0));
}

TEST_CASE("a source gives no more than its rate, nor than its water lasts") {
    Lane lane{1000, 1000};
    lane.source.rate = gpm(600);
    CHECK(lane.line(2, 500)->limit == Limit::source_hydraulics);
    CHECK(in_gpm(lane.line(2, 500)->flow) == Approx(600.0));
    lane.source.usable = gallons(30'000);
    CHECK(lane.line(2, 500)->limit == Limit::source_volume);
    CHECK(in_gpm(lane.line(2, 500)->flow) == Approx(250.0));  // a 30,000-gal cistern in two hours
    lane.source.inflow = gpm(50);
    CHECK(in_gpm(lane.line(2, 500)->flow) == Approx(300.0));
}

TEST_CASE("a house too high above the source gets nothing") {
    const Lane lane{1000, 1000};
    const auto line = lane.line(2, 500, 400);  // 173 psi of height
    REQUIRE(line);
    CHECK(in_gpm(line->flow) == 0.0);
}
