#include "io/second_pass.h"

#include <algorithm>
#include <cassert>
#include <set>
#include <system_error>
#include <tuple>
#include <utility>

#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/carried_columns.h"
#include "io/dataset.h"
#include "io/error.h"
#include "io/fingerprint.h"

namespace farwater::io {

namespace {

constexpr std::size_t records_per_step = 1024;

// --- is the input still what it was? -----------------------------------------------------------

[[noreturn]] void fail_changed(const LayerSpec& spec, const std::string& how) {
    throw InputError(described(spec) + ": changed while the run was using it (" + how +
                     "). Run again when nobody is editing it. The old result is untouched.");
}

// Size and time of change of each file.
using Stamps = std::vector<std::pair<std::uintmax_t, std::filesystem::file_time_type>>;

Stamps stamps_of(const std::vector<std::filesystem::path>& files) {
    Stamps stamps;
    for (const std::filesystem::path& file : files) {
        std::error_code error;
        const std::uintmax_t size = std::filesystem::file_size(file, error);
        stamps.emplace_back(size, std::filesystem::last_write_time(file, error));
    }
    return stamps;
}

void require_fingerprint(const PassThroughInput& input,
                         const std::vector<std::filesystem::path>& files) {
    if (!input.sha256.empty() && sha256_of_files(files) != input.sha256) {
        fail_changed(input.spec, "its sha256 is another");
    }
}

// --- shapes ------------------------------------------------------------------------------------

// From the input's coordinates to the working CRS's, only where they differ.
class ToWorking {
public:
    ToWorking(const OpenLayer& input, const GeoPackageInMaking& file, const LayerSpec& spec) {
        if (input.layer->GetGeomType() == wkbNone || same_crs(input.crs, file.crs)) {
            return;
        }
        transformation_ = input.crs ? transformation(input.crs, file.crs) : nullptr;
        if (!transformation_) {
            throw InputError(described(spec) + ": has no way into " + name_of(file.crs) + ".");
        }
    }
    // False when the shape has no place there.
    bool operator()(OGRGeometry& shape) const {
        return !transformation_ || shape.transform(transformation_.get()) == OGRERR_NONE;
    }

private:
    CrsTransformation transformation_;
};

std::unique_ptr<OGRGeometry> shape_of(const RepairedShape& repaired) {
    OGRGeometry* shape = nullptr;
    OGRGeometryFactory::createFromWkb(repaired.wkb.data(), nullptr, &shape, repaired.wkb.size());
    assert(shape != nullptr);
    return std::unique_ptr<OGRGeometry>(shape);
}

// The repaired shapes by ascending record.
class RepairedShapes {
public:
    explicit RepairedShapes(const std::vector<RepairedShape>& shapes)
        : next_(shapes.begin()), end_(shapes.end()) {}
    // Null: the record keeps its own. Records are asked for in order.
    std::unique_ptr<OGRGeometry> shape(std::size_t record) {
        while (next_ != end_ && next_->row < record) {
            ++next_;
        }
        return next_ != end_ && next_->row == record ? shape_of(*next_) : nullptr;
    }

private:
    std::vector<RepairedShape>::const_iterator next_;
    std::vector<RepairedShape>::const_iterator end_;
};

std::unique_ptr<OGRGeometry> take_shape(OGRFeature& feature, std::size_t record,
                                        RepairedShapes& repaired) {
    std::unique_ptr<OGRGeometry> shape = repaired.shape(record);
    return shape ? std::move(shape) : std::unique_ptr<OGRGeometry>(feature.StealGeometry());
}

bool keeps(const PassThroughTable& table, std::size_t record) {
    return !table.keeps || table.keeps(record);
}

// One type where all records agree, heights and measures included; else the general one.
OGRwkbGeometryType common_type(const std::set<OGRwkbGeometryType>& found,
                               OGRwkbGeometryType declared) {
    if (found.empty()) {
        return declared;
    }
    return found.size() == 1 ? *found.begin() : wkbUnknown;
}

// While it lives, the layer reads shapes only. A filter may need the columns: then it reads all.
class ShapesOnly {
public:
    ShapesOnly(OGRLayer& layer, const LayerSpec& spec) : layer_(layer) {
        if (spec.where.empty() && layer.TestCapability(OLCIgnoreFields) != 0) {
            CPLStringList names;
            for (const std::string& name : names_of(*layer.GetLayerDefn())) {
                names.AddString(name.c_str());
            }
            layer.SetIgnoredFields(const_cast<const char**>(names.List()));
        }
    }
    ~ShapesOnly() {
        layer_.SetIgnoredFields(nullptr);
        layer_.ResetReading();
    }
    ShapesOnly(const ShapesOnly&) = delete;
    ShapesOnly& operator=(const ShapesOnly&) = delete;

private:
    OGRLayer& layer_;
};

// Reads the shapes once more than needed: a layer's declared type often does not hold for all of
// its records (a shapefile's polygons may have parts), and GeoPackage is strict about it.
OGRwkbGeometryType type_of_records(const OpenLayer& input, const PassThroughTable& table,
                                   const PassThroughInput& wanted, const Work& work) {
    if (input.layer->GetGeomType() == wkbNone) {
        return wkbNone;
    }
    const ShapesOnly shapes_only(*input.layer, wanted.spec);
    std::set<OGRwkbGeometryType> found;
    RepairedShapes repaired(wanted.repaired);
    std::size_t record = 0;
    for (const auto& feature : *input.layer) {
        if (record % records_per_step == 0 && work.stopped()) {
            break;
        }
        const auto shape = keeps(table, record) ? take_shape(*feature, record, repaired) : nullptr;
        if (shape) {
            found.insert(shape->getGeometryType());
        }
        ++record;
    }
    return common_type(found, input.layer->GetGeomType());
}

// --- the pass ----------------------------------------------------------------------------------

struct Pass {
    GeoPackageInMaking& file;
    const PassThroughTable& table;
    const PassThroughInput& input;
    const Work& work;
    OpenLayer open;
    ToWorking to_working;
    GeoPackageLayer layer;
    std::vector<Carry> carries;
};

void write_record(Pass& pass, OGRFeature& feature, std::size_t record, RepairedShapes& repaired,
                  Row& row) {
    auto shape = take_shape(feature, record, repaired);
    if (shape && !pass.to_working(*shape)) {
        shape.reset();  // the reading has set such a record aside and listed it
    }
    pass.layer.set_shape(std::move(shape));
    carry_values(feature, pass.layer.feature(), pass.carries);
    row.values.assign(pass.table.results.columns.size(), Value{});
    if (pass.table.results.fill) {
        pass.table.results.fill(record, row);
    }
    pass.layer.set_results(row);
    pass.layer.add_row();
}

bool write_records(Pass& pass) {
    RepairedShapes repaired(pass.input.repaired);
    Row row;
    std::size_t record = 0;
    for (const auto& feature : *pass.open.layer) {
        if (record % records_per_step == 0) {
            pass.work.step(pass.table.results.name, record, pass.input.features);
            if (pass.work.stopped()) {
                return false;
            }
        }
        if (record == pass.input.features) {
            fail_changed(pass.input.spec, "it has more records than before");
        }
        if (keeps(pass.table, record)) {
            write_record(pass, *feature, record, repaired, row);
        }
        ++record;
    }
    if (record != pass.input.features) {
        fail_changed(pass.input.spec, "it has " + std::to_string(record) + " records, before " +
                                          std::to_string(pass.input.features));
    }
    return true;
}

}  // namespace

bool write_second_pass(GeoPackageInMaking& file, const PassThroughTable& table,
                       const PassThroughInput& input, const Work& work) {
    OpenLayer open = open_layer(input.spec);
    const auto files = files_of(input.spec, *open.dataset);
    const Stamps before = stamps_of(files);
    require_fingerprint(input, files);
    const OGRwkbGeometryType type = type_of_records(open, table, input, work);
    if (work.stopped()) {
        return false;
    }
    const OGRFeatureDefn& columns = *open.layer->GetLayerDefn();
    Pass pass{file,
              table,
              input,
              work,
              open,
              ToWorking(open, file, input.spec),
              GeoPackageLayer(file, table.results, static_cast<int>(type), input.features),
              {}};
    pass.carries = add_carried_columns(pass.layer, columns, table.results.columns);
    pass.layer.add_result_columns(table.results.columns);
    pass.layer.begin();
    if (!write_records(pass)) {
        return false;
    }
    if (stamps_of(files) != before) {
        fail_changed(input.spec, "its files changed during the writing");
    }
    pass.layer.finish();
    work.step(table.results.name, input.features, input.features);
    return true;
}

}  // namespace farwater::io
