// How a desktop GIS draws the layers of supply.gpkg when it opens them: one style per layer, stored
// in the customary table layer_styles.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "io/feature_table.h"

namespace farwater::reports {

// How the rows with one value of the layer's column look. Colours are "#rrggbb".
struct RowLook {
    std::string_view value;
    std::string_view legend;
    std::string_view fill;    // of areas and markers; empty: none
    std::string_view stroke;  // of outlines and lines
    double stroke_px = 1.0;
    enum class Pattern : std::uint8_t {
        plain,
        diagonals,
        grid
    } pattern = Pattern::plain;  // of areas
    enum class Marker : std::uint8_t { circle, square, diamond, triangle } marker = Marker::circle;
    bool dashed = false;  // lines
};

struct LayerLook {
    std::string_view layer;
    std::string_view title;
    io::ShapeKind shape;
    std::string_view column;  // text; a value without a look is not drawn
    std::span<const RowLook> rows;
    int marker_px = 10;
};

// Later ones are meant to lie above earlier ones.
std::span<const LayerLook> layer_looks();

// Styled Layer Descriptor 1.0.0 (OGC 02-070); every GIS that knows the standard can load it.
std::string sld_of(const LayerLook& look);

// The same as QGIS stores it, since that is what QGIS applies by itself; empty elements that it
// fills in are left out.
std::string qml_of(const LayerLook& look);

// Table layer_styles with the column names that QGIS and GDAL know: a row for each of these layers
// that has a look.
io::FeatureTable layer_styles(std::span<const std::string> layers);

}  // namespace farwater::reports
