#include "io/result_file.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <string_view>
#include <tuple>
#include <utility>

#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/records/dataset.h"
#include "io/records/shape.h"
#include "io/results/flat_settings.h"
#include "io/results/open_result.h"
#include "io/results/stored_layers.h"

namespace farwater::io {

namespace fs = std::filesystem;

namespace {

constexpr std::array<const char*, 5> stored_tables{"assumptions", "need_standard", "fleet",
                                                   "fill_sites", "input_records"};

// A cell as it was before an apostrophe kept it from being a formula (io/csv_writer.h).
std::string without_guard(std::string cell) {
    const bool guarded = cell.size() > 1 && cell[0] == '\'' &&
                         std::string_view("=+-@\t\r").find(cell[1]) != std::string_view::npos;
    return guarded ? cell.substr(1) : cell;
}

// One of the tables that stand as CSV only; none where it cannot be read.
std::optional<StoredTable> table_of_folder(const fs::path& folder, const std::string& name) {
    const GdalMessages messages;
    const fs::path file = folder / "tables" / (name + ".csv");
    const auto dataset = opened_by_gdal(file, file.string(), {}, DatasetKind::vector);
    if (!dataset || dataset->GetLayerCount() != 1) {
        return std::nullopt;
    }
    StoredTable table = stored_table(*dataset->GetLayer(0));
    table.name = name;
    for (std::vector<std::string>& row : table.rows) {
        for (std::string& cell : row) {
            cell = without_guard(std::move(cell));
        }
    }
    return table;
}

}  // namespace

struct ResultFile::State {
    fs::path file;
    std::optional<fs::path> folder;
    std::shared_ptr<GDALDataset> dataset;
    WorkingCrs crs;
    std::optional<ToPlane> to_plane;

    OGRLayer* layer(const char* name) const { return result_layer(*dataset, name); }

    // The shape of a record, null where there is none.
    OGRFeatureUniquePtr record(const char* name, std::int64_t row) const {
        const GdalMessages messages;
        OGRLayer* of = layer(name);
        return OGRFeatureUniquePtr(of == nullptr ? nullptr : of->GetFeature(row));
    }
    bool to_plane_each(std::vector<Polyline>& lines) const {
        return to_plane && std::ranges::all_of(
                               lines, [&](Polyline& line) { return to_plane->transform(line); });
    }
};

ResultFile::ResultFile(const fs::path& path) : state_(std::make_unique<State>()) {
    prepare_gdal();
    std::tie(state_->file, state_->folder) = find_result(path);
    state_->dataset = open_result(state_->file);
    const Crs crs = crs_from_layer(state_->layer("parcel_supply")->GetSpatialRef());
    state_->crs = described_crs(crs, "as the result has it", 0.0);
    state_->to_plane.emplace(crs, state_->crs);
}

ResultFile::~ResultFile() = default;

const fs::path& ResultFile::file() const { return state_->file; }
const std::optional<fs::path>& ResultFile::folder() const { return state_->folder; }
const WorkingCrs& ResultFile::crs() const { return state_->crs; }

StoredResult ResultFile::read(const Work& work) const {
    const GdalMessages messages;
    StoredResult result;
    result.record = stored_record(*state_->layer("run_record"));
    if (const std::string_view text = result.recorded("district_file_text"); !text.empty()) {
        if (auto settings = flat_settings(text)) {
            result.settings = std::move(settings->keys);
            result.data_date = settings->data_date;
        }
    }
    result.parcels =
        stored_answers(*state_->layer("parcel_supply"), "parcel_id", state_->file, work);
    if (OGRLayer* targets = state_->layer("target_supply")) {
        result.targets = stored_answers(*targets, "target_id", state_->file, work);
    }
    for (const char* name : stored_tables) {
        if (OGRLayer* table = state_->layer(name)) {
            result.tables.push_back(stored_table(*table));
        } else if (std::string_view(name) == "fill_sites") {
            // A run leaves out a layer that has nothing in it.
            result.tables.push_back({.name = name, .columns = {}, .rows = {}});
        }
    }
    if (state_->folder) {
        if (auto table = table_of_folder(*state_->folder, "by_station")) {
            result.tables.push_back(std::move(*table));
        }
    }
    if (messages.failed()) {
        refuse_result(state_->file, "cannot be read to its end" + messages.said());
    }
    return result;
}

bool ResultFile::show_in(const WorkingCrs& plane) {
    state_->to_plane.reset();
    const Crs from = crs_of(state_->crs);
    const Crs to = crs_of(plane);
    if (same_crs(from, to) || transformation(from, to)) {
        state_->to_plane.emplace(from, plane);
    }
    return state_->to_plane.has_value();
}

MultiPolygon ResultFile::parcel_area(std::int64_t row) const {
    const auto record = state_->record("parcel_supply", row);
    const OGRGeometry* shape = record ? record->GetGeometryRef() : nullptr;
    auto area = shape != nullptr && shape->IsEmpty() == 0 ? polygons_of(*shape) : std::nullopt;
    if (!area || !state_->to_plane) {
        return {};
    }
    for (Polygon& polygon : *area) {
        if (!state_->to_plane->transform(polygon.shell) || !state_->to_plane_each(polygon.holes)) {
            return {};
        }
    }
    return std::move(*area);
}

std::optional<Point> ResultFile::target_place(std::int64_t row) const {
    const auto record = state_->record("target_supply", row);
    const OGRGeometry* shape = record ? record->GetGeometryRef() : nullptr;
    const auto point = shape != nullptr && shape->IsEmpty() == 0 ? point_of(*shape) : std::nullopt;
    return point && state_->to_plane ? (*state_->to_plane)(point->x, point->y) : std::nullopt;
}

std::vector<Polyline> ResultFile::roads(const Work& work) const {
    const GdalMessages messages;
    std::vector<Polyline> all;
    OGRLayer* layer = state_->layer("road_times");
    if (layer == nullptr) {
        return all;
    }
    layer->ResetReading();
    while (const OGRFeatureUniquePtr record{layer->GetNextFeature()}) {
        if (work.stopped()) {
            break;
        }
        const OGRGeometry* shape = record->GetGeometryRef();
        auto lines = shape != nullptr && shape->IsEmpty() == 0 ? lines_of(*shape) : std::nullopt;
        if (lines && state_->to_plane_each(*lines)) {
            std::ranges::move(*lines, std::back_inserter(all));
        }
    }
    return all;
}

std::vector<NamedPlace> ResultFile::fill_sites() const {
    const GdalMessages messages;
    std::vector<NamedPlace> all;
    OGRLayer* layer = state_->layer("fill_sites");
    if (layer == nullptr || !state_->to_plane) {
        return all;
    }
    const int id = layer->GetLayerDefn()->GetFieldIndex("source_id");
    layer->ResetReading();
    while (const OGRFeatureUniquePtr record{layer->GetNextFeature()}) {
        const OGRGeometry* shape = record->GetGeometryRef();
        const auto point =
            shape != nullptr && shape->IsEmpty() == 0 ? point_of(*shape) : std::nullopt;
        const auto place = point ? (*state_->to_plane)(point->x, point->y) : std::nullopt;
        if (place) {
            all.push_back({id < 0 ? "" : record->GetFieldAsString(id), *place});
        }
    }
    return all;
}

}  // namespace farwater::io
