// Further sources set among what is kept, against everything searched anew.
#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "analyzer/app/analysis.h"
#include "analyzer/app/what_if.h"
#include "tests/app/some_of_the_region.h"

using namespace farwater;

namespace {

// As one that counts, elsewhere.
WaterSource source_like(const WaterSource& other, Point place, const std::string& id) {
    WaterSource source = other;
    source.id = id;
    source.place = place;
    source.turnaround = false;
    source.lane.reset();
    return source;
}

bool same_changes(const std::vector<planning::Change>& a, const std::vector<planning::Change>& b) {
    return std::ranges::equal(a, b, [](const planning::Change& x, const planning::Change& y) {
        return x.row == y.row && x.gain() == y.gain() && !planning::differs(x.after, y.after) &&
               x.after.fill_source == y.after.fill_source &&
               x.after.sustained == y.after.sustained && x.after.gains == y.after.gains;
    });
}

// Of those that lacked flow.
std::vector<planning::Change> of_short_ones(std::vector<planning::Change> changes) {
    std::erase_if(changes, [](const planning::Change& change) {
        return change.before.state == SupplyState::held;
    });
    return changes;
}

bool same_gains(const std::vector<planning::Change>& a, const std::vector<planning::Change>& b) {
    return same_changes(of_short_ones(a), of_short_ones(b));
}

// Four, and one of a system: with it all is worked out anew.
std::vector<WaterSource> further_sources(const District& district,
                                         const supply::WaterReview& water) {
    std::vector<WaterSource> like;
    for (const supply::CountedSource& counted : water.counted) {
        const WaterSource& source = at(district.sources, counted.source);
        if (source.system.empty() && !source.system_rate) {
            like.push_back(source);
        }
    }
    REQUIRE_FALSE(like.empty());
    std::vector<WaterSource> more;
    for (std::size_t i = 0; i < 5; ++i) {
        const Point place = district.parcels[i * district.parcels.size() / 5].house;
        more.push_back(source_like(like[i % like.size()], place, "more " + std::to_string(i)));
        more.back().rate = gpm(i % 2 == 0 ? 300 : 800);
    }
    more.back().system = "a pond";
    return more;
}

}  // namespace

// The whole way of the data on the sample region, many times: golden, for the sanitizers would take
// minutes for it.
TEST_CASE("further sources among what is kept change what they change anew", "[golden]") {
    const Work work;
    app::Reading reading = support::some_of_the_region(8, work);
    auto district = app::WhatIf::of(std::move(reading.read.district), std::move(reading.needs),
                                    work, [](std::string_view) {});
    REQUIRE(district);
    const std::vector<WaterSource> more = further_sources(district->district(), district->water());
    const auto of_system = static_cast<std::uint32_t>(more.size() - 1);
    district->offer(more);
    std::size_t changed = 0;
    // One by one, then each beside those before: answers of the step before are kept.
    for (const std::vector<std::uint32_t>& sources :
         {std::vector<std::uint32_t>{1}, {0}, {0, 1}, {0, 1, 2}, {0, 2}, {of_system}}) {
        CAPTURE(sources);
        const auto beside = district->with(sources, work);
        CHECK(same_changes(beside, district->with_all_anew(sources, work)));
        changed += beside.size();
        if (sources.size() == 1) {
            const auto may_change = district->may_change(sources.front());
            CHECK(std::ranges::all_of(beside, [&](const planning::Change& change) {
                return std::ranges::binary_search(may_change, change.row);
            }));
            CHECK(same_gains(district->gains_of(sources.front(), work), beside));
        }
    }
    CHECK(changed > 50);
}

namespace {

bool same_flow(const supply::ParcelSupply& a, const supply::ParcelSupply& b) {
    return a.state == b.state && a.margin == b.margin && a.evidence == b.evidence &&
           a.mode == b.mode && a.sustained == b.sustained && a.cautious == b.cautious &&
           a.later == b.later && a.handbook == b.handbook && a.one_site == b.one_site &&
           a.runner_up == b.runner_up && a.runner_up_cautious == b.runner_up_cautious &&
           a.dump_site == b.dump_site && a.fill_source == b.fill_source && a.tankers == b.tankers &&
           a.gap == b.gap && a.continuous == b.continuous;
}

}  // namespace

TEST_CASE("told of the flow alone, each place has the same state, flow and rating", "[golden]") {
    const Work work;
    const app::Reading reading = support::some_of_the_region(8, work);
    const District& district = reading.read.district;
    const auto all = app::analyse(district, reading.needs, work, [](std::string_view) {});
    const auto flow = app::analyse_flow(district, reading.needs, work);
    REQUIRE(all);
    REQUIRE(flow);
    CHECK(std::ranges::equal(all->assessment.supplies, flow->assessment.supplies, same_flow));
    CHECK(all->assessment.worst_variant == flow->assessment.worst_variant);
    REQUIRE(all->rating);
    REQUIRE(flow->rating);
    CHECK(std::ranges::equal(all->rating->places, flow->rating->places,
                             [](const rating::PlaceRating& a, const rating::PlaceRating& b) {
                                 return a.category == b.category && a.fails == b.fails &&
                                        a.credited == b.credited;
                             }));
    CHECK(std::ranges::equal(all->rating->brought.supplies, flow->rating->brought.supplies,
                             same_flow));
    const auto told = [](const std::optional<app::Analysis>& analysis) {
        return std::ranges::any_of(analysis->assessment.supplies, [](const auto& supply) {
            return std::ranges::any_of(supply.gains, [](auto gain) { return in_gpm(gain) > 0; });
        });
    };
    CHECK(told(all));
    CHECK_FALSE(told(flow));
}
