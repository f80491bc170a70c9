#include "io/draft/draft_columns.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/near_word.h"
#include "io/records/unit_words.h"

namespace farwater::io {
namespace {

constexpr std::size_t most_words_shown = 30;
constexpr std::size_t longest_word_shown = 60;
constexpr std::size_t most_unread_shown = 40;

bool is_found_by_reading(const ColumnMatch& match) {
    return match.by != MatchBy::known_name && match.told_apart;
}

std::string in_its_unit(const ColumnMatch& match) {
    const std::string_view unit = unit_of_name(match.field->name);
    return unit.empty() ? std::string() : fmt::format(", if in {}", unit);
}

// Columns that have a value of their own in each record: one of them may be the id.
std::vector<std::string> columns_that_differ(const LayerLook& look) {
    std::vector<std::string> names;
    for (const ColumnLook& column : look.columns) {
        if (column.all_differ && names.size() < 3) {
            names.push_back(column.name);
        }
    }
    return names;
}

// Columns that may be the id that is not told.
std::vector<std::string> possible_ids(const Candidate& one) {
    const FieldRow& id = one.match.section->fields.front();
    const bool lacks = std::ranges::find(one.match.lacks, &id) != one.match.lacks.end() &&
                       find_match(one.match.likely, id.name) == nullptr;
    return lacks ? columns_that_differ(*one.look) : std::vector<std::string>();
}

TomlLines columns_to_write(const Candidate& one) {
    TomlLines columns;
    for (const ColumnMatch& match : one.match.sure) {
        if (!is_found_by_reading(match)) {
            columns.add(toml_pair(match.field->name, match.column->name));
        }
    }
    for (const ColumnMatch& match : one.match.likely) {
        columns.add(fmt::format("# {}  # likely{}",
                                toml_pair(match.field->name, match.column->name),
                                in_its_unit(match)));
    }
    for (const std::string& id : possible_ids(one)) {
        columns.add(fmt::format("# {}  # no record has that of another; is it the id?",
                                toml_pair(one.match.section->fields.front().name, id)));
    }
    return columns;
}

// So that nobody believes they count.
void add_unread(TomlLines& lines, const Candidate& one) {
    std::vector<std::string> unread;
    for (const ColumnLook& column : one.look->columns) {
        const auto reads = [&](const ColumnMatch& match) { return match.column == &column; };
        if (std::ranges::none_of(one.match.sure, reads) &&
            std::ranges::none_of(one.match.likely, reads)) {
            unread.push_back(as_printed(column.name));
        }
    }
    const std::size_t shown = std::min(unread.size(), most_unread_shown);
    if (shown > 0) {
        lines.comment(fmt::format(
            "Columns that nothing reads: {}{}.",
            fmt::join(unread.begin(), unread.begin() + static_cast<std::ptrdiff_t>(shown), ", "),
            shown < unread.size() ? fmt::format(" and {} more", unread.size() - shown) : ""));
    }
}

// Their words, to be told: unknown ones count as the worst.
void add_words(TomlLines& lines, const Candidate& one, const ColumnMatch& match) {
    if (match.foreign_words.empty()) {
        return;
    }
    lines.blank();
    const FieldRow& field = *match.field;
    const bool word = field.kind == FieldKind::word;
    lines.comment(
        fmt::format("Words of the column {} in the first {} records. Take the # away and say what "
                    "each means{}; "
                    "\"\" is not known.",
                    as_printed(match.column->name), one.look->sampled,
                    word ? ": " + one_of(field.words()) : std::string()));
    lines.add(fmt::format("# [{}.values.{}]", one.match.section->name, field.name));
    std::size_t shown = 0;
    for (const std::string& value : match.foreign_words) {
        if (value.size() <= longest_word_shown && shown < most_words_shown) {
            lines.add(fmt::format("# {} = \"\"", toml_text(value)));
            ++shown;
        }
    }
    if (shown < match.foreign_words.size()) {
        lines.comment(fmt::format("... and {} more.", match.foreign_words.size() - shown));
    }
}

}  // namespace

void add_columns(TomlLines& lines, const Candidate& one) {
    std::vector<std::string_view> found;
    for (const ColumnMatch& match : one.match.sure) {
        if (is_found_by_reading(match)) {
            found.push_back(match.field->name);
        }
    }
    if (!found.empty()) {
        lines.comment(fmt::format(
            "Read from columns of {}: {}.",
            one.match.schema != nullptr ? "the schema and of our own names" : "our own names",
            fmt::join(found, ", ")));
    }
    add_unread(lines, one);
    if (const TomlLines columns = columns_to_write(one); !columns.empty()) {
        lines.blank();
        lines.add(fmt::format("[{}.columns]", one.match.section->name));
        lines.take(columns, false);
    }
}

void add_values(TomlLines& lines, const Candidate& one) {
    for (const ColumnMatch& match : one.match.sure) {
        add_words(lines, one, match);
    }
}

}  // namespace farwater::io
