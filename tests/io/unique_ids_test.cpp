#include "io/records/unique_ids.h"

#include <random>
#include <set>

#include <catch2/catch.hpp>

using farwater::io::TextSet;

TEST_CASE("a set of texts knows what was put in, whatever the order and number") {
    const unsigned seed = 3;
    CAPTURE(seed);
    std::mt19937 random(seed);
    TextSet ours;
    std::set<std::string> slow;
    for (int i = 0; i < 30000; ++i) {
        const std::string text = std::to_string(random() % 20000);
        CAPTURE(i, text);
        REQUIRE(ours.insert(text) == slow.insert(text).second);
    }
    CHECK(ours.size() == slow.size());
    CHECK(ours.insert(""));
    CHECK_FALSE(ours.insert(""));
}
