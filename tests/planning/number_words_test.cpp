#include "analyzer/planning/number_words.h"

#include <catch2/catch.hpp>

using namespace farwater::planning;

TEST_CASE("a number to the tenth carries over and keeps its sign") {
    CHECK(short_words(1.96) == "2");
    CHECK(short_words(2.5) == "2.5");
    CHECK(short_words(8.0) == "8");
    CHECK(short_words(9.94) == "9.9");
    CHECK(short_words(-0.3) == "-0.3");
    CHECK(short_words(-0.04) == "0");
    CHECK(tenths_words(1.96) == "2.0");
    CHECK(tenths_words(-0.3) == "-0.3");
    CHECK(tenths_words(-1.25) == "-1.3");
    CHECK(tenths_words(-0.04) == "0.0");
    CHECK(whole_words(1249.5) == "1250");
}
