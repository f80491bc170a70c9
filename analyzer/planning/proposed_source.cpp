#include "analyzer/planning/proposed_source.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <string>

namespace farwater::planning {
namespace {

Length up_to_tenth_of_foot(Length length) { return feet(std::ceil(in_feet(length) * 10.0) / 10.0); }

std::string called(const Road& road) { return road.name.empty() ? "a nameless road" : road.name; }

std::string where(const District& district, const RoadsidePlace& place) {
    const Road& road = at(district.roads, place.road);
    if (place.parcel.valid()) {
        return called(road) + ", parcel " + at(district.parcels, place.parcel).id;
    }
    return place.crossing.valid()
               ? called(road) + " and " + called(at(district.roads, place.crossing))
               : "a fork of " + called(road);
}

std::string parcels_in_words(const District& district, std::span<const ParcelIndex> parcels) {
    std::string words =
        parcels.empty() ? "in no parcel" : (parcels.size() > 1 ? "parcels " : "parcel ");
    for (std::size_t i = 0; i < parcels.size(); ++i) {
        words += (i == 0 ? "" : ", ") + at(district.parcels, parcels[i]).id;
    }
    return words;
}

}  // namespace

WaterSource dry_hydrant_at(const District& district, const RoadNearWater& road, std::size_t nth) {
    const Assumptions& assumptions = district.assumptions;
    const MappedWater& water = district.mapped_water[road.water];
    WaterSource source;
    source.id = "DH-" + std::to_string(water.row + 1);
    source.name =
        "Dry hydrant at " + (water.name.empty() ? "water in " + row_name(water.row) : water.name);
    if (nth > 1) {
        source.id += "-" + std::to_string(nth);
        source.name += ", " + parcels_in_words(district, road.ground);
    }
    source.owner = road.owner;
    source.place = road.road.valid() ? road.on_road : water.place;
    source.kind = SourceKind::dry_hydrant;
    source.standing = Standing::declared;
    source.rate = assumptions.new_source;
    source.suction.pipe = feet(std::ceil(in_feet(road.apart + assumptions.new_pipe_beyond_shore)));
    source.suction.pipe_diameter = assumptions.new_pipe_bore;
    source.suction.material = PipeMaterial::plastic;
    if (road.road_height && road.water_height) {
        const Length above = std::max(metres(0), *road.road_height - *road.water_height);
        source.suction.lift =
            up_to_tenth_of_foot(above + assumptions.new_pump_height + assumptions.drought_drop);
    }
    return source;
}

WaterSource cistern_at(const District& district, const RoadsidePlace& place) {
    const Assumptions& assumptions = district.assumptions;
    WaterSource source;
    source.id = place.parcel.valid()
                    ? "CP-" + std::to_string(at(district.parcels, place.parcel).row + 1)
                    : "CJ-" + std::to_string(place.number);
    source.name = "Cistern at " + where(district, place);
    source.place = place.place;
    source.kind = SourceKind::cistern;
    source.standing = Standing::declared;
    source.rate = assumptions.new_source;
    source.usable = UsableWater::of(assumptions.new_cistern);
    source.suction.pipe = assumptions.new_cistern_riser;
    source.suction.pipe_diameter = assumptions.new_pipe_bore;
    source.suction.material = PipeMaterial::plastic;
    source.suction.lift = assumptions.new_cistern_lift;
    return source;
}

}  // namespace farwater::planning
