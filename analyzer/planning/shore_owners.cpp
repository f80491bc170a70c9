#include "analyzer/planning/shore_owners.h"

#include <algorithm>
#include <map>
#include <string>
#include <utility>

namespace farwater::planning {
namespace {

// Who must be asked, and of which parcels; who is not known has the parcel's name.
using Asked = std::map<std::string, std::string, std::less<>>;

Asked asked_of(const District& district, const RoadNearWater& way, const OwnerOf& owner_of) {
    Asked asked;
    for (const ParcelIndex index : way.ground) {
        const std::string parcel = "parcel " + at(district.parcels, index).id;
        const std::string owner(owner_of(index));
        if (owner.empty()) {
            asked.emplace(parcel, "");
        } else {
            std::string& parcels = asked[owner];
            parcels += (parcels.empty() ? "" : ", ") + parcel;
        }
    }
    return asked;
}

std::string in_words(const Asked& asked) {
    std::string words;
    for (const auto& [who, parcels] : asked) {
        words.append(words.empty() ? "" : " and ");
        if (parcels.empty()) {
            words.append("the owner of ").append(who);
        } else {
            words.append(who).append(" (").append(parcels).append(")");
        }
    }
    return words;
}

bool asks_all_of(const Asked& more, const Asked& some) {
    return std::ranges::all_of(some, [&](const auto& one) { return more.contains(one.first); });
}

// Of nobody nothing is known: it stands for itself alone.
bool is_outdone(const Asked& asked, const std::vector<Asked>& shorter) {
    return std::ranges::any_of(shorter, [&](const Asked& other) {
        return other.empty() ? asked.empty() : asks_all_of(asked, other);
    });
}

}  // namespace

std::vector<RoadNearWater> shortest_by_owner(const District& district,
                                             std::vector<RoadNearWater> ways,
                                             const OwnerOf& owner_of) {
    std::vector<RoadNearWater> kept;
    std::vector<Asked> of_water;
    for (RoadNearWater& way : ways) {
        if (kept.empty() || kept.back().water != way.water) {
            of_water.clear();
        }
        Asked asked = asked_of(district, way, owner_of);
        if (!is_outdone(asked, of_water)) {
            way.owner = in_words(asked);
            kept.push_back(std::move(way));
            of_water.push_back(std::move(asked));
        }
    }
    return kept;
}

}  // namespace farwater::planning
