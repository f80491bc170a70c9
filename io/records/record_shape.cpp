#include "io/records/record_shape.h"

#include <algorithm>

#include <fmt/format.h>
#include <ogr_geometry.h>

#include "io/records/shape.h"

namespace farwater::io {
namespace {

// A neighbour's station may be an hour away; a wrong coordinate system puts things farther off.
constexpr double reach_beyond_parcels_m = 100000.0;
// No road runs so far without a vertex: one of the two is no place (0 0, a lost digit). Longer
// steps would be cut into places for dump sites to the end of memory. Common practice, no source.
constexpr double longest_step_m = 100000.0;
// Roads and buildings that all lie farther off than this are those of another place.
constexpr double around_parcels_m = 1000.0;

bool overlap(const Box& a, const Box& b) {
    return a.low.x <= b.high.x && b.low.x <= a.high.x && a.low.y <= b.high.y && b.low.y <= a.high.y;
}

Box box_of_lines(const std::vector<Polyline>& lines) {
    Box box;
    for (const Polyline& line : lines) {
        for (const Point p : line) {
            box.include(p);
        }
    }
    return box;
}

bool has_length(const Polyline& line) { return in_metres(length_of(line)) > 0.0; }

// The first vertex from which the line leaps to one that is no place.
std::optional<std::size_t> leap_in(const Polyline& line) {
    for (std::size_t i = 1; i < line.size(); ++i) {
        if (in_metres(distance(line[i - 1], line[i])) > longest_step_m) {
            return i - 1;
        }
    }
    return std::nullopt;
}

void report_wrong_kind(Record& record, const OGRGeometry& shape, const std::string& mend = {}) {
    record.report(ProblemId::geometry_wrong_kind, {}, kind_of_shape(shape) + mend);
}

// Properties of which only points are there can be analysed, but not as parcels.
std::string mend_of_points(const std::string& section, const OGRGeometry& shape) {
    return section == "parcels" && point_of(shape)
               ? "; parcels are areas: address points beside them go in [address_points]; where "
                 "there are no areas name the points in [targets], and in [parcels] an outline of "
                 "the district with buildings = 0"
               : "";
}

// No such place: coordinates that the working CRS cannot draw.
void report_no_place(Record& record, const std::string& slip = {}) {
    record.report(ProblemId::geometry_outside_district, {},
                  "its coordinates have no place in the working CRS" + slip);
}

std::optional<Point> first_corner(const MultiPolygon& polygons) {
    for (const Polygon& polygon : polygons) {
        if (!polygon.shell.empty()) {
            return polygon.shell.front();
        }
    }
    return std::nullopt;
}

// None where nothing is left of them.
std::optional<AreaShape> mended(MultiPolygon polygons) {
    if (is_valid(polygons)) {
        return AreaShape{{}, std::move(polygons), std::nullopt};
    }
    std::optional<MultiPolygon> valid = repaired(polygons);
    return valid ? std::optional(AreaShape{{}, *valid, valid}) : std::nullopt;
}

void report_leap(Record& record, Point from, Point to) {
    record.report(ProblemId::geometry_outside_district, {},
                  fmt::format("it leaps from x {:.10g}, y {:.10g} to x {:.10g}, y {:.10g}", from.x,
                              from.y, to.x, to.y));
}

}  // namespace

std::string printed(const Box& box) {
    return fmt::format("x {:.0f} to {:.0f}, y {:.0f} to {:.0f}", box.low.x, box.high.x, box.low.y,
                       box.high.y);
}

void check_on_parcels(const LayerSpec& spec, const Box& extent, const Box& parcels) {
    if (!overlap(extent, grown(parcels, around_parcels_m))) {
        fail_input(
            spec,
            fmt::format(
                "the layer lies off the district: it covers {} of the working CRS, the parcels "
                "cover {}; correct its crs in [{}], or name the right layer",
                printed(extent), printed(parcels), spec.section));
    }
}

ShapeReader::ShapeReader(const LayerSource& source, const WorkingCrs& working, const Box& parcels)
    : to_plane_(source.open.crs, working),
      parcels_(parcels),
      reach_(grown(parcels, reach_beyond_parcels_m)),
      by_columns_(source.has_coordinates()),
      section_(source.section->name) {}

const OGRGeometry* ShapeReader::shape_of(Record& record) const {
    const OGRGeometry* shape = record.geometry();
    if (shape == nullptr) {
        record.report(ProblemId::geometry_missing, {}, {});
        return nullptr;
    }
    if (shape->IsEmpty() != 0) {
        record.report(ProblemId::geometry_empty, {}, {});
        return nullptr;
    }
    return shape;
}

bool ShapeReader::in_reach(const Box& box) const {
    return parcels_.empty() || overlap(box, reach_);
}

bool ShapeReader::in_reach(Record& record, const Box& box, const std::string& slip) const {
    if (in_reach(box)) {
        return true;
    }
    record.report(ProblemId::geometry_outside_district, {},
                  fmt::format("it lies within {}, the parcels within {}{}", printed(box),
                              printed(parcels_), slip));
    return false;
}

std::vector<Polyline> ShapeReader::lines(Record& record) const {
    const OGRGeometry* shape = shape_of(record);
    if (shape == nullptr) {
        return {};
    }
    std::optional<std::vector<Polyline>> lines = lines_of(*shape);
    if (!lines) {
        report_wrong_kind(record, *shape);
        return {};
    }
    const auto in_plane = [&](Polyline& line) { return to_plane(record, line); };
    if (!std::all_of(lines->begin(), lines->end(), in_plane)) {
        return {};
    }
    const Box box = box_of_lines(*lines);
    const std::size_t before = lines->size();
    std::erase_if(*lines, [](const Polyline& line) { return !has_length(line); });
    if (lines->empty()) {
        record.report(ProblemId::road_zero_length, {}, {});
    } else if (lines->size() < before) {
        record.report(ProblemId::geometry_repaired, {}, "parts without length were left out");
    }
    return in_reach(record, box, {}) ? std::move(*lines) : std::vector<Polyline>{};
}

bool ShapeReader::to_plane(Record& record, Polyline& line) const {
    if (!to_plane_.transform(line)) {
        report_no_place(record);
        return false;
    }
    const std::optional<std::size_t> leap = leap_in(line);
    if (leap) {
        report_leap(record, line[*leap], line[*leap + 1]);
    }
    return !leap;
}

bool ShapeReader::to_plane(MultiPolygon& shape) const {
    const auto move = [this](Polyline& ring) { return to_plane_.transform(ring); };
    return std::all_of(shape.begin(), shape.end(), [&](Polygon& polygon) {
        return move(polygon.shell) && std::all_of(polygon.holes.begin(), polygon.holes.end(), move);
    });
}

std::optional<AreaShape> ShapeReader::area(Record& record) const {
    std::optional<MultiPolygon> polygons = polygons_in(record);
    if (!polygons) {
        return std::nullopt;
    }
    std::optional<AreaShape> area = mended(std::move(*polygons));
    if (!area) {
        record.report(ProblemId::geometry_beyond_repair, {}, {});
        return std::nullopt;
    }
    return in_plane(record, std::move(*area));
}

std::optional<AreaShape> ShapeReader::in_plane(Record& record, AreaShape area) const {
    if (!to_plane(area.shape)) {
        report_no_place(record);
        return std::nullopt;
    }
    const std::optional<Point> inside = inside_point(area.shape);
    if (!inside) {
        record.report(ProblemId::geometry_beyond_repair, {}, {});
        return std::nullopt;
    }
    if (!in_reach(record, box_of(area.shape), {})) {
        return std::nullopt;
    }
    if (area.repaired) {
        record.report(ProblemId::geometry_repaired, {}, {});
    }
    area.inside = *inside;
    return area;
}

std::optional<MultiPolygon> ShapeReader::polygons_in(Record& record) const {
    const OGRGeometry* shape = shape_of(record);
    if (shape == nullptr) {
        return std::nullopt;
    }
    std::optional<MultiPolygon> polygons = polygons_of(*shape);
    if (!polygons) {
        report_wrong_kind(record, *shape, mend_of_points(section_, *shape));
    }
    return polygons;
}

std::optional<PlaceShape> ShapeReader::place(Record& record) const {
    if (by_columns_ && record.geometry() == nullptr) {
        return place_of_columns(record);
    }
    const OGRGeometry* shape = shape_of(record);
    if (shape == nullptr) {
        return std::nullopt;
    }
    const std::optional<Point> point = point_of(*shape);
    return point ? place_of_point(record, *point) : place_of_area(record);
}

std::optional<PlaceShape> ShapeReader::place_of_columns(Record& record) const {
    const std::size_t before = record.problems().size();
    const std::optional<double> x = record.coordinate("x");
    const std::optional<double> y = record.coordinate("y");
    if (!x || !y) {
        const auto sets_aside = [](const Problem& problem) {
            return kind_of(problem.id).severity == Severity::set_aside;
        };
        if (!std::ranges::any_of(record.problems().begin() + static_cast<std::ptrdiff_t>(before),
                                 record.problems().end(), sets_aside)) {
            record.report(ProblemId::geometry_missing, {}, {});
        }
        return std::nullopt;
    }
    return place_of_point(record, {*x, *y});
}

// What hands slip on most: latitude before longitude, and a west without its minus.
std::string ShapeReader::slip_of(Point point) const {
    const auto would_fit = [this](double x, double y) {
        const std::optional<Point> place = to_plane_(x, y);
        Box box;
        box.include(place.value_or(Point()));
        return place && !parcels_.empty() && in_reach(box);
    };
    if (would_fit(point.y, point.x)) {
        return "; it would lie there with x and y exchanged";
    }
    return would_fit(-point.x, point.y) ? "; it would lie there with the other sign of x" : "";
}

std::optional<PlaceShape> ShapeReader::place_of_point(Record& record, Point point) const {
    const std::optional<Point> place = to_plane_(point.x, point.y);
    if (!place) {
        report_no_place(record, slip_of(point));
        return std::nullopt;
    }
    Box box;
    box.include(*place);
    const bool there = in_reach(box) || in_reach(record, box, slip_of(point));
    return there ? std::optional(PlaceShape{*place, 0.0, {}}) : std::nullopt;
}

std::optional<PlaceShape> ShapeReader::place_of_area(Record& record) const {
    std::optional<MultiPolygon> polygons = polygons_in(record);
    const std::optional<Point> corner = polygons ? first_corner(*polygons) : std::nullopt;
    if (!corner) {
        return std::nullopt;
    }
    std::optional<AreaShape> area = mended(std::move(*polygons));
    if (!area) {
        record.report(ProblemId::geometry_repaired, {},
                      "it encloses nothing; its first corner is its place");
        return place_of_point(record, *corner);
    }
    area = in_plane(record, std::move(*area));
    if (!area) {
        return std::nullopt;
    }
    const double size = area_m2(area->shape);
    return PlaceShape{area->inside, size, std::move(area->shape)};
}

}  // namespace farwater::io
