#include "reports/text/svg.h"

#include <catch2/catch.hpp>

using namespace farwater;
using namespace farwater::reports;

TEST_CASE("hostile text cannot leave its place in the picture", "[unit]") {
    CHECK(escaped("</title><script>alert('x')</script>") ==
          "&lt;/title&gt;&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;");
    CHECK(escaped("Ham & \"Eggs\" Road") == "Ham &amp; &quot;Eggs&quot; Road");
    CHECK(escaped("Chemin de l\u00c9glise") == "Chemin de l\u00c9glise");
}

TEST_CASE("bytes that are no text are shown as such", "[unit]") {
    const std::string unknown = "\xEF\xBF\xBD";
    CHECK(escaped("a\xFFz") == "a" + unknown + "z");
    CHECK(escaped(std::string_view("a\0z", 3)) == "a" + unknown + "z");
    CHECK(escaped("\xC3") == unknown);                              // cut off
    CHECK(escaped("\xC0\x80") == unknown + unknown);                // overlong
    CHECK(escaped("\xED\xA0\x80") == unknown + unknown + unknown);  // surrogate
    CHECK(escaped("\xF4\x90\x80\x80") == unknown + unknown + unknown + unknown);
}

TEST_CASE("the page keeps one scale and north up", "[unit]") {
    Box box;
    box.include({0, 0});
    box.include({200, 100});
    const PageFit fit(box, 10, 20, 100, 100);
    CHECK(fit.units_per_metre() == Approx(0.5));
    CHECK(fit({0, 0}).x == Approx(10));
    CHECK(fit({200, 0}).x == Approx(110));
    CHECK(fit({0, 100}).y == Approx(45));
    CHECK(fit({0, 0}).y == Approx(95));
}

TEST_CASE("a district of one point, or of none, still has a page", "[unit]") {
    Box point;
    point.include({5, 5});
    CHECK(PageFit(point, 0, 0, 100, 100)({5, 5}).x == Approx(50));
    CHECK(PageFit(Box{}, 0, 0, 100, 100)({0, 0}).y == Approx(50));
}

TEST_CASE("points that fall on the one before are left out of a path", "[unit]") {
    Box box;
    box.include({0, 0});
    box.include({100, 100});
    const PageFit fit(box, 0, 0, 100, 100);
    CHECK(path_data({{0, 0}, {0.01, 0.01}, {50, 50}}, fit) == "M0.0 100.0L50.0 50.0");
    CHECK(path_data({}, fit).empty());
}
