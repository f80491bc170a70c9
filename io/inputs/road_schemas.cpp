#include "io/inputs/road_schemas.h"

#include <algorithm>
#include <array>
#include <vector>

#include "io/inputs/osm_config.h"
#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;
using Word = PresetWord;

// Which speed class of ours a class of theirs goes by: common practice, no source. Where a standard
// does not say paved or unpaved, the slower class of those that are likely is taken.

// --- OpenStreetMap: wiki, Key:highway, Key:surface, Key:access, Key:bridge, Key:tunnel -----------

constexpr std::array osm_columns{
    PresetColumn{"name", "name", {}},
    PresetColumn{"class", "highway", {}},
    PresetColumn{"surface", "surface", {}},
    PresetColumn{"access", "access", {}},
    PresetColumn{"one_way", "oneway", {}},
    PresetColumn{"bridge", "bridge", {}},
    PresetColumn{"tunnel", "tunnel", {}},
    PresetColumn{"level", "layer", {}},
    PresetColumn{"speed_limit_mph", "maxspeed", "km/h"},
    PresetColumn{"width_ft", "width", "m"},
    PresetColumn{"weight_limit_lb", "maxweight", "tonne"},
    PresetColumn{"height_limit_ft", "maxheight", "m"},
};

constexpr std::array osm_classes{
    Word{"motorway", "state"},       Word{"motorway_link", "state"},
    Word{"trunk", "state"},          Word{"trunk_link", "state"},
    Word{"primary", "state"},        Word{"primary_link", "state"},
    Word{"secondary", "state"},      Word{"secondary_link", "state"},
    Word{"tertiary", "paved"},       Word{"tertiary_link", "paved"},
    Word{"unclassified", "paved"},   Word{"residential", "paved_lane"},
    Word{"living_street", "narrow"}, Word{"road", "narrow"},
    Word{"service", "drive"},        Word{"track", "narrow"},
    Word{"pedestrian", "narrow"},    Word{"busway", "narrow"},
    Word{"construction", "narrow"},  Word{"proposed", "narrow"},
    Word{"planned", "narrow"},       Word{"abandoned", "narrow"},
    Word{"disused", "narrow"},       Word{"razed", "narrow"},
    Word{"discontinued", "narrow"},
};

constexpr std::array osm_surfaces{
    Word{"paved", "paved"},
    Word{"asphalt", "paved"},
    Word{"chipseal", "paved"},
    Word{"concrete", "paved"},
    Word{"concrete:plates", "paved"},
    Word{"concrete:lanes", "paved"},
    Word{"paving_stones", "paved"},
    Word{"sett", "paved"},
    Word{"bricks", "paved"},
    Word{"brick", "paved"},
    Word{"cobblestone", "paved"},
    Word{"unhewn_cobblestone", "paved"},
    Word{"metal", "paved"},
    Word{"metal_grid", "paved"},
    Word{"wood", "paved"},
    Word{"tiles", "paved"},
    Word{"unpaved", "gravel"},
    Word{"gravel", "gravel"},
    Word{"fine_gravel", "gravel"},
    Word{"compacted", "gravel"},
    Word{"pebblestone", "gravel"},
    Word{"dirt", "gravel"},
    Word{"earth", "gravel"},
    Word{"ground", "gravel"},
    Word{"rock", "gravel"},
    Word{"shells", "gravel"},
    Word{"grass_paver", "gravel"},
    Word{"woodchips", "gravel"},
    Word{"sand", "gravel"},
    Word{"mud", "gravel"},
    Word{"grass", "gravel"},
    Word{"snow", "gravel"},
    Word{"ice", "gravel"},
    Word{"clay", "gravel"},
};

constexpr std::array osm_accesses{
    Word{"yes", "open"},
    Word{"public", "open"},
    Word{"permissive", "open"},
    Word{"designated", "open"},
    Word{"destination", "open"},
    Word{"customers", "open"},
    Word{"delivery", "open"},
    Word{"official", "open"},
    Word{"private", "private"},
    Word{"permit", "private"},
    Word{"residents", "private"},
    Word{"forestry", "private"},
    Word{"agricultural", "private"},
    Word{"restricted", "gated"},
    Word{"gate", "gated"},
    Word{"gated", "gated"},
    Word{"locked", "gated"},
    Word{"military", "gated"},
    Word{"emergency", "gated"},
    Word{"discouraged", "gated"},
    Word{"unknown", "gated"},
    Word{"no", "closed"},
};

constexpr std::array osm_bridges{
    Word{"viaduct", "yes"},        Word{"boardwalk", "yes"},
    Word{"cantilever", "yes"},     Word{"covered", "yes"},
    Word{"movable", "yes"},        Word{"trestle", "yes"},
    Word{"aqueduct", "yes"},       Word{"swing", "yes"},
    Word{"simple_brunnel", "yes"}, Word{"low_water_crossing", "yes"},
};

constexpr std::array osm_tunnels{
    Word{"building_passage", "yes"},    Word{"culvert", "yes"}, Word{"covered", "yes"},
    Word{"avalanche_protector", "yes"}, Word{"flooded", "yes"}, Word{"passage", "yes"},
};

constexpr std::array osm_values{
    PresetValues{"class", osm_classes}, PresetValues{"surface", osm_surfaces},
    PresetValues{"access", osm_accesses}, PresetValues{"bridge", osm_bridges},
    PresetValues{"tunnel", osm_tunnels}};

constexpr std::array osm_left_out{
    "footway"sv,  "path"sv,     "cycleway"sv,  "bridleway"sv,   "steps"sv,  "corridor"sv,
    "elevator"sv, "platform"sv, "raceway"sv,   "via_ferrata"sv, "ladder"sv, "bus_guideway"sv,
    "escape"sv,   "bus_stop"sv, "rest_area"sv, "services"sv,    "no"sv,     "sidewalk"sv,
    "crossing"sv, "trail"sv,    "piste"sv};

constexpr std::array osm_further{"motor_vehicle"sv, "vehicle"sv, "junction"sv, "ref"sv};

// --- MAF/TIGER feature class codes ---------------------------------------------------------------

constexpr std::array mtfcc_columns{
    PresetColumn{"name", "FULLNAME", {}},
    PresetColumn{"class", "MTFCC", {}},
    PresetColumn{"access", "MTFCC", {}},
};

constexpr std::array mtfcc_classes{
    Word{"s1100", "state"},       // primary road
    Word{"s1200", "state"},       // secondary road
    Word{"s1400", "paved_lane"},  // local neighbourhood road, rural road, city street
    Word{"s1500", "narrow"},      // vehicular trail, four-wheel drive
    Word{"s1630", "state"},       // ramp
    Word{"s1640", "paved_lane"},  // service drive along a limited-access highway
    Word{"s1730", "narrow"},      // alley
    Word{"s1740", "narrow"},      // private road for service vehicles
    Word{"s1780", "drive"},       // parking lot road
};

constexpr std::array mtfcc_accesses{
    Word{"s1100", "open"}, Word{"s1200", "open"},         Word{"s1400", "open"},
    Word{"s1630", "open"}, Word{"s1500", "unmaintained"}, Word{"s1640", "open"},
    Word{"s1730", "open"}, Word{"s1740", "private"},      Word{"s1780", "open"},
};

constexpr std::array mtfcc_values{PresetValues{"class", mtfcc_classes},
                                  PresetValues{"access", mtfcc_accesses}};

// Walkway, stairway, internal use of the bureau, winter trail, bike path, bridle path, road median;
// and what else a file of all lines holds: railways, water, boundaries, pipelines.
constexpr std::array mtfcc_left_out{"s1710"sv, "s1720"sv, "s1750"sv, "s1810"sv, "s1820"sv,
                                    "s1830"sv, "s2000"sv, "r*"sv,    "h*"sv,    "p*"sv,
                                    "l*"sv,    "c*"sv,    "k*"sv,    "g*"sv};

// --- emergency-calling road centrelines ----------------------------------------------------------

constexpr std::array ng911_columns{
    PresetColumn{"name", "St_Name", {}},
    PresetColumn{"class", "RoadClass", {}},
    PresetColumn{"access", "RoadClass", {}},
    PresetColumn{"one_way", "OneWay", {}},
    PresetColumn{"speed_limit_mph", "SpeedLimit", "mph"},
};

constexpr std::array ng911_classes{
    Word{"primary", "state"},
    Word{"secondary", "state"},
    Word{"local", "paved_lane"},
    Word{"ramp", "state"},
    Word{"service drive", "paved_lane"},
    Word{"vehicular trail", "narrow"},
    Word{"alley", "narrow"},
    Word{"private", "narrow"},
    Word{"parking lot", "drive"},
    Word{"other", "narrow"},
};

constexpr std::array ng911_accesses{
    Word{"primary", "open"},     Word{"secondary", "open"},
    Word{"local", "open"},       Word{"ramp", "open"},
    Word{"alley", "open"},       Word{"service drive", "open"},
    Word{"parking lot", "open"}, Word{"other", "open"},
    Word{"private", "private"},  Word{"vehicular trail", "unmaintained"},
};

constexpr std::array ng911_one_ways{Word{"b", "both"}, Word{"ft", "forward"},
                                    Word{"tf", "backward"}};

constexpr std::array ng911_values{PresetValues{"class", ng911_classes},
                                  PresetValues{"access", ng911_accesses},
                                  PresetValues{"one_way", ng911_one_ways}};

constexpr std::array ng911_left_out{"walkway/pedestrian trail"sv, "stairway"sv,
                                    "bike path or trail"sv, "bridle path"sv};

// The parts of a street's name, in the order in which they are read.
constexpr std::array ng911_further{"St_PreMod"sv, "St_PreDir"sv, "St_PreTyp"sv, "St_PreSep"sv,
                                   "St_Name"sv,   "St_PosTyp"sv, "St_PosDir"sv, "St_PosMod"sv};

// -------------------------------------------------------------------------------------------------

constexpr std::array schemas{
    RoadSchema{
        "osm", "OpenStreetMap tags: an .osm or .osm.pbf file, or any layer with tags as columns",
        "OpenStreetMap wiki: Key:highway, Key:surface, Key:oneway, Key:access, Map "
        "features/Units; oneway and the common surfaces seen there, the other values from memory",
        "highway IS NOT NULL", osm_columns, osm_values, osm_left_out, osm_further},
    RoadSchema{"mtfcc",
               "road feature class codes of the United States Census Bureau",
               "TIGER/Line Shapefiles Technical Documentation, roads shapefile and appendix of "
               "feature class codes; the codes from memory",
               {},
               mtfcc_columns,
               mtfcc_values,
               mtfcc_left_out,
               {}},
    RoadSchema{"ng911",
               "road centrelines of the emergency-calling GIS data model",
               "NENA-STA-006.2-2022, layer RoadCenterLine, domains RoadClass and OneWay",
               {},
               ng911_columns,
               ng911_values,
               ng911_left_out,
               ng911_further},
};
constexpr std::array schema_names{schemas[0].name, schemas[1].name, schemas[2].name};

// GDAL knows OpenStreetMap files by these endings.
bool is_osm_file(std::string_view file) {
    const std::string lower = lower_case(file);
    return lower.ends_with(".osm") || lower.ends_with(".pbf") || lower.ends_with(".osm.gz");
}

bool names_config(const std::vector<std::string>& options) {
    return std::any_of(options.begin(), options.end(), [](const std::string& option) {
        return lower_case(option).starts_with("config_file=");
    });
}

}  // namespace

std::span<const RoadSchema> road_schemas() { return schemas; }
std::span<const std::string_view> road_schema_names() { return schema_names; }

const RoadSchema* find_road_schema(std::string_view name) {
    const auto* found = std::find_if(schemas.begin(), schemas.end(),
                                     [name](const RoadSchema& row) { return row.name == name; });
    return found == schemas.end() ? nullptr : found;
}

const PresetColumn* preset_column(const RoadSchema& schema, std::string_view field) {
    const auto found = std::find_if(schema.columns.begin(), schema.columns.end(),
                                    [field](const auto& row) { return row.field == field; });
    return found == schema.columns.end() ? nullptr : &*found;
}

std::string_view preset_word(const RoadSchema& schema, std::string_view field,
                             std::string_view theirs) {
    const std::string lower = lower_case(trimmed(theirs));
    for (const PresetValues& values : schema.values) {
        for (const PresetWord& word : values.words) {
            if (values.field == field && word.theirs == lower) {
                return word.ours;
            }
        }
    }
    return {};
}

bool is_left_out(const RoadSchema& schema, std::string_view their_class) {
    const std::string lower = lower_case(trimmed(their_class));
    return std::any_of(schema.left_out.begin(), schema.left_out.end(), [&](std::string_view row) {
        return row.ends_with('*') ? lower.starts_with(row.substr(0, row.size() - 1)) : lower == row;
    });
}

LayerSpec with_schema(LayerSpec spec) {
    const RoadSchema* schema = find_road_schema(spec.schema);
    if (schema == nullptr) {
        return spec;
    }
    if (spec.where.empty()) {
        spec.where = schema->where;
    }
    if (schema->name == "osm" && is_osm_file(spec.file)) {
        spec.layer = spec.layer.empty() ? "lines" : spec.layer;
        if (!names_config(spec.open_options)) {
            spec.open_options.push_back("CONFIG_FILE=" + osm_config_file());
        }
    }
    return spec;
}

}  // namespace farwater::io
