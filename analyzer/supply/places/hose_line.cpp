#include "analyzer/supply/places/hose_line.h"

#include <algorithm>

#include "analyzer/hydraulics/pump.h"
#include "analyzer/supply/places/hose_there.h"

namespace farwater::supply {
namespace {

struct Laid {
    hydraulics::HoseSize size = hydraulics::HoseSize::in_2_5;
    int lines = 1;
    Flow flow;
    Length hose;  // of all lines together
};

// One line and two of each size of which there is enough, in such stretches.
std::vector<Laid> all_laid(const HoseThere& there, Length lay, const HoseLine& stretched,
                           const Assumptions& assumptions) {
    std::vector<Laid> all;
    for (std::size_t size = 0; size < hose_sizes; ++size) {
        const auto hose = static_cast<hydraulics::HoseSize>(size);
        const Flow one = hydraulics::supply_line_flow(
            hose, stretched.stretch, stretched.rise_of_stretch,
            assumptions.supply_line_pressure_psi, assumptions.residual_pressure_psi);
        for (const int lines : {1, 2}) {
            if (there.length[size] >= lay * lines) {
                all.push_back({hose, lines, one * lines, lay * lines});
            }
        }
    }
    return all;
}

// Of the engines that pump, the weakest, at the pressure of supply lines.
Flow weakest_pump(const District& district, std::span<const Arrival> pumping) {
    const Assumptions& assumptions = district.assumptions;
    Flow weakest = gpm(1e6);
    for (const Arrival& engine : pumping) {
        weakest = std::min(weakest,
                           at(district.units, engine.unit).pump.value_or(assumptions.engine_pump));
    }
    return weakest * hydraulics::pump_share_at_pressure(assumptions.supply_line_pressure_psi);
}

void lower(HoseLine& line, Flow flow, Limit limit) {
    if (flow < line.flow) {
        line.flow = flow;
        line.limit = limit;
    }
}

// What pumps and source give through that hose.
HoseLine with_hose(HoseLine line, const Laid& laid) {
    line.size = laid.size;
    line.lines = laid.lines;
    line.by_hose = laid.flow;
    line.flow = laid.flow;
    line.limit = Limit::supply_line;
    lower(line, line.by_pump, Limit::engines);
    lower(line, line.by_source, Limit::source_hydraulics);
    if (line.by_volume) {
        lower(line, *line.by_volume, Limit::source_volume);
    }
    return line;
}

// Without those of which another gives as much as soon; of equals the first is kept.
std::vector<HoseLine> not_outdone(const std::vector<HoseLine>& all) {
    std::vector<HoseLine> kept;
    for (const HoseLine& line : all) {
        const auto outdoes = [](const HoseLine& a, const HoseLine& b) {
            return a.flow >= b.flow && a.ready <= b.ready;
        };
        if (std::ranges::none_of(kept, [&](const HoseLine& one) { return outdoes(one, line); })) {
            std::erase_if(kept, [&](const HoseLine& one) { return outdoes(line, one); });
            kept.push_back(line);
        }
    }
    return kept;
}

}  // namespace

std::vector<HoseLine> hose_lines(const District& district, std::span<const Arrival> engines,
                                 const CountedSource& source, Length lay, Length rise,
                                 Duration setup, Duration duration) {
    const Assumptions& assumptions = district.assumptions;
    const auto stages = static_cast<double>(engines.size() - 1);
    HoseLine dry{.engines = engines.size(),
                 .stretch = lay * (1.0 / stages),
                 .rise_of_stretch = rise * (1.0 / stages),
                 .by_pump = weakest_pump(district, engines.subspan(1)),
                 .by_source = source.with_pump(
                     at(district.units, engines[1].unit).pump.value_or(assumptions.engine_pump))};
    if (source.usable) {
        dry.by_volume = *source.usable / duration + source.inflow;
    }
    std::vector<HoseLine> all;
    for (const Laid& laid : all_laid(hose_there(district, engines), lay, dry, assumptions)) {
        HoseLine line = with_hose(dry, laid);
        line.work = setup + laying(laid.hose, assumptions);
        line.ready = engines.back().at_scene + line.work;
        all.push_back(line);
    }
    return not_outdone(all);
}

}  // namespace farwater::supply
