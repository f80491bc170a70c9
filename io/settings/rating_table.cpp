#include "io/settings/rating_table.h"

#include "io/settings/schema.h"
#include "io/settings/toml_table.h"

namespace farwater::io {

std::optional<RatingTable> rating_table_of(const TomlTable& top,
                                           const std::filesystem::path& folder, Faults& faults) {
    const auto reader = read_top_table(top, "rating", rating_keys(), faults);
    if (!reader) {
        return std::nullopt;
    }
    RatingTable rating{
        parse_word<RatingTerms>(reader->text("terms")).value_or(RatingTerms::schedule),
        reader->text("own_terms"),
        {}};
    if (!rating.own_terms.empty()) {
        rating.own_terms_path = (folder / rating.own_terms).lexically_normal();
    }
    return rating;
}

}  // namespace farwater::io
