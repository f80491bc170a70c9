#include "io/draft/values_of_column.h"

#include <algorithm>

#include "io/inputs/one_way_words.h"
#include "io/inputs/road_schemas.h"
#include "io/records/parse_cell.h"
#include "io/records/parse_quantity.h"
#include "io/records/record.h"
#include "io/records/unit_words.h"

namespace farwater::io {
namespace {

bool is_reading_of(const FieldRow& field, std::string_view unit, const std::string& value) {
    switch (field.kind) {
        case FieldKind::number:
        case FieldKind::whole: {
            const std::string_view ours = unit_of_name(field.name);
            return parse_quantity(value, unit.empty() ? ours : unit, ours, NumberSign::money)
                       .kind != CellNumberKind::unreadable;
        }
        case FieldKind::yes_no:
            return parse_yes_no(value).has_value();
        case FieldKind::months:
            return parse_months(value).has_value();
        case FieldKind::word: {
            if (field.name == "one_way") {
                return one_way_sign(value) != OneWaySign::unclear;
            }
            const auto list = field.words();
            return std::ranges::find(list, as_our_word(value, field.words)) != list.end();
        }
        case FieldKind::text:
        case FieldKind::date:
        case FieldKind::usable:
            return true;
    }
    return true;
}

}  // namespace

bool mostly_reads(const FieldRow& field, std::string_view unit, const ColumnLook& column) {
    const auto read = std::ranges::count_if(
        column.values, [&](const std::string& value) { return is_reading_of(field, unit, value); });
    return static_cast<std::size_t>(read) * 2 >= column.values.size();
}

bool takes_words(const FieldRow& field) {
    return field.kind == FieldKind::word || field.kind == FieldKind::months;
}

std::vector<std::string> foreign_words_of(const FieldRow& field, const RoadSchema* schema,
                                          const ColumnLook& column) {
    std::vector<std::string> foreign;
    for (const std::string& value : column.values) {
        const bool known =
            is_reading_of(field, {}, value) ||
            (schema != nullptr &&
             (!preset_word(*schema, field.name, value).empty() || is_left_out(*schema, value)));
        if (!known) {
            foreign.push_back(value);
        }
    }
    return foreign;
}

}  // namespace farwater::io
