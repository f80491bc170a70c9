#include "analyzer/supply/places/hose_there.h"

namespace farwater::supply {
namespace {

HoseLoad hose_of(const Unit& unit, const Assumptions& assumptions) {
    return unit.hose.value_or(HoseLoad{.hose_2_5in = assumptions.engine_hose_2_5in,
                                       .hose_3in = {},
                                       .hose_4in = {},
                                       .hose_5in = {}});
}

}  // namespace

std::optional<hydraulics::HoseSize> HoseThere::size_for(Length lay) const {
    for (std::size_t size = hose_sizes; size-- > 0;) {
        if (length[size] >= lay) {
            return static_cast<hydraulics::HoseSize>(size);
        }
    }
    return std::nullopt;
}

HoseThere hose_there(const District& district, std::span<const Arrival> engines) {
    HoseThere there{};
    for (const Arrival& engine : engines) {
        const HoseLoad load = hose_of(at(district.units, engine.unit), district.assumptions);
        there.length[0] += load.hose_2_5in;
        there.length[1] += load.hose_3in;
        there.length[2] += load.hose_4in;
        there.length[3] += load.hose_5in;
    }
    return there;
}

}  // namespace farwater::supply
