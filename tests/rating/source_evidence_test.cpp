// Which sources count for the rating: one that has everything, and each thing taken from it.
#include "analyzer/rating/source_evidence.h"

#include <catch2/catch.hpp>

#include "analyzer/rating/rated_district.h"
#include "tests/rating/built_in_terms.h"

using namespace farwater;
using namespace farwater::rating;

namespace {

using Lacks = std::vector<SourceLack>;

// A pond with a dry hydrant and all its papers.
WaterSource pond() {
    WaterSource source;
    source.id = "W1";
    source.kind = SourceKind::dry_hydrant;
    source.standing = Standing::tested;
    source.tested_on = Date{std::chrono::year{2025} / 10 / 1};
    source.use = SourceUse::rating;
    source.rate = gpm(1000);
    source.usable = UsableWater::of(gallons(200000));
    source.frost_proof = true;
    source.all_weather = true;
    source.certified_by = "R. Alder PE";
    source.agreement = "written, until 2031";
    source.suction = {.lift = feet(10),
                      .pipe = feet(50),
                      .pipe_diameter = inches(8),
                      .material = PipeMaterial::plastic,
                      .elbows_90 = 2,
                      .elbows_45 = 0,
                      .strainer_loss = feet(1),
                      .hose = std::nullopt};
    return source;
}

WaterSource cistern(double gallons_in_it) {
    WaterSource source = pond();
    source.kind = SourceKind::cistern;
    source.usable = UsableWater::of(gallons(gallons_in_it));
    source.certified_by = "";
    return source;
}

District with(const WaterSource& source) {
    District district;
    district.data_date = Date{std::chrono::year{2026} / 5 / 31};
    district.sources = {source};
    Season winter{.name = "winter"};
    winter.ice = true;
    district.seasons = {Season{.name = "summer"}, winter};
    district.periods = {Period{.name = "any_time"}};
    return district;
}

Lacks lacks_of(const WaterSource& source, const Terms& terms = schedule()) {
    const District district = with(source);
    return judge_sources(district, supply::review_water(district), EngineReach(district), terms)
        .front()
        .lacks;
}

}  // namespace

TEST_CASE("a source with all evidence counts") {
    CHECK(lacks_of(pond()).empty());
    CHECK(lacks_of(cistern(30000)).empty());
}

TEST_CASE("only sources that are offered for rating count") {
    WaterSource source = pond();
    source.use = SourceUse::operations;
    CHECK(lacks_of(source) == Lacks{SourceLack::use});
}

TEST_CASE("a test that lapsed, has no date or never was is none") {
    WaterSource source = pond();
    source.tested_on = Date{std::chrono::year{2025} / 6 / 1};
    CHECK(lacks_of(source).empty());
    source.tested_on = Date{std::chrono::year{2025} / 5 / 31};
    CHECK(lacks_of(source) == Lacks{SourceLack::test_lapsed});
    source.tested_on = std::nullopt;
    CHECK(lacks_of(source) == Lacks{SourceLack::test_date});
    source.standing = Standing::declared;
    CHECK(lacks_of(source) == Lacks{SourceLack::standing});
    Terms lenient = schedule();
    lenient.least_standing = Standing::declared;
    CHECK(lacks_of(source, lenient).empty());
    source.standing = Standing::mapped;
    CHECK(lacks_of(source, lenient) == Lacks{SourceLack::standing, SourceLack::not_counted});
}

TEST_CASE("a test of any age is no evidence where the data stand for no day") {
    District district = with(pond());
    district.data_date = std::nullopt;
    const auto lacks = [&](const Terms& terms) {
        return judge_sources(district, supply::review_water(district), EngineReach(district), terms)
            .front()
            .lacks;
    };
    CHECK(lacks(schedule()) == Lacks{SourceLack::test_age});
    Terms lenient = schedule();
    lenient.least_standing = Standing::declared;
    CHECK(lacks(lenient).empty());
}

// Idaho rating bureau, "Dry Hydrants": 250 gpm for 2 h, lift at most 15 ft, head at most 20 ft.
TEST_CASE("flow, volume and lift are held against the terms, limits included") {
    WaterSource source = pond();
    source.rate = gpm(250);
    CHECK(lacks_of(source).empty());
    source.rate = gpm(249.9);
    CHECK(lacks_of(source) == Lacks{SourceLack::flow});
    source = pond();
    source.usable = UsableWater::of(gallons(30000));
    CHECK(lacks_of(source).empty());
    source.usable = UsableWater::of(gallons(29999));
    CHECK(lacks_of(source) == Lacks{SourceLack::volume});
    source.inflow = gpm(1);
    CHECK(lacks_of(source).empty());
    source = pond();
    source.suction.lift = feet(15.0);
    CHECK(lacks_of(source).empty());
    source.suction.lift = feet(15.1);  // nor does it count at all, by the planning limit
    CHECK(lacks_of(source) == Lacks{SourceLack::not_counted, SourceLack::lift});
    source.suction.lift = std::nullopt;
    CHECK(lacks_of(source) == Lacks{SourceLack::lift});
}

TEST_CASE("head with losses is looked at with the minimum flow running") {
    const WaterSource source = pond();
    const District district = with(source);
    const supply::CountedSource counted = supply::review_water(district).counted.front();
    REQUIRE(counted.suction);
    Terms terms = schedule();
    terms.minimum = gpm(1000);  // as tested, so that the review tells its head
    terms.most_head = counted.suction->head;
    CHECK(lacks_of(source, terms).empty());
    terms.most_head = counted.suction->head - feet(0.1);
    CHECK(lacks_of(source, terms) == Lacks{SourceLack::head});
    terms.minimum = gpm(250);
    CHECK(lacks_of(source, terms).empty());
}

// Wilton NH fire protection regulations 6.2.
TEST_CASE("a cistern holds what the terms ask for, and needs no certificate of a drought") {
    CHECK(lacks_of(cistern(29999)) == Lacks{SourceLack::volume, SourceLack::cistern});
    WaterSource fed = cistern(29000);
    fed.inflow = gpm(20);
    CHECK(lacks_of(fed) == Lacks{SourceLack::cistern});
}

TEST_CASE("papers and access that are not there are missing") {
    WaterSource source = pond();
    source.certified_by = "";
    source.all_weather = std::nullopt;
    CHECK(lacks_of(source) == Lacks{SourceLack::certificate, SourceLack::all_weather});
    source.all_weather = false;
    CHECK(lacks_of(source) == Lacks{SourceLack::certificate, SourceLack::all_weather});
    Terms lenient = schedule();
    lenient.certificate = false;
    lenient.all_weather = false;
    CHECK(lacks_of(source, lenient).empty());
}

TEST_CASE("a suction point counts with its owner's permission, where the terms ask for it") {
    WaterSource source = pond();
    source.agreement = "";
    CHECK(lacks_of(source) == Lacks{SourceLack::permission});
    Terms lenient = schedule();
    lenient.owner_permission = false;
    CHECK(lacks_of(source, lenient).empty());
    source.kind = SourceKind::hydrant;
    const Lacks of_hydrant = lacks_of(source);
    CHECK(std::ranges::find(of_hydrant, SourceLack::permission) == of_hydrant.end());
}

TEST_CASE("a source that is out in a season does not count all year") {
    WaterSource bank = pond();
    bank.kind = SourceKind::draft_site;
    CHECK(lacks_of(bank).empty());
    bank.open_months = MonthSet{};
    bank.open_months.include(std::chrono::May);
    CHECK(lacks_of(bank) == Lacks{SourceLack::all_year});
    bank.frost_proof = false;
    CHECK(lacks_of(bank) == Lacks{SourceLack::freeze, SourceLack::all_year});
}

// Idaho rating bureau, "Dry Hydrants": all year, freezing included.
TEST_CASE("freeze provision of a suction point is evidence, whether or not a season has ice") {
    const auto kind =
        GENERATE(SourceKind::draft_site, SourceKind::dry_hydrant, SourceKind::cistern);
    WaterSource source = pond();
    source.kind = kind;
    CHECK(lacks_of(source).empty());
    source.frost_proof = false;
    CHECK(lacks_of(source) == Lacks{SourceLack::freeze});
    District district = with(source);
    district.seasons = {Season{.name = "any_time"}};
    const auto lacks = [&](const Terms& terms) {
        return judge_sources(district, supply::review_water(district), EngineReach(district), terms)
            .front()
            .lacks;
    };
    CHECK(lacks(schedule()) == Lacks{SourceLack::freeze});
    Terms lenient = schedule();
    lenient.freeze_provision = false;
    CHECK(lacks(lenient).empty());
    // Where they do not ask, an open bank is still out in a season with ice.
    const Lacks in_ice = kind == SourceKind::draft_site ? Lacks{SourceLack::all_year} : Lacks{};
    CHECK(lacks_of(source, lenient) == in_ice);
}

TEST_CASE("where only a portable pump gets to, no engine pumps") {
    WaterSource source = pond();
    source.reach = Reach::portable_pump;
    const Lacks lacks = lacks_of(source);
    CHECK(std::ranges::find(lacks, SourceLack::engine) != lacks.end());
}

TEST_CASE("a source is worth no more than its suction line and its water let through") {
    const District district = with(pond());
    const auto counted = supply::review_water(district).counted.front();
    CHECK(in_gpm(credited_rate(district, counted, minutes(10))) <=
          Approx(in_gpm(counted.suction->most)));
    CHECK(in_gpm(credited_rate(district, counted, minutes(1000))) == Approx(200));
}

TEST_CASE("in the rated district only what counts can bring water") {
    District district = with(pond());
    WaterSource other = pond();
    other.id = "W2";
    other.use = SourceUse::operations;
    district.sources.push_back(other);
    district.stations = {Station{.id = "S1"}, Station{.id = "M1", .aid = Aid::mutual}};
    district.units = {Unit{.id = "T1", .station = StationIndex(0)},
                      Unit{.id = "T2", .station = StationIndex(0), .aid = Aid::automatic},
                      Unit{.id = "T3", .station = StationIndex(1)}};
    const Terms terms = schedule();
    CHECK(unit_counts(district, district.units[1], terms));
    CHECK_FALSE(unit_counts(district, district.units[2], terms));
    const auto verdicts =
        judge_sources(district, supply::review_water(district), EngineReach(district), terms);
    const District rated = only_what_counts(district, verdicts, terms);
    CHECK(supply::review_water(rated).counts == std::vector<bool>{true, false});
    CHECK_FALSE(rated.units[1].min_crew.has_value());
    CHECK(rated.units[2].crew < rated.units[2].min_crew);
}

TEST_CASE("plans are compared by the terms' minimum flow, start and clock") {
    Terms terms = schedule();
    const Assumptions assumptions;
    const auto order = order_of(terms);
    REQUIRE(order.terms);
    CHECK(in_tenths(order.terms->flow) == 2500);
    CHECK(in_minutes(order.begin_by(minutes(12))) == Approx(17));
    CHECK(in_minutes(order.flow_from(assumptions, minutes(12))) == Approx(27));
    // "Within 15 min of the alarm" (MTAS, Fire Insurance Ratings), whenever the engine comes; but
    // nothing flows before it is there.
    terms.clock = ClockStart::alarm;
    terms.start_within = minutes(15);
    CHECK(in_minutes(order_of(terms).begin_by(minutes(12))) == Approx(15));
    CHECK(in_minutes(order_of(terms).flow_from(assumptions, minutes(12))) == Approx(15));
    CHECK(in_minutes(order_of(terms).flow_from(assumptions, minutes(16))) == Approx(16));
}

TEST_CASE("needs become the terms' minimum, and places without one keep none") {
    Need need;
    need.flow = tenths_of_gpm(10000);
    need.duration = minutes(60);
    const std::vector<std::optional<Need>> needs{need, std::nullopt};
    const auto by_terms = needs_by_terms(needs, schedule());
    CHECK(in_tenths(by_terms[0]->flow) == 2500);
    CHECK(by_terms[0]->duration == minutes(120));
    CHECK_FALSE(by_terms[1].has_value());
}
