// The reference page of the district file, from the tables that check it.
#include <string>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "analyzer/district/assumptions.h"
#include "io/district_file.h"
#include "io/inputs/road_schemas.h"
#include "io/near_word.h"
#include "io/records/trade_words.h"
#include "io/records/unit_words.h"
#include "io/settings/improvement_table.h"
#include "io/settings/keys_page.h"
#include "io/settings/read_standard.h"
#include "io/settings/schema.h"

namespace farwater::io {
namespace {

std::string section_page(const SectionRow& section) {
    std::string page = fmt::format(
        "### [{}]{}\n\n{}.\n\n| field | type | unit | range | what |\n|---|---|---|---|---|\n",
        section.name, section.required ? ", required" : "", section.what);
    for (const FieldRow& field : section.fields) {
        page += fmt::format("| `{}`{} | {} | {} | {} | {} |\n", field.name,
                            field.required ? " *" : "", kind_in_words(field),
                            unit_in_words(field.name), range_of(field.low, field.high), field.what);
    }
    return page + "\n";
}

// Further words that the section's fields take for ours.
std::string trade_words_page(const SectionRow& section) {
    std::string page;
    for (const FieldRow& field : section.fields) {
        const std::string told = trade_words_told(field.words);
        page += told.empty() ? "" : fmt::format("In `{}` {}.\n\n", field.name, told);
    }
    return page;
}

std::string columns_of(const RoadSchema& schema) {
    std::string text;
    for (const PresetColumn& column : schema.columns) {
        text += fmt::format("{}`{}` = {}", text.empty() ? "" : ", ", column.field, column.column);
        text += column.unit.empty() ? "" : fmt::format(" in {}", column.unit);
    }
    return text;
}

std::string words_of(const PresetValues& values) {
    std::string text;
    for (const PresetWord& word : values.words) {
        text += fmt::format("{}{} = {}", text.empty() ? "" : ", ", word.theirs, word.ours);
    }
    return text;
}

std::string schema_page(const RoadSchema& schema) {
    std::string page = fmt::format("#### schema = \"{}\"\n\n{}. Source: {}.\n\n", schema.name,
                                   schema.what, schema.source);
    page += fmt::format("- columns: {}\n", columns_of(schema));
    for (const PresetValues& values : schema.values) {
        page += fmt::format("- `{}`: {}\n", values.field, words_of(values));
    }
    page += fmt::format("- no roads for apparatus, left out and counted: {}\n",
                        fmt::join(schema.left_out, ", "));
    page += schema.where.empty() ? "" : fmt::format("- `where`, if not given: {}\n", schema.where);
    return page + "\n";
}

// What stands below the fields of [roads].
std::string schemas_page() {
    std::string page =
        "What `columns`, `values` and `units` say goes before the schema, field by field; a field "
        "mapped to another column takes nothing from it. Upper and lower case are alike. In osm, "
        "a soft surface makes a road narrow; "
        "motor_vehicle goes before vehicle and access; tracks are unmaintained, roads that are "
        "planned, being built or gone are closed, motorways and roundabouts one-way; gates that "
        "are points on a road are not seen.\n\n"
        "Limits, widths and speeds may carry their unit: 65 mph, 50 km/h, 3.5 t, 10 st, 20000 lbs, "
        "12'6\", 3.8 m. A ton is a short ton; t is a tonne where the column's unit is tonne, else "
        "a "
        "short ton. 0, -1, 999, none and signals in a speed mean not recorded. `one_way` reads "
        "yes, "
        "no, 1, 0, -1, 2 beside 0, FT, TF, B, F and T beside those, forward, reverse, one way and "
        "two way. A direction that cannot be told, and a reversible road, is closed and "
        "listed.\n\n";
    for (const RoadSchema& schema : road_schemas()) {
        page += schema_page(schema);
    }
    return page;
}

std::string_view certainty_of(Sure sure) {
    return sure == Sure::high ? "high" : sure == Sure::medium ? "medium" : "low";
}

std::string standard_of(const AssumptionRow& row) {
    const double value = value_in_key_unit(Assumptions{}, row);
    if (std::holds_alternative<bool Assumptions::*>(row.member)) {
        return value != 0.0 ? "true" : "false";
    }
    return fmt::format("{:.6g}", value);
}

std::string assumptions_page() {
    std::string page =
        "## [assumptions]\n\nEvery value that the analysis assumes. What is not set keeps its "
        "default; the result lists all of them.\n\n";
    std::string_view group;
    for (const AssumptionRow& row : assumption_rows()) {
        if (row.group != group) {
            group = row.group;
            page += fmt::format(
                "### {}\n\n| key | unit | default | range | sure | what | source "
                "|\n|---|---|---|---|---|---|---|\n",
                group);
        }
        const bool yes_no = std::holds_alternative<bool Assumptions::*>(row.member);
        page +=
            fmt::format("| `{}` | {} | {} | {} | {} | {} | {} |\n", row.key, unit_in_words(row.key),
                        standard_of(row), yes_no ? "true or false" : range_of(row.low, row.high),
                        certainty_of(row.sure), row.what, row.source);
    }
    return page;
}

std::string standard_page(std::string_view title, const Standard& standard) {
    std::string page = fmt::format(
        "### {}\n\n{}; {}.\n\n| key | value | section | certainty | source "
        "|\n|---|---|---|---|---|\n",
        title, standard.name, standard.edition);
    for (const StandardValue& value : standard.values) {
        page += fmt::format("| `{}` | {}{:.10g} | {} | {} | {} |\n", value.key, value.text,
                            fmt::join(value.numbers, ", "), value.section, word(value.certainty),
                            value.source);
    }
    return page + "\n";
}

// The numbers of the methods, which a district's own copy may replace.
std::string standards_page() {
    std::string page =
        "## Standards of needed flow\n\n`standard` in [need] names a TOML file with the numbers "
        "that differ in the district's copy of the standard, as tables: the key `supply.least_gal` "
        "is `least_gal` in `[supply]`. It may also give `name`, `edition`, `not_looked_at`, and "
        "for a table or a "
        "value `{ value = 2000, section = \"4.2\", source = \"our copy\" }`. Lists that belong "
        "together grow and shrink together.\n\nCertainty: `seen` in the source, `second_hand` in a "
        "text that quotes it, `memory_high`, `memory_medium` and `memory_low` not confirmed, "
        "`derived` or our own choice.\n\n";
    for (const NeedMethod method :
         {NeedMethod::rural_supply, NeedMethod::rating_schedule, NeedMethod::fire_code}) {
        page += standard_page(word(method), built_in_standard(method));
    }
    return page;
}

// The terms that a rating holds properties and sources against.
std::string terms_page() {
    std::string page =
        "## Terms of insurance rating\n\n`own_terms` in [rating] names a TOML file with what "
        "differs, in the manner of `standard` in [need]. The clock starts with the alarm, with the "
        "first_arrival of apparatus, or when that one sets its parking_brake, which is taken as "
        "its "
        "arrival; counted from the alarm no more than the minimum flow is credited. The rule of "
        "drives on paper counts once for a round_trip or once for each_leg.\n\n";
    for (const RatingTerms terms :
         {RatingTerms::schedule, RatingTerms::schedule_8b, RatingTerms::tender_credit,
          RatingTerms::shuttle_accreditation}) {
        page += standard_page(word(terms), built_in_terms(terms));
    }
    return page;
}

}  // namespace

std::string district_file_reference() {
    std::string page =
        "# The district file\n\nTOML. Paths are relative to the file. Unknown keys and wrong types "
        "are errors. "
        "Months are \"all\", \"4-11\", \"11-3\" or \"4,5,6\"; dates 2026-05-31; numbers plain "
        "digits with a point.\n\n"
        "Dates in the data may also read 2026/5/31, 20260531, May 31, 2026, 31-May-2026, "
        "5/31/2026, or be a spreadsheet's own. Where a date can be two days, such as 3/4/2025 or "
        "3/4/25, it counts as not known until `date_order` says what stands first; with "
        "`date_order` they are read in that order only. Years of two figures are 2000 to 2029 or "
        "1930 to 1999.\n\n"
        "Numbers in the data may have commas between groups of three figures, and their own unit, "
        "which goes before that of the column: `1,500 gpm`, `30 ft`, `12'6\"`, `2 1/2 in`. A "
        "decimal comma is no number; in a table parted by semicolons a point before three figures, "
        "such as 1.200, is none either, unless the column also has 1.25 or the like, or thousands "
        "are out of range. `n/a`, `unknown`, `tbd`, `?` and `-` count as blank, for "
        "numbers and dates.\n\n";
    page += keys_page("At the top", top_keys(), "Before every table.");
    page += keys_page("Input tables", road_layer_keys(),
                      "The same keys for each of the tables below; `schema` in [roads] only.");
    page +=
        "Fields with * need a column. A field that `columns` does not map is taken from a column "
        "of its own name, when there is one.\n\n";
    for (const SectionRow& section : section_rows()) {
        page += section_page(section) + trade_words_page(section);
        page += section.name == "roads" ? schemas_page() : "";
    }
    page += keys_page(
        "[elevation]", elevation_keys(),
        "One raster of the ground's height, also .hgt. Several tiles are made one by `gdalbuildvrt "
        "ground.vrt *.tif`, and file = \"ground.vrt\".");
    page += keys_page("[join]", join_keys(),
                      "A table whose columns are added to the parcels'; [[join]] for several.");
    page +=
        keys_page("[season.NAME]", season_keys(),
                  "What the roads and the water are like in some months. Without one: all_year.");
    page += keys_page("[period.NAME]", period_keys(),
                      "A part of the week with its own staffing. Without one: any_time.");
    page += keys_page("[need]", need_keys(), "What tells the needed flow of a property.");
    page += keys_page("[rating]", rating_keys(),
                      "With this table `run` works out the insurance rating and writes rating/.");
    page += keys_page("[next_source]", next_source_keys(),
                      "With this table `run` also chooses where the next sources go, and `propose` "
                      "goes by it where its options do not tell otherwise.");
    page += keys_page("[[improvement]]", improvement_keys(),
                      "What money could do, for `farwater improvements`; one for each.") +
            keys_of_improvements();
    page += assumptions_page() + "\n";
    return page + standards_page() + terms_page();
}

}  // namespace farwater::io
