// Our own polygon arithmetic and WKB against OGR's.
#include <memory>
#include <random>

#include <catch2/catch.hpp>
#include <ogr_geometry.h>

#include "analyzer/geometry/polygon.h"
#include "io/records/shape.h"

using namespace farwater;
using namespace farwater::io;

namespace {

std::unique_ptr<OGRGeometry> from_wkt(const std::string& wkt) {
    OGRGeometry* shape = nullptr;
    OGRGeometryFactory::createFromWkt(wkt.c_str(), nullptr, &shape);
    return std::unique_ptr<OGRGeometry>(shape);
}

// A star with a hole, or two of them side by side; far from the origin like a map's coordinates.
MultiPolygon random_shape(std::mt19937& random) {
    std::uniform_real_distribution<double> shrink(0.3, 1.0);
    const std::size_t corners = 4 + random() % 20;
    MultiPolygon shape;
    for (std::size_t part = 0; part <= random() % 2; ++part) {
        const Point centre{700000.0 + 250.0 * static_cast<double>(part), 4770000.0};
        Polygon polygon;
        for (const double size : {100.0, 25.0}) {
            Polyline ring;
            for (std::size_t i = 0; i < corners; ++i) {
                const double angle =
                    6.283185307179586 * static_cast<double>(i) / static_cast<double>(corners);
                // The hole keeps inside the shell's smallest radius.
                const double radius = size * shrink(random);
                ring.push_back(
                    {centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)});
            }
            ring.push_back(ring.front());
            (polygon.shell.empty() ? polygon.shell : polygon.holes.emplace_back()) = ring;
        }
        if (random() % 2 == 0) {
            polygon.holes.clear();
        }
        shape.push_back(polygon);
    }
    return shape;
}

std::unique_ptr<OGRGeometry> in_ogr(const MultiPolygon& shape) {
    const std::vector<unsigned char> wkb = wkb_of(shape);
    OGRGeometry* geometry = nullptr;
    OGRGeometryFactory::createFromWkb(wkb.data(), nullptr, &geometry, wkb.size());
    return std::unique_ptr<OGRGeometry>(geometry);
}

bool same(const MultiPolygon& a, const MultiPolygon& b) {
    if (a.size() != b.size()) {
        return false;
    }
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (a[i].shell != b[i].shell || a[i].holes != b[i].holes) {
            return false;
        }
    }
    return true;
}

}  // namespace

TEST_CASE("area, containment and WKB agree with OGR on random shapes") {
    const unsigned seed = 4711;
    CAPTURE(seed);
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> x(699880.0, 700370.0);
    std::uniform_real_distribution<double> y(4769880.0, 4770120.0);
    int inside = 0;
    for (int round = 0; round < 400; ++round) {
        CAPTURE(round);
        const MultiPolygon shape = random_shape(random);
        const auto ogr = in_ogr(shape);
        REQUIRE(ogr);
        REQUIRE(same(polygons_of(*ogr).value(), shape));
        const double ogr_area = ogr->getGeometryType() == wkbPolygon
                                    ? ogr->toPolygon()->get_Area()
                                    : ogr->toMultiPolygon()->get_Area();
        REQUIRE(area_m2(shape) == Approx(ogr_area).epsilon(1e-9));
        REQUIRE(is_valid(shape) == (ogr->IsValid() != 0));
        const std::unique_ptr<OGRGeometry> border(ogr->Boundary());
        for (int i = 0; i < 25; ++i) {
            const OGRPoint point(x(random), y(random));
            if (point.Distance(border.get()) < 1e-6) {
                continue;
            }
            const bool contained = contains(shape, {point.getX(), point.getY()});
            inside += contained ? 1 : 0;
            REQUIRE(contained == (ogr->Contains(&point) != 0));
        }
        const auto place = inside_point(shape);
        REQUIRE(place);
        const OGRPoint point(place->x, place->y);
        REQUIRE(ogr->Contains(&point) != 0);
    }
    CHECK(inside > 1000);
}

TEST_CASE("the repair of a bow tie covers the same ground as OGR's") {
    const auto tie = from_wkt("POLYGON ((0 0,4 4,4 0,0 4,0 0))");
    const std::unique_ptr<OGRGeometry> by_ogr(tie->MakeValid());
    const auto ours = repaired(polygons_of(*tie).value());
    REQUIRE(ours);
    const std::unique_ptr<OGRGeometry> difference(in_ogr(*ours)->SymDifference(by_ogr.get()));
    REQUIRE(difference);
    CHECK((difference->IsEmpty() != 0 || difference->toSurface()->get_Area() < 1e-9));
}

TEST_CASE("heights are left out, curves become lines, single parts stay") {
    const auto raised = from_wkt("POLYGON Z ((0 0 5,4 0 5,4 4 5,0 0 5))");
    CHECK(area_m2(polygons_of(*raised).value()) == 8.0);
    const auto curved = from_wkt("CURVEPOLYGON (CIRCULARSTRING (0 0,2 2,4 0,2 -2,0 0))");
    CHECK(area_m2(polygons_of(*curved).value()) == Approx(3.14159 * 4.0).epsilon(0.01));
    const auto arc = from_wkt("CIRCULARSTRING (0 0,2 2,4 0)");
    CHECK(lines_of(*arc).value().at(0).size() > 10);
    const auto one = from_wkt("MULTIPOINT (3 4)");
    CHECK(point_of(*one).value() == Point{3, 4});
}

TEST_CASE("shapes of another kind are none") {
    CHECK_FALSE(polygons_of(*from_wkt("LINESTRING (0 0,1 1)")));
    CHECK_FALSE(lines_of(*from_wkt("POLYGON ((0 0,1 0,1 1,0 0))")));
    CHECK_FALSE(point_of(*from_wkt("MULTIPOINT (3 4,5 6)")));
    CHECK_FALSE(
        polygons_of(*from_wkt("GEOMETRYCOLLECTION (POINT (0 0),POLYGON ((0 0,1 0,1 1,0 0)))")));
    CHECK(
        polygons_of(*from_wkt("GEOMETRYCOLLECTION (POLYGON ((0 0,1 0,1 1,0 0)))")).value().size() ==
        1);
}
