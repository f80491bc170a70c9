// Reads every input that the district file names into one District: checked, repaired, in metres of
// the working CRS. Bad records become problems and the run goes on.
#pragma once

#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/parallel/work.h"
#include "io/crs.h"
#include "io/district_file.h"
#include "io/files/unchanged_files.h"
#include "io/inputs/read_parcels.h"
#include "io/records/layer_rows.h"

namespace farwater::io {

struct ReadResult {
    District district;
    WorkingCrs crs;
    std::vector<InputRecord> inputs;              // in the order of reading
    std::vector<RepairedShape> repaired_parcels;  // by ascending row
    TextList addresses;                           // one per parcel; may be empty
    TextList owners;                              // likewise
    Fingerprints fingerprints;                    // of the inputs' files
};

// A record's row number is its place in GDAL's natural reading order of the layer under the
// section's `where`, from 0; open_layer (io/records/dataset.h) gives the same order when the writer
// reads again.
//
// Throws InputError: missing file, layer or column; no CRS; empty layer of a required kind; a layer
// off the district; more than 90 % of a layer's records unusable; a raster without unit. Throws
// SettingsError when the given working CRS is unfit. When `work` is stopped comes back early with
// what there is; the caller discards it. O(records) time; memory per parcel below 300 bytes.
ReadResult read_district(const DistrictFile& file, const Work& work);

}  // namespace farwater::io
