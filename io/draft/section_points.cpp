// The weights are our own choice: an id of our own name, or a name of the file, is enough alone; a
// column or a size is not.
#include "io/draft/section_points.h"

#include <algorithm>
#include <array>

#include "io/draft/known_columns.h"
#include "io/records/column_names.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

constexpr int for_name = 3;
constexpr int against_name = -6;
constexpr int for_own_required = 3;
constexpr int for_known_required = 2;
constexpr int for_schema = 5;
constexpr int for_lacking = -2;
constexpr int most_for_fields = 4;
constexpr int most_for_telling = 3;
constexpr int out_of_question = -6;

// They stand in tables of every kind.
constexpr std::array says_nothing{"name"sv, "address"sv, "owner"sv,  "note"sv, "use"sv,      "x"sv,
                                  "y"sv,    "kind"sv,    "people"sv, "zone"sv, "parcel_id"sv};
// Likewise, as names of an id.
constexpr std::array any_id{"id"sv, "objectid"sv, "osm_id"sv, "osm_way_id"sv, "number"sv, "sta"sv};

template <class List>
bool is_in(std::string_view word, const List& list) {
    return std::ranges::find(list, word) != list.end();
}

bool any_part_of(std::string_view list, std::string_view name) {
    const auto words = words_in(list);
    return std::ranges::any_of(
        words, [&](std::string_view word) { return name.find(word) != std::string_view::npos; });
}

int points_of_required(const ColumnMatch& match) {
    if (match.field->name == "kind") {
        return 1;
    }
    if (match.by == MatchBy::own_name) {
        return for_own_required;
    }
    return is_in(plain_column_name(match.column->name), any_id) ? 0 : for_known_required;
}

int points_of_columns(const SectionMatch& match) {
    int required = 0;
    int others = 0;
    for (const ColumnMatch& one : match.sure) {
        if (one.field->required) {
            required += points_of_required(one);
        } else {
            const bool any = is_in(one.field->name, says_nothing) ||
                             is_in(plain_column_name(one.column->name), any_id);
            others += any ? 0 : 1;
        }
    }
    return required + std::min(others, most_for_fields) +
           (match.schema != nullptr ? for_schema : 0) +
           static_cast<int>(match.lacks.size()) * for_lacking;
}

// Sizes in square feet: a shed has 200, a barn or a store 6,000 and a mill 40,000; no lot that
// stands on its own has less than 1,500. Common practice, no source.
int points_of_lots(const LayerLook& look, bool few, bool has_id) {
    if (few && !has_id && look.covered > 0.3) {
        return out_of_question;  // an outline
    }
    if (look.middle_sqft > 0.0 && look.middle_sqft < 1'500.0) {
        return -3;
    }
    const bool tile_the_ground = look.records && *look.records >= 30 && look.covered > 0.3;
    return tile_the_ground ? 2 : 0;
}

int points_of_houses(const LayerLook& look) {
    if (look.middle_sqft > 40'000.0 || look.covered > 0.5) {
        return out_of_question;
    }
    return look.middle_sqft >= 200.0 && look.middle_sqft <= 6'000.0 ? 1 : 0;
}

// An id that only properties have: an outline has none.
bool has_own_id(const SectionMatch& match) {
    const ColumnMatch* id = find_match(match.sure, match.section->fields.front().name);
    return id != nullptr && id->field->required && points_of_required(*id) > 0;
}

// An outline of ten square miles is a water district's, not a water's.
int points_of_water(const LayerLook& look, bool few) {
    constexpr double district_sqft = 10.0 * 5'280.0 * 5'280.0;
    return few && look.middle_sqft > district_sqft ? -2 : 0;
}

int points_of_sizes(const LayerLook& look, const SectionMatch& match) {
    const std::string_view section = match.section->name;
    if (look.shape != LookShape::area) {
        return 0;
    }
    const bool few = look.records && *look.records <= 3;
    return section == "parcels"        ? points_of_lots(look, few, has_own_id(match))
           : section == "buildings"    ? points_of_houses(look)
           : section == "mapped_water" ? points_of_water(look, few)
                                       : 0;
}

}  // namespace

bool shape_fits(const LayerLook& look, const SectionMatch& match) {
    const std::string_view section = match.section->name;
    switch (match.section->shape) {
        case ShapeNeed::none:
            return look.shape == LookShape::none;
        case ShapeNeed::line:
            return look.shape == LookShape::line;
        case ShapeNeed::area:
            return look.shape == LookShape::area;
        case ShapeNeed::place:
            break;
    }
    if (section == "mapped_water") {
        return look.shape == LookShape::area;
    }
    const bool placed_table = look.shape == LookShape::none &&
                              find_match(match.sure, "x") != nullptr &&
                              find_match(match.sure, "y") != nullptr;
    return look.shape == LookShape::point || placed_table ||
           (section == "buildings" && look.shape == LookShape::area);
}

int hint_of(const std::string& called, std::string_view section) {
    const SectionSigns* signs = find_signs(section);
    if (signs == nullptr) {
        return 0;
    }
    std::string name = plain_column_name(called);
    // A railroad is no road.
    for (auto at = name.find("railroad"); at != std::string::npos; at = name.find("railroad")) {
        name.replace(at, 8, "rail");
    }
    if (any_part_of(signs->called, name)) {
        return 1;
    }
    return any_part_of(signs->not_called, name) ? -1 : 0;
}

int telling_columns(const LayerLook& look, std::string_view section) {
    const SectionSigns* signs = find_signs(section);
    const auto words = words_in(signs == nullptr ? "" : signs->columns);
    const auto told = std::ranges::count_if(look.columns, [&](const ColumnLook& column) {
        return is_in(plain_column_name(column.name), words);
    });
    return std::min(static_cast<int>(told), most_for_telling);
}

int points_of(const LayerLook& look, const SectionMatch& match) {
    const std::string_view section = match.section->name;
    const int hint = hint_of(look.called, section);
    const int by_name = hint > 0 ? for_name : hint < 0 ? against_name : 0;
    return points_of_columns(match) + telling_columns(look, section) +
           points_of_sizes(look, match) + by_name + (match.no_roads ? out_of_question : 0);
}

}  // namespace farwater::io
