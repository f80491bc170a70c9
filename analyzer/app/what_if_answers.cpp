#include <algorithm>
#include <utility>

#include "analyzer/app/trips_compared.h"
#include "analyzer/app/what_if_state.h"
#include "analyzer/supply/assess.h"

namespace farwater::app {
namespace {

bool begins_with(std::span<const std::uint32_t> whole, std::span<const std::uint32_t> part) {
    return part.size() <= whole.size() && std::ranges::equal(whole.first(part.size()), part);
}

}  // namespace

std::vector<supply::ParcelSupply> WhatIf::State::assessed(
    const supply::WaterReview& review, const RoundTrips& trips,
    std::span<const FillSitePlace> places, PeriodIndex period,
    const std::vector<std::optional<Need>>& asked, supply::Told told, const Work& work) const {
    const supply::Situation situation{district, review, profiles,     roads.access.points,
                                      trips,    places, period,       {},
                                      told,     false,  choices.get()};
    const SeasonKept& season = seasons[trips.season.position()];
    return supply::assess(situation, asked, at(season.periods, period).first_arrivals, work);
}

void WhatIf::State::assess_items(SeasonAnew& anew, const supply::WaterReview& review,
                                 std::size_t period, const std::vector<std::size_t>& items,
                                 const Work& work) const {
    std::vector<std::optional<Need>> asked(needs.size());
    for (const std::size_t item : items) {
        asked[anew.rows[item]] = needs[anew.rows[item]];
    }
    const std::vector<supply::ParcelSupply> supplies = assessed(
        review, anew.trips, anew.places, PeriodIndex(period), asked, supply::Told::flow, work);
    for (const std::size_t item : items) {
        anew.periods[period][item] = supplies[anew.rows[item]];
    }
}

// All rows of one season in all periods; `known` are answers with some of the same sources, or
// null: whoever sees the same trips there has the same answers.
void WhatIf::State::assess_rows(SeasonAnew& anew, const supply::WaterReview& review,
                                const SeasonAnew* known, const Work& work) const {
    std::vector<std::size_t> unknown;
    for (std::size_t i = 0; i < anew.rows.size(); ++i) {
        const std::uint32_t row = anew.rows[i];
        if (known == nullptr || !known->item_of(row) ||
            !sees_the_same(known->trips, anew.trips, row)) {
            unknown.push_back(i);
            continue;
        }
        for (std::size_t p = 0; p < anew.periods.size(); ++p) {
            anew.periods[p][i] = *known->answer(p, row);
        }
    }
    for (std::size_t p = 0; p < anew.periods.size() && !work.stopped(); ++p) {
        assess_items(anew, review, p, unknown, work);
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

// Which parcels see other trips in each season, no answer worked out yet. Preconditions: not all
// anew; the district has grown by the sources.
WhatIf::State::Anew WhatIf::State::seen_beside(std::span<const std::uint32_t> sources,
                                               const Work& work) {
    Anew anew{{sources.begin(), sources.end()}, supply::review_water(district), {}};
    for (std::size_t s = 0; s < seasons.size() && !work.stopped(); ++s) {
        std::vector<const routing::FoundTrips*> more;
        for (const std::uint32_t source : sources) {
            if (const auto& found = offered[source].found[s]) {
                more.push_back(&*found);
            }
        }
        routing::TripsInPart part = seasons[s].trips.with(more);
        SeasonAnew& season = anew.seasons.emplace_back();
        season.places = supply::fill_site_places(district, anew.review, district.seasons[s]);
        season.trips = std::move(part.trips);
        season.rows = std::move(part.served);
        std::erase_if(season.rows,
                      [&](std::uint32_t row) { return row >= district.parcels.size(); });
        season.periods.resize(district.periods.size());
        for (auto& answers : season.periods) {
            answers.resize(season.rows.size());
        }
    }
    return anew;
}

// Precondition: not all anew.
WhatIf::State::Anew WhatIf::State::anew_beside(std::span<const std::uint32_t> sources,
                                               const Work& work) {
    const Anew* const known = longest_known(sources);
    const Grown grown(*this, sources);
    Anew anew = seen_beside(sources, work);
    for (std::size_t s = 0; s < anew.seasons.size() && !work.stopped(); ++s) {
        assess_rows(anew.seasons[s], anew.review, known == nullptr ? nullptr : &known->seasons[s],
                    work);
    }
    return anew;
}

// Each parcel's worst answer, until that is one that was worked out anew or stays as it was; of
// those that lack flow. Precondition: the district has grown by the sources.
void WhatIf::State::assess_while_worst(Anew& anew, const Work& work) const {
    std::vector<std::uint32_t> rows = rows_of(anew);
    std::erase_if(
        rows, [&](std::uint32_t row) { return worst.supplies[row].state == SupplyState::held; });
    while (!rows.empty() && !work.stopped()) {
        using Items = std::vector<std::size_t>;
        std::vector<std::vector<Items>> asked(seasons.size(),
                                              std::vector<Items>(district.periods.size()));
        std::erase_if(rows, [&](std::uint32_t row) {
            const Answer is_worst = worst_of(row, anew);
            const auto item = anew.seasons[is_worst.season].item_of(row);
            if (is_worst.anew || !item) {
                return true;
            }
            asked[is_worst.season][is_worst.period].push_back(*item);
            return false;
        });
        for (std::size_t s = 0; s < seasons.size(); ++s) {
            for (std::size_t p = 0; p < district.periods.size(); ++p) {
                if (!asked[s][p].empty()) {
                    assess_items(anew.seasons[s], anew.review, p, asked[s][p], work);
                }
            }
        }
    }
}

// Where a source of a system changes what the others of it give, and where none counted before and
// all were unknown, any parcel may have another answer.
WhatIf::State::Anew WhatIf::State::wholly_anew(std::span<const std::uint32_t> sources,
                                               const Work& work) {
    const Grown grown(*this, sources);
    const routing::AccessResult access =
        routing::find_access(district, roads.network, profiles, work);
    const routing::RoadSystem grown_roads{district, roads.network, access.access, profiles};
    const bool all = std::ranges::any_of(
        sources, [&](std::uint32_t source) { return offered[source].all_anew; });
    Anew anew{{sources.begin(), sources.end()}, supply::review_water(district), {}};
    for (std::size_t s = 0; s < seasons.size() && !work.stopped(); ++s) {
        SeasonAnew& season = anew.seasons.emplace_back();
        season.places = supply::fill_site_places(district, anew.review, district.seasons[s]);
        season.trips =
            routing::round_trips(grown_roads, dump_sites, season.places, SeasonIndex(s), work);
        for (std::uint32_t row = 0; row < district.parcels.size() && !work.stopped(); ++row) {
            if (all || !sees_the_same(seasons[s].trips.trips(), season.trips, row)) {
                season.rows.push_back(row);
            }
        }
        season.periods.resize(district.periods.size());
        for (auto& answers : season.periods) {
            answers.resize(season.rows.size());
        }
        if (!work.stopped()) {
            assess_rows(season, anew.review, nullptr, work);
        }
        season.trips = {};
    }
    return anew;
}

WhatIf::State::Answer WhatIf::State::worst_of(std::uint32_t row, const Anew& anew) const {
    Answer worst_yet;
    for (std::size_t s = 0; s < seasons.size(); ++s) {
        for (std::size_t p = 0; p < seasons[s].periods.size(); ++p) {
            const supply::ParcelSupply* const now = anew.seasons[s].answer(p, row);
            const Answer answer{s, p, now == nullptr ? &seasons[s].periods[p].supplies[row] : now,
                                now != nullptr};
            if (worst_yet.supply == nullptr ||
                supply::stands_for_worst(*answer.supply, *worst_yet.supply)) {
                worst_yet = answer;
            }
        }
    }
    return worst_yet;
}

// Against what the district is.
std::vector<planning::Change> WhatIf::State::changes(const Anew& anew) const {
    std::vector<planning::Change> changes;
    for (const std::uint32_t row : rows_of(anew)) {
        const supply::ParcelSupply& was = worst.supplies[row];
        const supply::ParcelSupply& now = *worst_of(row, anew).supply;
        if (planning::differs(was, now)) {
            changes.push_back({row, was, now});
        }
    }
    return changes;
}

}  // namespace farwater::app
