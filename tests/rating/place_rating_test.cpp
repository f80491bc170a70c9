// Categories and credited flow of one property, on both sides of each of the terms.
#include "analyzer/rating/place_rating.h"

#include <catch2/catch.hpp>
#include <rapidcheck.h>

#include "tests/rating/built_in_terms.h"

using namespace farwater;
using namespace farwater::rating;

namespace {

supply::TenthsMinute at_minute(double minute) { return supply::rounded_up(minutes(minute)); }

// Nothing that apparatus could bring.
supply::ParcelSupply nothing() {
    supply::ParcelSupply supply;
    supply.state = SupplyState::tank_only;
    supply.first_engine = at_minute(10);
    return supply;
}

// 250 gpm from that minute after the first engine's arrival, and that flow by the time that counts.
supply::ParcelSupply hauled(double start, int cautious = 400, int handbook = 450) {
    supply::ParcelSupply supply = nothing();
    supply.state = SupplyState::held;
    supply.mode = SupplyMode::shuttle;
    supply.earliest_start = at_minute(10 + start);
    supply.cautious = tenths_of_gpm(cautious * 10);
    supply.handbook = tenths_of_gpm(handbook * 10);
    supply.gap = at_minute(0);
    return supply;
}

std::vector<SourceInReach> source_at(double hose_ft, double gives = 1000) {
    return {{SourceIndex(0), feet(hose_ft), gpm(gives)}};
}

PlaceRating rated(float miles, const std::vector<SourceInReach>& sources,
                  const supply::ParcelSupply& brought) {
    return rate_place(schedule(), miles, sources, brought);
}

std::string category(float miles, double hose_ft) {
    return std::string(
        category_word(schedule(), rated(miles, source_at(hose_ft), nothing()).category));
}

int credited(const PlaceRating& rating) { return in_tenths(rating.credited) / 10; }

}  // namespace

// Rating organisation, "Alternative Water Supplies" and "Water Class 10W"; MTAS, "Fire Insurance
// Ratings".
TEST_CASE("road miles and hose to a source make the schedule's categories") {
    CHECK(category(4.9F, 900) == "n");
    CHECK(category(4.9F, 1100) == "nX");
    CHECK(category(5.5F, 900) == "10W");
    CHECK(category(5.5F, 1100) == "10");
    CHECK(category(7.1F, 900) == "10");
}

TEST_CASE("a place at the limit is within it, but for the far one, which it must stay below") {
    CHECK(category(5.0F, 1000) == "n");
    CHECK(category(5.01F, 1000) == "10W");
    CHECK(category(5.0F, 1000.01) == "nX");
    CHECK(category(6.99F, 1000) == "10W");
    CHECK(category(7.0F, 1000) == "10");
}

TEST_CASE("without a way from a station a place is rated as the farthest") {
    const PlaceRating rating = rate_place(schedule(), std::nullopt, source_at(100), nothing());
    CHECK(category_word(schedule(), rating.category) == "10");
    CHECK(rating.fails == Fails::station);
    CHECK(in_tenths(rating.by_hose) == 10000);
}

TEST_CASE("terms with one distance know no category beyond it") {
    const Terms terms = built_in(RatingTerms::tender_credit);
    const auto category_at = [&](float miles) {
        return category_word(terms, rate_place(terms, miles, source_at(900), nothing()).category);
    };
    CHECK(category_at(7.0F) == "credit");
    CHECK(category_at(7.01F) == "no credit");
}

TEST_CASE("hauled water counts where it begins in time") {
    CHECK(rated(4, {}, hauled(5.0)).fails == Fails::nothing);
    CHECK(rated(4, {}, hauled(5.0)).category == Category::near_with_water);
    CHECK(rated(4, {}, hauled(5.1)).fails == Fails::start);
    CHECK(rated(4, {}, hauled(5.1)).category == Category::near_without_water);
    CHECK(credited(rated(4, {}, hauled(5.1))) == 0);
    CHECK(rated(6, {}, hauled(5.0)).category == Category::far_with_water);
    CHECK(rated(6, {}, hauled(5.0)).fails == Fails::station);
}

// "Within 15 min of the alarm": MTAS, Fire Insurance Ratings.
TEST_CASE("by a clock from the alarm the drive counts too, and the larger flow is credited") {
    Terms terms = schedule();
    terms.clock = ClockStart::alarm;
    terms.start_within = minutes(15);
    const auto rating = [&](double start) { return rate_place(terms, 4.0F, {}, hauled(start)); };
    CHECK(rating(5.0).fails == Fails::nothing);
    CHECK(rating(5.1).fails == Fails::start);
    CHECK(credited(rating(5.0)) == 400);
    CHECK(credited(rating(5.1)) == 0);
}

TEST_CASE("the larger flow is credited, but no more than on paper and no less than the minimum") {
    CHECK(credited(rated(4, {}, hauled(5, 400, 450))) == 400);
    CHECK(credited(rated(4, {}, hauled(5, 400, 300))) == 300);
    CHECK(credited(rated(4, {}, hauled(5, 240, 450))) == 250);
    CHECK(credited(rated(4, source_at(500), hauled(5, 400, 450))) == 670);
    CHECK(credited(rated(4, source_at(500, 600), nothing())) == 600);
}

TEST_CASE("a source that gives less than the minimum makes no water") {
    CHECK(rated(4, source_at(100, 250), nothing()).category == Category::near_with_water);
    CHECK(rated(4, source_at(100, 249.9), nothing()).category == Category::near_without_water);
}

TEST_CASE("what is failed first is told in the order of the terms") {
    CHECK(rated(4, {}, nothing()).fails == Fails::flow);
    supply::ParcelSupply dry = hauled(5);
    dry.gap = at_minute(0.1);
    CHECK(rated(4, {}, dry).fails == Fails::gap);
    supply::ParcelSupply unknown;
    unknown.reason = ProblemId::no_source_counts;
    CHECK(rated(4, {}, unknown).fails == Fails::source);
    unknown.reason = ProblemId::fleet_without_engines;
    CHECK(rated(4, {}, unknown).fails == Fails::not_known);
    supply::ParcelSupply unreached;
    unreached.state = SupplyState::unreached;
    CHECK(rated(4, {}, unreached).fails == Fails::station);
    CHECK(rated(5.5F, {}, dry).fails == Fails::station);
}

TEST_CASE("a parcel without a building is not rated") {
    supply::ParcelSupply none;
    none.state = SupplyState::no_building;
    const PlaceRating rating = rated(4, source_at(100), none);
    CHECK(rating.category == Category::no_building);
    CHECK(category_word(schedule(), rating.category).empty());
    CHECK(credited(rating) == 0);
}

TEST_CASE("the nearest source is told, the best one credited") {
    const std::vector<SourceInReach> sources{{SourceIndex(3), feet(400), gpm(300)},
                                             {SourceIndex(5), feet(700), gpm(2000)},
                                             {SourceIndex(7), feet(500), gpm(800)}};
    const PlaceRating rating = rated(4, sources, nothing());
    CHECK(rating.nearest == SourceIndex(3));
    CHECK(*rating.hose_ft == Approx(400));
    CHECK(credited(rating) == 670);
}

TEST_CASE("water does not begin before the first engine has its tank on the fire") {
    supply::ParcelSupply brought = hauled(0);
    brought.tank_water = at_minute(11.5);
    CHECK(supply::in_tenths(*rated(4, {}, brought).start) == 15);
    brought.tank_water = at_minute(15.1);
    CHECK(rated(4, {}, brought).fails == Fails::start);
}

TEST_CASE(
    "of seasons and periods the one with less credit is worse, then the one with the later start") {
    const PlaceRating best = rated(4, {}, hauled(3, 450));
    const PlaceRating later = rated(4, {}, hauled(4, 450));
    const PlaceRating smaller = rated(4, {}, hauled(2, 300));
    const PlaceRating late = rated(4, {}, hauled(20, 450));
    const PlaceRating never = rated(4, {}, nothing());
    CHECK(worse(later, best));
    CHECK_FALSE(worse(best, later));
    CHECK(worse(smaller, later));
    CHECK(worse(late, smaller));
    CHECK(worse(never, late));
    CHECK_FALSE(worse(late, never));
    CHECK_FALSE(worse(never, never));
}

TEST_CASE("another source or an earlier start never lowers what is credited", "[property]") {
    rc::check([] {
        const auto miles = static_cast<float>(*rc::gen::inRange(0, 90)) / 10.0F;
        const double start = *rc::gen::inRange(0, 120) / 10.0;
        std::vector<SourceInReach> sources;
        for (int i = *rc::gen::inRange(0, 4); i > 0; --i) {
            sources.push_back({SourceIndex(static_cast<std::size_t>(i)),
                               feet(*rc::gen::inRange(0, 1500)), gpm(*rc::gen::inRange(0, 1500))});
        }
        const PlaceRating before = rated(miles, sources, hauled(start));
        const PlaceRating earlier = rated(miles, sources, hauled(start / 2));
        sources.push_back(
            {SourceIndex(9), feet(*rc::gen::inRange(0, 1500)), gpm(*rc::gen::inRange(0, 1500))});
        const PlaceRating more = rated(miles, sources, hauled(start));
        RC_ASSERT(more.credited >= before.credited);
        RC_ASSERT(earlier.credited >= before.credited);
        RC_ASSERT(before.has_water() == (before.credited > HeldFlow{} && miles < 7.0F));
    });
}

// A hydrant helps nobody to whom no engine comes.
TEST_CASE("a place that no engine reaches has no water, whatever lies beside it") {
    supply::ParcelSupply unreached = nothing();
    unreached.state = SupplyState::unreached;
    const PlaceRating rating = rated(1.0F, source_at(200), unreached);
    CHECK(rating.category == Category::otherwise);
    CHECK(rating.fails == Fails::station);
    CHECK(credited(rating) == 0);
    CHECK(rating.has_water() == false);
}

TEST_CASE("a place beyond all stations is credited with nothing, with water too") {
    const PlaceRating far = rated(7.5F, source_at(200), nothing());
    CHECK(category(7.5F, 200) == "10");
    CHECK(credited(far) == 0);
    CHECK(credited(rated(6.5F, source_at(200), nothing())) > 0);
}

TEST_CASE("the worse of two seasons is the worse category, before less credit") {
    const PlaceRating with_water = rated(1.0F, {}, hauled(4, 260, 300));
    const PlaceRating without = rated(1.0F, {}, nothing());
    const PlaceRating far = rated(6.0F, source_at(200), nothing());
    CHECK(worse(without, with_water));
    CHECK_FALSE(worse(with_water, without));
    CHECK(credited(far) > credited(with_water));
    CHECK(worse(far, with_water));
    // Of two without water the one that fails earlier in the terms, in either order.
    supply::ParcelSupply no_source = nothing();
    no_source.state = SupplyState::unknown;
    no_source.reason = ProblemId::no_source_counts;
    const PlaceRating sourceless = rated(1.0F, {}, no_source);
    CHECK(worse(sourceless, without));
    CHECK_FALSE(worse(without, sourceless));
    CHECK_FALSE(worse(without, without));
}
