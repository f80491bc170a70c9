// One record of an input: its cells as typed values, its faults as problems. What is blank is not
// known and no problem; what cannot be read is a problem and not known. Never a guess.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "analyzer/district/calendar.h"
#include "analyzer/district/problem.h"
#include "analyzer/district/words.h"
#include "io/records/layer_source.h"

class OGRFeature;
class OGRGeometry;

namespace farwater::io {

using Cell = std::variant<std::monostate, double, Date, std::string>;  // monostate = NULL

// A cell that comes from a joined table instead of the layer's own column.
struct JoinedCell {
    std::string_view field;
    std::string_view column;  // theirs
    std::string_view file;    // of the joined table, as written
    const Cell* cell = nullptr;
    bool commas_doubtful =
        false;  // the table is parted by semicolons, as where decimals have commas
    bool points_doubtful = false;  // LayerSource::points_doubtful of its column
};

// The text in lower case; with blanks and hyphens as underscores where that is a word of the list,
// for our words have no blanks, and people write "dry hydrant"; a plain word of the trade as the
// word of the list that it means (io/records/trade_words.h).
std::string as_our_word(std::string_view text, WordList words);

class Record {
public:
    // For for_each_record. Source and feature must outlive it.
    Record(const LayerSource& source, OGRFeature& feature, std::uint32_t row);

    std::uint32_t row() const { return row_; }
    std::string name() const;  // its id once called so, else "row 17"
    void call(std::string name) { name_ = std::move(name); }
    void join(std::vector<JoinedCell> cells) { joined_ = std::move(cells); }

    // The values of a field of the section, in the field's own unit; blank or not known = none or
    // "". Precondition: the section has the field, of a fitting kind.
    std::string text(std::string_view field);
    // As people write numbers (io/records/parse_quantity.h); within the field's range. In a table
    // parted by semicolons a comma, and a point that can part thousands, are told and not read.
    std::optional<double> number(std::string_view field);
    // Likewise x or y, where a point always begins decimals and, in degrees, a comma never parts
    // thousands. What is no number is told as what sets the record aside.
    std::optional<double> coordinate(std::string_view field);
    // A number that may carry its own unit or say that nothing is recorded
    // (io/records/parse_measure.h). Precondition: the field's unit is mph, ft or lb.
    std::optional<double> measure(std::string_view field);
    std::optional<int> whole(std::string_view field);
    // A day as read_date knows it (io/records/parse_date.h), by the date rules of the section.
    std::optional<Date> date(std::string_view field);
    // Of a column of times, or of days with times: since midnight. None where the column holds
    // texts, which parse_clock (io/records/parse_clock.h) reads.
    std::optional<Duration> time_of_day(std::string_view field) const;
    // Months that cannot be read are none at all, the most cautious meaning.
    std::optional<MonthSet> months(std::string_view field);
    // A word that cannot be read means `cautious`.
    std::optional<bool> yes_no(std::string_view field, std::optional<bool> cautious = std::nullopt);
    template <class Enum>
    std::optional<Enum> word(std::string_view field, Enum cautious) {
        const std::string text = this->word_text(field);
        if (text.empty()) {
            return std::nullopt;
        }
        const std::optional<Enum> value = parse_word<Enum>(text);
        if (!value) {
            report_unmapped(field, text, farwater::word(cautious));
        }
        return value.value_or(cautious);
    }
    // The same where a word that cannot be read means that nothing is known.
    template <class Enum>
    std::optional<Enum> known_word(std::string_view field) {
        const std::string text = this->word_text(field);
        const std::optional<Enum> value = parse_word<Enum>(text);
        if (!text.empty() && !value) {
            report(ProblemId::value_not_in_list, field, "\"" + text + "\"");
        }
        return value;
    }
    // The word as it stands, through the values table, in lower case; "" for blank. One of the
    // field's list is found also with blanks or dashes where the list has _.
    std::string word_text(std::string_view field);

    // The cell through the section's values table: a number only where the data have one.
    Cell cell(std::string_view field);

    // A text of theirs as our word for the field: by the values table, else by the section's
    // schema, else as it stands; in lower case.
    std::string word_for(std::string_view field, std::string_view theirs) const;
    std::string theirs(std::string_view field) const;  // the cell as the data have it, trimmed

    // A column that is no field (LayerSource::also), by its place in that list.
    Cell also(std::size_t place) const;
    bool has(std::string_view field) const;  // the layer has a column for it

    const OGRGeometry* geometry() const;  // null = none

    // `field` is ours ("" = the whole record); the problem names their column.
    void report(ProblemId id, std::string_view field, std::string detail);
    void report_unmapped(std::string_view field, std::string_view value, std::string_view taken_as);
    const std::vector<Problem>& problems() const { return problems_; }

private:
    const BoundField& bound(std::string_view field) const { return source_->bound(field); }
    Cell raw(std::string_view field) const;
    std::optional<double> in_range(std::string_view field, double ours);
    const JoinedCell* joined(std::string_view field) const;
    bool has_doubtful_comma(std::string_view field, const Cell& cell) const;
    bool has_doubtful_point(std::string_view field, const Cell& cell, double ours) const;
    void report_unreadable(std::string_view field, const Cell& cell);

    const LayerSource* source_;
    OGRFeature* feature_;
    std::uint32_t row_;
    std::string name_;
    std::vector<JoinedCell> joined_;
    std::vector<Problem> problems_;
};

// The cell of a column, by its index in the feature.
Cell cell_of(OGRFeature& feature, int index);
bool is_blank(const Cell& cell);  // NULL, or a text of blanks
// As a person would write it: digits, 2026-05-31, the text itself; "" for NULL.
std::string printed(const Cell& cell);

}  // namespace farwater::io
