#include "io/inputs/read_roads.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/inputs/osm_roads.h"
#include "io/inputs/road_one_ways.h"
#include "io/inputs/road_schemas.h"
#include "io/records/layer_records.h"
#include "io/records/parse_cell.h"
#include "io/records/quantity_fields.h"
#include "io/records/record.h"
#include "io/records/record_shape.h"

namespace farwater::io {
namespace {

// Places of the further columns of the schema osm (io/inputs/road_schemas.cpp).
enum OsmColumn : std::size_t { osm_motor_vehicle, osm_vehicle, osm_junction, osm_ref };

// Lines that are no roads, by their class.
class LeftOut {
public:
    void add(const std::string& their_class) { ++count_[their_class]; }

    void report(const LayerSource& source, LayerLog& log) const {
        std::vector<std::string> kinds;
        for (const auto& [kind, count] : count_) {
            kinds.push_back(fmt::format("{} {}", count, kind.empty() ? "without class" : kind));
        }
        if (!kinds.empty()) {
            log.problems.push_back({ProblemId::road_left_out,
                                    "roads",
                                    log.count.file,
                                    {},
                                    source.bound("class").column,
                                    fmt::format("{}", fmt::join(kinds, ", "))});
        }
    }

private:
    std::map<std::string, std::size_t> count_;
};

// What one layer's records are made into roads by.
class RoadRecords {
public:
    explicit RoadRecords(const LayerSource& source)
        : source_(&source),
          schema_(source.bound("class").schema),
          osm_(source.spec.schema == "osm") {}

    // Whether the record is no road for apparatus. What the values table says goes first.
    bool left_out(Record& record) const {
        const std::string kind = record.theirs("class");
        const bool named = source_->bound("class").values.contains(kind);
        return schema_ != nullptr && !named &&
               (is_left_out(*schema_, kind) || (osm_ && kind.empty()));
    }

    // Everything but the line and the direction.
    Road attributes_of(Record& record) {
        Road road;
        road.row = record.row();
        road.name = names_.of(name_of(record));
        set_class(record, road);
        road.surface = record.word("surface", Surface::gravel);
        road.access = access_of(record);
        road.bridge = record.yes_no("bridge", true).value_or(false);
        road.tunnel = record.yes_no("tunnel", true).value_or(false);
        road.rail_crossing = record.yes_no("rail_crossing", true).value_or(false);
        road.level = record.whole("level").value_or(0);
        road.maintained = record.months("maintained_months").value_or(MonthSet::all());
        road.posted_speed = speed_measure(record, "speed_limit_mph");
        road.width = length_measure(record, "width_ft");
        road.weight_limit = weight_measure(record, "weight_limit_lb");
        road.height_limit = length_measure(record, "height_limit_ft");
        if (osm_ && implied_one_way(record)) {
            road.one_way = OneWay::forward;
        }
        return road;
    }

private:
    std::string further(const Record& record, std::size_t place) const {
        return std::string(trimmed(printed(record.also(place))));
    }

    // Tags may stand in one column and their kind of road in another that the officer mapped.
    bool osm_class() const { return osm_ && schema_ != nullptr; }

    bool implied_one_way(const Record& record) const {
        const std::string highway = osm_class() ? lower_case(record.theirs("class")) : "";
        return implies_one_way(highway, lower_case(further(record, osm_junction)));
    }

    std::string name_of(Record& record) const {
        std::string name = record.text("name");
        if (source_->bound("name").schema == nullptr || source_->also.empty()) {
            return name;
        }
        if (osm_) {
            return name.empty() ? further(record, osm_ref) : name;
        }
        std::vector<std::string> parts;
        for (std::size_t i = 0; i < source_->also.size(); ++i) {
            parts.push_back(further(record, i));
        }
        std::erase(parts, "");
        return fmt::format("{}", fmt::join(parts, " "));
    }

    void set_class(Record& record, Road& road) const {
        const std::optional<RoadClass> kind = record.word("class", RoadClass::narrow);
        if (!kind && record.has("class")) {
            record.report(ProblemId::road_no_speed, "class", {});
        }
        const bool softens = osm_ && source_->bound("surface").schema != nullptr &&
                             is_soft(lower_case(record.theirs("surface")));
        const RoadClass known = kind.value_or(RoadClass::narrow);
        road.kind = softens ? std::max(known, RoadClass::narrow) : known;
        road.kind_known = kind.has_value() || softens;
    }

    // The most particular tag speaks; of several words the strictest counts.
    RoadAccess access_of(Record& record) const {
        const bool tags = osm_ && source_->bound("access").schema != nullptr;
        std::string text = tags ? further(record, osm_motor_vehicle) : "";
        text = tags && text.empty() ? further(record, osm_vehicle) : text;
        text = text.empty() ? record.theirs("access") : text;
        const RoadAccess said = strictest(record, text);
        return osm_class() ? std::max(said, access_by_class(record)) : said;
    }

    // Of a text with ; between words, unless the whole text has a meaning.
    static RoadAccess strictest(Record& record, std::string_view text) {
        const std::string whole = record.word_for("access", text);
        if (whole.empty() || parse_word<RoadAccess>(whole)) {
            return access_word(record, text);
        }
        RoadAccess strictest = RoadAccess::open;
        for (std::string_view rest = text; !is_blank(rest);) {
            const std::size_t end = rest.find(';');
            strictest = std::max(strictest, access_word(record, trimmed(rest.substr(0, end))));
            rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
        }
        return strictest;
    }

    static RoadAccess access_word(Record& record, std::string_view text) {
        const std::string word = record.word_for("access", text);
        const std::optional<RoadAccess> access = parse_word<RoadAccess>(word);
        if (!access && !word.empty()) {
            record.report_unmapped("access", text, farwater::word(RoadAccess::gated));
        }
        return access.value_or(word.empty() ? RoadAccess::open : RoadAccess::gated);
    }

    // A kind of line that nobody knows may be no road at all.
    static RoadAccess access_by_class(Record& record) {
        const std::string highway = lower_case(record.theirs("class"));
        const std::string word = record.word_for("class", record.theirs("class"));
        if (!word.empty() && !parse_word<RoadClass>(word)) {
            record.report_unmapped("access", "highway=" + highway,
                                   farwater::word(RoadAccess::gated));
            return RoadAccess::gated;
        }
        return access_of_highway(highway);
    }

    const LayerSource* source_;
    const RoadSchema* schema_;  // null = the class is not by a schema
    bool osm_;
    SharedTexts names_;
};

void report_no_class(LayerLog& log) {
    log.problems.insert(log.problems.begin(), {ProblemId::road_no_speed,
                                               "roads",
                                               log.count.file,
                                               {},
                                               "class",
                                               "the layer has no such column"});
}

// Adds the record's lines, one or more, to the roads.
void add_parts(LayerRows<Road>& roads, Road road, std::vector<Polyline> lines, Box& extent) {
    for (const Polyline& line : lines) {
        for (const Point p : line) {
            extent.include(p);
        }
    }
    for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
        road.line = std::move(lines[i]);
        roads.rows.push_back(road);
    }
    road.line = std::move(lines.back());
    roads.rows.push_back(std::move(road));
}

}  // namespace

LayerRows<Road> read_roads(const LayerSource& source, const WorkingCrs& crs, const Box& parcels,
                           const Work& work) {
    const ShapeReader shapes(source, crs, parcels);
    RoadRecords records(source);
    LayerRows<Road> result;
    result.rows.reserve(expected_records(source));
    RoadOneWays one_ways;
    LeftOut left_out;
    Box extent;
    result.log = for_each_record(source, work, [&](Record& record) {
        if (records.left_out(record)) {
            left_out.add(record.theirs("class"));
            return Taken::left_out;
        }
        std::vector<Polyline> lines = shapes.lines(record);
        if (lines.empty()) {
            return Taken::no;
        }
        Road road = records.attributes_of(record);
        one_ways.take(record, road, result.rows.size());
        add_parts(result, std::move(road), std::move(lines), extent);
        return Taken::yes;
    });
    if (!source.has("class")) {
        report_no_class(result.log);
    }
    one_ways.settle(result, source.bound("one_way").column);
    left_out.report(source, result.log);
    if (!work.stopped()) {
        check_on_parcels(source.spec, extent, parcels);
    }
    return result;
}

}  // namespace farwater::io
