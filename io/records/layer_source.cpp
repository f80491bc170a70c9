#include "io/records/layer_source.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <ogrsf_frmts.h>

#include "analyzer/district/problem.h"
#include "io/draft/look_at_layer.h"
#include "io/error.h"
#include "io/files/letters.h"
#include "io/files/why_unreadable.h"
#include "io/inputs/road_schemas.h"
#include "io/near_word.h"
#include "io/records/column_names.h"
#include "io/records/parse_cell.h"
#include "io/records/unit_words.h"

namespace farwater::io {
namespace {

std::string has_columns(const LayerSpec& spec, const std::vector<std::string>& names) {
    if (!names.empty()) {
        return fmt::format("the layer has {}", fmt::join(names, ", "));
    }
    const std::string missing = missing_beside(spec.path);
    return missing.empty() ? "the layer has no columns" : "the layer has no columns: " + missing;
}

bool is_fid_column(OGRLayer& layer, std::string_view name) {
    const std::string_view own = layer.GetFIDColumn();
    return lower_case(name) == (own.empty() ? "fid" : lower_case(own));
}

std::string no_column(const LayerSpec& spec, std::string_view wanted, std::string_view purpose,
                      const std::vector<std::string>& names) {
    const std::vector<std::string_view> views(names.begin(), names.end());
    return fmt::format("there is no column \"{}\" for {}{}; {}", wanted, purpose,
                       did_you_mean(wanted, views), has_columns(spec, names));
}

// The position of the column that the name means; -1 when there is none. Several are a fault of the
// table: the values of one would be lost, and nobody would see which.
int position_of(const LayerSpec& spec, std::string_view name,
                const std::vector<std::string>& names) {
    const std::vector<int> places = columns_called(name, names);
    if (places.size() > 1) {
        std::vector<std::string> meant;
        for (const int place : places) {
            meant.push_back(fmt::format("\"{}\"", names[static_cast<std::size_t>(place)]));
        }
        const bool same = std::ranges::count(meant, meant.front()) > 1;
        fail_input(spec, fmt::format("{} columns can be \"{}\": {}; {}", places.size(), name,
                                     fmt::join(meant, ", "),
                                     same ? "give each a name of its own"
                                          : "name one in columns as it is written"));
    }
    return places.empty() ? -1 : places.front();
}

// The column of this name, which must exist.
BoundField bound_column(const LayerSpec& spec, std::string_view wanted, std::string_view purpose,
                        OGRLayer& layer, const std::vector<std::string>& names) {
    BoundField bound;
    bound.index = position_of(spec, wanted, names);
    bound.is_fid = bound.index < 0 && is_fid_column(layer, wanted);
    if (bound.index < 0 && !bound.is_fid) {
        fail_input(spec, no_column(spec, wanted, purpose, names));
    }
    bound.column =
        bound.is_fid ? std::string(wanted) : names[static_cast<std::size_t>(bound.index)];
    return bound;
}

bool same_name(std::string_view a, std::string_view b) { return lower_case(a) == lower_case(b); }

// What the section's schema presets for the field, unless the section names another column.
const PresetColumn* preset_of(const LayerSpec& spec, const FieldRow& field) {
    const RoadSchema* schema = find_road_schema(spec.schema);
    const PresetColumn* preset = schema == nullptr ? nullptr : preset_column(*schema, field.name);
    const auto mapped = spec.columns.find(field.name);
    const bool elsewhere = preset != nullptr && mapped != spec.columns.end() &&
                           !same_name(mapped->second, preset->column);
    return elsewhere ? nullptr : preset;
}

[[noreturn]] void fail_schema_column(const LayerSpec& spec, const PresetColumn& preset,
                                     const std::vector<std::string>& names) {
    fail_input(
        spec, fmt::format("schema = \"{}\" needs a column {} for {}; name another in [{}] columns, "
                          "or leave schema out; {}",
                          spec.schema, preset.column, preset.field, spec.section,
                          has_columns(spec, names)));
}

// Houses in the place of parcels seldom have ids: their size tells them.
std::string small_as_houses(const LayerSpec& spec, OGRLayer& layer) {
    constexpr double largest_house_sqft = 6000.0;
    if (spec.section != "parcels") {
        return {};
    }
    const double middle_sqft = look_at_layer(layer, {.samples = true, .counts = false}).middle_sqft;
    return middle_sqft > 0.0 && middle_sqft < largest_house_sqft
               ? fmt::format(
                     "; its areas are as small as houses, {:.0f} sqft in the middle: "
                     "buildings are named in [buildings], and [parcels] takes the lots "
                     "they stand on",
                     middle_sqft)
               : "";
}

// The column of the field, unbound where there is none.
BoundField column_of(const LayerSpec& spec, const FieldRow& field, const PresetColumn* preset,
                     OGRLayer& layer, const std::vector<std::string>& names) {
    const auto mapped = spec.columns.find(field.name);
    if (mapped != spec.columns.end()) {
        return bound_column(spec, mapped->second, field.name, layer, names);
    }
    if (preset != nullptr && position_of(spec, preset->column, names) >= 0) {
        return bound_column(spec, preset->column, field.name, layer, names);
    }
    if (preset != nullptr && field.name == "class") {
        fail_schema_column(spec, *preset, names);
    }
    if (position_of(spec, field.name, names) >= 0) {
        return bound_column(spec, field.name, field.name, layer, names);
    }
    if (field.required) {
        fail_input(spec, fmt::format("there is no column for {}; name it in [{}] columns{}; {}",
                                     field.name, spec.section, small_as_houses(spec, layer),
                                     has_columns(spec, names)));
    }
    return {};
}

BoundField bound_field(const LayerSpec& spec, const FieldRow& field, OGRLayer& layer,
                       const std::vector<std::string>& names) {
    const PresetColumn* preset = preset_of(spec, field);
    BoundField bound = column_of(spec, field, preset, layer, names);
    bound.field = &field;
    const auto values = spec.values.find(field.name);
    bound.values = values == spec.values.end() ? ValueMap() : values->second;
    const bool by_schema = preset != nullptr && same_name(bound.column, preset->column);
    bound.schema = by_schema ? find_road_schema(spec.schema) : nullptr;
    const auto unit = spec.units.find(field.name);
    bound.ours = unit_of_name(field.name);
    bound.unit = unit != spec.units.end()             ? unit->second
                 : by_schema && !preset->unit.empty() ? std::string(preset->unit)
                                                      : std::string(bound.ours);
    bound.factor = unit_factor(bound.unit, bound.ours).value_or(1.0);
    return bound;
}

// The schema's further columns, those that are there.
std::vector<BoundField> further_columns(const LayerSpec& spec, OGRLayer& layer,
                                        const std::vector<std::string>& names) {
    std::vector<BoundField> further;
    if (const RoadSchema* schema = find_road_schema(spec.schema)) {
        for (const std::string_view column : schema->further) {
            const bool there = position_of(spec, column, names) >= 0;
            further.push_back(there ? bound_column(spec, column, "the schema", layer, names)
                                    : BoundField{});
        }
    }
    return further;
}

bool is_needed(const LayerSource& source, int index) {
    const auto at_index = [index](const BoundField& bound) { return bound.index == index; };
    return std::any_of(source.fields.begin(), source.fields.end(), at_index) ||
           std::any_of(source.also.begin(), source.also.end(), at_index);
}

// Columns that no field needs are not fetched. Not with a filter: some drivers filter what they
// fetched.
void ignore_the_rest(const LayerSource& source, const std::vector<std::string>& names) {
    if (!source.spec.where.empty() || source.open.layer->TestCapability(OLCIgnoreFields) == 0) {
        return;
    }
    std::vector<const char*> ignored;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (!is_needed(source, static_cast<int>(i))) {
            ignored.push_back(names[i].c_str());
        }
    }
    if (source.section->shape == ShapeNeed::none) {
        ignored.push_back("OGR_GEOMETRY");
    }
    ignored.push_back(nullptr);
    source.open.layer->SetIgnoredFields(ignored.data());
}

// Of a table without shapes points can be told by two columns.
void check_shapes(const LayerSource& source, const std::vector<std::string>& names) {
    const bool has_shapes = source.open.layer->GetGeomType() != wkbNone;
    if (source.section->shape == ShapeNeed::none || has_shapes || source.has_coordinates()) {
        return;
    }
    const std::string mend =
        find_field(*source.section, "x") == nullptr
            ? std::string()
            : fmt::format(
                  "; name the columns of its coordinates in [{}] columns, such as x = "
                  "\"LON\" and y = \"LAT\"",
                  source.spec.section);
    fail_input(source.spec,
               fmt::format("the layer has no shapes{}; {}", mend, has_columns(source.spec, names)));
}

void check_crs(const LayerSource& source) {
    if (source.section->shape != ShapeNeed::none && !source.open.crs) {
        fail_input(
            source.spec,
            fmt::format("the layer names no coordinate system; add crs = \"EPSG:...\" to [{}]{}",
                        source.spec.section,
                        source.has_coordinates() ? ", \"EPSG:4326\" where it has degrees" : ""));
    }
}

// How the rows of a CSV file fit its head. Throws where GDAL would lose some of it.
std::optional<CsvRows> csv_rows_of(const LayerSource& source, std::size_t columns) {
    std::error_code error;
    const bool csv = std::string_view(source.open.dataset->GetDriverName()) == "CSV" &&
                     std::filesystem::is_regular_file(source.spec.path, error);
    std::optional<CsvRows> rows = csv ? look_at_csv(source.spec.path, columns) : std::nullopt;
    if (rows && rows->head_breaks) {
        fail_input(source.spec, "a column's name goes over two lines; write each name on one line");
    }
    if (rows && rows->swallows) {
        fail_input(source.spec,
                   fmt::format("{} has a quote mark that is not closed in its cell and swallows "
                               "the rows after it; put that cell in quotes, and write a mark "
                               "within it twice",
                               row_name(static_cast<std::uint32_t>(*rows->swallows - 1))));
    }
    return rows;
}

}  // namespace

bool LayerSource::has(std::string_view field) const {
    return std::any_of(fields.begin(), fields.end(), [field](const BoundField& bound) {
        return bound.field->name == field && !bound.column.empty();
    });
}

bool LayerSource::points_doubtful(int index) const {
    return commas_doubtful() && index >= 0 &&
           static_cast<std::size_t>(index) < csv->point_shown.size() &&
           !csv->point_shown[static_cast<std::size_t>(index)];
}

bool LayerSource::has_coordinates() const { return has("x") && has("y"); }

const BoundField& LayerSource::bound(std::string_view field) const {
    return fields[places.of(field)];
}

FieldPlaces::FieldPlaces(std::span<const FieldRow> fields) : fields_(fields) {
    for (std::size_t place = 0; place < fields.size(); ++place) {
        std::size_t slot = slot_of(fields[place].name);
        while (place_plus_one_[slot] != 0) {
            slot = (slot + 1) % place_plus_one_.size();
        }
        place_plus_one_[slot] = static_cast<std::uint8_t>(place + 1);
    }
}

std::size_t FieldPlaces::of(std::string_view name) const {
    std::size_t slot = slot_of(name);
    // Most names are the very literal of the table.
    const auto is_there = [&](std::string_view there) {
        return there.size() == name.size() && (there.data() == name.data() || there == name);
    };
    while (!is_there(fields_[place_plus_one_[slot] - 1U].name)) {
        slot = (slot + 1) % place_plus_one_.size();
    }
    return place_plus_one_[slot] - 1U;
}

// Names differ in their length and ends.
std::size_t FieldPlaces::slot_of(std::string_view name) {
    const auto letter = [&](std::size_t i) {
        return std::size_t{static_cast<unsigned char>(name[i])};
    };
    return name.empty() ? 0
                        : (name.size() * 29 + letter(0) * 5 + letter(name.size() / 2) * 11 +
                           letter(name.size() - 1) * 3) %
                              256;
}

void fail_input(const LayerSpec& spec, const std::string& what) {
    throw InputError(fmt::format("{}: {}.", described(spec), what));
}

LayerSource open_source(const LayerSpec& spec, const SectionRow& section,
                        const std::vector<std::string>& also) {
    LayerSource source{spec,        &section, open_layer(spec), {}, {}, FieldPlaces(section.fields),
                       std::nullopt};
    OGRLayer& layer = *source.open.layer;
    const std::vector<std::string> names = column_names(layer);
    for (const FieldRow& field : section.fields) {
        source.fields.push_back(bound_field(spec, field, layer, names));
    }
    for (const std::string& column : also) {
        source.also.push_back(bound_column(spec, column, "the join", layer, names));
    }
    for (BoundField& further : further_columns(spec, layer, names)) {
        source.also.push_back(std::move(further));
    }
    check_shapes(source, names);
    check_crs(source);
    source.csv = csv_rows_of(source, names.size());
    ignore_the_rest(source, names);
    return source;
}

std::string layer_name(const LayerSource& source) { return source.open.layer->GetName(); }

CrsExtent extent_of(const LayerSource& source) {
    const GdalMessages messages;
    OGRLayer& layer = *source.open.layer;
    OGREnvelope box;
    if (source.spec.where.empty()) {
        const bool has_extent = layer.GetExtent(&box, TRUE) == OGRERR_NONE;
        box = has_extent ? box : OGREnvelope();
    } else {
        layer.ResetReading();
        while (const OGRFeatureUniquePtr feature{layer.GetNextFeature()}) {
            if (const OGRGeometry* shape = feature->GetGeometryRef()) {
                OGREnvelope one;
                shape->getEnvelope(&one);
                box.Merge(one);
            }
        }
    }
    if (box.IsInit() == 0) {
        fail_input(source.spec, "no record has a shape");
    }
    return {box.MinX, box.MinY, box.MaxX, box.MaxY};
}

}  // namespace farwater::io
