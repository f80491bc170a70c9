#include "io/records/unit_words.h"

#include <algorithm>
#include <array>

#include "analyzer/district/units.h"

namespace farwater::io {
namespace {

// 1 US gal = 231 cubic inches and 1 in = 0.0254 m, both exact.
constexpr double litres_per_gallon = 231.0 * 0.254 * 0.254 * 0.254;
// 1 hp = 550 ft lb/s, with 1 lb of force = 0.45359237 x 9.80665 N, both exact.
constexpr double watts_per_horsepower = 550.0 * metres_per_foot * 0.45359237 * 9.80665;

// 1 psi = 1 lb of force on a square inch, exact.
constexpr double pascals_per_psi = 0.45359237 * 9.80665 / (0.0254 * 0.0254);

struct UnitWord {
    std::string_view word;
    std::string_view base;  // units of one base convert into each other
    double in_base;
};

constexpr std::array unit_words{
    UnitWord{"ft", "ft", 1.0},
    UnitWord{"m", "ft", 1.0 / metres_per_foot},
    UnitWord{"cm", "ft", 0.01 / metres_per_foot},
    UnitWord{"mm", "ft", 0.001 / metres_per_foot},
    UnitWord{"in", "ft", 1.0 / 12.0},
    UnitWord{"yd", "ft", 3.0},
    UnitWord{"mi", "ft", 5280.0},
    UnitWord{"km", "ft", 1000.0 / metres_per_foot},
    UnitWord{"acre", "acre", 1.0},
    UnitWord{"sqft", "acre", 1.0 / square_feet_per_acre},
    UnitWord{"m2", "acre", 1.0 / square_metres_per_acre},
    UnitWord{"ha", "acre", 10000.0 / square_metres_per_acre},
    UnitWord{"min", "min", 1.0},
    UnitWord{"s", "min", 1.0 / 60.0},
    UnitWord{"h", "min", 60.0},
    UnitWord{"gal", "gal", 1.0},
    UnitWord{"l", "gal", 1.0 / litres_per_gallon},
    UnitWord{"m3", "gal", 1000.0 / litres_per_gallon},
    UnitWord{"gpm", "gpm", 1.0},
    UnitWord{"l/min", "gpm", 1.0 / litres_per_gallon},
    UnitWord{"l/s", "gpm", 60.0 / litres_per_gallon},
    UnitWord{"m3/h", "gpm", 1000.0 / 60.0 / litres_per_gallon},
    UnitWord{"psi", "psi", 1.0},
    UnitWord{"kpa", "psi", 1000.0 / pascals_per_psi},
    UnitWord{"bar", "psi", 100000.0 / pascals_per_psi},
    UnitWord{"mph", "mph", 1.0},
    UnitWord{"km/h", "mph", 1000.0 / metres_per_mile},
    UnitWord{"knot", "mph", 1852.0 / metres_per_mile},
    UnitWord{"lb", "lb", 1.0},
    UnitWord{"kg", "lb", pounds_per_kilogram},
    UnitWord{"short_ton", "lb", 2000.0},
    UnitWord{"tonne", "lb", 1000.0 * pounds_per_kilogram},
    UnitWord{"hp", "hp", 1.0},
    UnitWord{"kw", "hp", 1000.0 / watts_per_horsepower},
};

const UnitWord* find_unit(std::string_view word) {
    const auto* found = std::find_if(unit_words.begin(), unit_words.end(),
                                     [word](const UnitWord& unit) { return unit.word == word; });
    return found == unit_words.end() ? nullptr : found;
}

}  // namespace

std::string_view unit_of_name(std::string_view name) {
    constexpr std::array<std::string_view, 11> endings{"ft", "min", "gal", "gpm", "mph", "lb",
                                                       "mi", "hp",  "in",  "psi", "acre"};
    const std::size_t underscore = name.rfind('_');
    if (underscore == std::string_view::npos) {
        return {};
    }
    const auto* found = std::find(endings.begin(), endings.end(), name.substr(underscore + 1));
    return found == endings.end() ? std::string_view{} : *found;
}

std::optional<double> unit_factor(std::string_view theirs, std::string_view ours) {
    const UnitWord* from = find_unit(theirs);
    const UnitWord* to = find_unit(ours);
    if (from == nullptr || to == nullptr || from->base != to->base) {
        return std::nullopt;
    }
    return from->in_base / to->in_base;
}

std::vector<std::string_view> units_like(std::string_view unit) {
    const UnitWord* like = find_unit(unit);
    std::vector<std::string_view> words;
    for (const UnitWord& other : unit_words) {
        if (like != nullptr && other.base == like->base) {
            words.push_back(other.word);
        }
    }
    return words;
}

}  // namespace farwater::io
