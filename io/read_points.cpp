#include "io/read_points.h"

#include <algorithm>
#include <array>
#include <filesystem>

#include <fmt/format.h>
#include <ogrsf_frmts.h>

#include "io/error.h"
#include "io/near_word.h"
#include "io/records/column_names.h"
#include "io/records/dataset.h"
#include "io/records/layer_records.h"
#include "io/records/parse_cell.h"
#include "io/records/record.h"
#include "io/records/record_shape.h"
#include "io/records/unique_ids.h"
#include "io/settings/schema.h"

namespace farwater::io {
namespace {

constexpr std::array point_fields{
    FieldRow{"id", FieldKind::text, false, 0, 0, nullptr, "what its records are called"},
};
constexpr SectionRow point_section{"points", true, ShapeNeed::place, point_fields, "any points"};

bool exists(const std::string& file) {
    std::error_code error;
    return std::filesystem::exists(file, error);
}

LayerSpec data_set(const std::string& text, const std::string& file, const std::string& layer) {
    LayerSpec spec;
    spec.section = text;
    spec.file = file;
    spec.path = exists(file) ? std::filesystem::path(file) : std::filesystem::path();
    spec.layer = layer;
    return spec;
}

// GDAL's own ways to name a source: "PG:dbname=x", "postgresql://...", "/vsizip/...".
bool is_gdal_connection(std::string_view text) {
    return text.starts_with("/vsi") || text.starts_with("PG:") ||
           text.find("://") != std::string_view::npos;
}

// A layer's name stands behind the last colon; what has these signs is a part of the connection.
bool may_be_layer(std::string_view text) {
    return !text.empty() && text.find_first_of("/=@'\"\\ ") == std::string_view::npos;
}

[[noreturn]] void fail_unknown(const DistrictFile& file, const std::string& text) {
    std::vector<std::string_view> names;
    for (const auto& [section, spec] : file.layers) {
        if (find_section(section)->shape == ShapeNeed::place || section == "parcels") {
            names.emplace_back(section);
        }
    }
    throw SettingsError(fmt::format(
        "\"{}\" is neither a layer of the district file ({}) nor a file; name one of these, or "
        "FILE or FILE:LAYER{}",
        printable_source(text), one_of(names), did_you_mean(text, names)));
}

// The first column whose name in lower case fits; empty where there is none.
template <class Fits>
std::string first_column(const std::vector<std::string>& names, Fits fits) {
    const auto found = std::ranges::find_if(
        names, [&](const std::string& name) { return fits(lower_case(name)); });
    return found == names.end() ? std::string() : *found;
}

std::string likely_id(const LayerSpec& spec, OGRLayer& layer) {
    std::vector<std::string> names = column_names(layer);
    // An address point's parcel_id is its parcel's.
    const auto parcels = spec.columns.find("parcel_id");
    std::erase_if(names, [&](const std::string& name) {
        return spec.section == "address_points" &&
               (name == "parcel_id" || (parcels != spec.columns.end() && name == parcels->second));
    });
    const std::string id = first_column(names, [](const std::string& name) {
        return name.ends_with("id") && name != "fid" && name != "ogc_fid";
    });
    return id.empty() ? first_column(names, [](const std::string& name) { return name == "name"; })
                      : id;
}

}  // namespace

LayerSpec spec_of_points(const DistrictFile& file, const std::string& text) {
    const auto section = file.layers.find(text);
    if (section != file.layers.end()) {
        const ShapeNeed shape = find_section(text)->shape;
        if (shape != ShapeNeed::place && shape != ShapeNeed::area) {
            throw SettingsError(fmt::format("{} of the district file has no points", text));
        }
        return section->second;
    }
    if (exists(text)) {
        return data_set(text, text, {});
    }
    const std::size_t colon = text.rfind(':');
    if (colon != std::string::npos && may_be_layer(std::string_view(text).substr(colon + 1))) {
        const std::string source = text.substr(0, colon);
        if (exists(source) || (is_gdal_connection(source) && source != "PG")) {
            return data_set(text, source, text.substr(colon + 1));
        }
    }
    if (is_gdal_connection(text)) {
        return data_set(text, text, {});
    }
    fail_unknown(file, text);
}

PointLayer read_points(const LayerSpec& spec, const std::optional<std::string>& id_column,
                       const WorkingCrs& crs, const Work& work) {
    LayerSpec points = spec;
    {
        const OpenLayer open = open_layer(spec);
        if (!open.crs) {
            fail_input(spec,
                       "the layer names no coordinate system; write it into the data, or make the "
                       "layer a section of the district file with crs = \"EPSG:...\"");
        }
        const std::string column = id_column.value_or(likely_id(spec, *open.layer));
        points.columns.clear();
        points.values.clear();
        points.units.clear();
        if (!column.empty()) {
            points.columns["id"] = column;
        }
    }
    const LayerSource source = open_source(points, point_section);
    const ShapeReader shapes(source, crs, Box{});
    UniqueIds ids;
    PointLayer layer{printable_source(spec.section), source.fields.front().column, {}};
    layer.points.log = for_each_record(source, work, [&](Record& record) {
        std::string id = ids.take(record, "id");
        const std::optional<PlaceShape> shape = shapes.place(record);
        if (!shape) {
            return Taken::no;
        }
        layer.points.rows.push_back({std::move(id), shape->place});
        return Taken::yes;
    });
    return layer;
}

}  // namespace farwater::io
