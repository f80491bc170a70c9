#include "analyzer/supply/water_systems.h"

#include <algorithm>
#include <map>

namespace farwater::supply {
namespace {

std::optional<Volume> larger(std::optional<Volume> a, std::optional<Volume> b) {
    return a && b ? std::optional(std::max(*a, *b)) : std::nullopt;
}

std::optional<Volume> smaller(std::optional<Volume> a, std::optional<Volume> b) {
    return a && b ? std::optional(std::min(*a, *b)) : a ? a : b;
}

// Without a system the source's own id stands for one.
const std::string& name_of(const WaterSource& source) {
    return source.system.empty() ? source.id : source.system;
}

void join(WaterSystem& system, const CountedSource& counted, bool main) {
    system.usable =
        main ? smaller(system.usable, counted.usable) : larger(system.usable, counted.usable);
    system.inflow = std::min(system.inflow, counted.inflow);
    system.rate = std::max(system.rate, counted.rate);
    system.members.push_back(counted.source);
}

}  // namespace

SystemRates stated_system_rates(const District& district) {
    SystemRates rates;
    for (const WaterSource& source : district.sources) {
        if (source.system_rate) {
            const auto [known, added] = rates.try_emplace(name_of(source), *source.system_rate);
            known->second = std::min(known->second, *source.system_rate);
        }
    }
    return rates;
}

std::optional<Flow> rate_of_system(const SystemRates& rates, const WaterSource& source) {
    const auto stated = rates.find(name_of(source));
    return stated == rates.end() ? std::nullopt : std::optional(stated->second);
}

std::vector<WaterSystem> water_systems(const District& district,
                                       const std::vector<CountedSource>& counted,
                                       const SystemRates& rates) {
    std::map<std::string, WaterSystem, std::less<>> by_name;
    for (const CountedSource& one : counted) {
        const WaterSource& source = at(district.sources, one.source);
        if (source.system.empty() || !one.is_for_all()) {
            continue;
        }
        const auto known = by_name.find(source.system);
        if (known == by_name.end()) {
            by_name.emplace(source.system, WaterSystem{.name = source.system,
                                                       .members = {one.source},
                                                       .usable = one.usable,
                                                       .inflow = one.inflow,
                                                       .rate = one.rate});
        } else {
            join(known->second, one, source.kind == SourceKind::hydrant);
        }
    }
    std::vector<WaterSystem> systems;
    for (auto& [name, system] : by_name) {
        const auto stated = rates.find(name);
        system.rate = stated == rates.end() ? system.rate : stated->second;
        systems.push_back(std::move(system));
    }
    return systems;
}

}  // namespace farwater::supply
