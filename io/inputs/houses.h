// Buildings and address points, waiting to be found by the parcels that they belong to.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <unordered_map>
#include <vector>

#include "analyzer/district/building.h"
#include "analyzer/district/need_rules.h"
#include "analyzer/district/plane.h"
#include "analyzer/geometry/point_index.h"
#include "analyzer/geometry/polygon.h"
#include "analyzer/geometry/separation.h"
#include "analyzer/parallel/work.h"
#include "io/crs.h"
#include "io/records/layer_rows.h"
#include "io/records/layer_source.h"

namespace farwater::io {

// One building or address point.
struct House {
    Point place;
    double area_m2 = 0.0;   // 0 for a point, and where the footprint cannot be right
    BuildingTraits traits;  // of a building, what its own columns say
    std::string name;       // for messages
    std::string parcel_id;  // whose it is by its own word; may be empty
    bool repaired = false;
    bool found = false;  // a parcel has it
};

// The houses of one layer. Look-ups mark what they find; what stays unmarked lies in no parcel.
class Houses {
public:
    Houses() = default;
    explicit Houses(LayerRows<House> rows) : Houses(std::move(rows), {}) {}
    Houses(LayerRows<House> rows, Footprints footprints);  // of all houses, or of none

    bool empty() const { return houses_.empty(); }
    Box extent() const;

    // In the order of the records. A house whose place two parcels cover is in both.
    std::vector<const House*> inside(const MultiPolygon& parcel);
    std::vector<const House*> of_parcel(const std::string& parcel_id);

    // How near the buildings stand to each other, by the rules of the standard; needs their
    // footprints. Where the standard has no exposures only overlaps are looked for.
    void measure_separations(const Standard& standard, const Work& work);
    const Separation& separation(const House& house) const;
    // Notes the buildings that lie on the parcel to a good part but with their place elsewhere.
    void look_for_parts_on(const MultiPolygon& parcel, const std::string& parcel_id);

    // The layer's log when all parcels have looked: those in no parcel are set aside.
    LayerLog log() const;

private:
    std::vector<const House*> marked(const std::vector<std::uint32_t>& positions);
    void note_overlap(std::size_t house, std::size_t earlier);
    Problem problem_of(std::size_t house, ProblemId id, std::string detail) const;

    std::vector<House> houses_;
    PointIndex index_;
    std::unordered_map<std::string, std::vector<std::uint32_t>> by_parcel_;
    // Where it stays when this is moved, for the index looks at it.
    std::unique_ptr<Footprints> footprints_ = std::make_unique<Footprints>();
    std::unique_ptr<SeparationIndex> near_;
    std::vector<Separation> separations_;  // by house; empty where they were not measured
    LayerLog log_;
};

// Throw what for_each_record throws. Outlines and columns of the buildings are kept only where the
// rules go by them.
Houses read_buildings(const LayerSource& source, const WorkingCrs& crs, const NeedRules& rules,
                      const Work& work);
Houses read_address_points(const LayerSource& source, const WorkingCrs& crs, const Work& work);

}  // namespace farwater::io
