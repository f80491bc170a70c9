#include "analyzer/district/problem.h"

#include <set>

#include <catch2/catch.hpp>

using namespace farwater;

TEST_CASE("every problem kind has a name of its own, a meaning and a mend") {
    std::set<std::string_view> names;
    for (const ProblemKind& kind : problem_kinds()) {
        CAPTURE(kind.name);
        CHECK(names.insert(kind.name).second);
        CHECK_FALSE(kind.what.empty());
        CHECK_FALSE(kind.mend.empty());
        CHECK(&kind_of(kind.id) == &kind);
        CHECK(name_of(kind.id) == kind.name);
        CHECK_FALSE(kind.what.ends_with('.'));
        CHECK_FALSE(kind.mend.ends_with('.'));
    }
}

TEST_CASE("a problem reads as one sentence with file, layer, record, column and mend") {
    const Problem problem{
        ProblemId::number_unreadable, "apparatus", "fleet.csv", "T4", "TANK", "\"1,200\""};
    CHECK(sentence(problem) ==
          "apparatus (fleet.csv), record T4, column TANK: holds something that is no plain number; "
          "the value "
          "counts as not known (\"1,200\"); write digits only, with a point for decimals.");
}

TEST_CASE("a record without an id is named by its row alone") {
    CHECK(sentence({ProblemId::road_zero_length, "roads", "roads.gpkg", "row 9", "", ""}) ==
          "roads (roads.gpkg), row 9: has no length; delete it.");
}

TEST_CASE("a problem of a whole layer has no record in its sentence") {
    const Problem problem{ProblemId::fleet_without_tankers, "apparatus", "fleet.csv", "", "", ""};
    CHECK(sentence(problem) ==
          "apparatus (fleet.csv): has no tanker; add the tankers, own and aid, to the apparatus "
          "list.");
}

TEST_CASE("rows are named as tables count them, from one") {
    CHECK(row_name(0) == "row 1");
    CHECK(row_name(16) == "row 17");
}

TEST_CASE("the severities have names") {
    CHECK(name_of(Severity::note) == "note");
    CHECK(name_of(Severity::repaired) == "repaired");
    CHECK(name_of(Severity::set_aside) == "set_aside");
    CHECK(name_of(Severity::grave) == "grave");
}

TEST_CASE("a record count adds up when nothing was dropped") {
    CHECK(RecordCount{"roads", "r.gpkg", 10, 7, 2, 1}.adds_up());
    CHECK_FALSE(RecordCount{"roads", "r.gpkg", 10, 7, 2, 0}.adds_up());
}
