#include "io/near_word.h"

#include <array>

#include <catch2/catch.hpp>

using namespace farwater::io;
using namespace std::string_view_literals;

TEST_CASE("spelling distance counts inserted, lost, changed and swapped letters") {
    CHECK(spelling_distance("columns", "columns") == 0);
    CHECK(spelling_distance("colums", "columns") == 1);
    CHECK(spelling_distance("columnns", "columns") == 1);
    CHECK(spelling_distance("colunns", "columns") == 1);
    CHECK(spelling_distance("colmuns", "columns") == 1);
    CHECK(spelling_distance("Columns", "columns") == 0);
    CHECK(spelling_distance("", "abc") == 3);
    CHECK(spelling_distance("ca", "abc") == 3);
}

TEST_CASE("the nearest word is offered only when it is near") {
    constexpr std::array list{"roads"sv, "parcels"sv, "buildings"sv};
    CHECK(nearest_word("parcel", list) == "parcels");
    CHECK(nearest_word("raods", list) == "roads");
    CHECK(nearest_word("hydrants", list).empty());
    CHECK(nearest_word("x", list).empty());
    CHECK(did_you_mean("building", list) == "; did you mean \"buildings\"?");
    CHECK(did_you_mean("zone", list).empty());
}

TEST_CASE("a list of words reads as a person would say it") {
    CHECK(one_of(std::array{"a"sv, "b"sv, "c"sv}) == "a, b or c");
    CHECK(one_of(std::array{"a"sv, "b"sv}) == "a or b");
    CHECK(one_of(std::array{"a"sv}) == "a");
}
