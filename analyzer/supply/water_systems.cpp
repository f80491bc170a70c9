#include "analyzer/supply/water_systems.h"

#include <algorithm>
#include <map>

namespace farwater::supply {
namespace {

// The smallest of the hydrants of a system and the largest of its open waters, each gathered by
// itself, so that the order of the rows does not matter. None: without limit.
class SystemVolume {
public:
    void add(std::optional<Volume> usable, bool main) {
        Group& group = main ? mains_ : ponds_;
        if (group.empty) {
            group = {usable, false};
        } else if (main) {
            group.usable = smaller(group.usable, usable);
        } else {
            group.usable = larger(group.usable, usable);
        }
    }
    std::optional<Volume> usable() const { return smaller(mains_.usable, ponds_.usable); }

private:
    struct Group {
        std::optional<Volume> usable;
        bool empty = true;
    };

    static std::optional<Volume> larger(std::optional<Volume> a, std::optional<Volume> b) {
        return a && b ? std::optional(std::max(*a, *b)) : std::nullopt;
    }
    static std::optional<Volume> smaller(std::optional<Volume> a, std::optional<Volume> b) {
        return a && b ? std::optional(std::min(*a, *b)) : a ? a : b;
    }

    Group mains_, ponds_;
};

struct SystemSoFar {
    WaterSystem system;
    SystemVolume volume;
};

void join(SystemSoFar& so_far, const CountedSource& counted, bool main) {
    WaterSystem& system = so_far.system;
    const bool first = system.members.empty();
    system.inflow = first ? counted.inflow : std::min(system.inflow, counted.inflow);
    system.rate = first ? counted.rate : std::max(system.rate, counted.rate);
    system.members.push_back(counted.source);
    so_far.volume.add(counted.usable, main);
}

}  // namespace

SystemRates stated_system_rates(const District& district) {
    SystemRates rates;
    for (const WaterSource& source : district.sources) {
        if (source.system_rate) {
            auto& of = source.system.empty() ? rates.of_source : rates.of_system;
            const std::string& name = source.system.empty() ? source.id : source.system;
            const auto [known, added] = of.try_emplace(name, *source.system_rate);
            known->second = std::min(known->second, *source.system_rate);
        }
    }
    return rates;
}

std::optional<Flow> rate_of_system(const SystemRates& rates, const WaterSource& source) {
    const auto& of = source.system.empty() ? rates.of_source : rates.of_system;
    const auto stated = of.find(source.system.empty() ? source.id : source.system);
    return stated == of.end() ? std::nullopt : std::optional(stated->second);
}

std::vector<WaterSystem> water_systems(const District& district,
                                       const std::vector<CountedSource>& counted,
                                       const SystemRates& rates) {
    std::map<std::string, SystemSoFar, std::less<>> by_name;
    for (const CountedSource& one : counted) {
        const WaterSource& source = at(district.sources, one.source);
        if (!source.system.empty() && one.is_for_all()) {
            join(by_name[source.system], one, source.kind == SourceKind::hydrant);
        }
    }
    std::vector<WaterSystem> systems;
    for (auto& [name, so_far] : by_name) {
        const auto stated = rates.of_system.find(name);
        WaterSystem& system = systems.emplace_back(std::move(so_far.system));
        system.name = name;
        system.usable = so_far.volume.usable();
        system.rate = stated == rates.of_system.end() ? system.rate : stated->second;
    }
    return systems;
}

}  // namespace farwater::supply
