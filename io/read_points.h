// Any layer of points, or of areas by a point inside: an input of the district file or another data
// set, with the column that tells its records apart.
#pragma once

#include <optional>
#include <string>

#include "analyzer/district/plane.h"
#include "analyzer/parallel/work.h"
#include "io/crs.h"
#include "io/district_file.h"
#include "io/records/layer_rows.h"

namespace farwater::io {

struct NamedPoint {
    std::string id;  // never empty; " (2)" behind one that was there before
    Point place;
};

struct PointLayer {
    std::string name;       // as asked for, without passwords
    std::string id_column;  // empty = records are called "row 17"
    LayerRows<NamedPoint> points;
};

// The input that a text names: a section of the district file with shapes; else a file beside the
// current folder or a connection, alone or with ":LAYER" behind it. A file whose own name has a
// colon stands as it is when it exists. Throws SettingsError where it is neither.
LayerSpec spec_of_points(const DistrictFile& file, const std::string& text);

// The ids are those of `id_column`; without one the first column that is called id or ends in "id",
// else the first that is called name. Throws InputError: what open_layer throws, no such column, no
// coordinate system, no record, most records of no use.
PointLayer read_points(const LayerSpec& spec, const std::optional<std::string>& id_column,
                       const WorkingCrs& crs, const Work& work);

}  // namespace farwater::io
