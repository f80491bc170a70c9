#include "analyzer/supply/places/hose_there.h"

namespace farwater::supply {
namespace {

void add(std::array<Length, hose_sizes>& lengths, const HoseLoad& load) {
    lengths[0] += load.hose_2_5in;
    lengths[1] += load.hose_3in;
    lengths[2] += load.hose_4in;
    lengths[3] += load.hose_5in;
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
        if (const std::optional<HoseLoad>& load = at(district.units, engine.unit).hose) {
            add(there.length, *load);
            add(there.listed, *load);
        } else {
            there.length[0] += district.assumptions.engine_hose_2_5in;
        }
    }
    return there;
}

Duration laying(Length hose, const Assumptions& assumptions) {
    return assumptions.lay_1000ft * (in_feet(hose) / 1000.0);
}

LaidLine line_laid(const District& district, std::span<const Arrival> engines, Length hose) {
    const auto size = hose_there(district, engines).size_for(hose);
    std::size_t bring = size ? 1 : engines.size();
    while (bring < engines.size() &&
           hose_there(district, engines.first(bring)).length[static_cast<std::size_t>(*size)] <
               hose) {
        ++bring;
    }
    const Duration from = engines[bring - 1].at_scene;
    return {hose, from, from + laying(hose, district.assumptions)};
}

}  // namespace farwater::supply
