// Writes result layers and tables into one new GeoPackage 1.2, the same bytes for the same rows.
#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "analyzer/parallel/work.h"
#include "io/crs.h"
#include "io/feature_table.h"
#include "io/files/unchanged_files.h"
#include "io/pass_through.h"

namespace farwater::io {

// One file in the making. Every layer is in the working CRS; shapes of a FeatureTable come in
// metres, are rounded to 1 mm and divided by the CRS's metres_per_unit. Every table gets the key
// column `fid` (1, 2, ... in the order of the rows), every layer the geometry column `geom`.
// NaN and infinity are written as NULL. For one thread.
//
// All functions throw OutputError (disk, rights, a failed check), naming the file.
class GeoPackageWriter {
public:
    // Precondition: the file does not exist yet, its folder does. `date` is what the file gives as
    // its date of change, "2026-01-01T00:00:00.000Z": of the data, never of the clock. `known`: of
    // inputs that go through, so that one whose stamps stand still is not hashed again.
    GeoPackageWriter(const std::filesystem::path& file, const WorkingCrs& crs,
                     const std::string& date, Fingerprints known = {});
    ~GeoPackageWriter();  // without close(): closes the file as it is, for the caller to remove
    GeoPackageWriter(const GeoPackageWriter&) = delete;
    GeoPackageWriter& operator=(const GeoPackageWriter&) = delete;

    // One layer (or, with ShapeKind::none, one table), row by row in one transaction. False when
    // `work` was stopped: the file is then incomplete, the caller discards it. O(rows).
    bool write(const FeatureTable& table, const Work& work);

    // One layer of an input's records, read a second time: see io/pass_through.h for what goes
    // through. Also throws InputError when the input changed since it was first read.
    bool write(const PassThroughTable& table, const PassThroughInput& input, const Work& work);

    // Writes the columns' descriptions and checks the file: its pages, its keys, its indexes, the
    // number of rows of every table. Afterwards the file stands alone, with no journal beside it.
    // At most once. False when stopped.
    bool close(const Work& work);

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace farwater::io
