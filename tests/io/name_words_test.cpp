// Names of columns as people abbreviate them.
#include "io/draft/name_words.h"

#include <catch2/catch.hpp>

using namespace farwater::io;
using Words = std::vector<std::string>;

TEST_CASE("a name's words are told whatever parts them and however they are abbreviated") {
    struct Case {
        const char* name;
        Words words;
        const char* unit;
    };
    const std::vector<Case> cases{
        {"PostedSpd", {"post", "speed"}, ""},
        {"POSTED_SPD", {"post", "speed"}, ""},
        {"SPEEDLIM", {"limit", "speed"}, ""},
        {"SPEED_LIMI", {"limit", "speed"}, ""},  // as a shapefile cuts it
        {"PAVE_W", {"pave", "width"}, ""},
        {"RdWidth", {"road", "width"}, ""},
        {"IsBridge", {"bridge"}, ""},
        {"WtLimitTon", {"limit", "weight"}, "short_ton"},
        {"POSTWT", {"post", "weight"}, ""},
        {"Months open", {"month", "open"}, ""},
        {"Lift (ft)", {"lift"}, "ft"},
        {"Cap gal", {"capacity"}, "gal"},
        {"Tank (litres)", {"tank"}, "l"},
        {"Speed km/h", {"speed"}, "km/h"},
        {"Unit #", {"number", "unit"}, ""},
        {"FireDist", {"district", "fire"}, ""},
        {"MAPLOT", {"lot", "map"}, ""},
        {"Min crew", {"crew", "minimum"}, ""},  // at the end it is minutes
        {"Turnout min", {"turnout"}, "min"},
        {"In Service", {"in", "service"}, ""},
        {"Hose 2.5\" (ft)", {"2", "5", "hose", "in"}, "ft"},
        {"GPMRate", {"rate"}, "gpm"},
        {"Washington", {"washington"}, ""},
        {"", {}, ""},
        {"Stra\u00dfe", {"stra\u00dfe"}, ""},
    };
    for (const Case& one : cases) {
        CAPTURE(one.name);
        const NameWords told = words_of_name(one.name);
        CHECK(told.words == one.words);
        CHECK(told.unit == one.unit);
    }
}
