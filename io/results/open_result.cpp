#include "io/results/open_result.h"

#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/crs.h"
#include "io/error.h"
#include "io/files/out_folder_lock.h"
#include "io/out_folder.h"
#include "io/records/dataset.h"
#include "io/results/stored_layers.h"

namespace farwater::io {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view supply_file = "supply.gpkg";

void require_result(const fs::path& file, GDALDataset& dataset) {
    OGRLayer* record = result_layer(dataset, "run_record");
    if (record == nullptr) {
        refuse_result(file, "is no result of `farwater run`: it has no table run_record");
    }
    OGRLayer* parcels = result_layer(dataset, "parcel_supply");
    if (parcels == nullptr) {
        const StoredResult result{.record = stored_record(*record)};
        refuse_result(file, result.recorded("audience").empty()
                                ? "is no result of `farwater run`: it has no layer parcel_supply"
                                : "was made for the public and tells nothing of parcels; give the "
                                  "department's own result");
    }
    for (const char* column : {"parcel_id", "state"}) {
        if (parcels->GetLayerDefn()->GetFieldIndex(column) < 0) {
            refuse_result(file,
                          fmt::format("is no result that can be compared: parcel_supply has no "
                                      "column {}",
                                      column));
        }
    }
    if (!crs_from_layer(parcels->GetSpatialRef())) {
        refuse_result(
            file, "is no result that can be compared: parcel_supply tells no coordinate system");
    }
}

}  // namespace

void refuse_result(const fs::path& path, std::string_view what) {
    throw InputError(fmt::format("{}: {}.", path.string(), what));
}

FileAndFolder find_result(const fs::path& given) {
    std::error_code error;
    const fs::path path = given.has_filename() ? given : given.parent_path();
    settle_out_folder(path);
    if (!fs::exists(path, error)) {
        refuse_result(given, "there is no such file or folder");
    }
    if (!fs::is_directory(path, error)) {
        const fs::path folder = fs::absolute(path).parent_path();
        return {path, read_mark(folder) ? std::optional(folder) : std::nullopt};
    }
    const auto mark = read_mark(path);
    if (mark && !mark->complete) {
        refuse_result(given, "is not whole: a run is still writing it, or was stopped");
    }
    if (!fs::exists(path / supply_file, error)) {
        refuse_result(given, "is no result of `farwater run`: there is no supply.gpkg in it");
    }
    return {path / supply_file, path};
}

std::shared_ptr<GDALDataset> open_result(const fs::path& file) {
    const GdalMessages messages;
    std::error_code error;
    std::shared_ptr<GDALDataset> dataset =
        opened_by_gdal(file, file.string(), {}, DatasetKind::vector);
    const std::string why = dataset ? "" : why_not_opened(file, messages);
    if (!dataset || std::string_view(dataset->GetDriverName()) != "GPKG") {
        refuse_result(file,
                      why.empty() ? "is no result of `farwater run`: it is no GeoPackage" : why);
    }
    const fs::path edits = file.string() + "-wal";
    if (messages.text().find("immutable") != std::string::npos && fs::exists(edits, error)) {
        refuse_result(file,
                      "another program holds edits in it that cannot be read; close it there");
    }
    require_result(file, *dataset);
    return dataset;
}

OGRLayer* result_layer(GDALDataset& dataset, const char* name) {
    const GdalMessages messages;
    return dataset.GetLayerByName(name);
}

StoredRecord stored_record(OGRLayer& layer) {
    const StoredTable table = stored_table(layer);
    const auto at = [&](std::string_view name) {
        return static_cast<std::size_t>(std::ranges::find(table.columns, name) -
                                        table.columns.begin());
    };
    const std::size_t key = at("key");
    const std::size_t value = at("value");
    StoredRecord record;
    for (const std::vector<std::string>& row : table.rows) {
        if (std::max(key, value) < row.size()) {
            record.emplace_back(row[key], row[value]);
        }
    }
    return record;
}

}  // namespace farwater::io
