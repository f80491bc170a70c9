#include "analyzer/supply/water_review.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "analyzer/supply/suction_point.h"

using namespace farwater;
using namespace farwater::supply;
using namespace std::chrono_literals;

namespace {

WaterSource declared(std::string id, SourceKind kind) {
    WaterSource source;
    source.id = std::move(id);
    source.kind = kind;
    source.standing = Standing::declared;
    source.usable = UsableWater::of(gallons(60000));
    source.rate = gpm(750);
    return source;
}

District district_with(WaterSource source) {
    District district;
    district.sources.push_back(std::move(source));
    return district;
}

bool has(const std::vector<Problem>& problems, ProblemId id) {
    return std::any_of(problems.begin(), problems.end(),
                       [&](const Problem& problem) { return problem.id == id; });
}

}  // namespace

TEST_CASE("water that is only mapped does not count, however large", "[unit]") {
    WaterSource pond = declared("pond", SourceKind::draft_site);
    pond.standing = Standing::mapped;
    pond.usable = UsableWater::unlimited();
    const WaterReview review = review_water(district_with(pond));
    CHECK(review.counted.empty());
    CHECK(has(review.problems, ProblemId::source_mapped_only));
    CHECK(has(review.problems, ProblemId::no_source_counts));
}

TEST_CASE("a pond or cistern without usable volume does not count", "[unit]") {
    const auto kind =
        GENERATE(SourceKind::draft_site, SourceKind::dry_hydrant, SourceKind::cistern);
    WaterSource source = declared("s", kind);
    source.usable.reset();
    const WaterReview review = review_water(district_with(source));
    CHECK(review.counted.empty());
    CHECK(has(review.problems, ProblemId::source_volume_unknown));
}

TEST_CASE("unlimited has to be written out, and then it is unlimited", "[unit]") {
    WaterSource lake = declared("lake", SourceKind::dry_hydrant);
    lake.usable = UsableWater::unlimited();
    const WaterReview review = review_water(district_with(lake));
    REQUIRE(review.counted.size() == 1);
    CHECK_FALSE(review.counted[0].usable);
}

TEST_CASE("a blank rate takes the stated default and lowers the evidence", "[unit]") {
    WaterSource source = declared("s", SourceKind::draft_site);
    source.rate.reset();
    const WaterReview review = review_water(district_with(source));
    REQUIRE(review.counted.size() == 1);
    CHECK(review.counted[0].rate == Assumptions{}.draft_site_rate);
    CHECK(review.counted[0].evidence == Evidence::assumed);
    CHECK(has(review.problems, ProblemId::source_rate_assumed));
}

TEST_CASE("a test counts until it lapses, on the day as well", "[unit]") {
    struct Case {
        Date tested;
        Evidence evidence;
    };
    const auto c =
        GENERATE(Case{2025y / 6 / 2, Evidence::tested}, Case{2025y / 6 / 1, Evidence::declared},
                 Case{2025y / 5 / 31, Evidence::declared});
    WaterSource source = declared("s", SourceKind::dry_hydrant);
    source.standing = Standing::tested;
    source.tested_on = c.tested;
    source.rate = gpm(200);  // less than any pipe lets through
    District district = district_with(source);
    district.data_date = Date(2026y / 6 / 1);
    CHECK(review_water(district).counted.at(0).evidence == c.evidence);
}

TEST_CASE("tested without a date is a declaration", "[unit]") {
    WaterSource source = declared("s", SourceKind::hydrant);
    source.standing = Standing::tested;
    const WaterReview review = review_water(district_with(source));
    CHECK(review.counted.at(0).evidence == Evidence::declared);
    CHECK(has(review.problems, ProblemId::source_test_undated));
}

TEST_CASE("a test whose age cannot be judged counts as tested, and is told", "[unit]") {
    WaterSource source = declared("s", SourceKind::hydrant);
    source.standing = Standing::tested;
    source.tested_on = Date(1987y / 6 / 1);
    District district = district_with(source);
    CHECK(review_water(district).counted.at(0).evidence == Evidence::tested);
    CHECK(has(review_water(district).problems, ProblemId::source_test_age_unknown));
    district.data_date = Date(1987y / 6 / 1);
    CHECK_FALSE(has(review_water(district).problems, ProblemId::source_test_age_unknown));
}

TEST_CASE("a hydrant takes its system's storage, and the stated default where nobody knows it",
          "[unit]") {
    WaterSource known = declared("h1", SourceKind::hydrant);
    known.system = "village";
    known.usable = UsableWater::of(gallons(200000));
    WaterSource other = declared("h2", SourceKind::hydrant);
    other.system = "village";
    other.usable.reset();
    WaterSource lonely = declared("h3", SourceKind::hydrant);
    lonely.usable.reset();
    District district;
    district.sources = {known, other, lonely};
    const WaterReview review = review_water(district);
    REQUIRE(review.counted.size() == 3);
    CHECK(review.counted[1].usable == gallons(200000));
    CHECK(review.counted[2].usable == Assumptions{}.hydrant_system_storage);
    CHECK(review.counted[2].evidence == Evidence::assumed);
}

TEST_CASE("hydrants of a system of unknown storage are told once, with their number", "[unit]") {
    WaterSource hydrant = declared("h1", SourceKind::hydrant);
    hydrant.usable.reset();
    District district;
    for (const char* system : {"village", "village", "mill", "village", ""}) {
        hydrant.id = "h" + std::to_string(district.sources.size() + 1);
        hydrant.system = system;
        district.sources.push_back(hydrant);
    }
    std::vector<std::string> told;
    for (const Problem& problem : review_water(district).problems) {
        if (problem.id == ProblemId::system_volume_unknown) {
            told.push_back(problem.record + ": " + problem.detail);
        }
    }
    CHECK(told == std::vector<std::string>{"h5: no system named, hydrants: 1",
                                           "h3: system mill, hydrants: 1",
                                           "h1: system village, hydrants: 3"});
}

TEST_CASE("a hydrant fills without an engine and a suction point does not", "[unit]") {
    CHECK_FALSE(
        review_water(district_with(declared("h", SourceKind::hydrant))).counted.at(0).needs_engine);
    CHECK(review_water(district_with(declared("d", SourceKind::dry_hydrant)))
              .counted.at(0)
              .needs_engine);
}

TEST_CASE("a source for one parcel alone counts there, and in no water system", "[unit]") {
    WaterSource pond = declared("farm pond", SourceKind::draft_site);
    pond.use = SourceUse::own_parcel;
    pond.own_parcel = "B";
    pond.system = "brook";
    District district = district_with(pond);
    district.parcels = {{.id = "A"}, {.id = "B"}};
    const WaterReview review = review_water(district);
    REQUIRE(review.counted.size() == 1);
    CHECK(review.counted[0].only_for == ParcelIndex(1));
    CHECK(review.counted[0].is_for(1));
    CHECK_FALSE(review.counted[0].is_for(0));
    CHECK(review.systems.empty());
    CHECK(has(review.problems, ProblemId::no_source_counts));  // for all others
    const auto places = fill_site_places(district, review, Season{});
    REQUIRE(places.size() == 1);
    CHECK(places[0].only_for == ParcelIndex(1));
}

TEST_CASE("a source for a parcel that is not told, or without an engine, serves nobody", "[unit]") {
    WaterSource pool = declared("farm pond", SourceKind::draft_site);
    pool.use = SourceUse::own_parcel;
    District district = district_with(pool);
    district.parcels.push_back({.id = "A"});
    const auto detail = [&](const std::string& own_parcel) {
        district.sources[0].own_parcel = own_parcel;
        const WaterReview review = review_water(district);
        CHECK(review.counted.empty());
        REQUIRE(has(review.problems, ProblemId::source_own_parcel));
        CHECK(review.problems[0].record == "farm pond");
        return review.problems[0].detail;
    };
    CHECK(detail("B") == "own_parcel B, which no parcel has");
    CHECK(detail("").ends_with("is blank"));
    district.sources[0].reach = Reach::portable_pump;
    CHECK(detail("A").starts_with("only a portable pump gets there"));
}

TEST_CASE("ice takes open water out unless it is frost-proof", "[unit]") {
    WaterSource open_bank = declared("bank", SourceKind::draft_site);
    WaterSource frost_proof = declared("proof", SourceKind::draft_site);
    frost_proof.frost_proof = true;
    WaterSource dry_hydrant = declared("dry", SourceKind::dry_hydrant);
    District district;
    district.sources = {open_bank, frost_proof, dry_hydrant};
    Season winter;
    winter.ice = true;
    const auto places = fill_site_places(district, review_water(district), winter);
    REQUIRE(places.size() == 2);
    CHECK(places[0].source == SourceIndex(1));
    CHECK(places[1].source == SourceIndex(2));
    CHECK(fill_site_places(district, review_water(district), Season{}).size() == 3);
}

TEST_CASE("a source counts in a season only when it is open in every month of it", "[unit]") {
    WaterSource camp = declared("camp", SourceKind::cistern);
    camp.open_months = MonthSet{};
    for (unsigned month = 4; month <= 10; ++month) {
        camp.open_months.include(std::chrono::month(month));
    }
    const District district = district_with(camp);
    Season summer;
    summer.months = MonthSet{};
    summer.months.include(std::chrono::June);
    Season year;
    CHECK(fill_site_places(district, review_water(district), summer).size() == 1);
    CHECK(fill_site_places(district, review_water(district), year).empty());
}

namespace {

// A dry hydrant of which everything is known: lift 10, 60 ft of 6-in plastic, two elbows.
WaterSource known_dry_hydrant() {
    WaterSource source = declared("dry", SourceKind::dry_hydrant);
    source.rate = gpm(1500);
    source.suction = {.lift = feet(10),
                      .pipe = feet(60),
                      .pipe_diameter = inches(6),
                      .material = PipeMaterial::plastic,
                      .elbows_90 = 2,
                      .elbows_45 = 0,
                      .strainer_loss = feet(4.8),
                      .hose = feet(20)};
    return source;
}

WaterSource tested(WaterSource source) {
    source.standing = Standing::tested;
    source.tested_on = Date(2026y / 3 / 1);
    return source;
}

const CountedSource only(const District& district) { return review_water(district).counted.at(0); }

}  // namespace

TEST_CASE("a declared rate counts as far as lift and pipe let it through", "[unit]") {
    District district = district_with(known_dry_hydrant());
    district.assumptions.altitude = feet(0);
    // 10 ft are left: 10 / (strainer 1.92e-5 + velocity 2.02e-6 + 120 ft of n 0.010 1.12e-5) = Q^2.
    const CountedSource found = only(district);
    CHECK(in_gpm(found.rate) == Approx(555).epsilon(0.005));
    CHECK(found.limit == RateLimit::suction);
    CHECK(found.evidence == Evidence::declared);
    CHECK(in_feet(found.suction.value().head) == Approx(20));
    district.suction_friction = SuctionFriction::hazen_williams;
    // The table of model values: lift 10, 6 in: 588 gpm, computed.
    CHECK(in_gpm(only(district).rate) == Approx(588).epsilon(0.02));
}

// The form's 4.8 ft at 500 gpm are those of a 6-in standpipe; at 4 in
// water is 2.25 times as quick and loses 5.06 times as much (by velocity head; no other source).
TEST_CASE("a strainer of which nobody tells the loss loses more in a narrow pipe", "[unit]") {
    const auto loss_of = [](double bore_in) {
        WaterSource source = known_dry_hydrant();
        source.suction.strainer_loss.reset();
        source.suction.pipe_diameter = inches(bore_in);
        return in_feet(suction_point(source, district_with(source)).line.entrance_at_500);
    };
    CHECK(loss_of(6) == Approx(4.8));
    CHECK(loss_of(8) == Approx(4.8));
    CHECK(loss_of(4) == Approx(4.8 * 5.0625));
}

TEST_CASE("what was measured counts, and more than the pipe should give is told", "[unit]") {
    District district = district_with(tested(known_dry_hydrant()));
    district.data_date = Date(2026y / 5 / 31);
    CHECK(only(district).rate == gpm(1500));
    CHECK(only(district).evidence == Evidence::tested);
    CHECK(has(review_water(district).problems, ProblemId::source_test_above_suction));
    district.data_date = Date(2027y / 5 / 31);
    CHECK(in_gpm(only(district).rate) < 600);  // lapsed: it counts as declared
}

TEST_CASE("blank lift and pipe take their stated values, and the answer is assumed", "[unit]") {
    WaterSource source = known_dry_hydrant();
    source.suction = {};
    const CountedSource found = only(district_with(source));
    CHECK(found.evidence == Evidence::assumed);
    CHECK(in_feet(found.suction.value().lift) == Approx(15));
    CHECK(found.pump_share == Approx(0.7));
    CHECK(in_gpm(found.rate) < 350);
    CHECK(found.assumed.size() == 7);  // lift, two elbows, length, bore, material, strainer
    CHECK(has(review_water(district_with(source)).problems, ProblemId::source_suction_assumed));
}

TEST_CASE("a lift of 15 ft is drafted and one of 15.1 is not", "[unit]") {
    // Idaho rating bureau, "Dry Hydrants": lift 15 ft or less.
    WaterSource source = tested(known_dry_hydrant());
    source.suction.lift = feet(15.0);
    CHECK(review_water(district_with(source)).counted.size() == 1);
    source.suction.lift = feet(15.1);
    const WaterReview review = review_water(district_with(source));
    CHECK(review.counted.empty());
    CHECK(has(review.problems, ProblemId::source_lift_too_high));
}

TEST_CASE("total head goes to 20 ft and not to 20.1", "[unit]") {
    // Idaho rating bureau, "Dry Hydrants": total head loss 20 ft or less.
    District district = district_with(known_dry_hydrant());
    district.assumptions.altitude = feet(0);
    const Flow at_limit = only(district).rate;
    district.sources[0].rate = at_limit - gpm(1);
    CHECK(only(district).limit == RateLimit::stated);
    district.sources[0].rate = at_limit + gpm(1);
    CHECK(only(district).limit == RateLimit::suction);
    CHECK(only(district).rate == at_limit);
}

TEST_CASE("high up, where the air cannot lift it, water is not drafted", "[unit]") {
    District district = district_with(known_dry_hydrant());
    district.sources[0].suction.lift = feet(14.5);
    district.assumptions.altitude = feet(9000);
    const WaterReview review = review_water(district);
    CHECK(review.counted.empty());
    CHECK(has(review.problems, ProblemId::source_cannot_draft));
}

TEST_CASE("a pump at lift and the suction line: the smaller counts, not the product", "[unit]") {
    WaterSource source = tested(known_dry_hydrant());
    source.rate = gpm(700);
    source.suction.lift = feet(15);
    const CountedSource found = only(district_with(source));
    CHECK(in_gpm(found.with_pump(gpm(1500))) == Approx(700));
    CHECK(in_gpm(found.with_pump(gpm(1000))) == Approx(700));
    CHECK(in_gpm(found.with_pump(gpm(500))) == Approx(350));
    WaterSource hydrant = declared("h", SourceKind::hydrant);
    CHECK(only(district_with(hydrant)).with_pump(gpm(0)) == gpm(750));
}

TEST_CASE("a hydrant's flow test is carried on to 20 psi", "[unit]") {
    WaterSource source = tested(declared("h", SourceKind::hydrant));
    source.rate.reset();
    source.hydrant.static_psi = 64;
    source.hydrant.residual_psi = 48;
    source.hydrant.test_flow = gpm(1000);
    CHECK(in_gpm(only(district_with(source)).rate) == Approx(1726.8).margin(0.1));
    CHECK(only(district_with(source)).limit == RateLimit::flow_test);
    CHECK(only(district_with(source)).evidence == Evidence::tested);
    SECTION("a lower stated rate goes before it") {
        source.rate = gpm(800);
        CHECK(only(district_with(source)).rate == gpm(800));
    }
    // NFPA 291 4.3.6: at least a quarter of the static pressure has to fall.
    SECTION("of a test with a small drop no more counts than what flowed") {
        source.hydrant.residual_psi = 49;
        CHECK(only(district_with(source)).rate == gpm(1000));
        CHECK(only(district_with(source)).evidence == Evidence::tested);
        CHECK(has(review_water(district_with(source)).problems, ProblemId::flow_test_small_drop));
    }
    SECTION("a residual that is not below the static pressure cannot be right") {
        source.hydrant.residual_psi = 64;
        const WaterReview review = review_water(district_with(source));
        CHECK(has(review.problems, ProblemId::flow_test_impossible));
        CHECK(review.counted.at(0).rate == Assumptions{}.weak_main_rate);
        CHECK(review.counted.at(0).evidence == Evidence::assumed);
    }
    SECTION("a test without its flow does not count") {
        source.hydrant.test_flow.reset();
        CHECK(has(review_water(district_with(source)).problems, ProblemId::flow_test_incomplete));
    }
    SECTION("a main that stands at 20 psi gives nothing") {
        source.hydrant.static_psi = 20;
        source.hydrant.residual_psi = 5;
        const WaterReview review = review_water(district_with(source));
        CHECK(review.counted.empty());
        CHECK(has(review.problems, ProblemId::hydrant_pressure_low));
    }
}

TEST_CASE("an untested hydrant counts by its bonnet, else by its main", "[unit]") {
    WaterSource source = declared("h", SourceKind::hydrant);
    source.rate.reset();
    const auto rate = [&] { return only(district_with(source)).rate; };
    CHECK(rate() == gpm(250));
    source.hydrant.main = inches(8);
    CHECK(rate() == gpm(250));  // perhaps a dead end
    source.hydrant.dead_end_main = false;
    CHECK(rate() == gpm(500));
    source.hydrant.main = inches(4);
    CHECK(rate() == gpm(250));
    source.hydrant.colour = HydrantColour::green;
    CHECK(rate() == gpm(1000));
    source.hydrant.colour = HydrantColour::red;
    CHECK(rate() == gpm(250));
    CHECK(only(district_with(source)).evidence == Evidence::assumed);
}

TEST_CASE("a pond's gallons follow from area and depth at drought level", "[unit]") {
    // 0.4 acre, 5 ft over the intake, 2 ft for the strainer and 2 ft for ice: 1 ft.
    WaterSource pond = declared("pond", SourceKind::draft_site);
    pond.usable.reset();
    pond.still.area = acres(0.4);
    pond.still.over_intake = feet(5);
    const auto usable = [&] { return in_gallons(only(district_with(pond)).usable.value()); };
    CHECK(usable() == Approx(0.4 * 130340).margin(1));  // NRCS Handbook 590, from memory
    pond.still.sounded = true;
    CHECK(usable() == Approx(130340).margin(1));
    pond.frost_proof = true;
    pond.still.ice = feet(0);
    CHECK(usable() == Approx(3 * 130340).margin(3));
    pond.usable = UsableWater::of(gallons(90000));
    CHECK(usable() == Approx(90000));
    pond.usable = UsableWater::unlimited();
    CHECK(usable() == Approx(3 * 130340).margin(3));
    CHECK(has(review_water(district_with(pond)).problems, ProblemId::source_volume_contradicted));
    pond.still.over_intake = feet(2);
    CHECK(review_water(district_with(pond)).counted.empty());
    CHECK(has(review_water(district_with(pond)).problems, ProblemId::source_pond_too_shallow));
}

TEST_CASE("a pond does not take its volume from another intake of its system", "[unit]") {
    WaterSource known = declared("a", SourceKind::draft_site);
    known.system = "pond";
    WaterSource other = declared("b", SourceKind::draft_site);
    other.system = "pond";
    other.usable.reset();
    District district;
    district.sources = {known, other};
    CHECK(review_water(district).counted.size() == 1);
}

TEST_CASE("the sources of one system share volume, inflow and rate", "[unit]") {
    WaterSource near = declared("h1", SourceKind::hydrant);
    near.system = "village";
    near.inflow = gpm(180);
    near.usable = UsableWater::of(gallons(160000));
    WaterSource far = near;
    far.id = "h2";
    far.rate = gpm(1000);
    far.usable = UsableWater::of(gallons(120000));
    far.inflow = gpm(90);
    WaterSource lonely = declared("h3", SourceKind::hydrant);
    District district;
    district.sources = {near, far, lonely};
    SECTION("as a whole no more than its strongest member gives") {
        const WaterReview review = review_water(district);
        REQUIRE(review.systems.size() == 1);
        CHECK(review.systems[0].members.size() == 2);
        CHECK(review.systems[0].usable == gallons(120000));
        CHECK(review.systems[0].inflow == gpm(90));
        CHECK(review.systems[0].rate == gpm(1000));
        CHECK(review.counted[0].usable == gallons(120000));
        CHECK(has(review.problems, ProblemId::system_values_differ));
    }
    SECTION("less where that is said") {
        district.sources[0].system_rate = gpm(600);
        const WaterReview review = review_water(district);
        CHECK(review.systems.at(0).rate == gpm(600));
        CHECK(review.counted[0].rate == gpm(600));
        CHECK(review.counted[1].rate == gpm(600));
        CHECK(review.counted[1].limit == RateLimit::system);
        CHECK(review.counted[2].rate == gpm(750));
    }
}
