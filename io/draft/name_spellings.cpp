// How county schemas abbreviate: from memory and from the names of the open data that the tests
// use; common practice, no source.
#include "io/draft/name_spellings.h"

#include <algorithm>
#include <array>

#include "io/draft/known_columns.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

// The word that stands for the others, then its other spellings; "" stands for those that say
// nothing.
struct Spellings {
    std::string_view word;
    std::string_view others;
};

constexpr std::array spelling_rows{
    Spellings{"", "is has the of for yn flag flg ind indicator cur curr current"},
    Spellings{"access", "acc"},
    Spellings{"address", "addr adr addresses"},
    Spellings{"apparatus", "app appar"},
    Spellings{"appraise", "appraised appraisal appr"},
    Spellings{"area", ""},
    Spellings{"assess", "assessed assd assessment assmt"},
    Spellings{"block", "blk"},
    Spellings{"bridge", "brdg bridges"},
    Spellings{"building", "bldg bld bldgs buildings"},
    Spellings{"built", "blt"},
    Spellings{"capacity", "cap capac"},
    Spellings{"class", "cls classification"},
    Spellings{"clearance", "clear clrnce clrnc"},
    Spellings{"close", "closed closure closing"},
    Spellings{"code", "cd"},
    Spellings{"color", "colour clr"},
    Spellings{"condition", "cond"},
    Spellings{"crew", "crews"},
    Spellings{"cross", ""},
    Spellings{"crossing", "xing crossings"},
    Spellings{"date", "dt dte"},
    Spellings{"dead", ""},
    Spellings{"depth", ""},
    Spellings{"diameter", "diam dia"},
    Spellings{"direction", "dir"},
    Spellings{"district", "dist"},
    Spellings{"drought", ""},
    Spellings{"end", ""},
    Spellings{"engine", ""},
    Spellings{"dump", "dumping"},
    Spellings{"fill", ""},
    Spellings{"fire", ""},
    Spellings{"flow", "flw flows"},
    Spellings{"fold", "folding"},
    Spellings{"full", ""},
    Spellings{"function", "func funct functional"},
    Spellings{"gate", "gated gates"},
    Spellings{"height", "hgt ht"},
    Spellings{"home", ""},
    Spellings{"hose", ""},
    Spellings{"house", ""},
    Spellings{"hydrant", "hyd hydr hydrants"},
    Spellings{"id", "ident identifier"},
    Spellings{"jurisdiction", "juris jurisdictn"},
    Spellings{"kind", ""},
    Spellings{"land", ""},
    Spellings{"lane", "lanes"},
    Spellings{"level", "lvl"},
    Spellings{"lift", ""},
    Spellings{"limit", "lim lmt limits"},
    Spellings{"load", "loaded"},
    Spellings{"location", "loc locn"},
    Spellings{"lock", "locked"},
    Spellings{"lot", "lots"},
    Spellings{"main", ""},
    Spellings{"maintain", "maint maintenance maintained mnt"},
    Spellings{"map", ""},
    Spellings{"market", "mkt"},
    Spellings{"max", "maximum mx"},
    Spellings{"minimum", ""},
    Spellings{"month", "months mo mos mth mths mon"},
    Spellings{"name", "nm nam names"},
    Spellings{"need", "needed"},
    Spellings{"number", "no num nbr nmbr numb"},
    Spellings{"offload", "unload"},
    Spellings{"one", ""},
    Spellings{"open", "opened"},
    Spellings{"operational", "oper operating operation"},
    Spellings{"own", ""},
    Spellings{"owner", "ownr owners"},
    Spellings{"ownership", ""},
    Spellings{"parcel", "prcl pcl parcels"},
    Spellings{"pave", "paved pavement pav"},
    Spellings{"physical", "phys"},
    Spellings{"pipe", ""},
    Spellings{"plow", "plowed plowing plough ploughed"},
    Spellings{"portable", "port porta"},
    Spellings{"post", "posted pst posting"},
    Spellings{"pressure", "press pres prs"},
    Spellings{"private", "priv pvt"},
    Spellings{"property", "prop"},
    Spellings{"pump", "pmp"},
    Spellings{"rail", "rr railroad railway"},
    Spellings{"rate", "rated"},
    Spellings{"residual", "resid"},
    Spellings{"response", "resp"},
    Spellings{"restriction", "restrict restricted restrictions restr"},
    Spellings{"road", "rd roadway rdway"},
    Spellings{"season", "seasonal seas"},
    Spellings{"service", "svc serv srvc"},
    Spellings{"site", "situs"},
    Spellings{"size", "sz"},
    Spellings{"source", "src sources"},
    Spellings{"speed", "spd"},
    Spellings{"staff", "staffing staffed"},
    Spellings{"standing", ""},
    Spellings{"static", ""},
    Spellings{"station", "sta stn"},
    Spellings{"status", "stat sts"},
    Spellings{"storey", "story stories storeys"},
    Spellings{"street", "st str strt"},
    Spellings{"structure", "struct"},
    Spellings{"suction", ""},
    Spellings{"surface", "surf sfc"},
    Spellings{"system", "sys"},
    Spellings{"tank", "tnk tanks"},
    Spellings{"tax", ""},
    Spellings{"test", "tested tst"},
    Spellings{"total", "tot"},
    Spellings{"traffic", "traf"},
    Spellings{"travel", "trav travelled traveled"},
    Spellings{"truck", "trk"},
    Spellings{"tunnel", "tunl"},
    Spellings{"type", "typ tp"},
    Spellings{"unit", "units"},
    Spellings{"usable", ""},
    Spellings{"use", "usage"},
    Spellings{"value", "val valuation"},
    Spellings{"vehicle", "veh"},
    Spellings{"vertical", "vert"},
    Spellings{"volume", "vol"},
    Spellings{"water", "wtr"},
    Spellings{"way", ""},
    Spellings{"weight", "wt wgt wght tonnage"},
    Spellings{"width", "wid wdth wd w"},
    Spellings{"winter", "wint"},
    Spellings{"weather", "wx"},
    Spellings{"year", "yr"},
    Spellings{"zone", "zon"},
};

constexpr std::array plain_units{
    "feet"sv,  "foot"sv,   "ft"sv,    "gal"sv,     "gals"sv,  "gallon"sv, "gallons"sv,
    "gpm"sv,   "lpm"sv,    "lps"sv,   "mph"sv,     "kmh"sv,   "kph"sv,    "psi"sv,
    "kpa"sv,   "lb"sv,     "lbs"sv,   "pounds"sv,  "kg"sv,    "ton"sv,    "tons"sv,
    "tonne"sv, "tonnes"sv, "inch"sv,  "inches"sv,  "metre"sv, "metres"sv, "meters"sv,
    "sqft"sv,  "acre"sv,   "acres"sv, "minutes"sv, "mins"sv,  "cm"sv,     "mm"sv};
constexpr std::array last_units{"in"sv, "m"sv,  "min"sv, "l"sv,      "ac"sv,     "sf"sv,
                                "hp"sv, "kw"sv, "mi"sv,  "miles"sv,  "km"sv,     "m2"sv,
                                "m3"sv, "yd"sv, "bar"sv, "litres"sv, "liters"sv, "ha"sv};

std::map<std::string_view, std::string_view, std::less<>> table_of_spellings() {
    std::map<std::string_view, std::string_view, std::less<>> all;
    for (const Spellings& row : spelling_rows) {
        if (!row.word.empty()) {
            all.emplace(row.word, row.word);
        }
        for (const std::string_view other : words_in(row.others)) {
            all.emplace(other, row.word);
        }
    }
    return all;
}

}  // namespace

const std::map<std::string_view, std::string_view, std::less<>>& spelled_words() {
    static const auto table = table_of_spellings();
    return table;
}

bool is_plain_unit(std::string_view token) {
    return std::ranges::find(plain_units, token) != plain_units.end();
}

bool is_last_unit(std::string_view token) {
    return std::ranges::find(last_units, token) != last_units.end();
}

}  // namespace farwater::io
