#include "io/settings/rating_table.h"

#include "io/settings/district_layers.h"
#include "io/settings/schema.h"
#include "io/settings/toml_table.h"

namespace farwater::io {

std::optional<RatingTable> rating_table_of(const TomlTable& top,
                                           const std::filesystem::path& folder, Faults& faults) {
    const TomlEntry* entry = find_entry(top, "rating");
    if (entry == nullptr) {
        return std::nullopt;
    }
    const auto* table = entry->node.as<TomlTable>();
    if (table == nullptr) {
        faults.add(entry->node.place, "rating must be a table: [rating]");
        return std::nullopt;
    }
    const TableReader reader(*table, entry->key_place, "[rating]", rating_keys(), faults);
    RatingTable rating{
        parse_word<RatingTerms>(reader.text("terms")).value_or(RatingTerms::schedule),
        reader.text("own_terms"),
        {}};
    if (!rating.own_terms.empty()) {
        rating.own_terms_path = (folder / rating.own_terms).lexically_normal();
    }
    return rating;
}

}  // namespace farwater::io
