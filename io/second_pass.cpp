#include "io/second_pass.h"

#include <algorithm>
#include <cassert>
#include <utility>

#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/error.h"
#include "io/files/unchanged_files.h"
#include "io/geopackage/carried_columns.h"
#include "io/geopackage/geopackage_rows.h"
#include "io/records/dataset.h"

namespace farwater::io {

namespace {

constexpr std::size_t records_per_step = 1024;

// --- is the input still what it was? -----------------------------------------------------------

[[noreturn]] void fail_changed(const LayerSpec& spec, const std::string& how) {
    throw InputError(described(spec) + ": changed while the run was using it (" + how +
                     "). Run again when nobody is editing it. The old result is untouched.");
}

void require_fingerprint(const PassThroughInput& input,
                         const std::vector<std::filesystem::path>& files, Fingerprints& known) {
    if (!input.sha256.empty() && known.of(files) != input.sha256) {
        fail_changed(input.spec, "its sha256 is another");
    }
}

// A stamp also changes when a file is linked or its rights are set: then its content decides.
void require_unchanged(const PassThroughInput& input,
                       const std::vector<std::filesystem::path>& files, const FileStamps& before,
                       Fingerprints& known) {
    if (stamps_of(files) != before && (input.sha256.empty() || known.of(files) != input.sha256)) {
        fail_changed(input.spec, "its files changed during the writing");
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
    bool moves() const { return transformation_ != nullptr; }
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

void add_ring(const OGRLinearRing* ring, double metres_per_unit, std::vector<Polyline>& rings) {
    if (ring == nullptr || ring->IsEmpty()) {
        return;
    }
    Polyline& line = rings.emplace_back();
    line.reserve(static_cast<std::size_t>(ring->getNumPoints()));
    for (int i = 0; i < ring->getNumPoints(); ++i) {
        line.push_back({ring->getX(i) * metres_per_unit, ring->getY(i) * metres_per_unit});
    }
}

void add_rings(const OGRPolygon& polygon, double metres_per_unit, std::vector<Polyline>& rings) {
    for (const OGRLinearRing* ring : polygon) {
        add_ring(ring, metres_per_unit, rings);
    }
}

void add_rings(const OGRGeometry& shape, double metres_per_unit, std::vector<Polyline>& rings) {
    const OGRwkbGeometryType type = wkbFlatten(shape.getGeometryType());
    if (type == wkbPolygon) {
        add_rings(*shape.toPolygon(), metres_per_unit, rings);
    } else if (OGR_GT_IsSubClassOf(type, wkbGeometryCollection)) {
        for (const OGRGeometry* part : *shape.toGeometryCollection()) {
            add_rings(*part, metres_per_unit, rings);
        }
    }
}

// The rings of an area, in metres.
std::vector<Polyline> rings_of(const OGRGeometry& shape, double metres_per_unit) {
    std::vector<Polyline> rings;
    const std::unique_ptr<OGRGeometry> straight(shape.hasCurveGeometry() ? shape.getLinearGeometry()
                                                                         : nullptr);
    add_rings(straight ? *straight : shape, metres_per_unit, rings);
    return rings;
}

// None where there is no shape, or it has no place in the working CRS.
std::vector<Polyline> rings_in_plane(OGRGeometry* shape, const ToWorking& to_working,
                                     double metres_per_unit) {
    const bool there = shape != nullptr && to_working(*shape);
    return there ? rings_of(*shape, metres_per_unit) : std::vector<Polyline>{};
}

bool keeps(const PassThroughTable& table, std::size_t record) {
    return !table.keeps || table.keeps(record);
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

void show(Pass& pass, std::size_t record, std::span<const Polyline> rings) {
    if (pass.table.sees) {
        pass.table.sees(record, rings);
    }
}

void add_results(Pass& pass, std::size_t record, Row& row) {
    row.values.assign(pass.table.results.columns.size(), Value{});
    if (pass.table.results.fill) {
        pass.table.results.fill(record, row);
    }
    pass.layer.add_results(row);
}

// A record by GDAL; the shape is its own, or the repaired one.
void start_record(Pass& pass, OGRFeature& feature, std::size_t record,
                  std::unique_ptr<OGRGeometry> repaired) {
    auto shape =
        repaired ? std::move(repaired) : std::unique_ptr<OGRGeometry>(feature.StealGeometry());
    if (shape && !pass.to_working(*shape)) {
        shape.reset();  // the reading has set such a record aside and listed it
    }
    if (pass.table.sees) {
        show(pass, record,
             shape ? rings_of(*shape, pass.file.metres_per_unit) : std::vector<Polyline>{});
    }
    pass.layer.start_row(shape.get());
    add_carried_cells(feature, pass.carries, pass.layer.cells());
}

class RecordsByGdal {
public:
    explicit RecordsByGdal(OGRLayer& layer) : layer_(layer) { layer.ResetReading(); }
    bool next() {
        feature_.reset(layer_.GetNextFeature());
        return feature_ != nullptr;
    }
    void start(Pass& pass, std::size_t record, std::unique_ptr<OGRGeometry> repaired) {
        start_record(pass, *feature_, record, std::move(repaired));
    }

private:
    OGRLayer& layer_;
    OGRFeatureUniquePtr feature_;
};

// Three times as fast; what is not as plain as most records are goes by GDAL.
class RecordsBySqlite {
public:
    RecordsBySqlite(GeoPackageRows rows, OGRLayer& layer) : rows_(std::move(rows)), layer_(layer) {}
    bool next() { return rows_.next(); }
    void start(Pass& pass, std::size_t record, std::unique_ptr<OGRGeometry> repaired) {
        if (!rows_.plain() || (!repaired && !start_own_shape(pass, record))) {
            const OGRFeatureUniquePtr feature(layer_.GetFeature(rows_.fid()));
            if (!feature) {
                fail_changed(pass.input.spec, "a record cannot be read again");
            }
            return start_record(pass, *feature, record, std::move(repaired));
        }
        if (repaired) {
            if (pass.table.sees) {
                show(pass, record, rings_of(*repaired, pass.file.metres_per_unit));
            }
            pass.layer.start_row(repaired.get());
        }
        rows_.add_cells(pass.layer.cells());
    }

private:
    bool start_own_shape(Pass& pass, std::size_t record) {
        rings_.clear();
        if (!rows_.has_shape()) {
            pass.layer.start_row(nullptr);
        } else if (!pass.layer.start_row(rows_.shape(), pass.table.sees ? &rings_ : nullptr)) {
            return false;
        }
        for (Polyline& ring : rings_) {
            for (Point& p : ring) {
                p = {p.x * pass.file.metres_per_unit, p.y * pass.file.metres_per_unit};
            }
        }
        show(pass, record, rings_);
        return true;
    }

    std::vector<Polyline> rings_;  // of the record, in metres
    GeoPackageRows rows_;
    OGRLayer& layer_;
};

template <class Records>
bool write_records(Pass& pass, Records records) {
    RepairedShapes repaired(pass.input.repaired);
    Row row;
    std::size_t record = 0;
    while (records.next()) {
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
            records.start(pass, record, repaired.shape(record));
            add_results(pass, record, row);
        }
        ++record;
    }
    if (record != pass.input.features) {
        fail_changed(pass.input.spec, "it has " + std::to_string(record) + " records, before " +
                                          std::to_string(pass.input.features));
    }
    return true;
}

bool write_records(Pass& pass) {
    OGRLayer& layer = *pass.open.layer;
    std::optional<GeoPackageRows> rows =
        pass.to_working.moves()
            ? std::nullopt
            : GeoPackageRows::of(pass.open, pass.carries, !pass.input.spec.where.empty());
    return rows ? write_records(pass, RecordsBySqlite(std::move(*rows), layer))
                : write_records(pass, RecordsByGdal(layer));
}

}  // namespace

bool write_second_pass(GeoPackageInMaking& file, const PassThroughTable& table,
                       const PassThroughInput& input, const Work& work) {
    OpenLayer open = open_layer(input.spec);
    const auto files = files_of(input.spec, *open.dataset);
    const FileStamps before = stamps_of(files);
    require_fingerprint(input, files, file.fingerprints);
    const OGRwkbGeometryType declared = open.layer->GetGeomType();
    Pass pass{file,
              table,
              input,
              work,
              open,
              ToWorking(open, file, input.spec),
              GeoPackageLayer(file, table.results, declared == wkbNone ? wkbNone : wkbUnknown),
              {}};
    pass.carries =
        add_carried_columns(pass.layer, *open.layer->GetLayerDefn(), table.results.columns);
    pass.layer.add_result_columns(table.results.columns);
    pass.layer.begin();
    if (!write_records(pass)) {
        return false;
    }
    require_unchanged(input, files, before, file.fingerprints);
    // A layer's declared type often does not hold for all of its records (a shapefile's polygons
    // may have parts), and GeoPackage is strict about it.
    pass.layer.finish_with_type_of_rows(static_cast<int>(declared));
    work.step(table.results.name, input.features, input.features);
    return true;
}

bool see_second_pass(const WorkingCrs& crs, const Fingerprints& known,
                     const PassThroughTable& table, const PassThroughInput& input,
                     const Work& work) {
    GeoPackageInMaking none;
    none.crs = crs_of(crs);
    none.fingerprints = known;
    const OpenLayer open = open_layer(input.spec);
    const auto files = files_of(input.spec, *open.dataset);
    const FileStamps before = stamps_of(files);
    require_fingerprint(input, files, none.fingerprints);
    const ToWorking to_working(open, none, input.spec);
    RepairedShapes repaired(input.repaired);
    std::size_t record = 0;
    open.layer->ResetReading();
    for (OGRFeatureUniquePtr feature(open.layer->GetNextFeature()); feature;
         feature.reset(open.layer->GetNextFeature()), ++record) {
        if (record % records_per_step == 0) {
            work.step(table.results.name, record, input.features);
            if (work.stopped()) {
                return false;
            }
        }
        if (keeps(table, record)) {
            auto shape = repaired.shape(record);
            shape =
                shape ? std::move(shape) : std::unique_ptr<OGRGeometry>(feature->StealGeometry());
            table.sees(record, rings_in_plane(shape.get(), to_working, crs.metres_per_unit));
        }
    }
    if (record != input.features) {
        fail_changed(input.spec, "it has " + std::to_string(record) + " records, before " +
                                     std::to_string(input.features));
    }
    require_unchanged(input, files, before, none.fingerprints);
    return true;
}

}  // namespace farwater::io
