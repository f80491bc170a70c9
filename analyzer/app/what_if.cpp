#include "analyzer/app/what_if.h"

#include <algorithm>
#include <string>
#include <utility>

#include "analyzer/app/first_engines.h"
#include "analyzer/app/road_work.h"
#include "analyzer/supply/assess.h"
#include "routing/dump_sites.h"
#include "routing/profiles.h"

namespace farwater::app {
namespace {

bool same(const LegTimes& a, const LegTimes& b) {
    return a.empty == b.empty && a.loaded == b.loaded;
}
bool same(const FillTrip& a, const FillTrip& b) {
    return a.fill_site == b.fill_site &&
           std::ranges::equal(a.legs, b.legs,
                              [](const LegTimes& x, const LegTimes& y) { return same(x, y); });
}
bool same(const SourceLay& a, const SourceLay& b) {
    return a.fill_site == b.fill_site && a.length == b.length;
}

template <class Item>
bool same_row(const Lists<Item>& a, const Lists<Item>& b, std::size_t row) {
    return std::ranges::equal(a[row], b[row],
                              [](const Item& x, const Item& y) { return same(x, y); });
}

// Sources of a system change what the others of it give; and where none counted, all were unknown.
bool all_may_change(const supply::WaterReview& before, std::span<const WaterSource> more) {
    return before.counted.empty() || std::ranges::any_of(more, [](const WaterSource& source) {
               return !source.system.empty();
           });
}

}  // namespace

struct WhatIf::State {
    // Of one season and period, as the district is.
    struct PeriodKept {
        std::vector<DriveTime> first_arrivals;
        std::vector<supply::ParcelSupply> supplies;
    };
    struct SeasonKept {
        RoundTrips trips;
        std::vector<PeriodKept> periods;
    };
    // Of one season, with further sources.
    struct SeasonAnew {
        std::vector<bool> touched;  // per parcel: was assessed anew
        std::vector<std::vector<supply::ParcelSupply>> periods;
    };

    District district;
    std::vector<std::optional<Need>> needs;
    std::vector<Profile> profiles;
    supply::WaterReview water;
    RoadWork roads;
    routing::DumpSites dump_sites;
    std::vector<SeasonKept> seasons;
    supply::Assessment worst;

    // The supply of one season and period, of the parcels that have a need in `asked`.
    std::vector<supply::ParcelSupply> assessed(const supply::WaterReview& review,
                                               const RoundTrips& trips,
                                               std::span<const FillSitePlace> places,
                                               PeriodIndex period,
                                               const std::vector<DriveTime>& first_arrivals,
                                               const std::vector<std::optional<Need>>& asked,
                                               const Work& work) const {
        const supply::Situation situation{district, review, profiles, roads.access.points,
                                          trips,    places, period};
        return supply::assess(situation, asked, first_arrivals, work);
    }

    void assess_all(const Work& work, const StageBegins& begins) {
        const routing::RoadSystem system{district, roads.network, roads.access, profiles};
        for (std::size_t s = 0; s < district.seasons.size() && !work.stopped(); ++s) {
            const SeasonIndex index(s);
            const auto places = supply::fill_site_places(district, water, district.seasons[s]);
            SeasonKept season{routing::round_trips(system, dump_sites, places, index, work), {}};
            for (std::size_t p = 0; p < district.periods.size() && !work.stopped(); ++p) {
                begins("supply, " + district.seasons[s].name + ", " + district.periods[p].name);
                const PeriodIndex period(p);
                PeriodKept answers{first_arrivals(system, index, period), {}};
                answers.supplies = assessed(water, season.trips, places, period,
                                            answers.first_arrivals, needs, work);
                worst.keep({index, period}, answers.supplies, district.parcels.size());
                season.periods.push_back(std::move(answers));
            }
            seasons.push_back(std::move(season));
        }
    }

    // The parcels that can get to a list of fill sites that is another now.
    std::vector<bool> touched(const RoundTrips& before, const RoundTrips& after, bool all) const {
        std::vector<bool> rows(district.parcels.size(), all);
        for (std::size_t row = 0; row < rows.size() && !all; ++row) {
            rows[row] = !same_row(before.source_lays, after.source_lays, row) ||
                        other_trips(before, after, row);
        }
        return rows;
    }

    // Approaches are numbered anew with each list of sources; the lays are the same.
    bool other_trips(const RoundTrips& before, const RoundTrips& after, std::size_t row) const {
        const std::span<const HoseLay> lays = before.hose_lays[row];
        for (std::size_t lay = 0; lay < lays.size(); ++lay) {
            const std::size_t was = lays[lay].ways().position();
            const std::size_t now = after.hose_lays[row][lay].ways().position();
            if (!std::ranges::equal(
                    before.fill_trips[was], after.fill_trips[now],
                    [](const FillTrip& a, const FillTrip& b) { return same(a, b); })) {
                return true;
            }
        }
        return false;
    }

    std::vector<std::optional<Need>> needs_of(const std::vector<bool>& rows) const {
        std::vector<std::optional<Need>> asked(needs.size());
        for (std::size_t row = 0; row < rows.size(); ++row) {
            if (rows[row]) {
                asked[row] = needs[row];
            }
        }
        return asked;
    }

    std::optional<SeasonAnew> season_anew(std::size_t season, const routing::RoadSystem& system,
                                          const supply::WaterReview& review, bool all,
                                          const Work& work) const;
    supply::ParcelSupply worst_of(std::size_t row, std::span<const SeasonAnew> anew) const;
    std::vector<planning::Change> changes(const Work& work) const;
};

// None when stopped.
std::optional<WhatIf::State::SeasonAnew> WhatIf::State::season_anew(
    std::size_t season, const routing::RoadSystem& system, const supply::WaterReview& review,
    bool all, const Work& work) const {
    const auto places = supply::fill_site_places(district, review, district.seasons[season]);
    const RoundTrips trips =
        routing::round_trips(system, dump_sites, places, SeasonIndex(season), work);
    if (work.stopped()) {
        return std::nullopt;
    }
    SeasonAnew anew{touched(seasons[season].trips, trips, all), {}};
    const std::vector<std::optional<Need>> asked = needs_of(anew.touched);
    for (std::size_t p = 0; p < seasons[season].periods.size() && !work.stopped(); ++p) {
        anew.periods.push_back(assessed(review, trips, places, PeriodIndex(p),
                                        seasons[season].periods[p].first_arrivals, asked, work));
    }
    return work.stopped() ? std::nullopt : std::optional(std::move(anew));
}

supply::ParcelSupply WhatIf::State::worst_of(std::size_t row,
                                             std::span<const SeasonAnew> anew) const {
    std::optional<supply::ParcelSupply> worst_yet;
    for (std::size_t s = 0; s < seasons.size(); ++s) {
        for (std::size_t p = 0; p < seasons[s].periods.size(); ++p) {
            const supply::ParcelSupply& supply = anew[s].touched[row]
                                                     ? anew[s].periods[p][row]
                                                     : seasons[s].periods[p].supplies[row];
            if (!worst_yet || supply::worse(supply, *worst_yet)) {
                worst_yet = supply;
            }
        }
    }
    return worst_yet.value_or(worst.supplies[row]);
}

// As the district is now, against what it was when it was worked out.
std::vector<planning::Change> WhatIf::State::changes(const Work& work) const {
    const supply::WaterReview review = supply::review_water(district);
    const routing::AccessResult access =
        routing::find_access(district, roads.network, profiles, work);
    if (work.stopped()) {
        return {};
    }
    const routing::RoadSystem system{district, roads.network, access.access, profiles};
    const bool all =
        all_may_change(water, std::span(district.sources).subspan(roads.access.sources.size()));
    std::vector<SeasonAnew> anew;
    for (std::size_t s = 0; s < seasons.size(); ++s) {
        std::optional<SeasonAnew> season = season_anew(s, system, review, all, work);
        if (!season) {
            return {};
        }
        anew.push_back(std::move(*season));
    }
    std::vector<planning::Change> changes;
    for (std::uint32_t row = 0; row < district.parcels.size(); ++row) {
        const supply::ParcelSupply& was = worst.supplies[row];
        const supply::ParcelSupply now = worst_of(row, anew);
        if (now.state != was.state || now.cautious != was.cautious) {
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
    begins("dump sites");
    state->dump_sites = routing::find_dump_sites(state->district, state->roads.network,
                                                 state->roads.access, state->profiles, work);
    state->assess_all(work, begins);
    return work.stopped() ? std::nullopt : std::optional(WhatIf(std::move(state)));
}

std::vector<planning::Change> WhatIf::with(std::span<const WaterSource> more, const Work& work) {
    std::vector<WaterSource>& sources = state_->district.sources;
    const auto before = static_cast<std::ptrdiff_t>(sources.size());
    sources.insert(sources.end(), more.begin(), more.end());
    std::vector<planning::Change> changes = state_->changes(work);
    sources.erase(sources.begin() + before, sources.end());
    return changes;
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
