#include "io/read_roads.h"

#include "io/quantity_fields.h"
#include "io/record.h"
#include "io/record_shape.h"

namespace farwater::io {
namespace {

// Besides the words: yes and 1 are along the line, -1 against it, no and 0 both ways.
OneWay one_way_of(Record& record) {
    const std::string text = record.word_text("one_way");
    if (text == "yes" || text == "true" || text == "1") {
        return OneWay::forward;
    }
    if (text == "-1") {
        return OneWay::backward;
    }
    if (text == "no" || text == "false" || text == "0") {
        return OneWay::both;
    }
    return record.word("one_way", OneWay::both).value_or(OneWay::both);
}

RoadClass class_of(Record& record) {
    const std::optional<RoadClass> kind = record.word("class", RoadClass::narrow);
    if (!kind && record.has("class")) {
        record.report(ProblemId::road_no_speed, "class", {});
    }
    return kind.value_or(RoadClass::narrow);
}

// Everything but the line.
Road attributes_of(Record& record) {
    Road road;
    road.row = record.row();
    road.name = record.text("name");
    road.kind = class_of(record);
    road.surface = record.word("surface", Surface::gravel);
    road.access = record.word("access", RoadAccess::gated).value_or(RoadAccess::open);
    road.one_way = one_way_of(record);
    road.bridge = record.yes_no("bridge", true).value_or(false);
    road.tunnel = record.yes_no("tunnel", true).value_or(false);
    road.rail_crossing = record.yes_no("rail_crossing", true).value_or(false);
    road.level = record.whole("level").value_or(0);
    road.maintained = record.months("maintained_months").value_or(MonthSet::all());
    road.posted_speed = speed_field(record, "speed_limit_mph");
    road.width = length_field(record, "width_ft");
    road.weight_limit = weight_field(record, "weight_limit_lb");
    road.height_limit = length_field(record, "height_limit_ft");
    return road;
}

}  // namespace

LayerRows<Road> read_roads(const LayerSource& source, const WorkingCrs& crs, const Box& parcels,
                           const Work& work) {
    const ShapeReader shapes(source, crs, parcels);
    LayerRows<Road> result;
    Box extent;
    result.log = for_each_record(source, work, [&](Record& record) {
        const std::vector<Polyline> lines = shapes.lines(record);
        if (lines.empty()) {
            return Taken::no;
        }
        Road road = attributes_of(record);
        for (const Polyline& line : lines) {
            road.line = line;
            result.rows.push_back(road);
            for (const Point p : line) {
                extent.include(p);
            }
        }
        return Taken::yes;
    });
    if (!source.has("class")) {
        result.log.problems.insert(result.log.problems.begin(), {ProblemId::road_no_speed,
                                                                 "roads",
                                                                 result.log.count.file,
                                                                 {},
                                                                 "class",
                                                                 "the layer has no such column"});
    }
    if (!work.stopped()) {
        check_on_parcels(source.spec, extent, parcels);
    }
    return result;
}

}  // namespace farwater::io
