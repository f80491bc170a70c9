#include "reports/layer_styles.h"

#include <algorithm>
#include <array>
#include <memory>
#include <vector>

#include <fmt/format.h>

#include "reports/layers/table_builder.h"

namespace farwater::reports {
namespace {

using enum io::ShapeKind;
using enum RowLook::Pattern;
using enum RowLook::Marker;

constexpr std::string_view water_blue = "#0b5c8c";
constexpr std::string_view dark_ink = "#1d2b33";
constexpr std::string_view brown = "#7f3b08";

// The diverging PuOr ramp (ColorBrewer), which colour-blind readers can tell apart; the three
// states without a held flow differ in their pattern.
constexpr std::array area_states{
    RowLook{"held", "meets planned flow", "#542788", "#ffffff", 0.4},
    RowLook{"late", "meets it late", "#998ec3", "#ffffff", 0.4},
    RowLook{"short", "short of it", "#f1a340", "#ffffff", 0.4},
    RowLook{"tank_only", "water on wheels only", "#b35806", "#b35806", 0.6, diagonals},
    RowLook{"unreached", "no way there", brown, brown, 0.6, grid},
    RowLook{"unknown", "not known", "#dddddd", "#555555", 0.6},
    RowLook{"no_building", "no building", "", "#c9c4b4", 0.4},
};
constexpr std::array target_states{
    RowLook{"held", "meets planned flow", "#542788", "#ffffff", 1.0, plain, circle},
    RowLook{"late", "meets it late", "#998ec3", "#542788", 1.0, plain, diamond},
    RowLook{"short", "short of it", "#f1a340", brown, 1.0, plain, triangle},
    RowLook{"tank_only", "water on wheels only", "#ffffff", "#b35806", 1.5, plain, square},
    RowLook{"unreached", "no way there", "#ffffff", brown, 1.5, plain, triangle},
    RowLook{"unknown", "not known", "#dddddd", "#555555", 1.0, plain, circle},
    RowLook{"no_building", "no building", "#ffffff", "#c9c4b4", 1.0, plain, circle},
};
constexpr std::array road_looks{
    RowLook{"open", "open", "", "#6f6a5d", 1.4},
    RowLook{"private", "private", "", "#8b7f66", 1.0},
    RowLook{"gated", "gated", "", "#a3123a", 1.2, plain, circle, true},
    RowLook{"unmaintained", "unmaintained", "", "#8b7f66", 1.0, plain, circle, true},
    RowLook{"closed", "closed", "", "#c9c4b4", 1.0, plain, circle, true},
};
constexpr std::array directions{
    RowLook{"loaded", "loaded, to the dump site", "", water_blue, 2.0},
    RowLook{"empty", "empty, back to the fill site", "", "#3c7a3c", 1.5, plain, circle, true},
};
constexpr std::array source_kinds{
    RowLook{"hydrant", "hydrant", water_blue, "#ffffff", 1.0, plain, triangle},
    RowLook{"dry_hydrant", "dry hydrant", water_blue, "#ffffff", 1.0, plain, circle},
    RowLook{"draft_site", "draft site", water_blue, "#ffffff", 1.0, plain, diamond},
    RowLook{"cistern", "cistern", water_blue, "#ffffff", 1.0, plain, square},
};
constexpr std::array proposed_kinds{
    RowLook{"dry_hydrant", "proposed dry hydrant", "#ffffff", "#1c7c54", 2.0, plain, circle},
    RowLook{"draft_site", "proposed draft site", "#ffffff", "#1c7c54", 2.0, plain, diamond},
    RowLook{"cistern", "proposed cistern", "#ffffff", "#1c7c54", 2.0, plain, square},
    RowLook{"hydrant", "proposed hydrant", "#ffffff", "#1c7c54", 2.0, plain, triangle},
};
constexpr std::array lane_classes{
    RowLook{"through", "tankers drive through", "#ffffff", dark_ink, 1.2, plain, circle},
    RowLook{"dead_end", "tankers back or turn", "#ffffff", dark_ink, 1.2, plain, square},
};

// The ramps of the map page: viridis (van der Walt and Smith 2015) and PuOr.
constexpr std::array flow_looks{
    RowLook{"none", "no flow that keeps coming", "#b35806", "#b35806", 0.6, diagonals},
    RowLook{"25_to_225", "25 to 225 gpm", "#fde725", "#ffffff", 0.4},
    RowLook{"250_to_475", "250 to 475 gpm", "#7ad151", "#ffffff", 0.4},
    RowLook{"500_to_700", "500 to 700 gpm", "#22a884", "#ffffff", 0.4},
    RowLook{"750_to_950", "750 to 950 gpm", "#2a788e", "#ffffff", 0.4},
    RowLook{"1000_to_1450", "1,000 to 1,450 gpm", "#414487", "#ffffff", 0.4},
    RowLook{"1500_and_more", "1,500 gpm and more", "#440154", "#ffffff", 0.4},
    RowLook{"unknown", "not known", "#dddddd", "#555555", 0.6},
};
constexpr std::array shortfall_looks{
    RowLook{"up_to_100", "most short by up to 100 gpm", "", "#f1a340", 2.0},
    RowLook{"up_to_250", "most short by up to 250 gpm", "", "#e08214", 2.5},
    RowLook{"up_to_500", "most short by up to 500 gpm", "", "#b35806", 3.0},
    RowLook{"more_than_500", "most short by more than 500 gpm", "", brown, 3.5},
};

// Between two results; better and worse differ in lightness, what came and went in its pattern.
constexpr std::array area_outcomes{
    RowLook{"no_longer_met", "no longer meets its planned flow", brown, brown, 1.2, diagonals},
    RowLook{"worse", "in a worse state", "#f1a340", "#7f3b08", 0.6},
    RowLook{"newly_met", "newly meets its planned flow", "#542788", "#ffffff", 0.4},
    RowLook{"better", "in a better state", "#998ec3", "#542788", 0.6},
    RowLook{"more_missing", "same state, more missing", "#fee0b6", "#7f3b08", 0.4},
    RowLook{"less_missing", "same state, less missing", "#d8daeb", "#542788", 0.4},
    RowLook{"same_state", "same state, other numbers", "#dddddd", "#999999", 0.4},
    RowLook{"came", "only in the later result", dark_ink, dark_ink, 0.8, grid},
    RowLook{"gone", "only in the earlier result", "", dark_ink, 1.5},
    RowLook{"building_came", "has a building now", water_blue, water_blue, 0.8, grid},
    RowLook{"building_gone", "has no building any more", "", water_blue, 1.5},
    RowLook{"state_not_told", "a result does not tell its state", "#dddddd", "#555555", 0.6},
    RowLook{"not_compared", "not compared: id blank or twice", "", "#a3123a", 1.5},
};
constexpr std::array target_outcomes{
    RowLook{"no_longer_met", "no longer meets its planned flow", "#ffffff", brown, 2.0, plain,
            square},
    RowLook{"worse", "in a worse state", "#f1a340", brown, 1.0, plain, triangle},
    RowLook{"newly_met", "newly meets its planned flow", "#542788", "#ffffff", 1.0, plain, circle},
    RowLook{"better", "in a better state", "#998ec3", "#542788", 1.0, plain, diamond},
    RowLook{"more_missing", "same state, more missing", "#fee0b6", brown, 1.0, plain, triangle},
    RowLook{"less_missing", "same state, less missing", "#d8daeb", "#542788", 1.0, plain, diamond},
    RowLook{"same_state", "same state, other numbers", "#dddddd", "#999999", 1.0, plain, circle},
    RowLook{"came", "only in the later result", "#ffffff", dark_ink, 1.2, plain, diamond},
    RowLook{"gone", "only in the earlier result", "", dark_ink, 1.2, plain, circle},
    RowLook{"building_came", "has a building now", "#ffffff", water_blue, 1.2, plain, diamond},
    RowLook{"building_gone", "has no building any more", "", water_blue, 1.2, plain, circle},
    RowLook{"state_not_told", "a result does not tell its state", "#dddddd", "#555555", 1.0, plain,
            square},
    RowLook{"not_compared", "not compared: id blank or twice", "", "#a3123a", 1.5, plain, square},
};

constexpr std::array looks_of_layers{
    LayerLook{"flow_zones", "Ground by the flow that is held", areas, "band", flow_looks},
    LayerLook{"parcel_supply", "Water supply of parcels", polygon, "state", area_states},
    LayerLook{"shortfall_zones", "Neighbours that miss their planned flow", areas, "short_by",
              shortfall_looks},
    LayerLook{"road_times", "Roads by access", line, "road_access", road_looks},
    LayerLook{"shuttle_routes", "Ways of the shuttles", line, "direction", directions},
    LayerLook{"dump_sites", "Dump sites by lane", point, "lane_class", lane_classes, 6},
    LayerLook{"fill_sites", "Fill sites by kind", point, "kind", source_kinds},
    LayerLook{"source_proposals", "Proposed sources by kind", point, "kind", proposed_kinds, 8},
    LayerLook{"target_supply", "Water supply of target hazards", point, "state", target_states},
    LayerLook{"parcel_changes", "Parcels that changed, came or went", areas, "outcome",
              area_outcomes},
    LayerLook{"target_changes", "Targets that changed, came or went", point, "outcome",
              target_outcomes},
};

// --- Styled Layer Descriptor ---------------------------------------------------------------------

std::string css(std::string_view name, std::string_view value) {
    return fmt::format("<CssParameter name=\"{}\">{}</CssParameter>", name, value);
}

std::string sld_stroke(const RowLook& row) {
    return fmt::format("<Stroke>{}{}{}</Stroke>", css("stroke", row.stroke),
                       css("stroke-width", fmt::format("{:.1f}", row.stroke_px)),
                       row.dashed ? css("stroke-dasharray", "6 3") : "");
}

std::string sld_mark(std::string_view name, const std::string& inside, int size, int rotation) {
    return fmt::format(
        "<Graphic><Mark><WellKnownName>{}</WellKnownName>{}</Mark><Size>{}</Size><Rotation>{}"
        "</Rotation></Graphic>",
        name, inside, size, rotation);
}

std::string sld_fill(const RowLook& row) {
    if (row.fill.empty()) {
        return "";
    }
    if (row.pattern == plain) {
        return "<Fill>" + css("fill", row.fill) + "</Fill>";
    }
    return fmt::format("<Fill><GraphicFill>{}</GraphicFill></Fill>",
                       sld_mark(row.pattern == diagonals ? "x" : "cross", sld_stroke(row), 8, 0));
}

std::string sld_symbol(const LayerLook& look, const RowLook& row) {
    switch (look.shape) {
        case polygon:
        case areas:
            return fmt::format("<PolygonSymbolizer>{}{}</PolygonSymbolizer>", sld_fill(row),
                               sld_stroke(row));
        case line:
            return fmt::format("<LineSymbolizer>{}</LineSymbolizer>", sld_stroke(row));
        case point:
        case none:
            break;
    }
    // The standard knows no diamond: a square that stands on its corner.
    constexpr std::array marks{"circle", "square", "square", "triangle"};
    return fmt::format(
        "<PointSymbolizer>{}</PointSymbolizer>",
        sld_mark(marks.at(static_cast<std::size_t>(row.marker)), sld_fill(row) + sld_stroke(row),
                 10, row.marker == diamond ? 45 : 0));
}

// --- QGIS ----------------------------------------------------------------------------------------

std::string_view red_green_blue(std::string_view colour, std::array<char, 24>& room) {
    const auto part = [&](std::size_t at) {
        return std::stoi(std::string(colour.substr(at, 2)), nullptr, 16);
    };
    const auto end =
        fmt::format_to_n(room.data(), room.size(), "{},{},{},255", part(1), part(3), part(5));
    return {room.data(), end.size};
}

std::string property(std::string_view name, std::string_view value) {
    return fmt::format("<prop k=\"{}\" v=\"{}\"/>", name, value);
}
std::string colour(std::string_view name, std::string_view value) {
    std::array<char, 24> room{};
    return property(name, value.empty() ? "255,255,255,0" : red_green_blue(value, room));
}
std::string width(std::string_view name, const RowLook& row) {
    return property(name, fmt::format("{:.1f}", row.stroke_px)) +
           property(std::string(name) + "_unit", "Pixel");
}

std::string qml_properties(const LayerLook& look, const RowLook& row) {
    if (look.shape == line) {
        return colour("line_color", row.stroke) + width("line_width", row) +
               property("line_style", row.dashed ? "dash" : "solid");
    }
    const std::string outline = colour("outline_color", row.stroke) + width("outline_width", row);
    if (look.shape == polygon || look.shape == areas) {
        constexpr std::array styles{"solid", "diagonal_x", "cross"};
        return colour("color", row.fill) + outline +
               property("style",
                        row.fill.empty() ? "no" : styles.at(static_cast<std::size_t>(row.pattern)));
    }
    constexpr std::array names{"circle", "square", "diamond", "triangle"};
    return colour("color", row.fill) + outline +
           property("name", names.at(static_cast<std::size_t>(row.marker))) +
           property("size", std::to_string(look.marker_px)) + property("size_unit", "Pixel");
}

}  // namespace

std::span<const LayerLook> layer_looks() { return looks_of_layers; }

std::string sld_of(const LayerLook& look) {
    std::string rules;
    for (const RowLook& row : look.rows) {
        rules += fmt::format(
            "<Rule><Name>{0}</Name><Title>{1}</Title><ogc:Filter><ogc:PropertyIsEqualTo>"
            "<ogc:PropertyName>{2}</ogc:PropertyName><ogc:Literal>{0}</ogc:Literal>"
            "</ogc:PropertyIsEqualTo></ogc:Filter>{3}</Rule>",
            row.value, row.legend, look.column, sld_symbol(look, row));
    }
    return fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?><StyledLayerDescriptor version=\"1.0.0\" "
        "xmlns=\"http://www.opengis.net/sld\" xmlns:ogc=\"http://www.opengis.net/ogc\"><NamedLayer>"
        "<Name>{0}</Name><UserStyle><Title>{1}</Title><FeatureTypeStyle>{2}</FeatureTypeStyle>"
        "</UserStyle></NamedLayer></StyledLayerDescriptor>",
        look.layer, look.title, rules);
}

std::string qml_of(const LayerLook& look) {
    constexpr std::array kinds{"", "marker", "line", "fill", "fill"};
    constexpr std::array classes{"", "SimpleMarker", "SimpleLine", "SimpleFill", "SimpleFill"};
    const auto shape = static_cast<std::size_t>(look.shape);
    std::string categories;
    std::string symbols;
    for (std::size_t i = 0; i < look.rows.size(); ++i) {
        const RowLook& row = look.rows[i];
        categories +=
            fmt::format("<category symbol=\"{}\" value=\"{}\" label=\"{}\" render=\"true\"/>", i,
                        row.value, row.legend);
        symbols += fmt::format(
            "<symbol name=\"{}\" type=\"{}\" alpha=\"1\"><layer class=\"{}\" enabled=\"1\" "
            "pass=\"0\" locked=\"0\">{}</layer></symbol>",
            i, kinds.at(shape), classes.at(shape), qml_properties(look, row));
    }
    return fmt::format(
        "<qgis version=\"3.22\" styleCategories=\"Symbology\"><renderer-v2 "
        "type=\"categorizedSymbol\" attr=\"{}\" symbollevels=\"0\"><categories>{}</categories>"
        "<symbols>{}</symbols></renderer-v2></qgis>",
        look.column, categories, symbols);
}

io::FeatureTable layer_styles(std::span<const std::string> layers) {
    struct Style {
        LayerLook look;
        std::string sld, qml;
    };
    const auto styles = std::make_shared<std::vector<Style>>();
    for (const LayerLook& look : looks_of_layers) {
        if (std::ranges::find(layers, look.layer) != layers.end()) {
            styles->push_back({look, sld_of(look), qml_of(look)});
        }
    }
    const auto of_style = [styles](auto part) {
        return [styles, part](std::size_t row) {
            return io::Value{std::string_view(part((*styles)[row]))};
        };
    };
    const auto same = [](std::string_view value) {
        return [value](std::size_t) { return io::Value{value}; };
    };
    const auto title = of_style([](const Style& style) { return style.look.title; });
    return table({"layer_styles", "Styles of the layers", "How a desktop GIS draws the layers."},
                 {
                     text("f_table_catalog", "Empty.", same("")),
                     text("f_table_schema", "Empty.", same("")),
                     text("f_table_name", "Layer.",
                          of_style([](const Style& style) { return style.look.layer; })),
                     text("f_geometry_column", "Its column with the shapes.", same("geom")),
                     text("styleName", "Name of the style.", title),
                     text("styleQML", "As QGIS stores it.",
                          of_style([](const Style& style) { return std::string_view(style.qml); })),
                     text("styleSLD", "Styled Layer Descriptor 1.0.0.",
                          of_style([](const Style& style) { return std::string_view(style.sld); })),
                     yes_no("useAsDefault", "To be used when the layer is opened.",
                            [](std::size_t) { return io::Value{true}; }),
                     text("description", "What it shows.", title),
                     text("owner", "Empty.", same("")),
                     text("ui", "Empty.", same("")),
                     text("update_time", "Empty: the clock would make every run differ.", same("")),
                 },
                 styles->size());
}

}  // namespace farwater::reports
