#include "io/records/dataset.h"

#include <algorithm>
#include <string_view>

#include <cpl_error.h>
#include <cpl_string.h>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/error.h"
#include "io/files/only_to_read.h"
#include "io/files/why_unreadable.h"
#include "io/inputs/road_schemas.h"
#include "io/near_word.h"
#include "io/records/column_names.h"
#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

void CPL_STDCALL keep_gdal_message(CPLErr severity, CPLErrorNum, const char* text) {
    if (severity >= CE_Warning) {
        keep_message(*static_cast<GdalMessages*>(CPLGetErrorHandlerUserData()), text,
                     severity >= CE_Failure);
    }
}

[[noreturn]] void fail(const LayerSpec& spec, const std::string& what) {
    throw InputError(fmt::format("{}: {}.", described(spec), what));
}

std::filesystem::path wal_beside(const std::filesystem::path& file) {
    return std::filesystem::path(file.string() + "-wal");
}

bool has_bytes(const std::filesystem::path& file) {
    std::error_code error;
    const auto size = std::filesystem::file_size(file, error);
    return !error && size > 0;
}

// SQLite files with edits that are not merged yet are read with them, or not at all: GDAL's
// fallback for folders without write permission would leave them out in silence.
void check_pending_edits(const LayerSpec& spec, const GdalMessages& messages) {
    const bool fallback = lower_case(messages.text()).find("immutable") != std::string::npos;
    if (fallback && has_bytes(wal_beside(spec.path))) {
        fail(spec,
             "another program holds edits in " + wal_beside(spec.path).filename().string() +
                 " that cannot be read from here; close that program, or copy both files to a "
                 "folder that you may write to");
    }
}

// GDAL only warns, and goes on without the option.
void check_open_options(const LayerSpec& spec, const GdalMessages& messages) {
    if (messages.text().find("does not support open option") != std::string::npos) {
        fail(spec, "open_options has one that is not known here" + messages.said());
    }
}

std::shared_ptr<GDALDataset> open_dataset(const LayerSpec& spec) {
    if (const std::string why = spec.path.empty() ? "" : why_absent(spec.path); !why.empty()) {
        fail(spec, why);
    }
    const GdalMessages messages;
    const std::shared_ptr<GDALDataset> dataset =
        opened_by_gdal(spec.path, spec.file, spec.open_options, DatasetKind::vector);
    if (const std::string why = dataset ? "" : why_not_opened(spec.path, messages); !why.empty()) {
        fail(spec, why);
    }
    if (!dataset) {
        fail(spec,
             "this is no data source that can be read; name a file or connection that GDAL knows" +
                 messages.said());
    }
    check_pending_edits(spec, messages);
    check_open_options(spec, messages);
    return dataset;
}

// Layers with data; a file's styles are none.
std::vector<std::string> layer_names(GDALDataset& dataset) {
    std::vector<std::string> names;
    for (OGRLayer* layer : dataset.GetLayers()) {
        if (std::string_view(layer->GetName()) != "layer_styles") {
            names.emplace_back(layer->GetName());
        }
    }
    return names;
}

std::string missing_layer(const LayerSpec& spec, const std::vector<std::string>& names) {
    const std::vector<std::string_view> views(names.begin(), names.end());
    return fmt::format("there is no layer \"{}\"{}; the file holds {}", spec.layer,
                       did_you_mean(spec.layer, views), fmt::join(names, ", "));
}

OGRLayer* find_layer(const LayerSpec& spec, GDALDataset& dataset) {
    const std::vector<std::string> names = layer_names(dataset);
    if (names.empty()) {
        fail(spec, "the file holds no layer");
    }
    if (spec.layer.empty() && names.size() > 1) {
        fail(spec, fmt::format("the file holds several layers: {}; name one with layer = \"...\", "
                               "on the command line FILE:LAYER",
                               fmt::join(names, ", ")));
    }
    const std::string name = spec.layer.empty() ? names.front() : spec.layer;
    const GdalMessages messages;
    OGRLayer* layer = dataset.GetLayerByName(name.c_str());
    if (layer == nullptr) {
        fail(spec, missing_layer(spec, names));
    }
    return layer;
}

std::string by_schema(const LayerSpec& spec) {
    return spec.schema.empty() ? "" : fmt::format(", by schema = \"{}\",", spec.schema);
}

// The filter of a schema asks for its column of classes, which other data have not.
void check_schema_column(const LayerSpec& spec, OGRLayer& layer) {
    const RoadSchema* schema = find_road_schema(spec.schema);
    const PresetColumn* classes = schema == nullptr ? nullptr : preset_column(*schema, "class");
    if (classes == nullptr || spec.where.empty() || spec.where != schema->where) {
        return;
    }
    const std::vector<std::string> names = column_names(layer);
    if (columns_called(classes->column, names).empty()) {
        fail(spec, fmt::format("schema = \"{}\" is for data with a column {}, and the layer has "
                               "{}; leave schema out, and name the column of the road's class in "
                               "[{}] columns with its words in values.class",
                               spec.schema, classes->column, fmt::join(names, ", "), spec.section));
    }
}

void set_where(const LayerSpec& spec, OGRLayer& layer) {
    check_schema_column(spec, layer);
    const GdalMessages messages;
    if (!spec.where.empty() && layer.SetAttributeFilter(spec.where.c_str()) != OGRERR_NONE) {
        fail(spec, fmt::format("where = \"{}\"{} cannot be understood{}", spec.where,
                               by_schema(spec), messages.said()));
    }
}

Crs layer_crs(const LayerSpec& spec, OGRLayer& layer) {
    if (spec.crs.empty()) {
        return crs_from_layer(layer.GetSpatialRef());
    }
    Crs crs = crs_from_text(spec.crs);
    if (!crs) {
        throw SettingsError(fmt::format("[{}] crs \"{}\" is no coordinate system that PROJ knows",
                                        spec.section, spec.crs));
    }
    return crs;
}

// The first row of a sheet names the columns, also where all below it is text; by itself GDAL takes
// such a sheet for one without names.
void take_first_rows_for_names() {
    for (const char* option : {"OGR_XLSX_HEADERS", "OGR_ODS_HEADERS"}) {
        if (CPLGetConfigOption(option, nullptr) == nullptr) {
            CPLSetConfigOption(option, "FORCE");
        }
    }
}

bool is_spreadsheet(GDALDataset& dataset) {
    const std::string_view driver = dataset.GetDriverName();
    return driver == "XLSX" || driver == "ODS";
}

bool has_made_up_names(OGRFeatureDefn& columns) {
    for (int i = 0; i < columns.GetFieldCount(); ++i) {
        if (fmt::format("Field{}", i + 1) != columns.GetFieldDefn(i)->GetNameRef()) {
            return false;
        }
    }
    return columns.GetFieldCount() > 0;
}

}  // namespace

void prepare_gdal() {
    static const bool prepared = [] {
        GDALAllRegister();
        take_first_rows_for_names();
        // For GDAL's own threads; ours keep messages with GdalMessages.
        CPLSetErrorHandler(CPLQuietErrorHandler);
        return true;
    }();
    static_cast<void>(prepared);
}

void keep_message(GdalMessages& messages, const char* text, bool error) {
    constexpr std::size_t most_kept = 5;
    constexpr std::size_t most_letters = 400;  // some hold a whole statement of SQL
    messages.failed_ = messages.failed_ || error;
    const std::string_view all = trimmed(text);
    std::string one(all.substr(0, most_letters));
    one += all.size() > most_letters ? " ..." : "";
    const bool said_before = std::ranges::find(messages.messages_, one) != messages.messages_.end();
    if (messages.messages_.size() < most_kept && !said_before) {
        messages.messages_.push_back(std::move(one));
    }
}

GdalMessages::GdalMessages() {
    prepare_gdal();
    CPLPushErrorHandlerEx(&keep_gdal_message, this);
}

GdalMessages::~GdalMessages() { CPLPopErrorHandler(); }

std::string GdalMessages::text() const { return fmt::format("{}", fmt::join(messages_, "; ")); }

std::shared_ptr<GDALDataset> opened_by_gdal(const std::filesystem::path& path,
                                            const std::string& file,
                                            const std::vector<std::string>& open_options,
                                            DatasetKind kind) {
    CPLStringList options;
    for (const std::string& option : open_options) {
        options.AddString(option.c_str());
    }
    if (kind == DatasetKind::vector && is_only_to_read(path)) {
        options.AddString(open_unchanging);
    }
    const std::string source = path.empty() ? file : path.string();
    const unsigned flags = kind == DatasetKind::vector ? GDAL_OF_VECTOR : GDAL_OF_RASTER;
    return {GDALDataset::Open(source.c_str(), flags | GDAL_OF_READONLY, nullptr, options.List(),
                              nullptr),
            GDALDatasetUniquePtrDeleter()};
}

std::string GdalMessages::said() const {
    return messages_.empty() ? "" : "; GDAL says: " + printable_source(text());
}

std::string why_not_opened(const std::filesystem::path& path, const GdalMessages& messages) {
    std::string why = why_unreadable(path);
    if (why.empty() && messages.text().find("database is locked") != std::string::npos) {
        why = "another program has locked the file; close it there, or copy the file";
    }
    return why;
}

std::string described(const LayerSpec& spec) {
    return fmt::format("{} ({})", spec.section, printable_source(spec.file));
}

bool take_only_row_for_names(GDALDataset& dataset, OGRLayer& layer) {
    OGRFeatureDefn& columns = *layer.GetLayerDefn();
    if (!is_spreadsheet(dataset) || !has_made_up_names(columns) || layer.GetFeatureCount() != 1) {
        return false;
    }
    layer.ResetReading();
    const OGRFeatureUniquePtr row(layer.GetNextFeature());
    for (int i = 0; row != nullptr && i < columns.GetFieldCount(); ++i) {
        const std::string name = row->GetFieldAsString(i);
        columns.GetFieldDefn(i)->SetName(name.c_str());
    }
    layer.SetAttributeFilter("1 = 0");
    layer.ResetReading();
    return true;
}

bool is_known_empty(GDALDataset& dataset, OGRLayer& layer) {
    const bool quick = layer.TestCapability(OLCFastFeatureCount) != 0 || is_spreadsheet(dataset);
    return quick && layer.GetFeatureCount() == 0;
}

OpenLayer open_layer(const LayerSpec& spec) {
    prepare_gdal();
    OpenLayer open;
    open.dataset = open_dataset(spec);
    open.layer = find_layer(spec, *open.dataset);
    if (!take_only_row_for_names(*open.dataset, *open.layer)) {
        set_where(spec, *open.layer);
    }
    open.crs = layer_crs(spec, *open.layer);
    open.layer->ResetReading();
    return open;
}

std::vector<std::filesystem::path> files_of(const LayerSpec& spec, GDALDataset& dataset) {
    std::vector<std::filesystem::path> files = files_of(spec.path, dataset);
    for (std::size_t i = 0; !spec.path.empty() && i < spec.open_options.size(); ++i) {
        const std::string& option = spec.open_options[i];
        const std::filesystem::path file = option.substr(option.find('=') + 1);
        std::error_code error;
        if (std::filesystem::is_regular_file(file, error)) {
            files.push_back(file);
        }
    }
    return files;
}

std::vector<std::filesystem::path> files_of(const std::filesystem::path& path,
                                            GDALDataset& dataset) {
    const CPLStringList listed(dataset.GetFileList());
    std::vector<std::filesystem::path> files;
    for (int i = 0; i < listed.size(); ++i) {
        files.emplace_back(listed[i]);
    }
    files.push_back(path);
    files.push_back(wal_beside(path));
    std::erase_if(files, [](const auto& file) {
        std::error_code error;
        return !std::filesystem::is_regular_file(file, error) || !has_bytes(file);
    });
    std::sort(files.begin(), files.end());
    files.erase(std::unique(files.begin(), files.end()), files.end());
    return files;
}

}  // namespace farwater::io
