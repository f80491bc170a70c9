#include "io/draft/draft_tables.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/draft/department_workbook.h"
#include "io/draft/draft_columns.h"
#include "io/inputs/road_schemas.h"

namespace farwater::io {
namespace {

void add_source(TomlLines& lines, const LayerLook& look, const SectionMatch& match) {
    lines.add(toml_pair("file", look.file));
    // The schema knows the layer of an OpenStreetMap file.
    if (!look.layer.empty() && !(look.is_osm && match.schema != nullptr)) {
        lines.add(toml_pair("layer", look.layer));
    }
    if (!look.where.empty()) {
        lines.add(toml_pair("where", look.where));
    }
    if (look.shape == LookShape::none && has_degrees(match)) {
        lines.add(toml_pair("crs", "EPSG:4326"));
    }
    if (match.schema != nullptr) {
        lines.add(toml_pair("schema", match.schema->name));
    }
    std::vector<std::string> units;
    for (const ColumnMatch& one : match.sure) {
        if (!one.unit.empty()) {
            units.push_back(toml_pair(one.field->name, one.unit));
        }
    }
    if (!units.empty()) {
        lines.add(fmt::format("units = {{ {} }}", fmt::join(units, ", ")));
    }
}

template <class List, class Name>
std::string names_behind_first(const List& list, Name name_of) {
    std::vector<std::string> names;
    for (std::size_t i = 1; i < list.size(); ++i) {
        names.push_back(name_of(list[i]));
    }
    return fmt::format("{}", fmt::join(names, "; "));
}

void add_others(TomlLines& lines, const std::vector<Candidate>& candidates) {
    if (candidates.size() > 1) {
        lines.comment("Could be the same thing, and is not used: " +
                      names_behind_first(candidates,
                                         [&](const Candidate& other) {
                                             return fmt::format(
                                                 "{} ({}): {}", other.look->printed,
                                                 printed_records(other.look->records),
                                                 why_taken(candidates.front(), other));
                                         }) +
                      ".");
    }
}

// A join's fields that no join before it gives.
std::vector<const ColumnMatch*> fields_of_join(const JoinCandidate& join,
                                               std::set<std::string_view>& given) {
    std::vector<const ColumnMatch*> fields;
    for (const ColumnMatch& match : join.columns) {
        if (given.insert(match.field->name).second) {
            fields.push_back(&match);
        }
    }
    return fields;
}

}  // namespace

std::string printed_records(const std::optional<std::size_t>& records) {
    if (!records) {
        return "records not counted";
    }
    std::string digits = std::to_string(*records);
    for (std::size_t at = digits.size(); at > 3; at -= 3) {
        digits.insert(at - 3, ",");
    }
    return digits + (*records == 1 ? " record" : " records");
}

std::string_view first_clause(const SectionRow& section) {
    return section.what.substr(0, section.what.find(';'));
}

void add_table(TomlLines& lines, const std::vector<Candidate>& candidates) {
    const Candidate& one = candidates.front();
    const SectionRow& section = *one.match.section;
    TomlLines table;
    table.add(fmt::format("[{}]  # {}, {}", section.name, first_clause(section),
                          printed_records(one.look->records)));
    add_source(table, *one.look, one.match);
    add_columns(table, one);
    const bool only_suggested = !one.usable() && !section.required;
    lines.blank();
    if (!one.usable()) {
        lines.comment(fmt::format("{}{} lacks {}.", only_suggested ? "Not read: " : "",
                                  one.look->printed, fmt::join(one.lacks, ", ")));
    }
    if (!one.look->lacks.empty()) {
        lines.comment(fmt::format("{}: {}.", one.look->printed, one.look->lacks));
    }
    add_others(lines, candidates);
    lines.take(table, only_suggested);
    add_values(lines, one);
}

void add_missing_table(TomlLines& lines, const SectionRow& section) {
    lines.blank();
    lines.comment(fmt::format("Nothing in the folder was told to be {} ({}): name the file here.",
                              section.name, first_clause(section)));
    lines.add(fmt::format("[{}]", section.name));
    lines.add(toml_pair("file", fmt::format("{}.gpkg", section.name)));
}

void add_sheet(TomlLines& lines, const SectionRow& section) {
    lines.blank();
    lines.add(fmt::format("[{}]  # {}; to fill in", section.name, first_clause(section)));
    lines.add(toml_pair("file", workbook_name));
    lines.add(toml_pair("layer", sheet_of_section(section.name)));
    if (section.shape != ShapeNeed::none) {
        lines.add(toml_pair("crs", "EPSG:4326"));
        lines.add(fmt::format("columns = {{ x = {}, y = {} }}", toml_text(heading_of_x),
                              toml_text(heading_of_y)));
    }
}

std::string likely_of_join(const JoinCandidate& join, const ColumnMatch& match) {
    return fmt::format(
        "{} of {} looks like the parcels' {}, but is not read; if it is, add {} to "
        "columns of that [[join]]",
        as_printed(match.column->name), join.look->printed, match.field->name,
        toml_pair(match.field->name, match.column->name));
}

void add_joins(TomlLines& lines, const std::vector<JoinCandidate>& joins) {
    std::set<std::string_view> given;
    for (const JoinCandidate& join : joins) {
        std::set<std::string_view> of_suggested = given;
        const auto fields = fields_of_join(join, join.sure ? given : of_suggested);
        if (fields.empty()) {
            continue;
        }
        TomlLines table;
        table.add(fmt::format("[[join]]  # {}", printed_records(join.look->records)));
        table.add(toml_pair("file", join.look->file));
        if (!join.look->layer.empty()) {
            table.add(toml_pair("layer", join.look->layer));
        }
        table.add(toml_pair("key", join.key));
        if (!join.parcel_key.empty()) {
            table.add(toml_pair("parcel_key", join.parcel_key));
        }
        std::vector<std::string> pairs;
        for (const ColumnMatch* match : fields) {
            pairs.push_back(toml_pair(match->field->name, match->column->name));
        }
        table.add(fmt::format("columns = {{ {} }}", fmt::join(pairs, ", ")));
        lines.blank();
        lines.comment(join.sure ? "A table whose columns are added to the parcels'."
                                : fmt::format("Likely, but no key of the first {} records was met "
                                              "among the parcels: are they the same?",
                                              join.look->sampled));
        lines.take(table, !join.sure);
        for (const ColumnMatch& match : join.likely) {
            lines.comment("NOT READ: " + likely_of_join(join, match) + ".");
        }
    }
}

void add_elevation(TomlLines& lines, const std::vector<const RasterLook*>& rasters) {
    if (rasters.empty()) {
        return;
    }
    const RasterLook& best = *rasters.front();
    TomlLines table;
    table.add("[elevation]  # the ground's height, for grades and lifts");
    table.add(toml_pair("file", best.file));
    lines.blank();
    if (!best.has_unit) {
        lines.comment(
            "Its band does not say what the heights are measured in: take the # away and "
            "say \"ft\" or \"m\".");
        table.add("elevation_unit = \"ft or m\"");
    }
    lines.take(table, !best.has_unit);
    if (rasters.size() > 1) {
        lines.comment(
            "Could be used instead; one file is read, so join tiles first: " +
            names_behind_first(rasters, [](const RasterLook* other) { return other->printed; }) +
            ".");
    }
}

}  // namespace farwater::io
