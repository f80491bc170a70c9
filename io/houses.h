// Buildings and address points, waiting to be found by the parcels that they belong to.
#pragma once

#include <cstdint>
#include <string>
#include <unordered_map>
#include <vector>

#include "analyzer/district/plane.h"
#include "analyzer/geometry/point_index.h"
#include "analyzer/geometry/polygon.h"
#include "analyzer/work/work.h"
#include "io/crs.h"
#include "io/layer_rows.h"
#include "io/layer_source.h"

namespace farwater::io {

// One building or address point.
struct House {
    Point place;
    double area_m2 = 0.0;   // 0 for a point
    std::string name;       // for messages
    std::string parcel_id;  // whose it is by its own word; may be empty
    bool repaired = false;
    bool found = false;  // a parcel has it
};

// The houses of one layer. Look-ups mark what they find; what stays unmarked lies in no parcel.
class Houses {
public:
    Houses() = default;
    explicit Houses(LayerRows<House> rows);

    bool empty() const { return houses_.empty(); }
    Box extent() const;

    // In the order of the records. A house whose place two parcels cover is in both.
    std::vector<const House*> inside(const MultiPolygon& parcel);
    std::vector<const House*> of_parcel(const std::string& parcel_id);

    // The layer's log when all parcels have looked: those in no parcel are set aside.
    LayerLog log() const;

private:
    std::vector<const House*> marked(const std::vector<std::uint32_t>& positions);

    std::vector<House> houses_;
    PointIndex index_;
    std::unordered_map<std::string, std::vector<std::uint32_t>> by_parcel_;
    LayerLog log_;
};

// Throw what for_each_record throws.
Houses read_buildings(const LayerSource& source, const WorkingCrs& crs, const Work& work);
Houses read_address_points(const LayerSource& source, const WorkingCrs& crs, const Work& work);

}  // namespace farwater::io
