#include "analyzer/supply/situation.h"

namespace farwater::supply {

std::vector<ProfileIndex> profile_of_units(const District& district,
                                           std::span<const Profile> profiles) {
    std::vector<ProfileIndex> of(district.units.size());
    for (std::size_t p = 0; p < profiles.size(); ++p) {
        for (const UnitIndex member : profiles[p].members) {
            at(of, member) = ProfileIndex(p);
        }
    }
    return of;
}

}  // namespace farwater::supply
