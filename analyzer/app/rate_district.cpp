#include "analyzer/app/rate_district.h"

#include <algorithm>
#include <utility>

#include "analyzer/rating/chosen_places.h"
#include "analyzer/supply/assess.h"
#include "routing/source_lays.h"

namespace farwater::app {
namespace {

rating::EngineReach engine_reach(const Analysis& found, const District& district,
                                 const rating::Terms& terms) {
    rating::EngineReach reach(district);
    for (const reports::SeasonFindings& season : found.seasons) {
        reach.see_season(district, found.asked.profiles, season.fill_places,
                         season.trips.stations_of_fill_site, terms);
    }
    return reach;
}

// Sources that are open in every season and that an engine gets to in each, as places for routing.
std::vector<FillSitePlace> open_in_all(const District& rated, const supply::WaterReview& water,
                                       const rating::EngineReach& reach) {
    std::vector<FillSitePlace> places =
        supply::fill_site_places(rated, water, rated.seasons.front());
    std::erase_if(places, [&](const FillSitePlace& place) { return !reach.always(place.source); });
    for (const Season& season : rated.seasons) {
        const auto open = supply::fill_site_places(rated, water, season);
        std::erase_if(places, [&](const FillSitePlace& place) {
            return std::ranges::find(open, place.source, &FillSitePlace::source) == open.end();
        });
    }
    return places;
}

// Rates every place in each season and period, and keeps the worst.
class Rater {
public:
    Rater(const routing::RoadSystem& roads, const supply::WaterReview& water,
          std::span<const std::optional<float>> station_miles, const rating::EngineReach& reach,
          rating::Rating& rating, const Work& work)
        : rated_(roads.district),
          water_(water),
          station_miles_(station_miles),
          rating_(rating),
          places_(open_in_all(roads.district, water, reach)),
          lays_(routing::find_source_lays(roads, places_, work)) {
        rating.places.resize(lays_.size());
    }

    void begin(supply::Variant variant) { rating_.brought.begin(variant, lays_.size()); }

    // Answers of the season and period begun last; no row comes twice.
    void take(const supply::RowAnswers& answers) {
        supply::Assessment& brought = rating_.brought;
        const std::size_t variant = brought.variants.size() - 1;
        for (std::size_t i = 0; i < answers.size(); ++i) {
            const std::uint32_t row = answers.rows()[i];
            const rating::PlaceRating rated = rate(row, answers.all()[i]);
            brought.count(row, answers.all()[i], rated_.parcels.size());
            if (variant == 0 || rating::worse(rated, rating_.places[row])) {
                rating_.places[row] = rated;
                brought.supplies[row] = answers.all()[i];
                brought.worst_variant[row] = static_cast<std::uint8_t>(variant);
            }
        }
    }

private:
    rating::PlaceRating rate(std::size_t row, const supply::ParcelSupply& brought) const {
        std::vector<rating::SourceInReach> sources;
        for (const SourceLay& lay : lays_[row]) {
            const SourceIndex source = at(places_, lay.fill_site).source;
            const supply::CountedSource& counted = supply::counted_source(water_, source);
            sources.push_back({source, lay.length,
                               rating::credited_rate(rated_, counted, rating_.terms.duration)});
        }
        return rating::rate_place(rating_.terms, station_miles_[row], sources, brought);
    }

    const District& rated_;
    const supply::WaterReview& water_;
    std::span<const std::optional<float>> station_miles_;
    rating::Rating& rating_;
    std::vector<FillSitePlace> places_;
    Lists<SourceLay> lays_;
};

// What both ways through the seasons are gone with.
struct SeasonsAgain {
    const routing::RoadSystem& roads;
    const routing::DumpSites& dump_sites;
    const Work& work;
    const StageBegins& begins;

    void assess(const SupplyAsked& asked, SeasonIndex season, const AnswerTaker& taker,
                const Onlooker& onlooker) const {
        assess_season(asked, roads, dump_sites, season, taker, onlooker, work, begins);
    }
};

// Goes the way of the data once more with the places of the calculation sheets alone, for what
// their answers were worked out from is let go of where a season ends. `counted` has what the terms
// count.
void work_out_calculations(const SupplyAsked& counted, const SeasonsAgain& seasons,
                           rating::Rating& rating) {
    const District& district = seasons.roads.district;
    const std::size_t parcels = district.parcels.size();
    SupplyAsked again = counted;
    again.needs.assign(counted.needs.size(), std::nullopt);
    for (rating::ChosenPlace& place :
         rating::chosen_places(std::span(rating.places).first(parcels))) {
        again.needs[place.row] = counted.needs[place.row];
        rating.calculations.push_back({std::move(place.why), place.row, {}});
    }
    const auto variant_of = [&](const rating::PlaceCalculation& calculation) {
        return rating.brought.variants[rating.brought.worst_variant[calculation.row]].variant;
    };
    const auto is_wanted = [&](supply::Variant variant) {
        return std::ranges::any_of(rating.calculations, [&](const auto& calculation) {
            return variant_of(calculation) == variant;
        });
    };
    const auto see = [&](const VariantSeen& seen) {
        for (rating::PlaceCalculation& calculation : rating.calculations) {
            if (variant_of(calculation) == seen.variant()) {
                calculation.working = supply::working_of(seen.situation, seen.needs,
                                                         seen.first_arrivals, calculation.row);
            }
        }
    };
    const Onlooker onlooker{.wanted = is_wanted, .sees = see};
    const AnswerTaker nobody{[](supply::Variant) {}, [](const supply::RowAnswers&) {}};
    for (std::size_t s = 0; s < district.seasons.size() && !seasons.work.stopped(); ++s) {
        const auto in_season = [&](const rating::PlaceCalculation& calculation) {
            return variant_of(calculation).season == SeasonIndex(s);
        };
        if (std::ranges::any_of(rating.calculations, in_season)) {
            seasons.assess(again, SeasonIndex(s), nobody, onlooker);
        }
    }
}

}  // namespace

std::optional<rating::Rating> rate_district(const Analysis& found, const routing::RoadSystem& roads,
                                            const routing::DumpSites& dump_sites, const Work& work,
                                            const StageBegins& begins) {
    const District& district = roads.district;
    rating::Rating rating;
    rating.terms = rating::terms_of(district.rating->standard);
    const rating::EngineReach reach = engine_reach(found, district, rating.terms);
    rating.sources = rating::judge_sources(district, found.asked.water, reach, rating.terms);

    const District rated = rating::only_what_counts(district, rating.sources, rating.terms);
    const routing::RoadSystem rated_roads{rated, roads.network, roads.access, roads.profiles};
    const SupplyAsked counted{.profiles = found.asked.profiles,
                              .water = supply::review_water(rated),
                              .needs = rating::needs_by_terms(found.asked.needs, rating.terms),
                              .order = rating::order_of(rating.terms),
                              .told = std::max(found.asked.told, supply::Told::limit)};
    const SeasonsAgain seasons{rated_roads, dump_sites, work, begins};
    Rater rater(rated_roads, counted.water, found.station_miles, reach, rating, work);
    const AnswerTaker rates{[&](supply::Variant variant) { rater.begin(variant); },
                            [&](const supply::RowAnswers& answers) { rater.take(answers); }};
    for (std::size_t s = 0; s < rated.seasons.size() && !work.stopped(); ++s) {
        seasons.assess(counted, SeasonIndex(s), rates, {});
    }
    if (found.asked.told == supply::Told::everything && !work.stopped()) {
        work_out_calculations(counted, seasons, rating);
    }
    return work.stopped() ? std::nullopt : std::optional(std::move(rating));
}

}  // namespace farwater::app
