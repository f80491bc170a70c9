// Gains and losses in words.
#include "reports/gains/gain_words.h"

#include <catch2/catch.hpp>

#include "tests/support/program.h"

using namespace farwater;
using namespace farwater::reports;
using farwater::support::contains;

TEST_CASE("a loss has the reason that is true of it") {
    planning::GainSum sum{.tenths = -900, .lost_tenths = 900, .losing = 3};
    const std::string search = lost_words(sum);
    CHECK(contains(search, "3 properties, 90 gpm in all"));
    CHECK(contains(search, "not every choice of tankers"));
    CHECK_FALSE(contains(search, "sooner"));
    sum.losing_earlier = 3;
    sum.earlier_tenths = 900;
    const std::string earlier = lost_words(sum);
    CHECK(contains(earlier, "3 properties, 90 gpm in all"));
    CHECK(contains(earlier, "the first engine is there sooner; no water is lost"));
    CHECK_FALSE(contains(earlier, "not every choice"));
    sum.losing_earlier = 1;
    sum.earlier_tenths = 200;
    const std::string both = lost_words(sum);
    CHECK(contains(both, "1 property of 20 gpm judged from an earlier minute"));
    CHECK(contains(both, "of the others not every choice of tankers"));
}

TEST_CASE("what costs nothing costs nothing for each, and a cost that nobody gave is -") {
    CHECK(cost_for_each(0.0, 2.0) == "0");
    CHECK(cost_for_each(9000.0, 2.0) == "4,500");
    CHECK(cost_for_each(std::nullopt, 2.0) == "-");
    CHECK(cost_for_each(9000.0, 0.0) == "-");
    CHECK(cost_for_each(9000.0, -1.0) == "-");
}

TEST_CASE("a statement has words for a gain, for none and for less than none") {
    CHECK(statement_of({.tenths = 12340, .lost_tenths = 20, .gaining = 1, .losing = 1}) ==
          "It takes 1,234 gpm of shortfall away: 1 property holds more of the flow needed, none "
          "comes to meet its planned flow, in the worst season and period of each.");
    CHECK(statement_of({}) ==
          "It takes no shortfall away: no property holds more of the flow needed, none comes to "
          "meet its planned flow, in the worst season and period of each.");
    CHECK(statement_of({.gaining = 2, .losing = 1, .newly_held = 1}) ==
          "It takes no shortfall away: 2 properties hold more of the flow needed, 1 property holds "
          "less, one more meets its planned flow, in the worst season and period of each.");
    CHECK(statement_of({.tenths = -270, .losing = 3, .no_longer_held = 1}) ==
          "It leaves 27 gpm more of shortfall: no property holds more of the flow needed, 3 "
          "properties hold less, 1 fewer meet their planned flow, in the worst season and period "
          "of each.");
}
