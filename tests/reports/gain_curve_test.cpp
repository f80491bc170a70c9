// The curve of what places gain together.
#include <catch2/catch.hpp>

#include "reports/gains/gain_page.h"
#include "tests/support/program.h"

using namespace farwater::reports;
using farwater::support::contains;

namespace {

std::string curve(const std::vector<double>& totals) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < totals.size(); ++i) {
        names.push_back("C" + std::to_string(i + 1));
    }
    return svg_of(gain_curve(totals, names));
}

std::size_t discs(const std::string& svg) {
    std::size_t count = 0;
    for (std::size_t at = svg.find("<circle"); at != std::string::npos;
         at = svg.find("<circle", at + 1)) {
        ++count;
    }
    return count;
}

}  // namespace

TEST_CASE("each place has its point, and the scale ends on a round number at or above the last") {
    const std::string svg = curve({379.0, 565.0, 851.4});
    CHECK(discs(svg) == 3);
    CHECK(contains(svg, ">1,000</text>"));
    CHECK(contains(svg, ">851</text>"));
    CHECK(contains(svg, ">C2</text>"));
    CHECK_FALSE(contains(svg, ">1,200</text>"));
}

TEST_CASE("of very many places some are named, and all have a point") {
    const std::string svg = curve(std::vector<double>(45, 12.0));
    CHECK(discs(svg) == 45);
    CHECK(contains(svg, ">C45</text>"));
    CHECK_FALSE(contains(svg, ">C2</text>"));
}

TEST_CASE("a curve of nothing, of nought and of losses is drawn too") {
    for (const std::vector<double>& totals :
         {std::vector<double>{}, std::vector<double>{0.0}, std::vector<double>{-5.0, 3.0}}) {
        const std::string svg = curve(totals);
        CHECK(discs(svg) == totals.size());
        CHECK_FALSE(contains(svg, "nan"));
        CHECK_FALSE(contains(svg, "inf"));
    }
}
