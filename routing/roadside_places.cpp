#include "routing/roadside_places.h"

#include "routing/driving/road_use.h"
#include "routing/structures/nearest_road.h"

namespace farwater::routing {
namespace {

constexpr std::size_t parcels_per_chunk = 256;
constexpr std::size_t ends_of_a_junction = 3;

class Roadsides {
public:
    Roadsides(const District& district, const Network& network, std::span<const Profile> profiles)
        : district_(district), network_(network) {
        const std::vector<ProfileBits> use = loaded_use_in_some_season(district, profiles);
        const ProfileBits tankers = haulers(profiles);
        for (std::size_t r = 0; r < district.roads.size(); ++r) {
            const Road& road = district.roads[r];
            usable_.push_back((use[r] & tankers) != 0 && !road.bridge && !road.tunnel &&
                              road.kind != RoadClass::drive);
        }
    }

    std::vector<RoadsidePlace> by_public_parcels(const Work& work) const {
        std::vector<ParcelIndex> parcels;
        for (std::size_t i = 0; i < district_.parcels.size(); ++i) {
            if (district_.parcels[i].is_public) {
                parcels.emplace_back(i);
            }
        }
        const auto keep = [this](std::uint32_t road) { return usable_[road]; };
        const RoadFinder roads(district_.roads, keep);
        std::vector<RoadsidePlace> found(parcels.size());
        for_each_chunk(work, "roads by public land", parcels.size(), parcels_per_chunk,
                       [&](std::size_t begin, std::size_t end) {
                           for (std::size_t i = begin; i < end; ++i) {
                               const auto place =
                                   roads.nearest(at(district_.parcels, parcels[i]).house,
                                                 in_metres(district_.assumptions.access_reach),
                                                 keep, [](std::uint32_t) { return 0; });
                               if (place) {
                                   found[i] = {.place = rounded_to_mm(place->place),
                                               .parcel = parcels[i],
                                               .road = RoadIndex(place->segment.road)};
                               }
                           }
                       });
        std::erase_if(found, [](const RoadsidePlace& place) { return !place.road.valid(); });
        return found;
    }

    void add_junctions(std::vector<RoadsidePlace>& places) const {
        std::uint32_t number = 0;
        for (std::size_t n = 0; n < network_.nodes.size(); ++n) {
            std::optional<RoadsidePlace> place = junction_at(NodeIndex(n));
            if (place) {
                place->number = ++number;
                places.push_back(*place);
            }
        }
    }

private:
    std::optional<RoadsidePlace> junction_at(NodeIndex node) const {
        RoadsidePlace place{.place = rounded_to_mm(at(network_.nodes, node))};
        std::size_t ends = 0;
        for (const Incidence& incidence : network_.around(node)) {
            const RoadIndex road = at(network_.edges, incidence.edge).road;
            if (!usable_[road.position()]) {
                continue;
            }
            ++ends;
            if (!place.road.valid()) {
                place.road = road;
            } else if (!place.crossing.valid() &&
                       at(district_.roads, road).name != at(district_.roads, place.road).name) {
                place.crossing = road;
            }
        }
        return ends >= ends_of_a_junction ? std::optional(place) : std::nullopt;
    }

    const District& district_;
    const Network& network_;
    std::vector<bool> usable_;  // per road
};

}  // namespace

std::vector<RoadsidePlace> roadside_places(const District& district, const Network& network,
                                           std::span<const Profile> profiles, const Work& work) {
    const Roadsides roadsides(district, network, profiles);
    std::vector<RoadsidePlace> places = roadsides.by_public_parcels(work);
    roadsides.add_junctions(places);
    return places;
}

}  // namespace farwater::routing
