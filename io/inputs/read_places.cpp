#include "io/inputs/read_places.h"

#include <optional>
#include <string>
#include <type_traits>

#include "io/records/layer_records.h"
#include "io/records/quantity_fields.h"
#include "io/records/record.h"
#include "io/records/record_shape.h"
#include "io/records/unique_ids.h"

namespace farwater::io {
namespace {

// Things with id, name, row and place; `read` fills in the rest. Ids: UniqueIds, or IdsOnce where
// one that is typed twice would count twice.
template <class Thing, class Ids = UniqueIds, class Read>
LayerRows<Thing> read_points(const LayerSource& source, const ShapeReader& shapes,
                             std::string_view id_field, const Work& work, const Read& read) {
    Ids ids;
    LayerRows<Thing> result;
    result.log = for_each_record(source, work, [&](Record& record) {
        const std::optional<std::string> id = ids.take(record, id_field);
        const std::optional<PlaceShape> shape = id ? shapes.place(record) : std::nullopt;
        if (!shape) {
            return Taken::no;
        }
        if constexpr (std::is_same_v<Ids, IdsOnce>) {
            ids.used(*id);
        }
        Thing thing;
        thing.id = *id;
        thing.name = record.text("name");
        thing.row = record.row();
        thing.place = shape->place;
        read(record, thing);
        result.rows.push_back(std::move(thing));
        return Taken::yes;
    });
    return result;
}

}  // namespace

LayerRows<Station> read_stations(const LayerSource& source, const WorkingCrs& crs,
                                 const Box& parcels, const Work& work) {
    const ShapeReader shapes(source, crs, parcels);
    return read_points<Station, IdsOnce>(
        source, shapes, "station_id", work, [](Record& record, Station& station) {
            station.aid = record.word("aid", Aid::mutual).value_or(Aid::own);
            station.staffed = record.yes_no("staffed").value_or(false);
            station.to_gate = duration_field(record, "to_gate_min");
        });
}

LayerRows<Target> read_targets(const LayerSource& source, const WorkingCrs& crs, const Box& parcels,
                               const Work& work) {
    const ShapeReader shapes(source, crs, parcels);
    return read_points<Target>(source, shapes, "target_id", work,
                               [](Record& record, Target& target) {
                                   target.needed = flow_field(record, "needed_gpm");
                                   target.duration = duration_field(record, "duration_min");
                               });
}

LayerRows<DumpSitePlace> read_dump_site_places(const LayerSource& source, const WorkingCrs& crs,
                                               const Box& parcels, const Work& work) {
    const ShapeReader shapes(source, crs, parcels);
    return read_points<DumpSitePlace>(
        source, shapes, "place_id", work, [](Record& record, DumpSitePlace& place) {
            place.lane = record.word("lane", LaneClass::dead_end);
            place.portable_tanks = record.whole("portable_tanks");
            place.turnaround = record.yes_no("turnaround").value_or(false);
        });
}

LayerRows<Turnaround> read_turnarounds(const LayerSource& source, const WorkingCrs& crs,
                                       const Box& parcels, const Work& work) {
    const ShapeReader shapes(source, crs, parcels);
    return read_points<Turnaround>(source, shapes, "turnaround_id", work,
                                   [](Record& /*record*/, Turnaround& /*turnaround*/) {});
}

}  // namespace farwater::io
