#include "io/draft/draft_columns.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/draft/overlooked.h"
#include "io/near_word.h"
#include "io/records/unit_words.h"

namespace farwater::io {
namespace {

constexpr std::size_t most_words_shown = 100;
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

std::string why_column_taken(const ColumnMatch& match) {
    return match.by == MatchBy::own_name ? "it has the field's own name"
           : match.by == MatchBy::schema ? "its name is the schema's"
                                         : "its name is the nearer one";
}

// What is said of single columns: what they compete with, units that nobody says, what is not read.
void add_column_notes(TomlLines& lines, const Candidate& one) {
    for (const std::string& sentence : competing_columns(one.match)) {
        lines.comment(sentence + ".");
    }
    for (const ColumnMatch& match : one.match.sure) {
        if (match.unit_by_size) {
            lines.comment(fmt::format(
                "{} says no unit; by their size its numbers are taken for {}, the lightest that "
                "they may be.",
                as_printed(match.column->name), match.unit.empty() ? "pounds" : "short tons"));
        }
    }
    for (const std::string& sentence : overlooked_columns(*one.look, one.match)) {
        lines.comment("NOT READ: " + sentence + ".");
    }
}

std::string records_of_words(const Candidate& one, const ColumnLook& column) {
    return column.looked || one.look->records == one.look->sampled
               ? fmt::format("all {} records", column.looked.value_or(one.look->sampled))
               : fmt::format("the first {} records", one.look->sampled);
}

std::string meanings_of(const FieldRow& field) {
    return field.kind == FieldKind::months
               ? "in which months it is open, such as \"4-11\"; \"\" is all of them"
               : one_of(field.words()) + "; \"\" is not known";
}

// Their words, to be told: unknown ones count as the worst.
void add_words(TomlLines& lines, const Candidate& one, const ColumnMatch& match) {
    if (match.foreign_words.empty()) {
        return;
    }
    lines.blank();
    const FieldRow& field = *match.field;
    lines.comment(fmt::format(
        "Words of the column {} in {}. Take the # away and say what each means: {}.",
        as_printed(match.column->name), records_of_words(one, *match.column), meanings_of(field)));
    lines.add(fmt::format("# [{}.values.{}]", one.match.section->name, field.name));
    std::size_t shown = 0;
    for (const std::string& value : match.foreign_words) {
        if (value.size() <= longest_word_shown && shown < most_words_shown) {
            lines.add(fmt::format("# {} = \"\"", toml_text(value)));
            ++shown;
        }
    }
    if (shown < match.foreign_words.size()) {
        lines.comment(fmt::format("... and {}{} more.",
                                  match.column->more_values ? "at least " : "",
                                  match.foreign_words.size() - shown));
    }
}

}  // namespace

std::vector<std::string> competing_columns(const SectionMatch& match) {
    std::vector<std::string> sentences;
    for (const ColumnMatch& one : match.sure) {
        if (one.weak_id) {
            sentences.push_back(fmt::format(
                "{} is {}, which only counts the records and may change with the next export; name "
                "the column of an id that lists go by, if there is one",
                one.field->name, as_printed(one.column->name)));
        }
        std::string others;
        for (const std::string& rival : one.rivals) {
            others += " or " + as_printed(rival);
        }
        if (!others.empty()) {
            const std::string taken = as_printed(one.column->name);
            sentences.push_back(fmt::format("{} could be {}{}; {} is taken, for {}",
                                            one.field->name, taken, others, taken,
                                            why_column_taken(one)));
        }
    }
    return sentences;
}

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
    add_column_notes(lines, one);
    if (const TomlLines columns = columns_to_write(one); !columns.empty()) {
        lines.blank();
        lines.add(fmt::format("[{}.columns]", one.match.section->name));
        lines.take(columns, false);
    }
}

void add_values(TomlLines& lines, const Candidate& one) {
    for (const auto* matches : {&one.match.sure, &one.match.likely}) {
        for (const ColumnMatch& match : *matches) {
            add_words(lines, one, match);
        }
    }
}

}  // namespace farwater::io
