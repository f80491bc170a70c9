#include "io/district_file.h"

#include <regex>

#include <fmt/format.h>

#include "io/records/parse_cell.h"
#include "io/settings/district_layers.h"
#include "io/settings/improvement_table.h"
#include "io/settings/need_table.h"
#include "io/settings/next_source_table.h"
#include "io/settings/rating_table.h"
#include "io/settings/read_standard.h"
#include "io/settings/settings_text.h"
#include "io/settings/toml_table.h"

namespace farwater::io {
namespace {

template <class Enum>
std::vector<Enum> words_as(const std::vector<std::string>& texts) {
    std::vector<Enum> values;
    for (const std::string& text : texts) {
        values.push_back(parse_word<Enum>(text).value_or(Enum{}));
    }
    return values;
}

std::optional<Duration> minutes_of(const std::optional<double>& number) {
    return number ? std::optional(minutes(*number)) : std::nullopt;
}

Season season_of(const std::string& name, const TableReader& reader) {
    Season season;
    season.name = name;
    season.months = parse_months(reader.text("months")).value_or(MonthSet::all());
    season.speed_factor = reader.number("speed_factor").value_or(1.0);
    season.extra_setup = minutes(reader.number("extra_setup_min").value_or(0.0));
    season.ice = reader.yes_no("ice");
    season.closed_access = words_as<RoadAccess>(reader.texts("closed_access"));
    season.sources_out = words_as<SourceKind>(reader.texts("sources_out"));
    return season;
}

Period period_of(const std::string& name, const TableReader& reader) {
    return {name, minutes_of(reader.number("turnout_staffed_min")),
            minutes_of(reader.number("turnout_volunteer_min"))};
}

// The tables [KIND.NAME], each read against `keys` and built by `build`.
template <class Build>
auto named_tables(const TomlTable& top, std::string_view kind, std::span<const KeyRow> keys,
                  Faults& faults, const Build& build) {
    std::vector<decltype(build(std::string(), std::declval<const TableReader&>()))> list;
    const TomlEntry* entry = find_entry(top, kind);
    const auto* tables = entry == nullptr ? nullptr : entry->node.as<TomlTable>();
    if (entry != nullptr && tables == nullptr) {
        faults.add(entry->node.place, fmt::format("{} must be tables: [{}.NAME]", kind, kind));
    }
    for (std::size_t i = 0; tables != nullptr && i < tables->size(); ++i) {
        const TomlEntry& named = (*tables)[i];
        const std::string title = fmt::format("[{}.{}]", kind, named.key);
        if (const auto* table = named.node.as<TomlTable>()) {
            list.push_back(
                build(named.key, TableReader(*table, named.key_place, title, keys, faults)));
        } else {
            faults.add(named.key_place, fmt::format("{} must be a table: {}", named.key, title));
        }
    }
    return list;
}

double key_value(const TableReader& reader, const AssumptionRow& row) {
    if (std::holds_alternative<bool Assumptions::*>(row.member)) {
        return reader.yes_no(row.key) ? 1.0 : 0.0;
    }
    return reader.number(row.key).value_or(0.0);
}

Assumptions assumptions_of(const TomlTable& top, Faults& faults) {
    Assumptions assumptions;
    const TomlEntry* entry = find_entry(top, "assumptions");
    if (entry == nullptr) {
        return assumptions;
    }
    const auto* table = entry->node.as<TomlTable>();
    if (table == nullptr) {
        faults.add(entry->node.place, "assumptions must be a table: [assumptions]");
        return assumptions;
    }
    const std::vector<KeyRow> keys = assumption_keys();
    const TableReader reader(*table, entry->key_place, "[assumptions]", keys, faults);
    assumptions.given = reader.given();
    for (const AssumptionRow& row : assumption_rows()) {
        if (assumptions.is_given(row.key)) {
            set_in_key_unit(assumptions, row, key_value(reader, row));
        }
    }
    return assumptions;
}

DateOrder date_order_of(std::string_view word) {
    return word == "month_first" ? DateOrder::month_first
           : word == "day_first" ? DateOrder::day_first
                                 : DateOrder::unstated;
}

void read_top(DistrictFile& file, const TomlTable& top, Faults& faults) {
    const std::vector<std::string_view> tables = top_tables();
    const TableReader reader(top, {}, "the district file", top_keys(), faults, tables);
    file.name = reader.text("name");
    file.tanker_word = reader.text("tanker_word", "tanker");
    file.travel_time =
        parse_word<TravelTime>(reader.text("travel_time")).value_or(TravelTime::road_speeds);
    file.suction_friction = parse_word<SuctionFriction>(reader.text("suction_friction"))
                                .value_or(SuctionFriction::conservative);
    file.data_date = reader.date("data_date");
    file.date_order = date_order_of(reader.text("date_order"));
    file.crs = reader.text("crs");
}

void check_variants(const DistrictFile& file, const TomlTable& top, Faults& faults) {
    const std::size_t variants = file.seasons.size() * file.periods.size();
    const TomlEntry* periods = find_entry(top, "period");
    if (periods != nullptr && variants > most_variants) {
        faults.add(periods->key_place,
                   fmt::format("{} seasons with {} periods are {} variants; {} are the most, so "
                               "name fewer",
                               file.seasons.size(), file.periods.size(), variants, most_variants));
    }
}

// Every layer's dates are read alike.
void set_date_rules(DistrictFile& file) {
    const DateRules rules{file.date_order, file.data_date};
    for (auto& [section, layer] : file.layers) {
        layer.dates = rules;
    }
    for (JoinSpec& join : file.joins) {
        join.table.dates = rules;
    }
}

// After the file's own faults are told.
void read_standard(DistrictFile& file, NeedTable need) {
    file.need = std::move(need.rules);
    file.own_standard = std::move(need.own_standard_path);
    file.need.standard =
        file.own_standard.empty()
            ? built_in_standard(file.need.method)
            : standard_with_own(
                  file.need.method,
                  settings_text(file.own_standard,
                                "the district's own copy, which [need] standard says"),
                  file.own_standard, need.own_standard);
}

void read_terms(DistrictFile& file, const RatingTable& rating) {
    file.own_terms = rating.own_terms_path;
    Standard standard =
        file.own_terms.empty()
            ? built_in_terms(rating.terms)
            : terms_with_own(rating.terms,
                             settings_text(file.own_terms,
                                           "the district's own terms, which [rating] own_terms "
                                           "says"),
                             file.own_terms, rating.own_terms);
    file.rating = RatingRules{rating.terms, std::move(standard)};
}

}  // namespace

DistrictFile read_district_file(const std::filesystem::path& path) {
    return parse_district_file(settings_text(path, "the district's TOML file"), path);
}

DistrictFile parse_district_file(std::string text, const std::filesystem::path& path) {
    const TomlTable top = parse_toml(text, path.string());
    Faults faults(path.string());
    DistrictFile file;
    file.path = path;
    file.folder = path.parent_path();
    file.text = std::move(text);
    read_top(file, top, faults);
    file.layers = layers_of(top, file.folder, faults);
    file.joins = joins_of(top, file.folder, faults);
    set_date_rules(file);
    file.elevation = elevation_of(top, file.folder, faults);
    file.seasons = named_tables(top, "season", season_keys(), faults, &season_of);
    file.periods = named_tables(top, "period", period_keys(), faults, &period_of);
    check_variants(file, top, faults);
    NeedTable need = need_table_of(top, file.folder, faults);
    const std::optional<RatingTable> rating = rating_table_of(top, file.folder, faults);
    file.next_source = next_source_of(top, faults);
    file.improvements = improvement_tables_of(top, faults);
    file.assumptions = assumptions_of(top, faults);
    faults.throw_if_any();
    read_standard(file, std::move(need));
    if (rating) {
        read_terms(file, *rating);
    }
    if (file.seasons.empty()) {
        file.seasons.push_back({"all_year", MonthSet::all(), 1.0, {}, false, {}, {}});
    }
    if (file.periods.empty()) {
        file.periods.push_back({"any_time", std::nullopt, std::nullopt});
    }
    return file;
}

std::string printable_source(std::string_view source) {
    const std::regex keyword(
        R"re(((?:password|passwd|pwd)\s*=\s*)('(?:[^'\\]|\\.)*'|[^\s'",;]+))re", std::regex::icase);
    const std::regex in_address(R"re((://[^/@:\s"']*:)[^@\s"']*@)re");
    const std::string text = std::regex_replace(std::string(source), keyword, "$1***");
    return std::regex_replace(text, in_address, "$1***@");
}

std::string printable_text(const DistrictFile& file) { return printable_source(file.text); }

}  // namespace farwater::io
