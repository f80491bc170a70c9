#include "analyzer/app/what_if.h"

#include <algorithm>
#include <utility>

#include "analyzer/app/first_engines.h"
#include "analyzer/app/what_if_state.h"
#include "routing/profiles.h"

namespace farwater::app {
namespace {

// A dozen for each parcel, lay, season and period would hold them all.
constexpr std::size_t choices_a_row = 128;
constexpr std::size_t most_choices = std::size_t{1} << 22;  // 160 MB

}  // namespace

void WhatIf::State::assess_all(const Work& work, const StageBegins& begins) {
    for (std::size_t s = 0; s < district.seasons.size() && !work.stopped(); ++s) {
        const SeasonIndex index(s);
        const auto places = supply::fill_site_places(district, water, district.seasons[s]);
        seasons.push_back({routing::KeptTrips(system(), dump_sites, places, index, work), {}});
        SeasonKept& season = seasons.back();
        for (std::size_t p = 0; p < district.periods.size() && !work.stopped(); ++p) {
            begins("supply, " + district.seasons[s].name + ", " + district.periods[p].name);
            const PeriodIndex period(p);
            season.periods.push_back({first_arrivals(system(), index, period), {}});
            PeriodKept& answers = season.periods.back();
            answers.supplies = assessed(water, season.trips.trips(), places, period, needs,
                                        supply::Told::everything, work);
            worst.keep({index, period}, answers.supplies, district.parcels.size());
        }
    }
}

std::optional<WhatIf> WhatIf::of(District district, std::vector<std::optional<Need>> needs,
                                 const Work& work, const StageBegins& begins) {
    if (work.stopped()) {
        return std::nullopt;
    }
    auto state = std::make_unique<State>();
    state->district = std::move(district);
    state->needs = std::move(needs);
    state->profiles = routing::vehicle_profiles(state->district);
    state->water = supply::review_water(state->district);
    std::optional<RoadWork> roads = work_on_roads(state->district, state->profiles, work, begins);
    if (!roads) {
        return std::nullopt;
    }
    state->roads = std::move(*roads);
    state->choices = std::make_unique<supply::KeptChoices>(
        std::min(choices_a_row * state->needs.size(), most_choices));
    begins("dump sites");
    state->dump_sites =
        routing::find_dump_sites(state->district, state->roads.network, state->roads.access,
                                 state->profiles, those_with_a_need(state->needs), work);
    state->assess_all(work, begins);
    return work.stopped() ? std::nullopt : std::optional(WhatIf(std::move(state)));
}

void WhatIf::offer(std::vector<WaterSource> sources) {
    State& state = *state_;
    state.kept.clear();
    state.offered.clear();
    const std::vector<routing::RoadSpot> spots =
        routing::source_spots(state.district, state.roads.network, state.profiles, sources);
    std::vector<std::uint32_t> all;
    for (std::uint32_t i = 0; i < sources.size(); ++i) {
        const WaterSource& source = sources[i];
        const bool anew = state.water.counted.empty() || !source.system.empty() ||
                          source.system_rate || source.turnaround;
        const std::size_t count = state.seasons.size();
        state.offered.push_back({source, spots[i], {}, {}, anew});
        state.offered.back().places.resize(count);
        state.offered.back().found.resize(count);
        all.push_back(i);
    }
    // Sources without a system count each for itself: one review tells of all.
    const std::size_t before = state.district.sources.size();
    const State::Grown grown(state, all);
    const supply::WaterReview review = supply::review_water(state.district);
    for (std::size_t s = 0; s < state.seasons.size(); ++s) {
        for (const FillSitePlace& place :
             supply::fill_site_places(state.district, review, state.district.seasons[s])) {
            if (place.source.position() >= before) {
                state.offered[place.source.position() - before].places[s] = place;
            }
        }
    }
}

std::vector<std::uint32_t> WhatIf::may_change(std::uint32_t source) const {
    const State::Offered& one = state_->offered[source];
    std::vector<std::uint32_t> rows;
    if (one.all_anew) {
        for (std::uint32_t row = 0; row < state_->district.parcels.size(); ++row) {
            rows.push_back(row);
        }
        return rows;
    }
    for (std::size_t s = 0; s < state_->seasons.size(); ++s) {
        if (one.places[s]) {
            const std::vector<std::uint32_t> some =
                state_->seasons[s].trips.may_change({one.source, *one.places[s], one.spot});
            rows.insert(rows.end(), some.begin(), some.end());
        }
    }
    std::erase_if(rows, [&](std::uint32_t row) { return row >= state_->district.parcels.size(); });
    return sorted_once(std::move(rows));
}

std::vector<planning::Change> WhatIf::with(std::span<const std::uint32_t> sources,
                                           const Work& work) {
    if (state_->all_anew(sources, work)) {
        return with_all_anew(sources, work);
    }
    State::Anew anew = state_->anew_beside(sources, work);
    if (work.stopped()) {
        return {};
    }
    std::vector<planning::Change> changes = state_->changes(anew);
    state_->kept.push_back(std::move(anew));
    return changes;
}

std::vector<planning::Change> WhatIf::gains_of(std::uint32_t source, const Work& work) {
    const std::span sources(&source, 1);
    if (state_->all_anew(sources, work)) {
        return with_all_anew(sources, work);
    }
    const State::Grown grown(*state_, sources);
    State::Anew anew = state_->seen_beside(sources, work);
    state_->assess_while_worst(anew, work);
    return work.stopped() ? std::vector<planning::Change>{} : state_->changes(anew);
}

std::vector<planning::Change> WhatIf::with_all_anew(std::span<const std::uint32_t> sources,
                                                    const Work& work) {
    const State::Anew anew = state_->wholly_anew(sources, work);
    return work.stopped() ? std::vector<planning::Change>{} : state_->changes(anew);
}

WhatIf::WhatIf(std::unique_ptr<State> state) : state_(std::move(state)) {}
WhatIf::~WhatIf() = default;
WhatIf::WhatIf(WhatIf&&) noexcept = default;
WhatIf& WhatIf::operator=(WhatIf&&) noexcept = default;

const District& WhatIf::district() const { return state_->district; }
const std::vector<Profile>& WhatIf::profiles() const { return state_->profiles; }
const routing::Network& WhatIf::network() const { return state_->roads.network; }
const supply::WaterReview& WhatIf::water() const { return state_->water; }
const std::vector<supply::ParcelSupply>& WhatIf::answers() const { return state_->worst.supplies; }

}  // namespace farwater::app
