#include "analyzer/planning/worth_a_look.h"

#include <catch2/catch.hpp>

using namespace farwater;
using namespace farwater::planning;

namespace {

// Places and houses stand on one line, in feet from its start.
struct Line {
    District district;
    std::vector<RoadsidePlace> places;
    std::vector<Gain> missing;
    std::vector<Point> as_strong;

    Line() {
        district.assumptions.new_cistern_apart = feet(1000);
        district.assumptions.new_cistern_serves = feet(500);
        district.assumptions.most_new_cisterns = 10;
    }
    static Point on(double ft) { return {in_metres(feet(ft)), 0.0}; }
    void place(double ft) { places.push_back({.place = on(ft)}); }
    void house(double ft, Gain lacks) {
        district.parcels.push_back({.house = on(ft)});
        missing.push_back(lacks);
    }
    std::vector<PassedOver> result() const {
        return passed_over(district, {places, missing, as_strong});
    }
};

}  // namespace

TEST_CASE("the place with most missing near it is taken first, then others by what is left") {
    Line line;
    line.house(0, 100);
    line.house(2000, 300);
    line.house(2300, 10);
    for (const double ft : {0.0, 1900.0, 2600.0, 3000.0, 9000.0}) {
        line.place(ft);
    }
    CHECK(line.result() == std::vector{PassedOver::no, PassedOver::no, PassedOver::place_near,
                                       PassedOver::nothing_missing_near,
                                       PassedOver::nothing_missing_near});
}

TEST_CASE("near a source as strong no cistern is looked at, and no more than are wanted") {
    Line line;
    for (const double ft : {0.0, 2000.0, 4000.0, 6000.0}) {
        line.house(ft, static_cast<Gain>(ft) + 1);
        line.place(ft);
    }
    line.as_strong.push_back(Line::on(6900.0));
    line.district.assumptions.most_new_cisterns = 2;
    CHECK(line.result() == std::vector{PassedOver::beyond_the_most, PassedOver::no, PassedOver::no,
                                       PassedOver::strong_source_near});
}

TEST_CASE("of places as good the first is taken") {
    Line line;
    line.house(0, 100);
    line.place(100);
    line.place(-100);
    CHECK(line.result() == std::vector{PassedOver::no, PassedOver::place_near});
    CHECK(reason_of(PassedOver::place_near, line.district.assumptions).find("1000 ft") !=
          std::string::npos);
}
