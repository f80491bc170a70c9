// How much speaks for a layer being a section's.
#pragma once

#include "io/draft/match_columns.h"

namespace farwater::io {

// From so many on a layer is taken for it.
inline constexpr int enough_points = 3;

// The layer's shapes can be those of the section; of a table, that it has coordinates.
bool shape_fits(const LayerLook& look, const SectionMatch& match);

// Precondition: the shape fits.
int points_of(const LayerLook& look, const SectionMatch& match);

// What the name of a file or layer says: 1 for the section, -1 against it, 0 nothing.
int hint_of(const std::string& called, std::string_view section);

// How many columns tell the section though no field takes them.
int telling_columns(const LayerLook& look, std::string_view section);

}  // namespace farwater::io
