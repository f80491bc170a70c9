#include "reports/rating/rating_totals.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "analyzer/district/building_areas.h"
#include "analyzer/district/sorted_once.h"
#include "reports/headline.h"
#include "reports/text/number_words.h"

namespace farwater::reports {

std::vector<RatingTotal> rating_totals(
    const Findings& findings, std::size_t groups,
    const std::function<std::size_t(const rating::PlaceRating&)>& group) {
    std::vector<RatingTotal> totals(groups);
    const std::vector<double> areas = building_areas(findings.district);
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        const rating::PlaceRating& place = findings.rating->places[row];
        if (place.category == rating::Category::no_building) {
            continue;
        }
        const Parcel& parcel = findings.district.parcels[row];
        RatingTotal& total = totals[group(place)];
        ++total.parcels;
        total.buildings += std::max<std::size_t>(1, parcel.buildings);
        total.area_sqft += areas[row];
        if (parcel.value) {
            total.value = total.value.value_or(0.0) + static_cast<double>(*parcel.value);
        } else {
            ++total.without_value;
        }
    }
    return totals;
}

bool is_possible(const rating::Terms& terms, rating::Category category) {
    return category != rating::Category::no_building &&
           (category != rating::Category::far_with_water || terms.far > Length{});
}

std::vector<rating::Category> possible_categories(const rating::Terms& terms) {
    std::vector<rating::Category> possible;
    for (std::size_t i = 0; i < rating::category_count; ++i) {
        if (const auto category = static_cast<rating::Category>(i); is_possible(terms, category)) {
            possible.push_back(category);
        }
    }
    return possible;
}

std::vector<StartsWithin> starts_within(const Findings& findings) {
    std::vector<StartsWithin> list;
    const std::vector<double> steps{
        in_minutes(findings.rating->terms.start_within), 10, 15, 20, 30, 45};
    for (const double step : sorted_once(steps)) {
        StartsWithin& entry = list.emplace_back(minutes(step));
        for (std::size_t row = 0; row < findings.parcels(); ++row) {
            const rating::PlaceRating& place = findings.rating->places[row];
            const bool begins = place.start && *place.start <= supply::rounded_up(entry.within);
            entry.parcels += begins ? 1U : 0U;
        }
    }
    return list;
}

std::vector<HeldIn> held_by_variant(const Findings& findings) {
    std::vector<HeldIn> list;
    for (const supply::VariantSummary& each : findings.rating->brought.variants) {
        const auto of = [&](SupplyState state) {
            return each.parcels_by_state[static_cast<std::size_t>(state)];
        };
        list.push_back({each.variant, of(SupplyState::held), of(SupplyState::late),
                        of(SupplyState::short_flow) + of(SupplyState::tank_only) +
                            of(SupplyState::unreached) + of(SupplyState::unknown)});
    }
    return list;
}

std::size_t buildings_in_no_parcel(const Findings& findings) {
    return static_cast<std::size_t>(
        std::ranges::count(findings.problems, ProblemId::building_outside_parcels, &Problem::id));
}

std::string_view meaning_of(rating::Category category) {
    constexpr std::array<std::string_view, rating::category_count> meanings{
        "", "near a station, with water that counts", "near a station, without",
        "beyond, with water that counts", "all others"};
    return meanings.at(static_cast<std::size_t>(category));
}

std::size_t parcels_with_buildings(const std::vector<RatingTotal>& totals) {
    std::size_t all = 0;
    for (const RatingTotal& total : totals) {
        all += total.parcels;
    }
    return all;
}

std::string share_in_words(std::size_t some, std::size_t all) {
    return fmt::format("{} of {} parcels with buildings ({})",
                       in_thousands(static_cast<double>(some)),
                       in_thousands(static_cast<double>(all)), percent(some, all));
}

std::vector<RatingTotal> totals_by_category(const Findings& findings) {
    return rating_totals(findings, rating::category_count, [](const rating::PlaceRating& place) {
        return static_cast<std::size_t>(place.category);
    });
}

std::vector<RatingTotal> totals_by_reason(const Findings& findings) {
    return rating_totals(
        findings, rating::words_of(rating::Fails{}).size(),
        [](const rating::PlaceRating& place) { return static_cast<std::size_t>(place.fails); });
}

}  // namespace farwater::reports
