// Which sources an engine gets to whose apparatus counts, season by season.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/rating/rating_terms.h"

namespace farwater::rating {

// True for a source that is open in no season that was seen: that is a lack of its own.
class EngineReach {
public:
    // No season was seen yet.
    explicit EngineReach(const District& district);

    // `stations`: per place, as round trips have them (stations_of_fill_site). A unit that has no
    // profile gets nowhere. O(places x engines).
    void see_season(const District& district, std::span<const Profile> profiles,
                    std::span<const FillSitePlace> places, const Lists<StationDrive>& stations,
                    const Terms& terms);

    // In every season in which it is open.
    bool always(SourceIndex source) const { return always_[source.position()]; }
    // In one of them at least.
    bool ever(SourceIndex source) const {
        return ever_[source.position()] || !open_[source.position()];
    }

private:
    std::vector<bool> open_, always_, ever_;  // per source of the district
};

}  // namespace farwater::rating
