#include "analyzer/supply/water_review.h"

#include <algorithm>
#include <map>

namespace farwater::supply {
namespace {

// What the members of one system know together: a main with one known tower serves all hydrants.
using SystemStorage = std::map<std::string, UsableWater, std::less<>>;

SystemStorage storage_by_system(const District& district) {
    SystemStorage storage;
    for (const WaterSource& source : district.sources) {
        if (!source.system.empty() && source.usable) {
            storage.try_emplace(source.system, *source.usable);
        }
    }
    return storage;
}

Problem problem_of(ProblemId id, const WaterSource& source, std::string detail = {}) {
    return {.id = id, .layer = "water_sources", .record = source.id, .detail = std::move(detail)};
}

// A test older than its validity is a declaration.
bool test_lapsed(const WaterSource& source, const District& district) {
    if (source.standing != Standing::tested || !source.tested_on || !district.data_date) {
        return source.standing == Standing::tested && !source.tested_on;
    }
    const double valid = source.kind == SourceKind::hydrant
                             ? district.assumptions.hydrant_test_valid_months
                             : district.assumptions.suction_test_valid_months;
    return months_between(*source.tested_on, *district.data_date) >= valid;
}

Flow default_rate(SourceKind kind, const Assumptions& assumptions) {
    switch (kind) {
        case SourceKind::hydrant:
            return assumptions.hydrant_rate;
        case SourceKind::dry_hydrant:
            return assumptions.dry_hydrant_rate;
        case SourceKind::draft_site:
            return assumptions.draft_site_rate;
        case SourceKind::cistern:
            return assumptions.cistern_rate;
    }
    return gpm(0);
}

Duration setup_of(SourceKind kind, const Assumptions& assumptions) {
    switch (kind) {
        case SourceKind::hydrant:
            return assumptions.setup_hydrant;
        case SourceKind::draft_site:
            return assumptions.setup_open_bank;
        case SourceKind::dry_hydrant:
        case SourceKind::cistern:
            return assumptions.setup_dry_hydrant;
    }
    return minutes(0);
}

// Classes so that a near weak source never hides a strong one beyond it: rate steps of the rural
// delivery table (250, 500, 1,000 gpm), lowered one step when the volume does not last two hours.
std::uint8_t strength_class(const CountedSource& source) {
    const double rate = in_gpm(source.rate);
    int strength = 0;
    for (const double step : {250.0, 500.0, 1000.0}) {
        strength += rate >= step ? 1 : 0;
    }
    if (source.usable &&
        *source.usable + source.inflow * minutes(120) < source.rate * minutes(120)) {
        --strength;
    }
    return static_cast<std::uint8_t>(std::max(0, strength));
}

struct Volumes {
    bool known = false;
    std::optional<Volume> usable;
    bool assumed = false;
};

Volumes volume_of(const WaterSource& source, const SystemStorage& storage,
                  const Assumptions& assumptions) {
    if (source.usable) {
        return {true, source.usable->volume(), false};
    }
    const auto system = storage.find(source.system);
    if (system != storage.end()) {
        return {true, system->second.volume(), false};
    }
    if (source.kind == SourceKind::hydrant) {
        return {true, assumptions.hydrant_system_storage, true};
    }
    return {};
}

// Why a source cannot count, or none.
std::optional<ProblemId> obstacle(const WaterSource& source, const Volumes& volumes) {
    if (source.standing == Standing::mapped) {
        return ProblemId::source_mapped_only;
    }
    if (!volumes.known) {
        return ProblemId::source_volume_unknown;
    }
    return std::nullopt;
}

CountedSource count(SourceIndex index, const WaterSource& source, const Volumes& volumes,
                    bool lapsed, const Assumptions& assumptions) {
    CountedSource counted;
    counted.source = index;
    const bool tested = source.standing == Standing::tested && !lapsed;
    counted.evidence = tested ? Evidence::tested : Evidence::declared;
    if (!source.rate || volumes.assumed) {
        counted.evidence = Evidence::assumed;
    }
    counted.rate = source.rate.value_or(default_rate(source.kind, assumptions));
    if (source.reach == Reach::portable_pump) {
        counted.rate = std::min(counted.rate, assumptions.portable_pump_rate);
    }
    counted.usable = volumes.usable;
    counted.inflow = source.inflow.value_or(gpm(0));
    counted.places = std::max(1, source.places.value_or(1));
    counted.needs_engine = source.reach == Reach::engine && !source.fills_without_engine.value_or(
                                                                source.kind == SourceKind::hydrant);
    counted.setup = setup_of(source.kind, assumptions);
    counted.strength_class = strength_class(counted);
    return counted;
}

}  // namespace

WaterReview review_water(const District& district) {
    WaterReview review;
    review.counts.assign(district.sources.size(), false);
    const SystemStorage storage = storage_by_system(district);
    for (std::size_t i = 0; i < district.sources.size(); ++i) {
        const WaterSource& source = district.sources[i];
        const Volumes volumes = volume_of(source, storage, district.assumptions);
        if (const auto why = obstacle(source, volumes)) {
            review.problems.push_back(problem_of(*why, source));
            continue;
        }
        if (source.use == SourceUse::own_parcel) {
            continue;  // serves one parcel by hose, never a shuttle
        }
        const bool lapsed = test_lapsed(source, district);
        if (lapsed) {
            review.problems.push_back(problem_of(ProblemId::source_test_lapsed, source));
        }
        if (!source.rate) {
            review.problems.push_back(problem_of(ProblemId::source_rate_assumed, source));
        }
        if (volumes.assumed) {
            review.problems.push_back(problem_of(ProblemId::system_volume_unknown, source));
        }
        review.counted.push_back(
            count(SourceIndex(i), source, volumes, lapsed, district.assumptions));
        review.counts[i] = true;
    }
    if (review.counted.empty()) {
        review.problems.push_back({.id = ProblemId::no_source_counts, .layer = "water_sources"});
    }
    return review;
}

namespace {

// Each once, in order.
std::vector<std::string> system_names(const District& district) {
    std::vector<std::string> names;
    for (const WaterSource& source : district.sources) {
        names.push_back(source.system);
    }
    std::ranges::sort(names);
    const auto rest = std::ranges::unique(names);
    names.erase(rest.begin(), rest.end());
    return names;
}

std::uint32_t system_number(const std::vector<std::string>& systems, const std::string& name) {
    const auto place = std::ranges::lower_bound(systems, name);
    return name.empty() ? FillSitePlace::no_system
                        : static_cast<std::uint32_t>(place - systems.begin());
}

}  // namespace

std::vector<FillSitePlace> fill_site_places(const District& district, const WaterReview& review,
                                            const Season& season) {
    std::vector<FillSitePlace> places;
    const std::vector<std::string> systems = system_names(district);
    for (const CountedSource& counted : review.counted) {
        const WaterSource& source = at(district.sources, counted.source);
        const bool kind_out =
            std::ranges::find(season.sources_out, source.kind) != season.sources_out.end();
        const bool frozen =
            season.ice && source.kind == SourceKind::draft_site && !source.frost_proof;
        if (!kind_out && !frozen && source.open_months.covers(season.months)) {
            places.push_back({counted.source, source.place, counted.strength_class,
                              system_number(systems, source.system)});
        }
    }
    return places;
}

const CountedSource& counted_source(const WaterReview& review, SourceIndex source) {
    return *std::ranges::lower_bound(review.counted, source, {}, &CountedSource::source);
}

}  // namespace farwater::supply
