#include "io/settings/need_table.h"

#include <fmt/format.h>

#include "io/settings/district_layers.h"
#include "io/settings/schema.h"
#include "io/settings/toml_table.h"

namespace farwater::io {
namespace {

NeedRules rules_of(const TableReader& reader) {
    NeedRules rules;
    rules.method = parse_word<NeedMethod>(reader.text("method")).value_or(NeedMethod::column);
    rules.separation_table = parse_word<SeparationTable>(reader.text("separation_table"))
                                 .value_or(SeparationTable::older);
    rules.dwelling_cap = reader.yes_no("dwelling_cap");
    rules.default_use =
        parse_word<BuildingUse>(reader.text("default_use")).value_or(BuildingUse::dwelling);
    rules.default_construction = parse_word<Construction>(reader.text("default_construction"))
                                     .value_or(Construction::type_5b);
    rules.given = reader.given();
    return rules;
}

void check(const NeedTable& need, const TomlTable& top, TomlPlace place, Faults& faults) {
    const std::string_view method = word(need.rules.method);
    if (need.rules.works_on_buildings() && find_entry(top, "buildings") == nullptr) {
        faults.add(place, fmt::format("[need] method = \"{}\" works on footprints: add [buildings]",
                                      method));
    }
    if (!need.rules.works_on_buildings() && !need.own_standard.empty()) {
        faults.add(place, fmt::format("[need] standard cannot be: method = \"{}\" rests on no "
                                      "standard",
                                      method));
    }
}

}  // namespace

NeedTable need_table_of(const TomlTable& top, const std::filesystem::path& folder, Faults& faults) {
    const auto reader = read_top_table(top, "need", need_keys(), faults);
    if (!reader) {
        return {};
    }
    NeedTable need{rules_of(*reader), reader->text("standard"), {}};
    if (!need.own_standard.empty()) {
        need.own_standard_path = (folder / need.own_standard).lexically_normal();
    }
    check(need, top, reader->place(), faults);
    return need;
}

}  // namespace farwater::io
