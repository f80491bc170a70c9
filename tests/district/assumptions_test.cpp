#include "analyzer/district/assumptions.h"

#include <array>
#include <set>

#include <catch2/catch.hpp>

using namespace farwater;

namespace {

// The ending that a key of the row's type must have; empty for plain numbers and yes/no.
std::string_view unit_ending(const AssumptionRow& row) {
    // In the order of AssumptionRow::Member.
    constexpr std::array<std::string_view, 10> endings{"_min", "_gpm", "_gal", "_ft", "_mph",
                                                       "_lb",  "_hp",  "",     "",    ""};
    return endings[row.member.index()];
}

}  // namespace

TEST_CASE("every assumption has a key of its own, a sentence and a source") {
    std::set<std::string_view> keys;
    for (const AssumptionRow& row : assumption_rows()) {
        CAPTURE(row.key);
        CHECK(keys.insert(row.key).second);
        CHECK_FALSE(row.group.empty());
        CHECK_FALSE(row.what.empty());
        CHECK_FALSE(row.source.empty());
        CHECK(row.low < row.high);
    }
}

TEST_CASE("every assumption of a quantity names its unit in the key") {
    for (const AssumptionRow& row : assumption_rows()) {
        CAPTURE(row.key);
        const bool bore = unit_ending(row) == "_ft" && row.key.ends_with("_in");
        CHECK((bore || row.key.ends_with(unit_ending(row))));
    }
}

TEST_CASE("every default lies in its range") {
    const Assumptions defaults;
    for (const AssumptionRow& row : assumption_rows()) {
        CAPTURE(row.key);
        CHECK(value_in_key_unit(defaults, row) >= row.low);
        CHECK(value_in_key_unit(defaults, row) <= row.high);
    }
}

TEST_CASE("a value that is put in comes back in the key's unit, and no other value changes") {
    const Assumptions defaults;
    for (const AssumptionRow& row : assumption_rows()) {
        CAPTURE(row.key);
        Assumptions changed;
        const double value = value_in_key_unit(defaults, row) == row.high ? row.low : row.high;
        set_in_key_unit(changed, row, value);
        CHECK(value_in_key_unit(changed, row) == Approx(value));
        for (const AssumptionRow& other : assumption_rows()) {
            if (other.key != row.key) {
                CHECK(value_in_key_unit(changed, other) == value_in_key_unit(defaults, other));
            }
        }
    }
}

TEST_CASE("an assumption is given only when the district file has its key") {
    Assumptions assumptions;
    CHECK_FALSE(assumptions.is_given("duration_min"));
    assumptions.given.push_back("duration_min");
    CHECK(assumptions.is_given("duration_min"));
    CHECK_FALSE(assumptions.is_given("duration"));
}
