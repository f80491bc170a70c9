// Further sources set among what is kept, against everything searched anew.
#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "analyzer/app/reading.h"
#include "analyzer/app/what_if.h"
#include "io/district_file.h"

using namespace farwater;

namespace {

constexpr std::size_t every_so_many = 8;  // parcels are asked about, for the time it takes

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
    app::Reading reading =
        app::read_with_needs(io::read_district_file("sample_region/district.toml"), work);
    for (std::size_t row = 0; row < reading.needs.size(); ++row) {
        if (row % every_so_many != 0) {
            reading.needs[row].reset();
        }
    }
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
        }
    }
    CHECK(changed > 50);
}
