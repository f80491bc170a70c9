#include "analyzer/supply/water_review.h"

#include <algorithm>

#include <catch2/catch.hpp>

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
    District district = district_with(source);
    district.data_date = Date(2026y / 6 / 1);
    CHECK(review_water(district).counted.at(0).evidence == c.evidence);
}

TEST_CASE("tested without a date is a declaration", "[unit]") {
    WaterSource source = declared("s", SourceKind::hydrant);
    source.standing = Standing::tested;
    CHECK(review_water(district_with(source)).counted.at(0).evidence == Evidence::declared);
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

TEST_CASE("a hydrant fills without an engine and a suction point does not", "[unit]") {
    CHECK_FALSE(
        review_water(district_with(declared("h", SourceKind::hydrant))).counted.at(0).needs_engine);
    CHECK(review_water(district_with(declared("d", SourceKind::dry_hydrant)))
              .counted.at(0)
              .needs_engine);
}

TEST_CASE("a source for its own parcel never fills tankers", "[unit]") {
    WaterSource pool = declared("farm pond", SourceKind::draft_site);
    pool.use = SourceUse::own_parcel;
    CHECK(review_water(district_with(pool)).counted.empty());
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
