#include "io/draft/match_columns.h"

#include <algorithm>
#include <array>
#include <optional>
#include <span>

#include "io/draft/names_of_fields.h"
#include "io/draft/unit_by_size.h"
#include "io/draft/values_of_column.h"
#include "io/inputs/road_schemas.h"
#include "io/records/column_names.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

// Coordinates of tables, for every section that has them. Common practice, no source.
constexpr std::string_view names_of_x =
    "longitude lon long lng gps_lon gps_long gps_longitude x_lon easting point_x x_coord xcoord";
constexpr std::string_view names_of_y =
    "latitude lat gps_lat gps_latitude y_lat northing point_y y_coord ycoord";

bool is_id_of(const SectionRow& section, const FieldRow& field) {
    return field.required && field.kind == FieldKind::text && &field == section.fields.data() &&
           section.name != "staffing" && section.name != "response_zones";
}

// Classes and kinds of others are as good as ours: `values` says what they mean.
bool takes_foreign_words(const FieldRow& field) {
    return field.name == "class" || field.name == "kind";
}

bool counts_records(std::string_view plain) {
    constexpr std::array names{"id"sv, "fid"sv, "gid"sv, "oid"sv, "objectid"sv, "number"sv};
    return std::ranges::find(names, plain) != names.end();
}

// Numbers that an export gives anew; no list of a department goes by them.
bool is_weak_id(std::string_view plain) {
    constexpr std::array names{"fid"sv, "gid"sv, "oid"sv, "objectid"sv};
    return std::ranges::find(names, plain) != names.end();
}

class ColumnMatching {
public:
    ColumnMatching(const LayerLook& look, const SectionRow& section)
        : look_(&look), names_(names_of_columns(look)) {
        match_.section = &section;
        for (const ColumnLook& column : look.columns) {
            called_.push_back(column_name_of(column.name, section));
        }
    }

    SectionMatch match() {
        take_own_names();
        if (match_.section->name == "roads") {
            choose_schema();
        }
        take_known_names();
        take_coordinates();
        drop_doubles();
        find_rivals(match_.sure);
        find_rivals(match_.likely);
        sort_and_tell_lacks();
        return std::move(match_);
    }

private:
    const ColumnLook* column_called(std::string_view name) const {
        const std::vector<int> places = columns_called(name, names_);
        return places.empty() ? nullptr : &look_->columns[static_cast<std::size_t>(places.front())];
    }

    void take_own_names() {
        for (const FieldRow& field : match_.section->fields) {
            const std::vector<int> places = columns_called(field.name, names_);
            if (!places.empty()) {
                ColumnMatch one{.field = &field,
                                .column = &look_->columns[static_cast<std::size_t>(places.front())],
                                .told_apart = places.size() == 1};
                add_sure(std::move(one));
            }
        }
    }

    void add_sure(ColumnMatch one) {
        if (takes_words(*one.field)) {
            const RoadSchema* schema = one.by == MatchBy::schema ? match_.schema : nullptr;
            one.foreign_words = foreign_words_of(*one.field, schema, *one.column);
        }
        match_.sure.push_back(std::move(one));
    }

    // The schema whose column of classes is there and whose words it holds, with most columns.
    void choose_schema() {
        std::size_t best = 0;
        for (const RoadSchema& schema : road_schemas()) {
            const ColumnLook* classes = column_called(preset_column(schema, "class")->column);
            if (classes == nullptr || !speaks(schema, *classes)) {
                continue;
            }
            const auto columns = static_cast<std::size_t>(
                std::ranges::count_if(schema.columns, [&](const PresetColumn& preset) {
                    return column_called(preset.column) != nullptr;
                }));
            if (columns > best) {
                best = columns;
                match_.schema = &schema;
            }
        }
        if (match_.schema != nullptr) {
            take_schema();
        }
    }

    bool speaks(const RoadSchema& schema, const ColumnLook& classes) {
        std::size_t roads = 0;
        std::size_t others = 0;
        for (const std::string& value : classes.values) {
            roads += preset_word(schema, "class", value).empty() ? 0U : 1U;
            others += is_left_out(schema, value) ? 1U : 0U;
        }
        const bool spoken = (roads + others) * 2 >= classes.values.size();
        match_.no_roads = match_.no_roads || (spoken && others > 0 && roads == 0);
        return spoken;
    }

    void take_schema() {
        for (const PresetColumn& preset : match_.schema->columns) {
            const FieldRow* field = find_field(*match_.section, preset.field);
            const ColumnLook* column = column_called(preset.column);
            if (field != nullptr && column != nullptr) {
                // The schema goes before a column of the field's own name.
                std::erase_if(match_.sure,
                              [&](const ColumnMatch& one) { return one.field == field; });
                add_sure({.field = field, .column = column, .by = MatchBy::schema});
            }
        }
    }

    // Columns with something in them before those without, for the first records show what is used.
    // Numbers that only count the records come last, however near their name is.
    void take_known_names() {
        for (const bool weak : {false, true}) {
            for (const bool filled : {true, false}) {
                for (const Nearness nearness :
                     {Nearness::plain, Nearness::words, Nearness::without_thing}) {
                    take_known_names(nearness, filled, weak);
                }
            }
        }
    }

    void take_known_names(Nearness nearness, bool filled, bool weak) {
        for (const FieldName& name : names_of_section(*match_.section)) {
            if (is_weak_id(name.plain) == weak) {
                take_known(name, nearness, filled);
            }
        }
    }

    void take_known(const FieldName& name, Nearness nearness, bool filled) {
        for (std::size_t i = 0; i < called_.size(); ++i) {
            const ColumnLook& column = look_->columns[i];
            if (find_match(match_.sure, name.field->name) != nullptr) {
                return;
            }
            if ((column.filled > 0) == filled && !is_taken(column) &&
                is_called(called_[i], name, nearness)) {
                take_named(name, column, called_[i]);
            }
        }
    }

    void take_named(const FieldName& name, const ColumnLook& column, const ColumnName& called) {
        const FieldRow& field = *name.field;
        ColumnMatch one{.field = &field,
                        .column = &column,
                        .by = MatchBy::known_name,
                        .unit = unit_beside_own(field, called),
                        .told_apart = false,
                        .weak_id = is_id_of(*match_.section, field) && is_weak_id(called.plain)};
        const bool unit_told = !called.words.unit.empty();
        const Doubt doubt = name.own && !name.words.unit.empty() ? Doubt::unit : name.doubt;
        if (doubt == Doubt::unit && !unit_told) {
            const std::optional<std::string_view> by_size = unit_by_size(field, column);
            one.unit = by_size.value_or(std::string_view{});
            one.unit_by_size = by_size.has_value();
        }
        const bool in_doubt =
            doubt == Doubt::meaning || (doubt == Doubt::unit && !unit_told && !one.unit_by_size);
        if (!in_doubt && is_sure(field, one.unit, column)) {
            add_sure(std::move(one));
        } else if (find_match(match_.likely, field.name) == nullptr &&
                   (!name.own || mostly_reads(field, one.unit, column))) {
            one.foreign_words = takes_words(field) ? foreign_words_of(field, nullptr, column)
                                                   : std::vector<std::string>();
            match_.likely.push_back(std::move(one));
        }
    }

    bool is_sure(const FieldRow& field, std::string_view unit, const ColumnLook& column) const {
        if (is_id_of(*match_.section, field)) {
            return column.all_differ || look_->sampled == 0;
        }
        return takes_foreign_words(field) || mostly_reads(field, unit, column);
    }

    bool may_be(const FieldRow& field, std::size_t column) const {
        return std::ranges::any_of(names_of_section(*match_.section), [&](const FieldName& name) {
            const bool needs_unit = name.doubt == Doubt::unit || !name.words.unit.empty();
            return name.field == &field && name.doubt != Doubt::meaning &&
                   (!needs_unit || !called_[column].words.unit.empty()) &&
                   (is_called(called_[column], name, Nearness::plain) ||
                    is_called(called_[column], name, Nearness::words));
        });
    }

    // Empty columns are none, and numbers that every table counts its records by.
    void find_rivals(std::vector<ColumnMatch>& matches) {
        for (ColumnMatch& match : matches) {
            for (std::size_t i = 0; i < called_.size(); ++i) {
                const ColumnLook& column = look_->columns[i];
                const bool other = &column != match.column && column.filled > 0 &&
                                   !is_taken(column) && !counts_records(called_[i].plain);
                if (other && may_be(*match.field, i) && is_sure(*match.field, {}, column)) {
                    match.rivals.push_back(column.name);
                }
            }
        }
    }

    bool is_taken(const ColumnLook& column) const {
        return std::ranges::any_of(match_.sure,
                                   [&](const ColumnMatch& one) { return one.column == &column; });
    }

    // Only of tables without shapes.
    void take_coordinates() {
        if (look_->shape != LookShape::none || find_field(*match_.section, "x") == nullptr) {
            return;
        }
        for (const auto& [field, names] : {std::pair{"x", names_of_x}, {"y", names_of_y}}) {
            if (find_match(match_.sure, field) == nullptr) {
                take_coordinate(*find_field(*match_.section, field), names);
            }
        }
    }

    void take_coordinate(const FieldRow& field, std::string_view names) {
        for (const std::string_view name : words_in(names)) {
            const ColumnLook* column = column_called(name);
            if (column != nullptr && !is_taken(*column) && mostly_reads(field, {}, *column)) {
                add_sure({.field = &field,
                          .column = column,
                          .by = MatchBy::known_name,
                          .told_apart = false});
                return;
            }
        }
    }

    // A layer with shapes needs no coordinates.
    void drop_doubles() {
        if (look_->shape != LookShape::none) {
            const auto is_coordinate = [](const ColumnMatch& one) {
                return one.field->name == "x" || one.field->name == "y";
            };
            std::erase_if(match_.sure, is_coordinate);
        }
        std::erase_if(match_.likely, [&](const ColumnMatch& one) {
            return find_match(match_.sure, one.field->name) != nullptr || is_taken(*one.column);
        });
    }

    void sort_and_tell_lacks() {
        const auto by_field = [](const ColumnMatch& a, const ColumnMatch& b) {
            return a.field < b.field;
        };
        std::ranges::sort(match_.sure, by_field);
        std::ranges::sort(match_.likely, by_field);
        for (const FieldRow& field : match_.section->fields) {
            if (field.required && find_match(match_.sure, field.name) == nullptr) {
                match_.lacks.push_back(&field);
            }
        }
    }

    const LayerLook* look_;
    std::vector<std::string> names_;
    std::vector<ColumnName> called_;  // of each column
    SectionMatch match_;
};

bool holds_degrees(const ColumnMatch* match, double most) {
    return match != nullptr &&
           (match->column->values.empty() ||
            (match->column->numbers && match->column->low >= -most && match->column->high <= most));
}

}  // namespace

SectionMatch match_columns(const LayerLook& look, const SectionRow& section) {
    return ColumnMatching(look, section).match();
}

const ColumnMatch* find_match(const std::vector<ColumnMatch>& matches, std::string_view field) {
    const auto found = std::ranges::find_if(
        matches, [field](const ColumnMatch& match) { return match.field->name == field; });
    return found == matches.end() ? nullptr : &*found;
}

bool has_degrees(const SectionMatch& match) {
    return holds_degrees(find_match(match.sure, "x"), 180.0) &&
           holds_degrees(find_match(match.sure, "y"), 90.0);
}

}  // namespace farwater::io
