#include "io/settings/improvement_table.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/near_word.h"
#include "io/settings/district_layers.h"
#include "io/settings/schema.h"
#include "io/settings/toml_table.h"

namespace farwater::io {
namespace {

using Keys = std::vector<std::string_view>;
using Kind = ImprovementKind;

// Of which one must be there.
struct EitherKey {
    Keys keys;
    bool not_both = false;
};

struct KeysOfKind {
    Kind kind;
    std::vector<EitherKey> needed;
    Keys allowed;  // besides
};

const std::vector<KeysOfKind>& keys_by_kind() {
    static const std::vector<KeysOfKind> rows{
        {Kind::tanker,
         {{{"station"}}, {{"gallons", "like"}}},
         {"count", "pump_gpm", "fill_limit_gpm", "offload_gpm"}},
        {Kind::portable_tank, {{{"unit"}}, {{"gallons"}}}, {"count"}},
        {Kind::siphon, {{{"unit"}}}, {"count"}},
        {Kind::hose, {{{"unit"}}, {{"length_ft"}}, {{"diameter_in"}}}, {}},
        {Kind::fill_engine, {{{"station"}}, {{"pump_gpm", "like"}}}, {"count", "gallons"}},
        {Kind::offload, {{{"unit"}}, {{"offload_gpm"}}}, {"backs_to_offload"}},
        {Kind::automatic_aid, {{{"unit", "station"}, true}}, {}},
        {Kind::winter_access, {{{"source", "road"}, true}}, {}},
        {Kind::bridge, {{{"road"}}}, {"weight_limit_lb"}},
        {Kind::staffing,
         {{{"period"}}, {{"unit", "station"}, true}, {{"crew", "turnout_min"}}},
         {}},
        {Kind::source, {{{"proposal"}}}, {}},
    };
    return rows;
}

constexpr std::array<std::string_view, 5> of_every_kind{"kind", "name", "cost", "life_years",
                                                        "upkeep_per_year"};

Keys all_keys(const KeysOfKind& row) {
    Keys keys;
    for (const EitherKey& either : row.needed) {
        keys.insert(keys.end(), either.keys.begin(), either.keys.end());
    }
    keys.insert(keys.end(), row.allowed.begin(), row.allowed.end());
    return keys;
}

bool contains(const auto& keys, std::string_view key) {
    return std::ranges::find(keys, key) != std::end(keys);
}

// A key that is there and wrong is not told twice.
void check_keys(const KeysOfKind& row, const TomlTable& table, const TableReader& reader,
                Faults& faults) {
    const std::string title = fmt::format("[[improvement]] of kind {}", word(row.kind));
    const Keys allowed = all_keys(row);
    for (const std::string& key : reader.given()) {
        if (!contains(of_every_kind, key) && !contains(allowed, key)) {
            faults.add(reader.place(key), fmt::format("{} has no use for {}; it takes {}", title,
                                                      key, fmt::join(allowed, ", ")));
        }
    }
    for (const EitherKey& either : row.needed) {
        const auto given = std::ranges::count_if(
            either.keys, [&](std::string_view key) { return find_entry(table, key) != nullptr; });
        if (given == 0) {
            faults.add(reader.place({}), fmt::format("{} lacks {}", title, one_of(either.keys)));
        } else if (given > 1 && either.not_both) {
            faults.add(reader.place(either.keys.back()),
                       fmt::format("{} takes {}, not both", title, one_of(either.keys)));
        }
    }
}

void check_diameter(const TableReader& reader, Faults& faults) {
    const double diameter = reader.number("diameter_in").value_or(4.0);
    constexpr std::array sizes{2.5, 3.0, 4.0, 5.0};
    if (std::ranges::find(sizes, diameter) == sizes.end()) {
        faults.add(
            reader.place("diameter_in"),
            fmt::format("[[improvement]] diameter_in must be 2.5, 3, 4 or 5, not {}", diameter));
    }
}

void keep(ImprovementSpec& spec, const TableReader& reader, std::string_view key) {
    const std::string name(key);
    if (const std::optional<double> number = reader.number(key)) {
        spec.numbers[name] = *number;
    } else if (key == "backs_to_offload") {
        spec.backs_to_offload = reader.yes_no(key);
    } else {
        spec.texts[name] = reader.text(key);
        spec.places[name] = reader.place(key);
    }
}

// None where the kind cannot be told: that is a fault already.
std::optional<ImprovementSpec> spec_of(const TomlTable& table, TomlPlace place, Faults& faults) {
    const TableReader reader(table, place, "[[improvement]]", improvement_keys(), faults);
    const std::optional<Kind> kind = parse_word<Kind>(reader.text("kind"));
    if (!kind) {
        return std::nullopt;
    }
    const auto row = std::ranges::find(keys_by_kind(), *kind, &KeysOfKind::kind);
    check_keys(*row, table, reader, faults);
    check_diameter(reader, faults);
    ImprovementSpec spec;
    spec.kind = *kind;
    for (const std::string& key : reader.given()) {
        keep(spec, reader, key);
    }
    return spec;
}

}  // namespace

std::vector<ImprovementSpec> improvement_tables_of(const TomlTable& top, Faults& faults) {
    const TomlEntry* entry = find_entry(top, "improvement");
    if (entry == nullptr) {
        return {};
    }
    std::vector<ImprovementSpec> specs;
    const auto* list = entry->node.as<TomlArray>();
    const TomlArray nodes = list == nullptr ? TomlArray{entry->node} : *list;
    for (const TomlNode& node : nodes) {
        const auto* table = node.as<TomlTable>();
        if (table == nullptr) {
            faults.add(node.place, "improvement must be tables: [[improvement]]");
        } else if (auto spec =
                       spec_of(*table, list == nullptr ? entry->key_place : node.place, faults)) {
            specs.push_back(std::move(*spec));
        }
    }
    return specs;
}

std::string keys_of_improvements() {
    std::string page = "| kind | keys that it needs | keys that it may have |\n|---|---|---|\n";
    for (const KeysOfKind& row : keys_by_kind()) {
        std::string needed;
        for (const EitherKey& either : row.needed) {
            needed += fmt::format("{}{}", needed.empty() ? "" : ", ", one_of(either.keys));
        }
        page += fmt::format("| `{}` | {} | {} |\n", word(row.kind), needed,
                            fmt::join(row.allowed, ", "));
    }
    return page + "\n";
}

}  // namespace farwater::io
