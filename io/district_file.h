// The district file: where the data lie, how their columns map to ours, which assumptions hold.
// Read and checked as a whole before any input is opened. What may stand in it:
// io/settings/schema.h.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/assumptions.h"
#include "analyzer/district/calendar.h"
#include "analyzer/district/choice_terms.h"
#include "analyzer/district/improvement.h"
#include "analyzer/district/need_rules.h"
#include "analyzer/district/rating_rules.h"
#include "analyzer/district/words.h"
#include "io/records/parse_date.h"
#include "io/settings/toml_tree.h"

namespace farwater::io {

// Our field -> their value -> our word.
using ValueMap = std::map<std::string, std::string, std::less<>>;

// One input layer or table, as a section of the district file describes it.
struct LayerSpec {
    std::string section;  // "roads", "parcels", ...; "join" for a joined table
    std::string file;     // as written; may hold a password (see printable_source)
    std::filesystem::path
        path;  // resolved against the district file's folder; empty for "PG:..." and the like
    std::string layer;   // empty = the only layer
    std::string crs;     // empty = as the layer says
    std::string where;   // OGR attribute filter; empty = all records
    std::string schema;  // open standard of the layer (io/inputs/road_schemas.h); empty = none
    std::vector<std::string> open_options;
    std::map<std::string, std::string, std::less<>> columns;  // our field -> their column
    std::map<std::string, ValueMap, std::less<>> values;
    std::map<std::string, std::string, std::less<>> units;  // our field -> unit of their column
    DateRules dates;                                        // those of the district file
};

// A table whose columns are added to the parcels'. `columns` maps parcel fields.
struct JoinSpec {
    LayerSpec table;
    std::string key;         // column of the table
    std::string parcel_key;  // column of the parcel layer; empty = that of parcel_id
};

struct ElevationSpec {
    std::string file;
    std::filesystem::path path;
    std::string crs;
    std::string elevation_unit;  // "ft", "m" or empty = as the band says
    int band = 1;
    std::vector<std::string> open_options;
};

// One [[improvement]], its ids as written: what they mean is known when the data are read
// (io/read_improvements.h).
struct ImprovementSpec {
    ImprovementKind kind = ImprovementKind::tanker;
    std::map<std::string, std::string, std::less<>> texts;  // by key
    std::map<std::string, double, std::less<>> numbers;
    std::map<std::string, TomlPlace, std::less<>> places;  // of the texts
    std::optional<bool> backs_to_offload;
};

struct DistrictFile {
    std::filesystem::path path;
    std::filesystem::path folder;  // relative paths of the file start here
    std::string text;              // the whole file, for the run record (see printable_text)

    std::string name;
    std::string tanker_word = "tanker";
    TravelTime travel_time = TravelTime::road_speeds;
    SuctionFriction suction_friction = SuctionFriction::conservative;
    std::optional<Date> data_date;
    DateOrder date_order = DateOrder::unstated;
    std::string crs;  // empty = chosen from the parcels (io/inputs/working_crs.h)

    std::map<std::string, LayerSpec, std::less<>> layers;  // by section
    std::vector<JoinSpec> joins;
    std::optional<ElevationSpec> elevation;

    std::vector<Season>
        seasons;  // in the file's order; at least one ("all_year" where it names none)
    std::vector<Period>
        periods;     // in the file's order; at least one ("any_time" where it names none)
    NeedRules need;  // with the values of its standard
    std::filesystem::path own_standard;         // empty = the program's own
    std::optional<RatingRules> rating;          // none = no rating was asked for
    std::filesystem::path own_terms;            // empty = the program's own
    std::optional<ChoiceTerms> next_source;     // none = `run` chooses no places
    std::vector<ImprovementSpec> improvements;  // in the file's order
    Assumptions assumptions;                    // `given` holds the keys that the file set
};

// Throws SettingsError: one line `FILE:LINE:COLUMN: what is wrong and what would be right` for each
// fault, in the file's order, the first 20 of them; also when the file cannot be read.
DistrictFile read_district_file(const std::filesystem::path& path);

// The same from text; `path` is for messages and for the folder.
DistrictFile parse_district_file(std::string text, const std::filesystem::path& path);

// A source, or the file's text, as it may be stored and printed: passwords of connection strings
// are replaced by ***.
std::string printable_source(std::string_view source);
std::string printable_text(const DistrictFile& file);

// The reference page of the district file in Markdown: every table and key with unit, default,
// range and source, from the same tables that the reading uses.
std::string district_file_reference();

}  // namespace farwater::io
