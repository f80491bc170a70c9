#include "io/settings/next_source_table.h"

#include "io/settings/schema.h"
#include "io/settings/toml_table.h"

namespace farwater::io {

std::optional<ChoiceTerms> next_source_of(const TomlTable& top, Faults& faults) {
    const auto reader = read_top_table(top, "next_source", next_source_keys(), faults);
    if (!reader) {
        return std::nullopt;
    }
    if (reader->has("sites") && reader->has("budget")) {
        faults.add(reader->place("budget"),
                   "[next_source] has sites and budget: say how many, or for how much");
    }
    ChoiceTerms terms{.budget = reader->number("budget"),
                      .yearly_budget = reader->number("yearly_budget"),
                      .planned = reader->texts("planned"),
                      .ruled_out = reader->texts("ruled_out"),
                      .weigh_by = parse_word<WeighBy>(reader->text("weigh_by"))};
    if (reader->has("sites")) {
        terms.sites = static_cast<std::size_t>(reader->whole("sites", 1));
    }
    return terms;
}

}  // namespace farwater::io
