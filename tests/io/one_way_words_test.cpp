#include "io/inputs/one_way_words.h"

#include <random>

#include <catch2/catch.hpp>

#include "tests/io/read_scene.h"

using namespace farwater;
using namespace farwater::io;

namespace {

// What each value of a column means; "closed" where it cannot be told.
std::string meanings(const std::vector<std::string>& values) {
    OneWayColumn column;
    for (const std::string& value : values) {
        column.saw(value);
    }
    std::string text;
    for (const std::string& value : values) {
        const auto meant = column.meaning(one_way_sign(value));
        text += (text.empty() ? "" : " ") + std::string(meant ? word(*meant) : "closed");
    }
    return text;
}

ReadScene one_way_scene(const std::vector<std::string>& values, const std::string& more = "") {
    std::string text = "class,name,oneway,WKT\n";
    for (std::size_t i = 0; i < values.size(); ++i) {
        text += "paved,R" + std::to_string(i) + "," + values[i] + ",\"LINESTRING (700000 47699" +
                std::to_string(90 - i) + ",700300 47699" + std::to_string(90 - i) + ")\"\n";
    }
    ReadScene scene;
    scene.table("roads", text)
        .section("roads", "crs = \"EPSG:32618\"\ncolumns = { one_way = \"oneway\" }\n" + more);
    return scene;
}

std::string directions(const ReadScene& scene) {
    std::string text;
    for (const Road& road : scene.read().district.roads) {
        text += (text.empty() ? "" : " ") +
                std::string(road.access == RoadAccess::closed ? "closed" : word(road.one_way));
    }
    return text;
}

}  // namespace

TEST_CASE("every spelling of a direction that means one thing is understood") {
    for (const char* text : {"both", "no", "No", "false", "0", "0.0", "B", "two way", "Two-Way",
                             "TWO_WAY", "2-way", "both directions", "none", "Not One Way"}) {
        CAPTURE(text);
        CHECK(one_way_sign(text) == OneWaySign::both);
    }
    for (const char* text : {"forward", "yes", "YES", "y", "true", "1", "1.0", "FT", "ft",
                             "One Way", "one-way", "ONEWAY", "From-To", "along"}) {
        CAPTURE(text);
        CHECK(one_way_sign(text) == OneWaySign::forward);
    }
    for (const char* text : {"backward", "-1", "-1.0", "TF", "reverse", "reversed", "to from"}) {
        CAPTURE(text);
        CHECK(one_way_sign(text) == OneWaySign::backward);
    }
    CHECK(one_way_sign("reversible") == OneWaySign::reversible);
    CHECK(one_way_sign("alternating") == OneWaySign::alternating);
    for (const char* text : {"no;yes", "maybe", "3", "-2", "FTTF", "yes no", "west", "?", ";"}) {
        CAPTURE(text);
        CHECK(one_way_sign(text) == OneWaySign::unclear);
    }
}

TEST_CASE("letters and 2 mean what the rest of their column says") {
    CHECK(meanings({"FT", "TF", "B", "N"}) == "forward backward both closed");
    CHECK(meanings({"F", "T", "B"}) == "forward backward both");
    CHECK(meanings({"F", "T"}) == "closed closed");
    CHECK(meanings({"F", "T", "true"}) == "both forward forward");
    CHECK(meanings({"F", "T", "FT", "yes"}) == "closed closed forward forward");
    CHECK(meanings({"Y", "N"}) == "forward both");
    CHECK(meanings({"N"}) == "both");
    CHECK(meanings({"0", "1", "2"}) == "both forward backward");
    CHECK(meanings({"1", "2"}) == "forward closed");
    CHECK(meanings({"2", "0.0"}) == "backward both");
}

TEST_CASE("a direction that cannot be told closes its road and is a problem") {
    CHECK(
        directions(one_way_scene({"no", "yes", "-1", "reversible", "no;yes", "", "alternating"})) ==
        "both forward backward closed closed both both");
    CHECK(one_way_scene({"no", "westward"}).sentences() ==
          Sentences{
              "roads (roads.csv), row 2, column oneway: holds a value that the district file "
              "does not map; the most cautious meaning is taken (\"westward\", taken as "
              "closed, since its direction is not known); add it to the layer's values table."});
}

TEST_CASE("codes that stay unclear are one problem for all their records") {
    const ReadScene scene = one_way_scene({"1", "2", "2", ""});
    CHECK(directions(scene) == "forward closed closed both");
    CHECK(
        scene.sentences() ==
        Sentences{"roads (roads.csv), column oneway: holds a value that the district file does not "
                  "map; the most cautious meaning is taken (\"2\" in 2 records, taken as closed, "
                  "since its direction is not known); add it to the layer's values table."});
    CHECK(
        directions(one_way_scene({"1", "2", "2", ""}, "values = { one_way = { 2 = \"both\" } }")) ==
        "forward both both both");
    CHECK(directions(one_way_scene({"0", "1", "2"})) == "both forward backward");
    CHECK(one_way_scene({"0", "1", "2"}).sentences().empty());
}

TEST_CASE("no text whatever breaks the reading of directions", "[property]") {
    const unsigned seed = 1711;
    CAPTURE(seed);
    std::mt19937 random(seed);
    constexpr std::string_view letters = "ftbny012-_ ;.eosrwi\xff\t";
    for (int i = 0; i < 100000; ++i) {
        std::string text;
        for (auto length = random() % 9; length > 0; --length) {
            text += letters[random() % letters.size()];
        }
        CAPTURE(text);
        OneWayColumn column;
        column.saw(text);
        const auto meant = column.meaning(one_way_sign(text));
        const auto again = column.meaning(one_way_sign(" " + text + " "));
        REQUIRE(meant == again);
    }
}
