// The fields of every input section. Ranges hold what can be true of a real thing, so that a slip
// of a unit or a code such as 999 for "not recorded" is found; they are common practice, no source.
#include <algorithm>
#include <array>

#include "analyzer/district/words.h"
#include "io/settings/schema.h"

namespace farwater::io {
namespace {

template <class Enum>
std::span<const std::string_view> list_of() {
    return words_of(Enum{});
}

constexpr FieldRow text(std::string_view name, std::string_view what) {
    return {name, FieldKind::text, false, 0, 0, nullptr, what};
}
constexpr FieldRow number(std::string_view name, double low, double high, std::string_view what) {
    return {name, FieldKind::number, false, low, high, nullptr, what};
}
constexpr FieldRow whole(std::string_view name, double low, double high, std::string_view what) {
    return {name, FieldKind::whole, false, low, high, nullptr, what};
}
constexpr FieldRow yes_no(std::string_view name, std::string_view what) {
    return {name, FieldKind::yes_no, false, 0, 0, nullptr, what};
}
constexpr FieldRow date(std::string_view name, std::string_view what) {
    return {name, FieldKind::date, false, 0, 0, nullptr, what};
}
constexpr FieldRow months(std::string_view name, std::string_view what) {
    return {name, FieldKind::months, false, 0, 0, nullptr, what};
}
constexpr FieldRow usable(std::string_view name, double low, double high, std::string_view what) {
    return {name, FieldKind::usable, false, low, high, nullptr, what};
}
template <class Enum>
constexpr FieldRow one_word(std::string_view name, std::string_view what) {
    return {name, FieldKind::word, false, 0, 0, &list_of<Enum>, what};
}
constexpr FieldRow required(FieldRow field) {
    field.required = true;
    return field;
}

// Where a point stands, in a table without shapes.
constexpr FieldRow x_field = number(
    "x", -1e8, 1e8, "east, or longitude: of a table without shapes, in the coordinates of crs");
constexpr FieldRow y_field = number("y", -1e8, 1e8, "north, or latitude, likewise");

constexpr std::array road_fields{
    text("name", "the road's name"),
    one_word<RoadClass>("class", "what the default speed goes by; not known = narrow"),
    one_word<Surface>(
        "surface",
        "gravel, or earth, is no faster than speed_gravel_mph; blank = as the class says"),
    one_word<RoadAccess>("access", "who may use it; blank = open"),
    one_word<OneWay>("one_way", "along or against the drawn line; other spellings below"),
    yes_no("bridge",
           "carries the road over something; without a weight limit it is used and listed"),
    yes_no("tunnel", "carries the road below something"),
    whole("level", -10, 10, "lines of different level do not join where they cross; blank = 0"),
    yes_no("rail_crossing", "a railway crosses it at grade"),
    months("maintained_months", "when it is ploughed or passable; blank = all"),
    number("speed_limit_mph", 1, 100, "posted limit"),
    number("width_ft", 3, 200,
           "driven width; blank where nobody measured it, for nothing wider drives there"),
    number("weight_limit_lb", 1000, 400000, "posted weight limit"),
    number("height_limit_ft", 5, 100, "posted height limit"),
};

constexpr std::array parcel_fields{
    required(text("parcel_id", "the parcel's own id")),
    text("address", "for lists and cards"),
    text("owner", "whom `farwater propose` and `improvements` say to ask; nothing else reads it"),
    number("needed_gpm", 10, 20000, "needed fire flow; blank = default_needed_gpm"),
    number("duration_min", 1, 1440,
           "how long it is needed; blank = duration_min of the assumptions"),
    number("setback_ft", 0, 20000,
           "hose from the road to the house; blank = measured; not used where its drive is drawn"),
    whole("buildings", 0, 10000, "how many buildings stand on it"),
    one_word<BuildingUse>("use", "of those of its buildings that do not tell their own"),
    one_word<Construction>("construction", "likewise, by the building code's types"),
    number("storeys", 0.5, 110, "likewise"),
    whole("hazard_class", 3, 7, "likewise: occupancy hazard number of the rural standard"),
    one_word<Sprinklers>("sprinklers", "likewise; blank = none"),
    text("zone", "response zone"),
    number("value", 0, 1e12,
           "what it is worth, in any money: totals of the rating add it up, and `farwater propose "
           "--weigh-by value` goes by it"),
    number("people", 0, 1e6, "who live or work there; for `farwater propose --weigh-by people`"),
    yes_no("public", "on public land `farwater propose` looks for places of a cistern; blank = no"),
};

constexpr std::array building_fields{
    text("building_id", "the building's own id, for messages"),
    number("area_sqft", 20, 5e6,
           "of the ground it covers; for buildings drawn as points, or outlines that cannot be "
           "right: a good outline goes first"),
    one_word<BuildingUse>("use", "what it is used for; blank = as its parcel says"),
    one_word<Construction>("construction",
                           "by the building code's types: 5b is wood frame, 3b walls of masonry; "
                           "where only the number is known take the b; blank = as its parcel says"),
    number("storeys", 0.5, 110, "above ground; blank = as its parcel says"),
    number("height_ft", 3, 1500, "from the ground to the highest part of the roof"),
    number("eaves_ft", 2, 1500, "from the ground to the eaves"),
    whole("hazard_class", 3, 7,
          "occupancy hazard number of the rural standard; blank = by the use"),
    one_word<Sprinklers>("sprinklers", "the standard that they meet; blank = as its parcel says"),
    x_field,
    y_field,
};

constexpr std::array address_fields{
    text("parcel_id", "the parcel it belongs to; blank = the parcel it lies in"),
    x_field,
    y_field,
};

constexpr std::array target_fields{
    required(text("target_id", "the place's own id")),
    text("name", "camp, mill, milepost"),
    number("needed_gpm", 10, 20000, "needed fire flow; blank = default_needed_gpm"),
    number("duration_min", 1, 1440,
           "how long it is needed; blank = duration_min of the assumptions"),
    x_field,
    y_field,
};

constexpr std::array source_fields{
    required(text("source_id", "the source's own id")),
    text("name", "as crews call it"),
    required(one_word<SourceKind>("kind", "what it is")),
    one_word<Standing>("standing", "how far it is trusted; blank = mapped, which never counts"),
    text("standing_by", "who tested it or vouches for it"),
    date("tested_on", "date of the last test"),
    one_word<SourceUse>("use",
                        "what it may be counted for; blank = operations; own_parcel: hose to that "
                        "parcel alone, and never for a rating"),
    text("own_parcel", "the only parcel that it serves, with use own_parcel"),
    text("system", "sources of one water system or pond share volume and rate and fail together"),
    months("open_months", "when it can be used; blank = all"),
    yes_no("frost_proof",
           "can be used in freezing weather: open water under ice, a pipe or a cistern"),
    number("rate_gpm", 0, 20000, "what it gives; blank = the stated default, evidence assumed"),
    usable("usable_gal", 0, 1e12,
           "what can be used at drought level, or the word unlimited; blank = not known"),
    number("inflow_gpm", 0, 1000000, "what flows in meanwhile; blank = nothing"),
    whole("places", 1, 20, "tankers that can be connected at once; blank = 1"),
    one_word<Reach>("reach", "what can get to it; blank = engine"),
    yes_no("fills_without_engine", "gives its flow to a tanker with no engine between"),
    number("system_rate_gpm", 0, 100000,
           "what the whole system gives at once; blank = what its strongest member gives"),
    number("static_psi", 0, 300, "hydrant flow test: pressure with nothing flowing"),
    number("residual_psi", 0, 300, "hydrant flow test: pressure while the flow ran"),
    number("test_flow_gpm", 1, 20000, "hydrant flow test: what flowed; blank = by pitot"),
    number("pitot_psi", 0, 200, "hydrant flow test: pitot reading in the outlet"),
    number("outlet_in", 1, 8, "bore of the outlet that flowed"),
    number("outlet_coefficient", 0.5, 1,
           "0.9 smooth and rounded, 0.8 square, 0.7 projecting; blank = outlet_coefficient"),
    one_word<HydrantColour>("colour_class", "of the bonnet; its low end counts"),
    number("main_in", 1, 72, "bore of the main under the hydrant"),
    yes_no("dead_end_main", "the main is fed from one side only"),
    number("static_lift_ft", -100, 100,
           "from the drought level up to the pump; blank = most_lift_ft"),
    number("pipe_ft", 0, 2000, "suction pipe from the strainer to the hydrant's head"),
    number("pipe_diameter_in", 2, 24, "bore of that pipe"),
    one_word<PipeMaterial>("pipe_material", "what it is made of; blank = old_iron, the roughest"),
    whole("elbows_90", 0, 50, "90-degree elbows in it"),
    whole("elbows_45", 0, 50, "45- and 30-degree elbows and reducers in it"),
    number("strainer_loss_ft", 0, 30, "lost in strainer and standpipe at 500 gpm"),
    number("suction_hose_ft", 0, 200, "hard suction that it takes; blank = suction_hose_ft"),
    number("drought_area_acre", 0, 100000, "surface of a pond or cistern at drought level"),
    number("intake_depth_ft", 0, 200, "water over the intake at drought level"),
    yes_no("sounded",
           "that depth holds over the whole area; blank = half of it counts (unsounded_share)"),
    number("ice_ft", 0, 10, "thickest ice; blank = surface_loss_ft"),
    yes_no("all_weather", "can be got to in all weather"),
    one_word<LaneClass>("lane", "of the road it stands on"),
    yes_no("turnaround", "a tanker can turn there; blank = no"),
    text("owner", "who gave permission"),
    text("agreement", "the owner's written permission: which, until when"),
    text("certified_by", "who certified what it holds in a 50-year drought, with the licence"),
    date("certified_on", "when"),
    text("cross_street", "the nearest"),
    text("note", "anything else"),
    x_field,
    y_field,
};

// The officer's own proposals: a source as it would be built, without who vouches for it.
constexpr std::size_t first_of_strength = 8;
static_assert(source_fields[first_of_strength].name == "system");
constexpr auto proposal_fields = [] {
    std::array<FieldRow, source_fields.size() - first_of_strength + 4> fields{
        required(text("proposal_id", "the proposal's own id")),
        text("name", "as crews would call it"),
        required(one_word<SourceKind>("kind", "what would be built")),
        number("cost", 0, 1e9, "in your money; blank = not known, and then no budget buys it"),
    };
    std::copy(source_fields.begin() + first_of_strength, source_fields.end(), fields.begin() + 4);
    return fields;
}();

constexpr std::array mapped_water_fields{
    text("name", "the water's name"),
};

constexpr std::array station_fields{
    required(text("station_id", "the station's own id")),
    text("name", "the station's name"),
    one_word<Aid>("aid",
                  "own, or of a neighbour that comes by automatic or mutual aid; blank = own"),
    yes_no("staffed", "somebody sleeps there; blank = no"),
    number("to_gate_min", 0, 600,
           "drive from the real station to this point, for stations beyond the road data"),
    x_field,
    y_field,
};

constexpr std::array apparatus_fields{
    required(text("unit_id", "the unit's own id")),
    required(text("station_id", "where it stands")),
    required(one_word<UnitKind>("kind", "what it is")),
    one_word<Aid>("aid", "whose it is; blank = its station's"),
    number("tank_gal", 0, 20000, "water carried"),
    number("pump_gpm", 0, 10000, "rated pump"),
    number("fill_limit_gpm", 20, 10000, "what its inlet took when timed"),
    number("offload_gpm", 20, 10000, "what its dump valve gave when timed"),
    date("tested_on", "when fill and offload were timed"),
    number("portable_tank_gal", 0, 20000, "portable tanks carried, all together; blank = none"),
    whole("portable_tanks", 0, 10, "how many they are; blank = 1 where gallons are given"),
    whole("crew", 0, 20, "people who usually come on it"),
    whole("min_crew", 0, 20, "with fewer it stays in quarters"),
    number("loaded_lb", 3000, 200000,
           "weight with full tank; blank = estimated; both blank = no posted bridge is open"),
    number("empty_lb", 3000, 200000, "weight with empty tank; blank = estimated"),
    number("width_ft", 4, 16, "mirrors included"),
    number("height_ft", 4, 20, "highest part"),
    number("top_speed_mph", 5, 100, "never driven faster"),
    number("power_hp", 50, 1000,
           "rated power of its motor; blank = tanker_power_hp, engine_power_hp"),
    number("hose_2_5in_ft", 0, 20000, "2 1/2-in supply line carried"),
    number("hose_3in_ft", 0, 20000, "3-in supply line carried"),
    number("hose_4in_ft", 0, 20000, "4-in supply line carried"),
    number("hose_5in_ft", 0, 20000, "5-in supply line carried"),
    whole("jet_siphons", 0, 20,
          "for transfer between portable tanks; without one only the first tank counts"),
    number("siphon_gpm", 100, 3000,
           "what one of its jet siphons moved when timed; blank = the assumption siphon_gpm"),
    whole("low_level_strainers", 0, 20, "for drafting from portable tanks"),
    number("hard_suction_ft", 0, 200, "hard suction hose carried; run cards say it"),
    yes_no("backs_to_offload", "cannot dump to the side while driving through; blank = yes"),
};

constexpr std::array staffing_fields{
    text("unit_id", "the unit, or blank for every unit of the station"),
    text("station_id", "the station, or blank where a unit is named"),
    required(text("period", "the name of a [period.NAME] table")),
    whole("crew", 0, 200, "people who come"),
    number("turnout_min", 0, 120, "tones to wheels rolling"),
};

constexpr std::array zone_fields{
    required(text("zone", "the zone, as parcels name it")),
    required(whole("alarm", 1, 3, "the alarm at which the unit goes")),
    required(text("unit_id", "the unit that goes")),
};

constexpr std::array place_fields{
    text("place_id", "the place's own id"),
    text("name", "as crews call it"),
    one_word<LaneClass>("lane", "tankers drive through, or must back or turn"),
    yes_no("turnaround", "a tanker can turn there; blank = no"),
    whole("portable_tanks", 0, 10,
          "how many fit; blank = as many as the road beside it takes, by width and length"),
    x_field,
    y_field,
};

constexpr std::array turnaround_fields{
    text("turnaround_id", "its own id, for messages"),
    text("name", "as crews call it"),
    x_field,
    y_field,
};

constexpr std::array timed_run_fields{
    text("run_id", "the incident or drill; blank = called by its row"),
    required(text("unit_id", "the unit that was timed")),
    text("from_id",
         "the station, water source or dump site place that it left; blank = its station"),
    date("date", "when; tells the season. Blank = the first season"),
    text("period", "the name of a [period.NAME] table; blank = not told"),
    number("turnout_min", 0, 120, "tones to wheels rolling; blank = by the clock times"),
    number("drive_min", 0, 300, "wheels rolling to arrival; blank = by the clock times"),
    text("toned_at", "time of day of the tones, such as 14:05:33"),
    text("rolling_at", "time of day when the wheels rolled"),
    text("arrived_at", "time of day of arrival"),
    x_field,
    y_field,
};

constexpr std::array sections{
    SectionRow{"roads", true, ShapeNeed::line, road_fields, "road centrelines"},
    SectionRow{"parcels", true, ShapeNeed::area, parcel_fields,
               "properties; all their further columns pass through to the result"},
    SectionRow{
        "buildings", false, ShapeNeed::place, building_fields,
        "footprints or points; the worst of a parcel by [need], else the largest, is its house"},
    SectionRow{"address_points", false, ShapeNeed::place, address_fields,
               "the best place of the house"},
    SectionRow{"targets", false, ShapeNeed::place, target_fields,
               "places without a parcel that get a state too"},
    SectionRow{"water_sources", false, ShapeNeed::place, source_fields,
               "what has been pumped from or is vouched for; a mapped one never counts"},
    SectionRow{"mapped_water", false, ShapeNeed::place, mapped_water_fields,
               "open water from a data set; never counts, ranks what is worth a look"},
    SectionRow{"proposals", false, ShapeNeed::place, proposal_fields,
               "where a source could be made: farwater propose asks what each would change"},
    SectionRow{
        "what_if_sources", false, ShapeNeed::place, source_fields,
        "sources that are not there, counted as if they were; every one is a row of the data "
        "problems"},
    SectionRow{"stations", true, ShapeNeed::place, station_fields, "own and neighbours'"},
    SectionRow{"apparatus", true, ShapeNeed::none, apparatus_fields,
               "engines, tankers and what else comes"},
    SectionRow{"staffing", false, ShapeNeed::none, staffing_fields, "crews and turnout by period"},
    SectionRow{"response_zones", false, ShapeNeed::none, zone_fields,
               "which units go on which alarm"},
    SectionRow{"dump_site_places", false, ShapeNeed::place, place_fields,
               "the officer's own places for portable tanks"},
    SectionRow{
        "turnarounds", false, ShapeNeed::place, turnaround_fields,
        "where a tanker can turn: lots, circles, wide drives, within 200 ft of its road; with "
        "one ahead within turnaround_reach_ft it need not back"},
    SectionRow{
        "timed_runs", false, ShapeNeed::place, timed_run_fields,
        "runs that were timed, by where they ended: `farwater calibrate` sets them beside the "
        "plan; nothing else reads them"},
};

}  // namespace

std::span<const SectionRow> section_rows() { return sections; }

const SectionRow* find_section(std::string_view name) {
    for (const SectionRow& section : sections) {
        if (section.name == name) {
            return &section;
        }
    }
    return nullptr;
}

const FieldRow* find_field(const SectionRow& section, std::string_view name) {
    for (const FieldRow& field : section.fields) {
        if (field.name == name) {
            return &field;
        }
    }
    return nullptr;
}

}  // namespace farwater::io
