#include "analyzer/rating/place_rating.h"

#include <algorithm>
#include <array>

#include "analyzer/supply/plan_order.h"

namespace farwater::rating {
namespace {

using namespace std::string_view_literals;

constexpr std::array fails_words{"nothing"sv,      "station_miles"sv, "not_known"sv, "source"sv,
                                 "minimum_flow"sv, "start"sv,         "gap"sv};
constexpr std::array fails_sentences{
    "meets the terms for its distance"sv,
    "too many road miles from a station, or no way there"sv,
    "not known: a road, source, fleet or need that the answer rests on is missing"sv,
    "no source counts for rating within hose, and none to haul from"sv,
    "no hose to a source, and the minimum flow cannot be held for the duration"sv,
    "no hose to a source, and the minimum flow is held, but begins too late"sv,
    "no hose to a source, and tank water ends before the supply begins"sv};

// What keeps the water that apparatus brings from being credited.
Fails fails_of_brought(const Terms& terms, const supply::ParcelSupply& brought,
                       std::optional<supply::TenthsMinute> start) {
    if (brought.state == SupplyState::unknown) {
        return brought.reason == ProblemId::no_source_counts ? Fails::source : Fails::not_known;
    }
    if (brought.state == SupplyState::unreached) {
        return Fails::station;
    }
    if (!start) {
        return Fails::flow;
    }
    if (*start > supply::rounded_up(terms.start_within)) {
        return Fails::start;
    }
    const bool dry = brought.gap && in_tenths(*brought.gap) > 0;
    return dry ? Fails::gap : Fails::nothing;
}

std::optional<supply::TenthsMinute> start_by_clock(const Terms& terms,
                                                   const supply::ParcelSupply& brought) {
    const std::optional<std::int32_t> begins = supply::begins_at(brought);
    if (!begins) {
        return std::nullopt;
    }
    const bool from_alarm = terms.clock == ClockStart::alarm;
    const std::int32_t zero =
        from_alarm || !brought.first_engine ? 0 : in_tenths(*brought.first_engine);
    return supply::TenthsMinute{std::max(0, *begins - zero)};
}

// More than the minimum is credited where it stands by full_within, but no more than on paper.
HeldFlow credit_of_brought(const Terms& terms, const supply::ParcelSupply& brought) {
    return std::max(held(terms.minimum), supply::creditable(brought));
}

// As road miles are kept.
float road_miles(Length length) { return static_cast<float>(in_miles(length)); }

bool within_far(const Terms& terms, std::optional<float> station_mi) {
    return station_mi && terms.far > Length{} && *station_mi < road_miles(terms.far);
}

bool within_near(const Terms& terms, std::optional<float> station_mi) {
    return station_mi && *station_mi <= road_miles(terms.near);
}

void look_at_hose(const Terms& terms, std::span<const SourceInReach> sources, PlaceRating& rating) {
    Length nearest;
    for (const SourceInReach& each : sources) {
        if (!rating.nearest.valid() || each.hose < nearest) {
            nearest = each.hose;
            rating.nearest = each.source;
            rating.hose_ft = static_cast<float>(in_feet(each.hose));
        }
        const Flow worth = std::min(worth_of_hose(terms, each.hose), each.gives);
        rating.by_hose = std::max(rating.by_hose, held(worth));
    }
}

}  // namespace

std::span<const std::string_view> words_of(Fails) { return fails_words; }
std::string_view sentence_of(Fails fails) {
    return fails_sentences[static_cast<std::size_t>(fails)];
}

std::string_view category_word(const Terms& terms, Category category) {
    switch (category) {
        case Category::no_building:
            return "";
        case Category::near_with_water:
            return terms.near_with_water;
        case Category::near_without_water:
            return terms.near_without_water;
        case Category::far_with_water:
            return terms.far_with_water;
        case Category::otherwise:
            break;
    }
    return terms.otherwise;
}

PlaceRating rate_place(const Terms& terms, std::optional<float> station_mi,
                       std::span<const SourceInReach> sources,
                       const supply::ParcelSupply& brought) {
    PlaceRating rating;
    rating.station_mi = station_mi;
    if (brought.state == SupplyState::no_building) {
        rating.category = Category::no_building;
        return rating;
    }
    look_at_hose(terms, sources, rating);
    rating.start = start_by_clock(terms, brought);
    const bool by_hose = rating.by_hose >= held(terms.minimum);
    const Fails brought_fails = fails_of_brought(terms, brought, rating.start);
    rating.held = brought_fails == Fails::nothing ? credit_of_brought(terms, brought) : HeldFlow{};
    const bool water = by_hose || brought_fails == Fails::nothing;
    if (brought.state == SupplyState::unreached) {
        rating.category = Category::otherwise;
        rating.fails = Fails::station;
    } else if (within_near(terms, station_mi)) {
        rating.category = water ? Category::near_with_water : Category::near_without_water;
        rating.fails = water ? Fails::nothing : brought_fails;
    } else {
        rating.category =
            water && within_far(terms, station_mi) ? Category::far_with_water : Category::otherwise;
        rating.fails = Fails::station;
    }
    rating.credited = rating.has_water() ? std::max(rating.by_hose, rating.held) : HeldFlow{};
    return rating;
}

bool worse(const PlaceRating& a, const PlaceRating& b) {
    if (a.category != b.category) {
        return a.category > b.category;
    }
    if (a.credited != b.credited) {
        return a.credited < b.credited;
    }
    if (a.start != b.start) {
        return !a.start || (b.start && *a.start > *b.start);
    }
    return a.fails != Fails::nothing && a.fails < b.fails;
}

}  // namespace farwater::rating
