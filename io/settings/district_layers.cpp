#include "io/settings/district_layers.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "io/inputs/road_schemas.h"
#include "io/settings/field_tables.h"
#include "io/settings/schema.h"

namespace farwater::io {
namespace {

// "PG:dbname=x", "postgresql://...", "/vsizip/...": GDAL's own ways to name a source, no path of
// ours.
bool is_connection(std::string_view file) {
    const std::size_t colon = file.find(':');
    const bool scheme =
        colon != std::string_view::npos && colon >= 2 &&
        std::all_of(file.begin(), file.begin() + static_cast<std::ptrdiff_t>(colon),
                    [](char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0; });
    return scheme || file.starts_with("/vsi");
}

std::filesystem::path path_of(const std::string& file, const std::filesystem::path& folder) {
    return is_connection(file) ? std::filesystem::path() : (folder / file).lexically_normal();
}

// "KEY=VALUE" where VALUE names a file beside the district file: the path is made whole, so that
// the option means the same from wherever the program is started.
std::vector<std::string> options_of(std::vector<std::string> options,
                                    const std::filesystem::path& folder) {
    for (std::string& option : options) {
        const std::size_t value = option.find('=') + 1;
        const std::filesystem::path file = folder / option.substr(value);
        std::error_code error;
        if (value > 0 && value < option.size() && std::filesystem::is_regular_file(file, error)) {
            option.replace(value, std::string::npos, file.lexically_normal().string());
        }
    }
    return options;
}

// The keys that every table with an input has.
LayerSpec source_of(const TableReader& reader, std::string section,
                    const std::filesystem::path& folder) {
    LayerSpec spec;
    spec.section = std::move(section);
    spec.file = reader.text("file");
    spec.path = path_of(spec.file, folder);
    spec.layer = reader.text("layer");
    spec.where = reader.text("where");
    spec.open_options = options_of(reader.texts("open_options"), folder);
    return spec;
}

LayerSpec layer_of(const TomlTable& table, TomlPlace place, const SectionRow& section,
                   const std::filesystem::path& folder, Faults& faults) {
    const std::string title = fmt::format("[{}]", section.name);
    const bool roads = section.name == "roads";
    const TableReader reader(table, place, title, roads ? road_layer_keys() : layer_keys(), faults);
    const FieldTables fields(section, title, faults);
    LayerSpec spec = source_of(reader, std::string(section.name), folder);
    spec.crs = reader.text("crs");
    spec.schema = roads ? reader.text("schema") : std::string();
    spec.columns = fields.columns(reader.table("columns"));
    spec.values = fields.values(reader.table("values"));
    spec.units = fields.units(reader.table("units"));
    return with_schema(std::move(spec));
}

JoinSpec join_of(const TomlTable& table, TomlPlace place, const std::filesystem::path& folder,
                 Faults& faults) {
    const TableReader reader(table, place, "[join]", join_keys(), faults);
    const FieldTables fields(*find_section("parcels"), "[join]", faults);
    JoinSpec join{source_of(reader, "join", folder), reader.text("key"), reader.text("parcel_key")};
    join.table.columns = fields.columns(reader.table("columns"));
    if (join.table.columns.contains("parcel_id")) {
        faults.add(place,
                   "[join] columns.parcel_id cannot be: the id comes from the parcels; name the "
                   "table's key with key");
    }
    return join;
}

// A field of the parcels has one origin.
void check_origins(const TomlTable& top, const std::vector<JoinSpec>& joins, Faults& faults) {
    std::vector<std::string> taken;
    if (const TomlEntry* parcels = find_entry(top, "parcels")) {
        const auto* table = parcels->node.as<TomlTable>();
        const TomlEntry* columns = table == nullptr ? nullptr : find_entry(*table, "columns");
        const auto* pairs = columns == nullptr ? nullptr : columns->node.as<TomlTable>();
        for (std::size_t i = 0; pairs != nullptr && i < pairs->size(); ++i) {
            taken.push_back((*pairs)[i].key);
        }
    }
    const TomlPlace place = find_entry(top, "join")->key_place;
    for (const JoinSpec& join : joins) {
        for (const auto& [field, column] : join.table.columns) {
            if (std::find(taken.begin(), taken.end(), field) != taken.end()) {
                faults.add(
                    place,
                    fmt::format(
                        "[join] columns.{} cannot be: the field is mapped elsewhere too; keep one",
                        field));
            }
            taken.push_back(field);
        }
    }
}

}  // namespace

std::map<std::string, LayerSpec, std::less<>> layers_of(const TomlTable& top,
                                                        const std::filesystem::path& folder,
                                                        Faults& faults) {
    std::map<std::string, LayerSpec, std::less<>> layers;
    for (const SectionRow& section : section_rows()) {
        const TomlEntry* entry = find_entry(top, section.name);
        if (entry == nullptr) {
            if (section.required) {
                faults.add({}, fmt::format("the district file lacks [{}]: {}", section.name,
                                           section.what));
            }
            continue;
        }
        if (const auto* table = entry->node.as<TomlTable>()) {
            layers[std::string(section.name)] =
                layer_of(*table, entry->key_place, section, folder, faults);
        } else {
            faults.add(entry->node.place,
                       fmt::format("{} must be a table: [{}]", section.name, section.name));
        }
    }
    return layers;
}

std::vector<JoinSpec> joins_of(const TomlTable& top, const std::filesystem::path& folder,
                               Faults& faults) {
    const TomlEntry* entry = find_entry(top, "join");
    if (entry == nullptr) {
        return {};
    }
    std::vector<JoinSpec> joins;
    const auto* list = entry->node.as<TomlArray>();
    const TomlArray nodes = list == nullptr ? TomlArray{entry->node} : *list;
    for (const TomlNode& node : nodes) {
        if (const auto* table = node.as<TomlTable>()) {
            joins.push_back(
                join_of(*table, list == nullptr ? entry->key_place : node.place, folder, faults));
        } else {
            faults.add(node.place, "join must be a table [join] or tables [[join]]");
        }
    }
    check_origins(top, joins, faults);
    return joins;
}

std::optional<ElevationSpec> elevation_of(const TomlTable& top, const std::filesystem::path& folder,
                                          Faults& faults) {
    const auto reader = read_top_table(top, "elevation", elevation_keys(), faults);
    if (!reader) {
        return std::nullopt;
    }
    const std::string file = reader->text("file");
    return ElevationSpec{file,
                         path_of(file, folder),
                         reader->text("crs"),
                         reader->text("elevation_unit"),
                         reader->whole("band", 1),
                         reader->texts("open_options")};
}

}  // namespace farwater::io
