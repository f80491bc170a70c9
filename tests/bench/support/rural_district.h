// Invented rural road networks of any size, the same for the same seed.
#pragma once

#include <cstddef>
#include <cstdint>

#include "analyzer/district/district.h"

namespace farwater::bench {

struct RuralSize {
    std::size_t nodes = 0;  // as many as fit into a square
    std::size_t parcels = 0;
    std::size_t sources = 0;
    std::uint64_t seed = 1;
};

// Junctions 350 m apart on average, dense where main roads cross (the hamlets) and sparse between;
// 2.5 road ends a junction; all connected; every 16th row and column is a main road, every 64th a
// state road; some one-way roads. Houses and sources lie beside random roads, in random order. One
// station with an engine and two tankers that the roads treat alike.
District rural_district(const RuralSize& size);

}  // namespace farwater::bench
