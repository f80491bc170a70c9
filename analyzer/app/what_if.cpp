#include "analyzer/app/what_if.h"

#include <algorithm>
#include <utility>

#include "analyzer/app/first_engines.h"
#include "analyzer/app/road_work.h"
#include "analyzer/app/trips_compared.h"
#include "analyzer/district/sorted_once.h"
#include "analyzer/supply/assess.h"
#include "analyzer/supply/kept_choices.h"
#include "routing/dump_sites.h"
#include "routing/kept_trips.h"
#include "routing/profiles.h"

namespace farwater::app {
namespace {

// A dozen for each parcel, lay, season and period would hold them all.
constexpr std::size_t choices_a_row = 128;
constexpr std::size_t most_choices = std::size_t{1} << 22;  // 160 MB

bool begins_with(std::span<const std::uint32_t> whole, std::span<const std::uint32_t> part) {
    return part.size() <= whole.size() && std::ranges::equal(whole.first(part.size()), part);
}

}  // namespace

struct WhatIf::State {
    // Of one season and period, as the district is.
    struct PeriodKept {
        std::vector<DriveTime> first_arrivals;
        std::vector<supply::ParcelSupply> supplies;
    };
    struct SeasonKept {
        routing::KeptTrips trips;
        std::vector<PeriodKept> periods;
    };

    // Of one season, with further sources: the parcels that see other trips, by row, and their
    // answers.
    struct SeasonAnew {
        RoundTrips trips;  // as they see them
        std::vector<std::uint32_t> rows;
        std::vector<std::vector<supply::ParcelSupply>> periods;  // per item of `rows`

        const supply::ParcelSupply* answer(std::size_t period, std::uint32_t row) const {
            const auto found = std::ranges::lower_bound(rows, row);
            return found != rows.end() && *found == row
                       ? &periods[period][static_cast<std::size_t>(found - rows.begin())]
                       : nullptr;
        }
    };

    struct Anew {
        std::vector<std::uint32_t> sources;  // that were offered
        std::vector<SeasonAnew> seasons;
    };

    // A source that may be asked about.
    struct Offered {
        WaterSource source;
        routing::RoadSpot spot;
        std::vector<std::optional<FillSitePlace>> places;       // per season in which it counts
        std::vector<std::optional<routing::FoundTrips>> found;  // per season, once asked for
        bool all_anew = false;
    };

    District district;
    std::vector<std::optional<Need>> needs;
    std::vector<Profile> profiles;
    supply::WaterReview water;
    RoadWork roads;
    routing::DumpSites dump_sites;
    std::vector<SeasonKept> seasons;
    supply::Assessment worst;
    std::vector<Offered> offered;
    std::vector<Anew> kept;  // each of the sources of the one before and more

    // Which tankers are best at a fill site depends on that site and the case, not on further ones.
    std::unique_ptr<supply::KeptChoices> choices;

    routing::RoadSystem system() const { return {district, roads.network, roads.access, profiles}; }

    // The supply of one season and period, of the parcels that have a need in `asked`.
    std::vector<supply::ParcelSupply> assessed(const supply::WaterReview& review,
                                               const RoundTrips& trips,
                                               std::span<const FillSitePlace> places,
                                               PeriodIndex period,
                                               const std::vector<std::optional<Need>>& asked,
                                               supply::Told told, const Work& work) const {
        const supply::Situation situation{district, review, profiles,     roads.access.points,
                                          trips,    places, period,       {},
                                          told,     false,  choices.get()};
        const SeasonKept& season = seasons[trips.season.position()];
        return supply::assess(situation, asked, at(season.periods, period).first_arrivals, work);
    }

    void assess_all(const Work& work, const StageBegins& begins) {
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

    void assess_rows(SeasonAnew& anew, const supply::WaterReview& review,
                     std::span<const FillSitePlace> places, const SeasonAnew* known,
                     const Work& work) const;
    void search(std::uint32_t source, const Work& work);
    bool all_anew(std::span<const std::uint32_t> sources, const Work& work);
    const Anew* longest_known(std::span<const std::uint32_t> sources);
    Anew anew_beside(std::span<const std::uint32_t> sources, const Work& work);
    Anew wholly_anew(std::span<const std::uint32_t> sources, const Work& work);
    supply::ParcelSupply worst_of(std::uint32_t row, const Anew& anew) const;
    std::vector<planning::Change> changes(const Anew& anew) const;

    // With some of the offered sources behind the others, as long as it stands.
    class Grown {
    public:
        Grown(State& state, std::span<const std::uint32_t> more)
            : sources_(state.district.sources),
              before_(static_cast<std::ptrdiff_t>(sources_.size())) {
            for (const std::uint32_t source : more) {
                sources_.push_back(state.offered[source].source);
            }
        }
        ~Grown() { sources_.erase(sources_.begin() + before_, sources_.end()); }
        Grown(const Grown&) = delete;
        Grown& operator=(const Grown&) = delete;

    private:
        std::vector<WaterSource>& sources_;
        std::ptrdiff_t before_;
    };
};

// The rows of one season in all periods; `known` are answers with some of the same sources, or
// null: whoever sees the same trips there has the same answers.
void WhatIf::State::assess_rows(SeasonAnew& anew, const supply::WaterReview& review,
                                std::span<const FillSitePlace> places, const SeasonAnew* known,
                                const Work& work) const {
    std::vector<std::optional<Need>> asked(needs.size());
    std::vector<char> is_known(anew.rows.size(), 0);
    for (std::size_t i = 0; i < anew.rows.size(); ++i) {
        const std::uint32_t row = anew.rows[i];
        is_known[i] = known != nullptr && std::ranges::binary_search(known->rows, row) &&
                              sees_the_same(known->trips, anew.trips, row)
                          ? 1
                          : 0;
        if (is_known[i] == 0) {
            asked[row] = needs[row];
        }
    }
    for (std::size_t p = 0; p < district.periods.size() && !work.stopped(); ++p) {
        const std::vector<supply::ParcelSupply> supplies =
            assessed(review, anew.trips, places, PeriodIndex(p), asked, supply::Told::flow, work);
        std::vector<supply::ParcelSupply>& answers = anew.periods.emplace_back();
        for (std::size_t i = 0; i < anew.rows.size(); ++i) {
            answers.push_back(is_known[i] != 0 ? *known->answer(p, anew.rows[i])
                                               : supplies[anew.rows[i]]);
        }
    }
}

// In the seasons in which it counts.
void WhatIf::State::search(std::uint32_t source, const Work& work) {
    Offered& one = offered[source];
    for (std::size_t s = 0; s < seasons.size() && !work.stopped(); ++s) {
        if (one.places[s] && !one.found[s]) {
            one.found[s] = seasons[s].trips.search({one.source, *one.places[s], one.spot});
        }
    }
}

bool WhatIf::State::all_anew(std::span<const std::uint32_t> sources, const Work& work) {
    return std::ranges::any_of(sources, [&](std::uint32_t source) {
        if (offered[source].all_anew) {
            return true;
        }
        search(source, work);
        return std::ranges::any_of(offered[source].found,
                                   [](const auto& found) { return found && found->changes_lanes; });
    });
}

// Answers of which no use can be made are let go of.
const WhatIf::State::Anew* WhatIf::State::longest_known(std::span<const std::uint32_t> sources) {
    std::erase_if(kept, [&](const Anew& anew) { return !begins_with(sources, anew.sources); });
    return kept.empty() ? nullptr : &kept.back();
}

// Precondition: not all anew.
WhatIf::State::Anew WhatIf::State::anew_beside(std::span<const std::uint32_t> sources,
                                               const Work& work) {
    const Anew* const known = longest_known(sources);
    const Grown grown(*this, sources);
    const supply::WaterReview review = supply::review_water(district);
    Anew anew{{sources.begin(), sources.end()}, {}};
    for (std::size_t s = 0; s < seasons.size() && !work.stopped(); ++s) {
        std::vector<const routing::FoundTrips*> more;
        for (const std::uint32_t source : sources) {
            if (const auto& found = offered[source].found[s]) {
                more.push_back(&*found);
            }
        }
        const auto places = supply::fill_site_places(district, review, district.seasons[s]);
        routing::TripsInPart part = seasons[s].trips.with(more);
        SeasonAnew& season = anew.seasons.emplace_back();
        season.trips = std::move(part.trips);
        season.rows = std::move(part.served);
        std::erase_if(season.rows,
                      [&](std::uint32_t row) { return row >= district.parcels.size(); });
        assess_rows(season, review, places, known == nullptr ? nullptr : &known->seasons[s], work);
    }
    return anew;
}

// Where a source of a system changes what the others of it give, and where none counted before and
// all were unknown, any parcel may have another answer.
WhatIf::State::Anew WhatIf::State::wholly_anew(std::span<const std::uint32_t> sources,
                                               const Work& work) {
    const Grown grown(*this, sources);
    const supply::WaterReview review = supply::review_water(district);
    const routing::AccessResult access =
        routing::find_access(district, roads.network, profiles, work);
    const routing::RoadSystem grown_roads{district, roads.network, access.access, profiles};
    const bool all = std::ranges::any_of(
        sources, [&](std::uint32_t source) { return offered[source].all_anew; });
    Anew anew{{sources.begin(), sources.end()}, {}};
    for (std::size_t s = 0; s < seasons.size() && !work.stopped(); ++s) {
        const auto places = supply::fill_site_places(district, review, district.seasons[s]);
        SeasonAnew& season = anew.seasons.emplace_back();
        season.trips = routing::round_trips(grown_roads, dump_sites, places, SeasonIndex(s), work);
        for (std::uint32_t row = 0; row < district.parcels.size() && !work.stopped(); ++row) {
            if (all || !sees_the_same(seasons[s].trips.trips(), season.trips, row)) {
                season.rows.push_back(row);
            }
        }
        if (!work.stopped()) {
            assess_rows(season, review, places, nullptr, work);
        }
        season.trips = {};
    }
    return anew;
}

supply::ParcelSupply WhatIf::State::worst_of(std::uint32_t row, const Anew& anew) const {
    std::optional<supply::ParcelSupply> worst_yet;
    for (std::size_t s = 0; s < seasons.size(); ++s) {
        for (std::size_t p = 0; p < seasons[s].periods.size(); ++p) {
            const supply::ParcelSupply* const now = anew.seasons[s].answer(p, row);
            const supply::ParcelSupply& supply =
                now == nullptr ? seasons[s].periods[p].supplies[row] : *now;
            if (!worst_yet || supply::stands_for_worst(supply, *worst_yet)) {
                worst_yet = supply;
            }
        }
    }
    return worst_yet.value_or(worst.supplies[row]);
}

// Against what the district is.
std::vector<planning::Change> WhatIf::State::changes(const Anew& anew) const {
    std::vector<std::uint32_t> rows;
    for (const SeasonAnew& season : anew.seasons) {
        rows.insert(rows.end(), season.rows.begin(), season.rows.end());
    }
    std::vector<planning::Change> changes;
    for (const std::uint32_t row : sorted_once(std::move(rows))) {
        const supply::ParcelSupply& was = worst.supplies[row];
        const supply::ParcelSupply now = worst_of(row, anew);
        if (planning::differs(was, now)) {
            changes.push_back({row, was, now});
        }
    }
    return changes;
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
