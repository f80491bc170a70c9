#include "io/inputs/read_water.h"

#include "io/records/layer_records.h"
#include "io/records/quantity_fields.h"
#include "io/records/record.h"
#include "io/records/record_shape.h"
#include "io/records/unique_ids.h"

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
}

void read_strength(Record& record, WaterSource& source) {
    source.system = record.text("system");
    source.rate = flow_field(record, "rate_gpm");
    source.usable = usable_of(record);
    source.inflow = flow_field(record, "inflow_gpm");
    source.places = record.whole("places");
    source.fills_without_engine = record.yes_no("fills_without_engine");
    source.system_rate = flow_field(record, "system_rate_gpm");
}

void read_hydrant(Record& record, HydrantData& hydrant) {
    hydrant.static_psi = record.number("static_psi");
    hydrant.residual_psi = record.number("residual_psi");
    hydrant.test_flow = flow_field(record, "test_flow_gpm");
    hydrant.pitot_psi = record.number("pitot_psi");
    hydrant.outlet = bore_field(record, "outlet_in");
    hydrant.outlet_coefficient = record.number("outlet_coefficient");
    hydrant.colour = record.word("colour_class", HydrantColour::red);
    hydrant.main = bore_field(record, "main_in");
    hydrant.dead_end_main = record.yes_no("dead_end_main", true);
}

void read_suction(Record& record, SuctionData& suction) {
    suction.lift = length_field(record, "static_lift_ft");
    suction.pipe = length_field(record, "pipe_ft");
    suction.pipe_diameter = bore_field(record, "pipe_diameter_in");
    suction.material = record.word("pipe_material", PipeMaterial::old_iron);
    suction.elbows_90 = record.whole("elbows_90");
    suction.elbows_45 = record.whole("elbows_45");
    suction.strainer_loss = length_field(record, "strainer_loss_ft");
    suction.hose = length_field(record, "suction_hose_ft");
}

void read_still_water(Record& record, StillWater& still) {
    still.area = area_field(record, "drought_area_acre");
    still.over_intake = length_field(record, "intake_depth_ft");
    still.sounded = record.yes_no("sounded", false).value_or(false);
    still.ice = length_field(record, "ice_ft");
}

void read_access(Record& record, WaterSource& source) {
    source.open_months = record.months("open_months").value_or(MonthSet::all());
    source.frost_proof = record.yes_no("frost_proof").value_or(false);
    source.reach = record.word("reach", Reach::portable_pump).value_or(Reach::engine);
    source.all_weather = record.yes_no("all_weather");
    source.lane = record.word("lane", LaneClass::dead_end);
    source.turnaround = record.yes_no("turnaround").value_or(false);
}

// What is there, whoever vouches for it. False: it cannot be used.
bool read_source(Record& record, const ShapeReader& shapes, WaterSource& water) {
    const std::optional<PlaceShape> shape = shapes.place(record);
    if (!shape) {
        return false;
    }
    const std::string kind = record.word_text("kind");
    if (!parse_word<SourceKind>(kind)) {
        record.report(ProblemId::source_kind_unknown, "kind", "\"" + kind + "\"");
        return false;
    }
    water.kind = *parse_word<SourceKind>(kind);
    water.place = shape->place;
    water.row = record.row();
    water.name = record.text("name");
    water.owner = record.text("owner");
    water.agreement = record.text("agreement");
    water.certified_by = record.text("certified_by");
    water.certified_on = record.date("certified_on");
    water.cross_street = record.text("cross_street");
    water.note = record.text("note");
    read_strength(record, water);
    read_hydrant(record, water.hydrant);
    read_suction(record, water.suction);
    read_still_water(record, water.still);
    read_access(record, water);
    return true;
}

std::vector<Polyline> rings_of(const MultiPolygon& shape) {
    std::vector<Polyline> rings;
    for (const Polygon& polygon : shape) {
        rings.push_back(polygon.shell);
        rings.insert(rings.end(), polygon.holes.begin(), polygon.holes.end());
    }
    return rings;
}

LayerRows<WaterSource> read_sources(const LayerSource& source, const WorkingCrs& crs,
                                    const Box& parcels, const Work& work, bool hypothetical) {
    const ShapeReader shapes(source, crs, parcels);
    const ToDegrees degrees(crs);
    IdsOnce ids;
    LayerRows<WaterSource> result;
    result.log = for_each_record(source, work, [&](Record& record) {
        WaterSource water;
        const std::optional<std::string> id = ids.take(record, "source_id");
        if (!id || !read_source(record, shapes, water)) {
            return Taken::no;
        }
        ids.used(*id);
        water.id = *id;
        read_trust(record, water);
        water.degrees = degrees(water.place);
        if (hypothetical) {
            record.report(ProblemId::source_hypothetical, "", water.name);
        }
        result.rows.push_back(std::move(water));
        return Taken::yes;
    });
    return result;
}

}  // namespace

LayerRows<WaterSource> read_water_sources(const LayerSource& source, const WorkingCrs& crs,
                                          const Box& parcels, const Work& work) {
    return read_sources(source, crs, parcels, work, false);
}

LayerRows<WaterSource> read_what_if_sources(const LayerSource& source, const WorkingCrs& crs,
                                            const Box& parcels, const Work& work) {
    return read_sources(source, crs, parcels, work, true);
}

LayerRows<ProposedSource> read_proposals(const LayerSource& source, const WorkingCrs& crs,
                                         const Box& parcels, const Work& work) {
    const ShapeReader shapes(source, crs, parcels);
    UniqueIds ids;
    LayerRows<ProposedSource> result;
    result.log = for_each_record(source, work, [&](Record& record) {
        ProposedSource proposed;
        proposed.source.id = ids.take(record, "proposal_id");
        if (!read_source(record, shapes, proposed.source)) {
            return Taken::no;
        }
        proposed.source.standing = Standing::declared;
        proposed.cost = record.number("cost");
        result.rows.push_back(std::move(proposed));
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
        result.rows.push_back({record.name(), record.text("name"), record.row(), shape->place,
                               shape->area_m2, rings_of(shape->shape)});
        return Taken::yes;
    });
    return result;
}

}  // namespace farwater::io
