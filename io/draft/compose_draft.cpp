#include "io/draft/compose_draft.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/draft/department_workbook.h"
#include "io/draft/draft_columns.h"
#include "io/draft/draft_tables.h"
#include "io/draft/evening_text.h"
#include "io/draft/overlooked.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

// What the county has, then what the department knows.
constexpr std::array order_of_land{"parcels"sv, "roads"sv, "buildings"sv, "address_points"sv,
                                   "mapped_water"sv};
constexpr std::array order_of_department{"water_sources"sv,    "stations"sv, "apparatus"sv,
                                         "dump_site_places"sv, "staffing"sv, "response_zones"sv,
                                         "turnarounds"sv,      "targets"sv};

bool is_usable(const Recognised& found, std::string_view section) {
    const Candidate* best = found.best(section);
    return best != nullptr && best->usable();
}

bool has_sheet(const std::vector<std::string>& sheets, std::string_view section) {
    return std::ranges::find(sheets, section) != sheets.end();
}

// Of a required field that a column likely is: which, and why it is not taken.
std::string likely_instead(const Candidate& one) {
    std::string text;
    for (const FieldRow* field : one.match.lacks) {
        if (const ColumnMatch* likely = find_match(one.match.likely, field->name)) {
            text += fmt::format("; {} is likely it, though {}: take the # away there",
                                as_printed(likely->column->name),
                                likely->column->all_differ ? "its name does not tell it"
                                                           : "some records share one or have none");
        }
    }
    return text;
}

std::string found_but_lacks(const Candidate& one) {
    return fmt::format("{} could be {}, but lacks {}{}", one.look->printed, one.match.section->name,
                       fmt::join(one.lacks, ", "), likely_instead(one));
}

// The periods that a table of crews speaks of; without them none of its rows could be read.
void add_periods(TomlLines& lines, const Recognised& found) {
    const Candidate* staffing = found.best("staffing");
    const ColumnMatch* period = staffing == nullptr || !staffing->usable()
                                    ? nullptr
                                    : find_match(staffing->match.sure, "period");
    if (period == nullptr) {
        return;
    }
    lines.blank();
    lines.comment(fmt::format("The periods of {}.", staffing->look->printed));
    for (const std::string& name : period->column->values) {
        lines.add(fmt::format("[period.{}]", toml_text(name)));
    }
}

void add_section(TomlLines& lines, const Recognised& found, const std::vector<std::string>& sheets,
                 std::string_view section) {
    const Candidate* best = found.best(section);
    const SectionRow& row = *find_section(section);
    if (has_sheet(sheets, section)) {
        add_sheet(lines, row);
        if (best != nullptr) {
            lines.comment(found_but_lacks(*best) +
                          "; complete it and name that file here instead.");
        }
    } else if (best != nullptr) {
        add_table(lines, found.sections.find(section)->second);
    } else if (row.required) {
        add_missing_table(lines, row);
    }
}

DraftTable told(const std::vector<Candidate>& candidates) {
    const Candidate& one = candidates.front();
    DraftTable table{.section = std::string(one.match.section->name),
                     .source = one.look->printed,
                     .records = one.look->records,
                     .lacks = one.lacks,
                     .suggested = !one.usable() && !one.match.section->required};
    for (const ColumnMatch& match : one.match.sure) {
        table.columns.emplace_back(match.field->name, as_printed(match.column->name));
    }
    for (const ColumnMatch& match : one.match.likely) {
        table.likely.emplace_back(match.field->name);
    }
    for (std::size_t i = 1; i < candidates.size(); ++i) {
        table.others.emplace_back(candidates[i].look->printed, why_taken(one, candidates[i]));
    }
    table.competing = competing_columns(one.match);
    table.overlooked = overlooked_columns(*one.look, one.match);
    return table;
}

DraftTable told(const JoinCandidate& join) {
    DraftTable table{.section = "join",
                     .source = join.look->printed,
                     .records = join.look->records,
                     .suggested = !join.sure};
    table.columns.emplace_back("key", as_printed(join.key));
    for (const ColumnMatch& match : join.columns) {
        table.columns.emplace_back(match.field->name, as_printed(match.column->name));
    }
    for (const ColumnMatch& match : join.likely) {
        table.overlooked.push_back(likely_of_join(join, match));
    }
    return table;
}

std::string why_raster_taken(const RasterLook& taken, const RasterLook& other) {
    return taken.has_unit != other.has_unit ? "it does not say its unit"
                                            : "it covers less of the parcels, or is no finer";
}

DraftTable told(const std::vector<const RasterLook*>& rasters) {
    DraftTable table{.section = "elevation", .source = rasters.front()->printed};
    if (!rasters.front()->has_unit) {
        table.lacks.emplace_back("the unit of its heights");
        table.suggested = true;
    }
    for (std::size_t i = 1; i < rasters.size(); ++i) {
        table.others.emplace_back(rasters[i]->printed,
                                  why_raster_taken(*rasters.front(), *rasters[i]));
    }
    return table;
}

// Words of classes and kinds that somebody has to tell.
std::vector<std::string> words_missing(const Candidate& one) {
    std::vector<std::string> missing;
    for (const ColumnMatch& match : one.match.sure) {
        if (!match.foreign_words.empty()) {
            missing.push_back(fmt::format(
                "{}: say in [{}.values.{}] what the words of the column {} mean", one.look->printed,
                one.match.section->name, match.field->name, as_printed(match.column->name)));
        }
    }
    return missing;
}

std::vector<std::string> missing_of(const SectionRow& section, const Candidate& one) {
    std::vector<std::string> missing;
    if (!one.look->lacks.empty()) {
        missing.push_back(fmt::format("{}: {}", one.look->printed, one.look->lacks));
    }
    if (!one.usable()) {
        missing.push_back(found_but_lacks(one));
        return missing;
    }
    if (one.look->records == 0) {
        missing.push_back(fmt::format("{}: {} has no row yet", section.name, one.look->printed));
    }
    std::ranges::move(words_missing(one), std::back_inserter(missing));
    return missing;
}

// Layers that nothing tells apart: which of them is taken is chance, so somebody has to look.
void add_equals(std::vector<std::string>& missing, const std::vector<Candidate>& candidates) {
    const Candidate& taken = candidates.front();
    std::string others;
    for (std::size_t i = 1; i < candidates.size(); ++i) {
        if (!told_apart(taken, candidates[i])) {
            others += fmt::format(" or {}", candidates[i].look->printed);
        }
    }
    if (!others.empty()) {
        missing.push_back(
            fmt::format("{}: see whether it is {}{}; nothing tells them apart, and the "
                        "first is taken",
                        taken.match.section->name, taken.look->printed, others));
    }
}

std::string sheets_to_fill_in(const std::vector<std::string>& sheets) {
    std::vector<std::string_view> names;
    for (const std::string& section : sheets) {
        names.push_back(sheet_of_section(section));
    }
    return fmt::format("{}: fill in the {} of {}", fmt::join(names, ", "),
                       names.size() == 1 ? "sheet" : "sheets", workbook_name);
}

// What to do with address points where no parcels are.
std::string points_instead(const Recognised& found) {
    const Candidate* points = found.best("address_points");
    return points == nullptr
               ? ""
               : fmt::format(
                     "; where there is none, {} can be the [targets], with an outline of "
                     "the district and buildings = 0 in [parcels]",
                     points->look->printed);
}

}  // namespace

std::vector<std::string> sheets_needed(const Recognised& found) {
    const bool all_there = is_usable(found, "stations") && is_usable(found, "apparatus") &&
                           is_usable(found, "water_sources");
    std::vector<std::string> sheets;
    for (const std::string_view section : sections_with_sheet()) {
        if (!all_there && !is_usable(found, section)) {
            sheets.emplace_back(section);
        }
    }
    return sheets;
}

std::string compose_district_file(const Recognised& found, const std::vector<std::string>& sheets,
                                  const std::string& name) {
    TomlLines lines;
    lines.comment(
        "A first district file, drafted from the data in this folder. Read it through: what stands "
        "behind # is a guess or a suggestion and counts only without the #. Paths are relative to "
        "this file. All keys with their defaults: farwater keys");
    lines.blank();
    lines.add(fmt::format("name = {}  # as results print it", toml_text(name)));
    add_top_suggestions(lines);
    lines.heading("Land, roads and water, as the data have them");
    for (const std::string_view section : order_of_land) {
        add_section(lines, found, sheets, section);
        if (section == "parcels") {
            add_joins(lines, found.joins);
        }
    }
    add_elevation(lines, found.elevation);
    lines.heading("What the department knows");
    for (const std::string_view section : order_of_department) {
        add_section(lines, found, sheets, section);
    }
    add_periods(lines, found);
    add_evening_suggestions(lines, is_usable(found, "buildings"));
    return lines.text();
}

std::vector<DraftTable> tables_told(const Recognised& found,
                                    const std::vector<std::string>& sheets) {
    std::vector<DraftTable> tables;
    const auto take = [&](std::string_view section) {
        if (found.best(section) != nullptr && !has_sheet(sheets, section)) {
            tables.push_back(told(found.sections.find(section)->second));
        }
    };
    for (const std::string_view section : order_of_land) {
        take(section);
        if (section == "parcels") {
            std::ranges::transform(found.joins, std::back_inserter(tables),
                                   [](const JoinCandidate& join) { return told(join); });
        }
    }
    if (!found.elevation.empty()) {
        tables.push_back(told(found.elevation));
    }
    std::ranges::for_each(order_of_department, take);
    return tables;
}

std::vector<std::string> missing_told(const Recognised& found,
                                      const std::vector<std::string>& sheets) {
    std::vector<std::string> missing;
    for (const SectionRow& section : section_rows()) {
        const Candidate* best = found.best(section.name);
        if (best != nullptr) {
            std::ranges::move(missing_of(section, *best), std::back_inserter(missing));
            add_equals(missing, found.sections.find(section.name)->second);
        } else if (section.required && !has_sheet(sheets, section.name)) {
            missing.push_back(
                fmt::format("{}: no layer in the folder is told to be {}; name the "
                            "file in [{}]{}",
                            section.name, first_clause(section), section.name,
                            section.name == "parcels" ? points_instead(found) : ""));
        }
    }
    if (!found.elevation.empty() && !found.elevation.front()->has_unit) {
        missing.push_back(fmt::format("{}: say in [elevation] whether its heights are ft or m",
                                      found.elevation.front()->printed));
    }
    if (!sheets.empty()) {
        missing.push_back(sheets_to_fill_in(sheets));
    }
    return missing;
}

}  // namespace farwater::io
