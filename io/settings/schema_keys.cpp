// The keys of the district file's own tables.
#include <array>

#include "analyzer/district/improvement.h"
#include "analyzer/district/words.h"
#include "io/inputs/road_schemas.h"
#include "io/settings/schema.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

constexpr std::array tanker_words{"tanker"sv, "tender"sv};
constexpr std::array date_order_words{"month_first"sv, "day_first"sv};
constexpr std::array height_units{"ft"sv, "m"sv};

std::span<const std::string_view> tanker_word_list() { return tanker_words; }
std::span<const std::string_view> date_order_list() { return date_order_words; }
std::span<const std::string_view> height_unit_list() { return height_units; }
std::span<const std::string_view> travel_time_list() { return words_of(TravelTime{}); }
std::span<const std::string_view> suction_friction_list() { return words_of(SuctionFriction{}); }
std::span<const std::string_view> access_list() { return words_of(RoadAccess{}); }
std::span<const std::string_view> source_kind_list() { return words_of(SourceKind{}); }
std::span<const std::string_view> need_method_list() { return words_of(NeedMethod{}); }
std::span<const std::string_view> separation_table_list() { return words_of(SeparationTable{}); }
std::span<const std::string_view> use_list() { return words_of(BuildingUse{}); }
std::span<const std::string_view> rating_terms_list() { return words_of(RatingTerms{}); }
std::span<const std::string_view> weigh_by_list() { return words_of(WeighBy{}); }
std::span<const std::string_view> construction_list() { return words_of(Construction{}); }
std::span<const std::string_view> improvement_list() { return words_of(ImprovementKind{}); }

constexpr KeyRow key(std::string_view name, KeyKind kind, std::string_view standard,
                     std::string_view what) {
    return {name, kind, false, 0, 0, nullptr, standard, what};
}
constexpr KeyRow in_range(KeyRow row, double low, double high) {
    row.low = low;
    row.high = high;
    return row;
}
constexpr KeyRow of_list(KeyRow row, WordList words) {
    row.words = words;
    return row;
}

// Where the data lie: the same for every table that names an input.
constexpr KeyRow file_key = required(
    key("file", KeyKind::text, "",
        "path relative to the district file, or a connection string that begins with PG:"));
constexpr KeyRow layer_key =
    key("layer", KeyKind::text, "the only layer", "which layer of the file");
constexpr KeyRow crs_key =
    key("crs", KeyKind::crs, "as the data say",
        "coordinate system of data that do not name one, such as \"EPSG:2249\"");
constexpr KeyRow where_key =
    key("where", KeyKind::text, "all records", "attribute filter, such as \"TOWN = 'X'\"");
constexpr KeyRow open_options_key =
    key("open_options", KeyKind::texts, "none",
        "options of the GDAL driver, such as [\"X_POSSIBLE_NAMES=lon\"]");
constexpr KeyRow columns_key =
    key("columns", KeyKind::pairs, "columns of our own names", "our field = their column");
constexpr KeyRow values_key = key("values", KeyKind::pair_tables, "our own words",
                                  "per field: their value = our word; \"\" = not known");
constexpr KeyRow units_key = key("units", KeyKind::pairs, "the unit in the field's name",
                                 "our field = unit of their column");

constexpr KeyRow schema_key =
    of_list(key("schema", KeyKind::word, "none",
                "open standard of the data: presets columns, values and units, see below"),
            &road_schema_names);

constexpr std::array top_level{
    required(key("name", KeyKind::text, "", "the district's name")),
    of_list(key("tanker_word", KeyKind::word, "tanker", "the word that results use"),
            &tanker_word_list),
    of_list(
        key("travel_time", KeyKind::word, "road_speeds",
            "what turns roads into minutes: speeds of the roads, or the published rule of 0.65 + "
            "1.7 x miles, once for each leg of a round trip or once for both together"),
        &travel_time_list),
    of_list(key("suction_friction", KeyKind::word, "conservative",
                "friction in suction pipes: Manning as in the NRCS form for dry hydrants, "
                "Hazen-Williams, or whichever of the two draws less"),
            &suction_friction_list),
    key("data_date", KeyKind::date, "no age is judged",
        "what counts as today for the age of tests; a later date in the data is a slip; "
        "without it no test counts for a rating"),
    of_list(key("date_order", KeyKind::word, "only dates that mean one day",
                "what stands first in dates such as 3/4/2025: month_first is 4 March, day_first 3 "
                "April"),
            &date_order_list),
    key("crs", KeyKind::crs, "chosen from the parcels",
        "coordinate system of all results: projected and conformal, such as \"EPSG:32618\""),
};

constexpr std::array any_layer{file_key,         layer_key,   crs_key,    where_key,
                               open_options_key, columns_key, values_key, units_key};

constexpr std::array road_layer{file_key,         layer_key,   crs_key,    where_key, schema_key,
                                open_options_key, columns_key, values_key, units_key};

constexpr std::array elevation{
    required(key("file", KeyKind::text, "",
                 "one raster, relative to the district file; of several tiles make one by "
                 "`gdalbuildvrt ground.vrt TILES` and name ground.vrt")),
    crs_key,
    of_list(key("elevation_unit", KeyKind::word, "as the band says", "unit of the heights"),
            &height_unit_list),
    in_range(key("band", KeyKind::whole, "1", "which band of the raster"), 1, 1000),
    open_options_key,
};

constexpr std::array join{
    file_key,
    layer_key,
    where_key,
    open_options_key,
    required(key("key", KeyKind::text, "", "the table's column with the key")),
    key("parcel_key", KeyKind::text, "the column of parcel_id",
        "the parcel layer's column with the same key"),
    required(columns_key),
};

constexpr std::array season{
    required(key("months", KeyKind::months, "", "such as \"11-3\", \"4,5,6\" or \"all\"")),
    in_range(key("speed_factor", KeyKind::number, "1", "on every planning speed"), 0.1, 1),
    in_range(key("extra_setup_min", KeyKind::number, "0", "added to every set-up"), 0, 120),
    key("ice", KeyKind::yes_no, "false", "open water without freeze provision is out"),
    of_list(key("closed_access", KeyKind::words, "none", "roads of these kinds are closed"),
            &access_list),
    of_list(key("sources_out", KeyKind::words, "none", "sources of these kinds do not count"),
            &source_kind_list),
};

constexpr std::array period{
    in_range(key("turnout_staffed_min", KeyKind::number, "that of the assumptions",
                 "tones to wheels rolling at a staffed station"),
             0, 120),
    in_range(key("turnout_volunteer_min", KeyKind::number, "that of the assumptions",
                 "the same where volunteers come from home"),
             0, 120),
};

constexpr std::array need{
    of_list(key("method", KeyKind::word, "column",
                "what tells the needed flow: the parcels' column, one flow for all, or a published "
                "method for the worst building of the parcel; a parcel's own flow goes before a "
                "method"),
            &need_method_list),
    key("standard", KeyKind::text, "as the program has it",
        "the district's own copy of the method's numbers, a file with what differs"),
    of_list(key("separation_table", KeyKind::word, "older",
                "rating schedule: which table of dwellings by the distance to the next building"),
            &separation_table_list),
    key("dwelling_cap", KeyKind::yes_no, "false",
        "rural supply: cap a dwelling's construction class, as early editions do"),
    of_list(key("default_use", KeyKind::word, "dwelling", "of buildings whose data do not tell"),
            &use_list),
    of_list(key("default_construction", KeyKind::word, "type_5b",
                "of buildings whose data do not tell"),
            &construction_list),
};

constexpr std::array rating{
    of_list(key("terms", KeyKind::word, "schedule",
                "whose terms: the rating schedule's, its class 8B, the tender credit of Washington "
                "State, or the tanker shuttle accreditation of Canada"),
            &rating_terms_list),
    key("own_terms", KeyKind::text, "as the program has them",
        "the district's own copy of the terms, a file with what differs"),
};

constexpr std::array next_source{
    in_range(key("sites", KeyKind::whole, "5, without a budget", "how many places to choose"), 1,
             1'000),
    in_range(key("budget", KeyKind::number, "none", "what may be spent in all, instead of `sites`"),
             0, 1e12),
    in_range(key("yearly_budget", KeyKind::number, "none",
                 "what each year has to spend: deals the chosen places into years"),
             0.01, 1e12),
    of_list(key("weigh_by", KeyKind::word, "parcels", "what a property counts for"),
            &weigh_by_list),
    key("planned", KeyKind::texts, "none", "ids of places that are built in any case"),
    key("ruled_out", KeyKind::texts, "none", "ids of places that cannot be had"),
};

constexpr std::array improvement{
    required(of_list(key("kind", KeyKind::word, "", "what it is"), &improvement_list)),
    key("name", KeyKind::text, "what it is and where", "how results call it"),
    key("station", KeyKind::text, "",
        "of the new tanker or engine; or whose units are meant, all of them (automatic_aid, "
        "staffing)"),
    key("unit", KeyKind::text, "", "which one gets it, comes by itself or is staffed"),
    key("like", KeyKind::text, "not known, so the stated defaults",
        "a unit that a new one is like: its tank, pump, hose, crew in each period, and where it "
        "is sent"),
    key("source", KeyKind::text, "", "a water source that can be used all winter"),
    key("proposal", KeyKind::text, "",
        "a place that `propose` looks at: one of [proposals], or such as \"DH-11\""),
    key("road", KeyKind::text, "",
        "kept open all year (winter_access), or its bridges' posting lifted: a name, all its "
        "pieces, or one record such as \"row 442\""),
    key("period", KeyKind::text, "", "when somebody comes"),
    in_range(key("count", KeyKind::whole, "1", "how many of them"), 1, 20),
    in_range(key("gallons", KeyKind::number, "that of `like`",
                 "tank of the new tanker or engine, or of each portable tank"),
             100, 20'000),
    in_range(key("pump_gpm", KeyKind::number, "that of `like`", "rated, of the new unit"), 50,
             6'000),
    in_range(key("fill_limit_gpm", KeyKind::number, "that of `like`", "of the new tanker"), 50,
             5'000),
    in_range(key("offload_gpm", KeyKind::number, "that of `like`",
                 "of the new tanker, or of a unit with another dump valve"),
             50, 5'000),
    key("backs_to_offload", KeyKind::yes_no, "as before",
        "does a tanker with another dump valve still back up to the tanks?"),
    in_range(key("length_ft", KeyKind::number, "", "of the hose that comes on"), 50, 20'000),
    in_range(key("diameter_in", KeyKind::number, "", "of that hose: 2.5, 3, 4 or 5"), 2.5, 5),
    in_range(key("weight_limit_lb", KeyKind::number, "no posting", "the bridge's new limit"), 1'000,
             200'000),
    in_range(key("crew", KeyKind::whole, "as before", "who are there in the period"), 0, 20),
    in_range(key("turnout_min", KeyKind::number, "as before", "tones to wheels rolling then"), 0,
             120),
    in_range(key("cost", KeyKind::number, "not known", "what it costs once, in any money"), 0,
             1e12),
    in_range(key("life_years", KeyKind::number, "not known", "how long it lasts"), 0.1, 200),
    in_range(key("upkeep_per_year", KeyKind::number, "not known", "what it costs each year"), 0,
             1e12),
};

}  // namespace

std::span<const KeyRow> top_keys() { return top_level; }
std::span<const KeyRow> layer_keys() { return any_layer; }
std::span<const KeyRow> road_layer_keys() { return road_layer; }
std::span<const KeyRow> elevation_keys() { return elevation; }
std::span<const KeyRow> join_keys() { return join; }
std::span<const KeyRow> season_keys() { return season; }
std::span<const KeyRow> period_keys() { return period; }
std::span<const KeyRow> need_keys() { return need; }
std::span<const KeyRow> rating_keys() { return rating; }
std::span<const KeyRow> next_source_keys() { return next_source; }
std::span<const KeyRow> improvement_keys() { return improvement; }

std::vector<std::string_view> top_tables() {
    std::vector<std::string_view> names;
    for (const SectionRow& section : section_rows()) {
        names.push_back(section.name);
    }
    names.insert(names.end(), {"elevation", "join", "season", "period", "need", "rating",
                               "next_source", "improvement", "assumptions"});
    return names;
}

}  // namespace farwater::io
