// Parcels from an input layer, one by one: their shapes stay in the input.
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/district/building.h"
#include "analyzer/district/parcel.h"
#include "analyzer/district/plane.h"
#include "analyzer/parallel/work.h"
#include "io/crs.h"
#include "io/inputs/houses.h"
#include "io/records/joined_table.h"
#include "io/records/layer_rows.h"
#include "io/records/layer_source.h"
#include "io/records/text_list.h"

namespace farwater::io {

// The shape that stands in for a record's own. In the coordinates of the input layer, so that the
// writer treats it as it treats the shapes that it reads itself.
struct RepairedShape {
    std::uint32_t row = 0;
    std::vector<unsigned char> wkb;  // little endian, polygon or multipolygon
};

// What the parcels look things up in. Look-ups mark what was found.
struct ParcelSurroundings {
    Houses buildings;
    bool has_building_layer = false;
    bool needs_by_building = false;  // keep the buildings that lie on parcels
    Houses addresses;
    std::vector<JoinedTable> joins;
};

struct ParcelRows {
    std::vector<Parcel> rows;
    LayerLog log;
    TextList addresses;               // one per row, empty where the data give none
    TextList owners;                  // likewise
    std::vector<Building> buildings;  // in the order of the parcels; only where they were asked for
    std::vector<RepairedShape> repaired;
    Box extent;
    bool buildings_known = false;
};

// The columns besides its fields that the joins need of the parcel layer.
std::vector<std::string> key_columns(const std::vector<JoinedTable>& joins);

// Precondition: the source was opened with key_columns(surroundings.joins). A parcel is improved
// when a building lies in it, when its `buildings` is over 0, or when the data say nothing of its
// buildings. The house is the address point that names the parcel, else the first that lies in it,
// else the largest building, else a point inside. Throws what for_each_record throws. About 300
// bytes a parcel.
ParcelRows read_parcels(const LayerSource& source, const WorkingCrs& crs,
                        ParcelSurroundings& surroundings, const Work& work);

}  // namespace farwater::io
