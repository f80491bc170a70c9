// Writing an input's records through; see io/pass_through.h for what goes through.
#pragma once

#include "analyzer/parallel/work.h"
#include "io/crs.h"
#include "io/geopackage/geopackage_layer.h"
#include "io/pass_through.h"

namespace farwater::io {

// False when stopped. Throws InputError when the input is not what it was (sha256, number of
// records, change while it was read) or cannot be read to the end; OutputError. O(records).
bool write_second_pass(GeoPackageInMaking& file, const PassThroughTable& table,
                       const PassThroughInput& input, const Work& work);

// The same pass for the eyes of table.sees alone: nothing is written. The same errors. By GDAL.
bool see_second_pass(const WorkingCrs& crs, const Fingerprints& known,
                     const PassThroughTable& table, const PassThroughInput& input,
                     const Work& work);

}  // namespace farwater::io
