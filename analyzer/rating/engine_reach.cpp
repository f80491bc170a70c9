#include "analyzer/rating/engine_reach.h"

#include <algorithm>

#include "analyzer/rating/rated_district.h"
#include "analyzer/supply/situation.h"

namespace farwater::rating {

EngineReach::EngineReach(const District& district)
    : open_(district.sources.size(), false),
      always_(district.sources.size(), true),
      ever_(district.sources.size(), false) {}

void EngineReach::see_season(const District& district, std::span<const Profile> profiles,
                             std::span<const FillSitePlace> places,
                             const Lists<StationDrive>& stations, const Terms& terms) {
    const std::vector<ProfileIndex> profile_of = supply::profile_of_units(district, profiles);
    const auto gets_to = [&](std::size_t place, std::size_t number) {
        const Unit& unit = district.units[number];
        const ProfileIndex profile = profile_of[number];
        return unit.kind == UnitKind::engine && profile.valid() &&
               unit_counts(district, unit, terms) &&
               drive_from(stations[place], profile, unit.station) != no_time;
    };
    for (std::size_t place = 0; place < places.size(); ++place) {
        bool reached = false;
        for (std::size_t number = 0; number < district.units.size() && !reached; ++number) {
            reached = gets_to(place, number);
        }
        const std::size_t source = places[place].source.position();
        open_[source] = true;
        always_[source] = always_[source] && reached;
        ever_[source] = ever_[source] || reached;
    }
}

}  // namespace farwater::rating
