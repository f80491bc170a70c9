#include "io/records/unique_ids.h"

#include <random>
#include <set>

#include <catch2/catch.hpp>

using farwater::io::TextSet;
using farwater::io::UniqueIds;

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

TEST_CASE("an id that is there already gets the first number that nobody has") {
    UniqueIds ids;
    CHECK(ids.unique("A") == "A");
    CHECK(ids.unique("A (3)") == "A (3)");
    CHECK(ids.unique("A") == "A (2)");
    CHECK(ids.unique("A") == "A (4)");
    CHECK(ids.unique("A (2)") == "A (2) (2)");
    CHECK(ids.unique("") == "");
    CHECK(ids.unique("") == " (2)");
}

// Parcels of roads and of railways often have one id among them all. Tried one number after the
// other for each of them, these here would take 8,000,000,000 looks.
TEST_CASE("a hundred thousand records of one id are numbered at once") {
    UniqueIds ids;
    std::string last;
    for (int i = 0; i < 130000; ++i) {
        last = ids.unique("ROW");
    }
    CHECK(last == "ROW (130000)");
}
