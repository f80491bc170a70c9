#include "io/draft/evening_text.h"

#include <algorithm>
#include <array>
#include <span>
#include <string>
#include <string_view>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "analyzer/district/assumptions.h"
#include "io/settings/schema.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

struct SuggestedKey {
    std::string_view name;
    std::string_view value;  // as TOML writes it
};

template <class Row>
std::string_view what_of(std::span<const Row> rows, std::string_view name) {
    for (const Row& row : rows) {
        if (row.name == name) {
            return row.what;
        }
    }
    return {};
}

// `# key = value`, its meaning above it.
void suggest(TomlLines& lines, std::span<const KeyRow> rows, const SuggestedKey& key) {
    lines.comment(fmt::format("  {}: {}", key.name, what_of(rows, key.name)));
    lines.add(fmt::format("# {} = {}", key.name, key.value));
}

void suggest_table(TomlLines& lines, std::string_view title, std::span<const KeyRow> rows,
                   std::span<const SuggestedKey> keys) {
    lines.blank();
    lines.add(fmt::format("# [{}]", title));
    for (const SuggestedKey& key : keys) {
        suggest(lines, rows, key);
    }
}

// A table of the department's own, with its columns.
void suggest_input(TomlLines& lines, std::string_view name) {
    const SectionRow& section = *find_section(name);
    std::string columns;
    for (const FieldRow& field : section.fields) {
        columns += fmt::format("{}{}", columns.empty() ? "" : ", ", field.name);
    }
    lines.blank();
    lines.add(fmt::format("# [{}]", name));
    lines.comment(fmt::format("  {}; its columns: {}", section.what, columns));
    lines.add(fmt::format("# file = \"{}.csv\"", name));
}

void tell_column(TomlLines& lines, std::string_view section, std::string_view field) {
    lines.comment(fmt::format("  [{}] {}: {}", section, field,
                              what_of(find_section(section)->fields, field)));
}

void suggest_assumptions(TomlLines& lines) {
    constexpr std::array keys{"alarm_handling_min"sv,        "turnout_volunteer_min"sv,
                              "turnout_staffed_min"sv,       "request_delay_min"sv,
                              "mutual_turnout_min"sv,        "default_needed_gpm"sv,
                              "private_roads_usable"sv,      "gated_roads_usable"sv,
                              "unmaintained_roads_usable"sv, "offload_slots"sv};
    lines.blank();
    lines.add("# [assumptions]");
    for (const AssumptionRow& row : assumption_rows()) {
        if (std::ranges::find(keys, row.key) == keys.end()) {
            continue;
        }
        const double value = value_in_key_unit(Assumptions{}, row);
        const bool yes_no = std::holds_alternative<bool Assumptions::*>(row.member);
        lines.comment(fmt::format("  {}: {}", row.key, row.what));
        lines.add(yes_no ? fmt::format("# {} = {}", row.key, value != 0.0)
                         : fmt::format("# {} = {:.6g}", row.key, value));
    }
}

}  // namespace

void add_top_suggestions(TomlLines& lines) {
    for (const SuggestedKey& key : {SuggestedKey{"tanker_word", "\"tender\""},
                                    {"data_date", "2026-01-31"},
                                    {"date_order", "\"month_first\""}}) {
        suggest(lines, top_keys(), key);
    }
}

void add_evening_suggestions(TomlLines& lines, bool has_buildings) {
    lines.heading("What a department can say in an evening");
    lines.comment(
        "Take the # away from what is so. What is not known stays as it is: it never helps, and "
        "the "
        "result says where it would. All keys with their defaults: farwater keys");
    lines.blank();
    lines.comment("Asked first of trucks, water and places, in their tables above:");
    for (const auto& [section, field] : {std::pair{"apparatus"sv, "tank_gal"sv},
                                         {"apparatus", "portable_tank_gal"},
                                         {"apparatus", "hose_5in_ft"},
                                         {"apparatus", "crew"},
                                         {"water_sources", "standing"},
                                         {"stations", "aid"},
                                         {"dump_site_places", "place_id"}}) {
        tell_column(lines, section, field);
    }
    lines.comment("Weak bridges and roads closed in winter are columns of the road layer:");
    tell_column(lines, "roads", "weight_limit_lb");
    tell_column(lines, "roads", "maintained_months");
    suggest_table(lines, "period.night", period_keys(),
                  std::array{SuggestedKey{"turnout_volunteer_min", "6"}});
    suggest_table(lines, "period.weekday_day", period_keys(),
                  std::array{SuggestedKey{"turnout_volunteer_min", "8"}});
    suggest_table(lines, "season.summer", season_keys(),
                  std::array{SuggestedKey{"months", "\"4-11\""}});
    suggest_table(
        lines, "season.winter", season_keys(),
        std::array{SuggestedKey{"months", "\"12-3\""}, SuggestedKey{"speed_factor", "0.75"},
                   SuggestedKey{"extra_setup_min", "3"}, SuggestedKey{"ice", "true"},
                   SuggestedKey{"closed_access", "[\"unmaintained\"]"}});
    suggest_table(
        lines, "need", need_keys(),
        std::array{SuggestedKey{"method", has_buildings ? "\"rural_supply\"" : "\"fixed\""}});
    for (const std::string_view table : {"staffing"sv, "response_zones"sv, "turnarounds"sv}) {
        suggest_input(lines, table);
    }
    suggest_assumptions(lines);
}

}  // namespace farwater::io
