#include "analyzer/supply/several/fill_set.h"

#include <algorithm>

#include "analyzer/district/plane.h"

namespace farwater::supply {
namespace {

const WaterSource& row_of(const Situation& situation, const CountedSource& counted) {
    return at(situation.district.sources, counted.source);
}

bool on_open_water(const WaterSource& source) {
    return source.kind == SourceKind::draft_site || source.kind == SourceKind::dry_hydrant;
}

const WaterSystem* system_of(const Situation& situation, const CountedSource& counted) {
    const std::string& name = row_of(situation, counted).system;
    const auto found =
        std::ranges::lower_bound(situation.water.systems, name, {}, &WaterSystem::name);
    return found != situation.water.systems.end() && found->name == name ? &*found : nullptr;
}

// Who runs which of the sites, by the least sum of ready times; the first found of equals.
class Manning {
public:
    Manning(const Scene& scene, std::span<const FillOption* const> options)
        : options_(options), busy_(scene.engines.size(), 0), engines_(options.size()) {
        decide(0, minutes(0));
    }

    bool possible() const { return best_.has_value(); }
    // Per site, by the scene's list; none = the first tanker opens it. Precondition: possible.
    const std::vector<std::optional<std::size_t>>& engines() const { return chosen_; }

private:
    void decide(std::size_t site, Duration sum) {
        if (best_ && sum >= *best_) {
            return;
        }
        if (site == options_.size()) {
            best_ = sum;
            chosen_ = engines_;
            return;
        }
        const FillOption& option = *options_[site];
        for (std::size_t engine = 0; engine < option.run_by.size(); ++engine) {
            if (option.run_by[engine] && busy_[engine] == 0) {
                busy_[engine] = 1;
                engines_[site] = engine;
                decide(site + 1, sum + *option.run_by[engine]);
                busy_[engine] = 0;
            }
        }
        engines_[site] = std::nullopt;
        if (const auto opened = first_opened(option)) {
            decide(site + 1, sum + *opened);
        }
    }

    static std::optional<Duration> first_opened(const FillOption& option) {
        std::optional<Duration> first;
        for (const auto& opened : option.opened_by) {
            if (opened && (!first || *opened < *first)) {
                first = opened;
            }
        }
        return first;
    }

    std::span<const FillOption* const> options_;
    std::vector<char> busy_;
    std::vector<std::optional<std::size_t>> engines_, chosen_;
    std::optional<Duration> best_;
};

FillSite site_run_by(const Situation& situation, const Scene& scene, const FillOption& option,
                     std::optional<std::size_t> engine) {
    const Flow rated = engine ? pump_of(situation, scene.engines[*engine]) : gpm(0);
    return {.places = option.places,
            .flows = std::nullopt,
            .pump = option.source->with_pump(rated),
            .ready = engine ? *option.run_by[*engine] : never_ready,
            .usable = option.source->usable,
            .inflow = option.source->inflow,
            .backing = option.backing};
}

// Of the set's places in this system, what they give alone, and how many they are.
struct Members {
    Flow together;
    int count = 0;
};

Members members_of(const Situation& situation, const FillSet& set, const WaterSystem* system) {
    Members members;
    for (const FillOption* option : set.options) {
        if (system_of(situation, *option->source) == system) {
            members.together += option->source->rate;
            ++members.count;
        }
    }
    return members;
}

// A fixed share for each place: what one does not use is not credited to the other.
void share_systems(const Situation& situation, FillSet& set) {
    for (std::size_t i = 0; i < set.sites.size(); ++i) {
        const CountedSource& source = *set.options[i]->source;
        const WaterSystem* system = system_of(situation, source);
        const Members members = system == nullptr ? Members{} : members_of(situation, set, system);
        if (members.count < 2 || !(members.together > gpm(0))) {
            continue;
        }
        const double share = source.rate / members.together;
        FillSite& site = set.sites[i];
        site.pump = std::min(site.pump, system->rate * share);
        site.inflow = std::min(site.inflow, system->inflow * share);
        if (system->usable) {
            const Volume mine = *system->usable * share;
            site.usable = std::min(site.usable.value_or(mine), mine);
        }
    }
}

bool of_different_water(const Situation& situation, std::span<const FillOption* const> options) {
    for (std::size_t i = 0; i < options.size(); ++i) {
        for (std::size_t j = i + 1; j < options.size(); ++j) {
            if (sharing(situation, *options[i]->source, *options[j]->source) ==
                Sharing::one_water) {
                return false;
            }
        }
    }
    return true;
}

}  // namespace

Sharing sharing(const Situation& situation, const CountedSource& a, const CountedSource& b) {
    const WaterSource& one = row_of(situation, a);
    const WaterSource& other = row_of(situation, b);
    if (!one.system.empty() && one.system == other.system) {
        const WaterSystem* system = system_of(situation, a);
        return system != nullptr && system->rate > std::max(a.rate, b.rate) ? Sharing::shared
                                                                            : Sharing::one_water;
    }
    if (!one.system.empty() && !other.system.empty()) {
        return Sharing::apart;
    }
    const bool mains = one.kind == SourceKind::hydrant && other.kind == SourceKind::hydrant;
    const bool near =
        on_open_water(one) && on_open_water(other) &&
        distance(one.place, other.place) < situation.district.assumptions.one_water_within;
    return mains || near ? Sharing::one_water : Sharing::apart;
}

std::optional<FillSet> run_together(const Situation& situation, const Scene& scene,
                                    std::span<const FillOption* const> options) {
    if (!of_different_water(situation, options)) {
        return std::nullopt;
    }
    const Manning manning(scene, options);
    if (!manning.possible()) {
        return std::nullopt;
    }
    FillSet set{{options.begin(), options.end()}, {}, {}};
    for (std::size_t i = 0; i < options.size(); ++i) {
        const auto engine = manning.engines()[i];
        set.engines.push_back(engine ? scene.engines[*engine].unit : UnitIndex{});
        set.sites.push_back(site_run_by(situation, scene, *options[i], engine));
    }
    share_systems(situation, set);
    return set;
}

FillSite best_run(const Situation& situation, const Scene& scene, const FillOption& option) {
    FillSite best = site_run_by(situation, scene, option, std::nullopt);
    for (std::size_t engine = 0; engine < option.run_by.size(); ++engine) {
        if (option.run_by[engine]) {
            const FillSite site = site_run_by(situation, scene, option, engine);
            best.pump = std::max(best.pump, site.pump);
            best.ready = std::min(best.ready, site.ready);
        }
    }
    return best;
}

}  // namespace farwater::supply
