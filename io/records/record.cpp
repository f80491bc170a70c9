#include "io/records/record.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <ogr_feature.h>
#include <ogr_spatialref.h>

#include "io/inputs/road_schemas.h"
#include "io/records/parse_cell.h"
#include "io/records/parse_date.h"
#include "io/records/parse_measure.h"
#include "io/records/parse_quantity.h"
#include "io/records/trade_words.h"
#include "io/records/unit_words.h"

namespace farwater::io {
namespace {

constexpr double most_exact = 9007199254740992.0;  // 2^53: whole numbers beyond are kept as text

Date date_of(OGRFeature& feature, int index) {
    int year = 0;
    int month = 0;
    int day = 0;
    int unused = 0;
    feature.GetFieldAsDateTime(index, &year, &month, &day, &unused, &unused, &unused, &unused);
    return {std::chrono::year(year), std::chrono::month(static_cast<unsigned>(month)),
            std::chrono::day(static_cast<unsigned>(day))};
}

Cell number_cell(double value) { return std::isnan(value) ? Cell() : Cell(value); }

Cell cell_in(OGRFeature& feature, const BoundField& from) {
    if (from.is_fid) {
        return static_cast<double>(feature.GetFID());
    }
    return from.index >= 0 ? cell_of(feature, from.index) : Cell();
}

// Our word for a value of theirs; none where neither the district file nor the schema has one.
std::optional<std::string> mapped_word(const BoundField& bound, const std::string& theirs) {
    const auto mapped = bound.values.find(theirs);
    if (mapped != bound.values.end()) {
        return mapped->second;
    }
    const std::string_view preset = bound.schema == nullptr
                                        ? std::string_view{}
                                        : preset_word(*bound.schema, bound.field->name, theirs);
    return preset.empty() ? std::nullopt : std::optional(std::string(preset));
}

ReadDate read_date_of(const Cell& cell, DateOrder order) {
    if (const auto* date = std::get_if<Date>(&cell)) {
        return {date->ok() ? DateKind::value : DateKind::unreadable, *date};
    }
    const auto* number = std::get_if<double>(&cell);
    return number != nullptr ? date_of_number(*number) : read_date(printed(cell), order);
}

// What to add to a date that the stated order makes none of.
std::string against(DateOrder order, std::string_view text) {
    if (order == DateOrder::unstated ||
        read_date(text, DateOrder::unstated).kind == DateKind::unreadable) {
        return {};
    }
    return order == DateOrder::month_first ? ", and date_order says that the month stands first"
                                           : ", and date_order says that the day stands first";
}

std::string in_quotes(std::string_view text) { return fmt::format("\"{}\"", text); }

NumberSign sign_of(const FieldRow& field) {
    return field.name == "value" || field.name == "cost" ? NumberSign::money
           : field.high <= 1.0                           ? NumberSign::share
                                                         : NumberSign::none;
}

CellNumber quantity_of(const Cell& cell, const BoundField& from) {
    if (const auto* number = std::get_if<double>(&cell)) {
        return {CellNumberKind::value, *number * from.factor};
    }
    const auto* text = std::get_if<std::string>(&cell);
    return text == nullptr ? CellNumber{}
                           : parse_quantity(*text, from.unit, from.ours, sign_of(*from.field));
}

}  // namespace

Cell cell_of(OGRFeature& feature, int index) {
    if (feature.IsFieldSetAndNotNull(index) == 0) {
        return {};
    }
    switch (feature.GetFieldDefnRef(index)->GetType()) {
        case OFTInteger:
            return static_cast<double>(feature.GetFieldAsInteger(index));
        case OFTInteger64: {
            const auto value = static_cast<double>(feature.GetFieldAsInteger64(index));
            return std::abs(value) < most_exact ? Cell(value)
                                                : Cell(feature.GetFieldAsString(index));
        }
        case OFTReal:
            return number_cell(feature.GetFieldAsDouble(index));
        case OFTDate:
        case OFTDateTime:
            return date_of(feature, index);
        case OFTBinary:
            return {};
        default:
            return std::string(trimmed(feature.GetFieldAsString(index)));
    }
}

bool is_blank(const Cell& cell) {
    const auto* text = std::get_if<std::string>(&cell);
    return text != nullptr ? is_blank(std::string_view(*text))
                           : std::holds_alternative<std::monostate>(cell);
}

std::string printed(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) {
        return fmt::format("{}", *number);
    }
    if (const auto* date = std::get_if<Date>(&cell)) {
        return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date->year()),
                           static_cast<unsigned>(date->month()),
                           static_cast<unsigned>(date->day()));
    }
    const auto* text = std::get_if<std::string>(&cell);
    return text == nullptr ? std::string() : *text;
}

Record::Record(const LayerSource& source, OGRFeature& feature, std::uint32_t row)
    : source_(&source), feature_(&feature), row_(row) {}

std::string Record::name() const { return name_.empty() ? row_name(row_) : name_; }

const JoinedCell* Record::joined(std::string_view field) const {
    for (const JoinedCell& cell : joined_) {
        if (cell.field == field) {
            return &cell;
        }
    }
    return nullptr;
}

Cell Record::raw(std::string_view field) const {
    const JoinedCell* other = joined(field);
    return other != nullptr ? *other->cell : cell_in(*feature_, bound(field));
}

Cell Record::cell(std::string_view field) {
    const BoundField& from = bound(field);
    const JoinedCell* other = joined(field);
    Cell cell = other != nullptr ? *other->cell : cell_in(*feature_, from);
    if (from.has_words()) {
        if (std::optional<std::string> word = mapped_word(from, printed(cell))) {
            cell = std::move(*word);
        }
    }
    if (is_blank(cell)) {
        cell = Cell();
    }
    return cell;
}

std::string Record::word_for(std::string_view field, std::string_view theirs) const {
    const std::string text(trimmed(theirs));
    return lower_case(mapped_word(bound(field), text).value_or(text));
}

std::string Record::theirs(std::string_view field) const {
    return std::string(trimmed(printed(raw(field))));
}

Cell Record::also(std::size_t place) const { return cell_in(*feature_, source_->also[place]); }

bool Record::has(std::string_view field) const {
    return joined(field) != nullptr || !bound(field).column.empty();
}

std::string Record::text(std::string_view field) {
    Cell content = cell(field);
    auto* text = std::get_if<std::string>(&content);
    return text != nullptr ? std::move(*text) : printed(content);
}

std::optional<double> Record::number(std::string_view field) {
    const Cell content = cell(field);
    if (std::holds_alternative<std::monostate>(content)) {
        return std::nullopt;
    }
    const BoundField& from = bound(field);
    const CellNumber read =
        has_doubtful_comma(field, content) ? CellNumber{} : quantity_of(content, from);
    if (read.kind == CellNumberKind::unreadable) {
        report_unreadable(field, content);
    }
    if (read.kind == CellNumberKind::value && has_doubtful_point(field, content, read.value)) {
        report_unreadable(field, content);
        return std::nullopt;
    }
    return read.kind == CellNumberKind::value ? in_range(field, read.value) : std::nullopt;
}

std::optional<double> Record::coordinate(std::string_view field) {
    const Cell content = cell(field);
    if (std::holds_alternative<std::monostate>(content)) {
        return std::nullopt;
    }
    const std::string theirs = printed(content);
    const bool comma = theirs.find(',') != std::string::npos;
    const bool degrees = source_->open.crs && source_->open.crs->IsGeographic() != 0;
    const CellNumber read = has_doubtful_comma(field, content) || (comma && degrees)
                                ? CellNumber{}
                                : quantity_of(content, bound(field));
    if (read.kind == CellNumberKind::unreadable) {
        report(ProblemId::value_missing, field,
               fmt::format("\"{}\" is no coordinate{}", theirs,
                           comma ? "; write it with a decimal point, not a comma" : ""));
    }
    return read.kind == CellNumberKind::value ? in_range(field, read.value) : std::nullopt;
}

std::optional<double> Record::in_range(std::string_view field, double ours) {
    const FieldRow& row = *bound(field).field;
    if (!(ours >= row.low && ours <= row.high)) {
        report(
            ProblemId::number_out_of_range, field,
            fmt::format("{:.6g} {}is not within {:.10g} to {:.10g}", ours,
                        unit_of_name(field).empty() ? "" : fmt::format("{} ", unit_of_name(field)),
                        row.low, row.high));
        return std::nullopt;
    }
    return ours;
}

std::optional<double> Record::measure(std::string_view field) {
    const Cell content = cell(field);
    const BoundField& from = bound(field);
    if (std::holds_alternative<std::monostate>(content)) {
        return std::nullopt;
    }
    const auto* plain = std::get_if<double>(&content);
    const Measure measure = plain != nullptr
                                ? measure_of(*plain, from.unit, from.ours)
                                : parse_measure(printed(content), from.unit, from.ours);
    if (measure.kind == MeasureKind::unreadable || std::holds_alternative<Date>(content) ||
        has_doubtful_comma(field, content) ||
        (measure.kind == MeasureKind::value && has_doubtful_point(field, content, measure.value))) {
        report_unreadable(field, content);
        return std::nullopt;
    }
    return measure.kind == MeasureKind::value ? in_range(field, measure.value) : std::nullopt;
}

bool Record::has_doubtful_comma(std::string_view field, const Cell& cell) const {
    const JoinedCell* other = joined(field);
    const bool doubtful = other != nullptr ? other->commas_doubtful : source_->commas_doubtful();
    const auto* text = std::get_if<std::string>(&cell);
    return doubtful && text != nullptr && text->find(',') != std::string::npos;
}

bool Record::has_doubtful_point(std::string_view field, const Cell& cell, double ours) const {
    const JoinedCell* other = joined(field);
    const BoundField& from = bound(field);
    const bool doubtful =
        other != nullptr ? other->points_doubtful : source_->points_doubtful(from.index);
    const auto* text = std::get_if<std::string>(&cell);
    return doubtful && text != nullptr && may_part_thousands(*text) &&
           std::abs(ours) * 1000.0 <= from.field->high;
}

void Record::report_unreadable(std::string_view field, const Cell& cell) {
    const std::string theirs = printed(cell);
    const JoinedCell* other = joined(field);
    const bool semicolons = other != nullptr ? other->commas_doubtful : source_->commas_doubtful();
    const std::string_view why =
        semicolons && may_part_thousands(theirs)
            ? "; in a table parted by semicolons a point before three figures may part thousands: "
              "write it without, or with other decimals"
        : theirs.find(',') == std::string::npos ? ""
        : semicolons ? "; in a table parted by semicolons a comma may be a decimal one"
                     : "; a comma only parts thousands, in groups of three figures";
    report(ProblemId::number_unreadable, field, fmt::format("{}{}", in_quotes(theirs), why));
}

std::optional<int> Record::whole(std::string_view field) {
    const std::optional<double> value = number(field);
    if (value && *value != std::floor(*value)) {
        report(ProblemId::number_out_of_range, field,
               fmt::format("{:.6g} is no whole number", *value));
        return std::nullopt;
    }
    return value ? std::optional(static_cast<int>(*value)) : std::nullopt;
}

std::optional<Duration> Record::time_of_day(std::string_view field) const {
    const int index = bound(field).index;
    if (joined(field) != nullptr || index < 0 || feature_->IsFieldSetAndNotNull(index) == 0) {
        return std::nullopt;
    }
    const OGRFieldType type = feature_->GetFieldDefnRef(index)->GetType();
    if (type != OFTDateTime && type != OFTTime) {
        return std::nullopt;
    }
    int unused = 0;
    int hour = 0;
    int minute = 0;
    float second = 0.0F;
    feature_->GetFieldAsDateTime(index, &unused, &unused, &unused, &hour, &minute, &second,
                                 &unused);
    return minutes(hour * 60.0 + minute + static_cast<double>(second) / 60.0);
}

std::optional<Date> Record::date(std::string_view field) {
    const Cell content = cell(field);
    const DateRules& rules = source_->spec.dates;
    const ReadDate read = read_date_of(content, rules.order);
    const std::string theirs = printed(content);
    switch (read.kind) {
        case DateKind::not_known:
            return std::nullopt;
        case DateKind::ambiguous:
            report(ProblemId::date_ambiguous, field, in_quotes(theirs));
            return std::nullopt;
        case DateKind::unreadable:
            report(ProblemId::date_unreadable, field,
                   in_quotes(theirs) + against(rules.order, theirs));
            return std::nullopt;
        case DateKind::value:
        case DateKind::from_day_number:
            break;
    }
    if (rules.today && read.date > *rules.today) {
        report(ProblemId::date_after_data, field,
               fmt::format("{}, data_date is {}", printed(read.date), printed(*rules.today)));
        return std::nullopt;
    }
    if (read.kind == DateKind::from_day_number) {
        report(ProblemId::date_from_day_number, field,
               fmt::format("{}, read as {}", theirs, printed(read.date)));
    }
    return read.date;
}

std::optional<MonthSet> Record::months(std::string_view field) {
    const std::string content = text(field);
    if (content.empty()) {
        return std::nullopt;
    }
    const std::optional<MonthSet> months = parse_months(content);
    if (!months) {
        report_unmapped(field, content, "no month at all");
    }
    return months.value_or(MonthSet{});
}

std::optional<bool> Record::yes_no(std::string_view field, std::optional<bool> cautious) {
    const std::string content = text(field);
    if (content.empty()) {
        return std::nullopt;
    }
    const std::optional<bool> value = parse_yes_no(content);
    if (!value && cautious) {
        report_unmapped(field, content, *cautious ? "yes" : "no");
        return cautious;
    }
    if (!value) {
        report(ProblemId::value_not_in_list, field, in_quotes(content) + ", not yes or no");
    }
    return value;
}

std::string Record::word_text(std::string_view field) {
    return as_our_word(text(field), bound(field).field->words);
}

const OGRGeometry* Record::geometry() const { return feature_->GetGeometryRef(); }

void Record::report(ProblemId id, std::string_view field, std::string detail) {
    Problem problem{id,
                    std::string(source_->section->name),
                    printable_source(source_->spec.file),
                    name(),
                    {},
                    std::move(detail)};
    if (const JoinedCell* other = joined(field)) {
        problem.layer = "join";
        problem.file = printable_source(other->file);
        problem.field = other->column;
    } else if (!field.empty()) {
        const std::string& column = bound(field).column;
        problem.field = column.empty() ? std::string(field) : column;
    }
    problems_.push_back(std::move(problem));
}

void Record::report_unmapped(std::string_view field, std::string_view value,
                             std::string_view taken_as) {
    report(ProblemId::value_not_mapped, field, fmt::format("\"{}\", taken as {}", value, taken_as));
}

std::string as_our_word(std::string_view text, WordList words) {
    std::string lower = lower_case(text);
    std::string joined = lower;
    std::ranges::replace_if(joined, [](char c) { return c == ' ' || c == '-'; }, '_');
    if (words != nullptr && std::ranges::find(words(), joined) != words().end()) {
        return joined;
    }
    const std::string_view meant = trade_word(lower, words);
    return meant.empty() ? lower : std::string(meant);
}

}  // namespace farwater::io
