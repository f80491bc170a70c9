#include "analyzer/planning/strong_water.h"

namespace farwater::planning {

std::vector<Point> water_as_strong(const District& district, const supply::WaterReview& water,
                                   Flow rate, Volume usable) {
    std::vector<std::size_t> open_in(district.sources.size(), 0);  // per source: seasons
    for (const Season& season : district.seasons) {
        for (const FillSitePlace& place : supply::fill_site_places(district, water, season)) {
            ++at(open_in, place.source);
        }
    }
    std::vector<Point> places;
    for (const supply::CountedSource& source : water.counted) {
        const bool as_much = source.is_for_all() && source.rate >= rate &&
                             (!source.usable || *source.usable >= usable);
        if (as_much && at(open_in, source.source) == district.seasons.size()) {
            places.push_back(at(district.sources, source.source).place);
        }
    }
    return places;
}

}  // namespace farwater::planning
