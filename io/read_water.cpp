#include "io/read_water.h"

#include "io/parse_cell.h"
#include "io/quantity_fields.h"
#include "io/record.h"
#include "io/record_shape.h"
#include "io/unique_ids.h"

namespace farwater::io {
namespace {

std::optional<UsableWater> usable_of(Record& record) {
    if (record.word_text("usable_gal") == "unlimited") {
        return UsableWater::unlimited();
    }
    const std::optional<Volume> volume = volume_field(record, "usable_gal");
    return volume ? std::optional(UsableWater::of(*volume)) : std::nullopt;
}

void read_trust(Record& record, WaterSource& source) {
    source.standing = record.word("standing", Standing::mapped).value_or(Standing::mapped);
    source.standing_by = record.text("standing_by");
    source.tested_on = record.date("tested_on");
    source.use = record.word("use", SourceUse::operations).value_or(SourceUse::operations);
    source.own_parcel = record.text("own_parcel");
    source.owner = record.text("owner");
    source.note = record.text("note");
}

void read_strength(Record& record, WaterSource& source) {
    source.system = record.text("system");
    source.rate = flow_field(record, "rate_gpm");
    source.usable = usable_of(record);
    source.inflow = flow_field(record, "inflow_gpm");
    source.places = record.whole("places");
    source.fills_without_engine = record.yes_no("fills_without_engine");
    source.static_lift = length_field(record, "static_lift_ft");
}

void read_access(Record& record, WaterSource& source) {
    source.open_months = record.months("open_months").value_or(MonthSet::all());
    source.frost_proof = record.yes_no("frost_proof").value_or(false);
    source.reach = record.word("reach", Reach::portable_pump).value_or(Reach::engine);
    source.all_weather = record.yes_no("all_weather");
    source.lane = record.word("lane", LaneClass::dead_end);
}

}  // namespace

LayerRows<WaterSource> read_water_sources(const LayerSource& source, const WorkingCrs& crs,
                                          const Box& parcels, const Work& work) {
    const ShapeReader shapes(source, crs, parcels);
    UniqueIds ids;
    LayerRows<WaterSource> result;
    result.log = for_each_record(source, work, [&](Record& record) {
        WaterSource water;
        water.id = ids.take(record, "source_id");
        const std::optional<PlaceShape> shape = shapes.place(record);
        if (!shape) {
            return Taken::no;
        }
        const std::string kind = record.word_text("kind");
        if (!parse_word<SourceKind>(kind)) {
            record.report(ProblemId::source_kind_unknown, "kind", "\"" + kind + "\"");
            return Taken::no;
        }
        water.kind = *parse_word<SourceKind>(kind);
        water.place = shape->place;
        water.row = record.row();
        water.name = record.text("name");
        read_trust(record, water);
        read_strength(record, water);
        read_access(record, water);
        result.rows.push_back(std::move(water));
        return Taken::yes;
    });
    return result;
}

LayerRows<MappedWater> read_mapped_water(const LayerSource& source, const WorkingCrs& crs,
                                         const Box& parcels, const Work& work) {
    const ShapeReader shapes(source, crs, parcels);
    LayerRows<MappedWater> result;
    result.log = for_each_record(source, work, [&](Record& record) {
        const std::optional<PlaceShape> shape = shapes.place(record);
        if (!shape) {
            return Taken::no;
        }
        result.rows.push_back(
            {record.name(), record.text("name"), record.row(), shape->place, shape->area_m2});
        return Taken::yes;
    });
    return result;
}

}  // namespace farwater::io
