#include "analyzer/supply/water_review.h"

#include <algorithm>
#include <map>
#include <string>
#include <unordered_map>
#include <utility>

#include "analyzer/district/sorted_once.h"
#include "analyzer/supply/source_volume.h"
#include "analyzer/supply/water_systems.h"

namespace farwater::supply {
namespace {

Problem problem_of(ProblemId id, const WaterSource& source, std::string detail) {
    return {.id = id, .layer = "water_sources", .record = source.id, .detail = std::move(detail)};
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

std::optional<ProblemId> problem_of_age(TestAge age) {
    switch (age) {
        case TestAge::undated:
            return ProblemId::source_test_undated;
        case TestAge::not_judged:
            return ProblemId::source_test_age_unknown;
        case TestAge::lapsed:
            return ProblemId::source_test_lapsed;
        case TestAge::none:
        case TestAge::valid:
            break;
    }
    return std::nullopt;
}

// A hydrant whose system is told differently by its rows, or by another's.
bool system_differs(const WaterSource& source, const StorageBySystem& storage) {
    const auto shared = storage.find(source.system);
    return source.kind == SourceKind::hydrant && source.usable && shared != storage.end() &&
           shared->second.differs && shared->second.usable != *source.usable;
}

CountedSource count(SourceIndex index, const WaterSource& source, const SourceRate& rate,
                    const SourceVolume& volume, const Assumptions& assumptions) {
    CountedSource counted;
    counted.source = index;
    counted.evidence = volume.assumed ? Evidence::assumed : rate.evidence;
    counted.rate = rate.rate;
    counted.pump_share = rate.pump_share;
    counted.limit = rate.limit;
    counted.suction = rate.suction;
    counted.usable_depth = volume.depth;
    counted.assumed = rate.assumed;
    if (volume.assumed) {
        counted.assumed.emplace_back("usable_gal");
    }
    counted.usable = volume.usable;
    counted.inflow = source.inflow.value_or(gpm(0));
    counted.places = std::max(1, source.places.value_or(1));
    counted.needs_engine = source.reach == Reach::engine && !source.fills_without_engine.value_or(
                                                                source.kind == SourceKind::hydrant);
    counted.setup = setup_of(source.kind, assumptions);
    counted.strength_class = strength_class(counted);
    return counted;
}

// Of a source that is for one parcel alone.
struct Owner {
    ParcelIndex parcel;
    std::string obstacle;  // why it cannot serve it; empty: it can
};

// One review of all sources, row by row.
class Reviewing {
public:
    explicit Reviewing(const District& district)
        : district_(district),
          storage_(hydrant_storage(district)),
          rates_(stated_system_rates(district)) {
        review_.counts.assign(district.sources.size(), false);
    }

    void look_at(SourceIndex index) {
        const WaterSource& source = at(district_.sources, index);
        const Owner owner = source.use == SourceUse::own_parcel ? owner_of(source) : Owner{};
        if (!owner.obstacle.empty()) {
            add(ProblemId::source_own_parcel, source, owner.obstacle);
            return;
        }
        if (source.standing == Standing::mapped) {
            add(ProblemId::source_mapped_only, source);
            return;
        }
        const SourceVolume volume = source_volume(source, storage_, district_.assumptions);
        if (volume.obstacle) {
            add(*volume.obstacle, source);
            return;
        }
        const TestAge age = test_age(source, district_);
        const SourceRate rate =
            source_rate(source, district_, counts_as_tested(age), rate_of_system(rates_, source));
        if (rate.obstacle) {
            add(*rate.obstacle, source);
            return;
        }
        tell(source, rate, volume, age);
        review_.counted.push_back(count(index, source, rate, volume, district_.assumptions));
        review_.counted.back().only_for = owner.parcel;
        review_.counts[index.position()] = true;
    }

    WaterReview finished() && {
        if (std::ranges::none_of(review_.counted, &CountedSource::is_for_all)) {
            review_.problems.push_back(
                {.id = ProblemId::no_source_counts, .layer = "water_sources"});
        }
        tell_systems_without_storage();
        review_.systems = water_systems(district_, review_.counted, rates_);
        return std::move(review_);
    }

private:
    void add(ProblemId id, const WaterSource& source, std::string detail = {}) {
        review_.problems.push_back(problem_of(id, source, std::move(detail)));
    }

    void tell(const WaterSource& source, const SourceRate& rate, const SourceVolume& volume,
              TestAge age) {
        if (const auto problem = problem_of_age(age)) {
            add(*problem, source);
        }
        for (const SourceRate::Note& note : rate.notes) {
            add(note.id, source, note.detail);
        }
        if (volume.assumed) {
            without_storage_[source.system].push_back(&source);
        }
        if (volume.contradicts) {
            add(*volume.contradicts, source);
        }
        const bool other_rate =
            source.system_rate && source.system_rate != rate_of_system(rates_, source);
        if (other_rate || system_differs(source, storage_)) {
            add(ProblemId::system_values_differ, source);
        }
    }

    // Of the hydrants of one system one stands for all.
    void tell_systems_without_storage() {
        for (const auto& [system, hydrants] : without_storage_) {
            const std::string name = system.empty() ? "no system named" : "system " + system;
            add(ProblemId::system_volume_unknown, *hydrants.front(),
                name + ", hydrants: " + std::to_string(hydrants.size()));
        }
    }

    // Whose a source is that is for one parcel alone, or why it cannot serve it.
    Owner owner_of(const WaterSource& source) {
        if (source.own_parcel.empty()) {
            return {{}, "own_parcel is blank"};
        }
        if (source.reach == Reach::portable_pump) {
            return {{}, "only a portable pump gets there, and hose to the house takes an engine"};
        }
        if (parcels_.empty()) {
            for (std::size_t i = 0; i < district_.parcels.size(); ++i) {
                parcels_.emplace(district_.parcels[i].id, i);
            }
        }
        const auto owner = parcels_.find(source.own_parcel);
        if (owner == parcels_.end()) {
            return {{}, "own_parcel " + source.own_parcel + ", which no parcel has"};
        }
        return {ParcelIndex(owner->second), {}};
    }

    const District& district_;
    std::unordered_map<std::string_view, std::size_t> parcels_;  // where somebody asked
    StorageBySystem storage_;
    SystemRates rates_;
    std::map<std::string, std::vector<const WaterSource*>> without_storage_;  // by system
    WaterReview review_;
};

}  // namespace

TestAge test_age(const WaterSource& source, const District& district) {
    if (source.standing != Standing::tested) {
        return TestAge::none;
    }
    if (!source.tested_on) {
        return TestAge::undated;
    }
    if (!district.data_date) {
        return TestAge::not_judged;
    }
    const double valid = source.kind == SourceKind::hydrant
                             ? district.assumptions.hydrant_test_valid_months
                             : district.assumptions.suction_test_valid_months;
    return months_between(*source.tested_on, *district.data_date) >= valid ? TestAge::lapsed
                                                                           : TestAge::valid;
}

WaterReview review_water(const District& district) {
    Reviewing reviewing(district);
    for (std::size_t i = 0; i < district.sources.size(); ++i) {
        reviewing.look_at(SourceIndex(i));
    }
    return std::move(reviewing).finished();
}

namespace {

// Each once, in order.
std::vector<std::string> system_names(const District& district) {
    std::vector<std::string> names;
    for (const WaterSource& source : district.sources) {
        names.push_back(source.system);
    }
    return sorted_once(std::move(names));
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
                              system_number(systems, source.system), counted.only_for});
        }
    }
    return places;
}

Flow CountedSource::with_pump(Flow rated) const {
    return needs_engine ? std::min(rate, rated * pump_share) : rate;
}

const CountedSource& counted_source(const WaterReview& review, SourceIndex source) {
    return *std::ranges::lower_bound(review.counted, source, {}, &CountedSource::source);
}

}  // namespace farwater::supply
