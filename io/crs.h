// Coordinate reference systems and the way into the one working CRS of a run (which that is:
// io/inputs/working_crs.h). Axis order is x = east, y = north everywhere (one factory sets it),
// heights are stripped, an "Undefined" CRS is none.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/plane.h"

class OGRSpatialReference;
class OGRCoordinateTransformation;

namespace farwater::io {

using Crs = std::shared_ptr<const OGRSpatialReference>;  // null = none
using CrsTransformation =
    std::shared_ptr<OGRCoordinateTransformation>;  // not for two threads at once

// The CRS that all results are in. Coordinates of the District are metres in it: its own
// coordinates times `metres_per_unit`.
struct WorkingCrs {
    std::string code;  // "EPSG:32618"; empty = no authority has it, see `wkt`
    std::string name;
    std::string wkt;                 // WKT 2
    std::string chosen;              // why this one, in one sentence
    double metres_per_unit = 1.0;    // 0.304800609601219 for US survey feet
    double worst_scale_error = 0.0;  // largest |scale - 1| over the district
};

// A box in the coordinates of some CRS.
struct CrsExtent {
    double west = 0.0, south = 0.0, east = 0.0, north = 0.0;
};
std::string printed(const CrsExtent& extent);  // "x 10 to 20, y 30 to 40"
std::vector<Point> spread_over(
    const CrsExtent& extent);  // 25 points, corners and middle among them

// From "EPSG:32618", WKT or any text that PROJ knows; null when it knows nothing of the kind.
Crs crs_from_text(const std::string& text);
// A cleaned copy of what a layer says: null for none and for "Undefined ..." ones.
Crs crs_from_layer(const OGRSpatialReference* of_layer);
Crs crs_of(const WorkingCrs& working);

// Same numbers for the same place (compared by parameters, not by code). False where one is null.
bool same_crs(const Crs& a, const Crs& b);
std::string code_of(const Crs& crs);  // "EPSG:32618"; empty for none
std::string wkt_of(const Crs& crs);   // WKT 2
std::string name_of(const Crs& crs);  // "EPSG:32618 (WGS 84 / UTM zone 18N)"

// Null when PROJ has no way between them. Precondition: neither is null.
CrsTransformation transformation(const Crs& from, const Crs& to);

// The run's record of a CRS. Precondition: not null.
WorkingCrs described_crs(const Crs& crs, std::string chosen, double worst_scale_error);

// From the coordinates of a layer to the working plane (metres). Not for two threads at once.
class ToPlane {
public:
    ToPlane(const Crs& from, const WorkingCrs& working);  // throws InputError when there is no way
    std::optional<Point> operator()(double x, double y) const;
    // In place; false when one point has no place there.
    bool transform(Polyline& line) const;

private:
    CrsTransformation transformation_;  // null = same CRS
    double metres_per_unit_;
};

// Back from the working plane to WGS 84. Not for two threads at once.
class ToDegrees {
public:
    explicit ToDegrees(const WorkingCrs& working);
    std::optional<Degrees> operator()(Point metres) const;  // none: there is no way

private:
    CrsTransformation transformation_;  // null = no way
    double metres_per_unit_;
};

}  // namespace farwater::io
