#include "routing/driving/road_use.h"

#include "routing/speeds.h"

namespace farwater::routing {
namespace {

ProfileBits use_of(const Road& road, std::span<const Profile> profiles, const Season& season,
                   const Assumptions& assumptions) {
    if (profiles.empty()) {
        return open_to_apparatus(road, season, assumptions) ? bit_of(0) : ProfileBits{0};
    }
    ProfileBits bits = 0;
    for (std::size_t p = 0; p < profiles.size(); ++p) {
        if (may_use(road, profiles[p], season, Load::loaded, assumptions)) {
            bits |= bit_of(p);
        }
    }
    return bits;
}

}  // namespace

ProfileBits anyone(std::span<const Profile> profiles) {
    ProfileBits bits = bit_of(0);
    for (std::size_t p = 1; p < profiles.size(); ++p) {
        bits |= bit_of(p);
    }
    return bits;
}

ProfileBits haulers(std::span<const Profile> profiles) {
    ProfileBits bits = 0;
    for (std::size_t p = 0; p < profiles.size(); ++p) {
        bits |= profiles[p].kind == UnitKind::tanker ? bit_of(p) : ProfileBits{0};
    }
    return bits != 0 ? bits : anyone(profiles);
}

std::vector<ProfileBits> loaded_use(const District& district, std::span<const Profile> profiles,
                                    const Season& season) {
    std::vector<ProfileBits> use;
    use.reserve(district.roads.size());
    for (const Road& road : district.roads) {
        use.push_back(use_of(road, profiles, season, district.assumptions));
    }
    return use;
}

std::vector<ProfileBits> loaded_use_in_some_season(const District& district,
                                                   std::span<const Profile> profiles) {
    std::vector<ProfileBits> use(district.roads.size(), 0);
    for (const Season& season : district.seasons) {
        const std::vector<ProfileBits> now = loaded_use(district, profiles, season);
        for (std::size_t r = 0; r < use.size(); ++r) {
            use[r] |= now[r];
        }
    }
    return use;
}

std::vector<ProfileBits> loaded_use_in_every_season(const District& district,
                                                    std::span<const Profile> profiles) {
    std::vector<ProfileBits> use(district.roads.size(), anyone(profiles));
    for (const Season& season : district.seasons) {
        const std::vector<ProfileBits> now = loaded_use(district, profiles, season);
        for (std::size_t r = 0; r < use.size(); ++r) {
            use[r] &= now[r];
        }
    }
    return use;
}

std::vector<std::uint8_t> edges_used_by(const Network& network, std::span<const ProfileBits> use,
                                        ProfileBits wanted, Which which) {
    std::vector<std::uint8_t> marks(network.edges.size(), 0);
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        const ProfileBits there = at(use, network.edges[e].road) & wanted;
        const bool all = there == wanted;
        const bool some = there != 0;
        marks[e] = static_cast<std::uint8_t>(which == Which::all ? all : some);
    }
    return marks;
}

}  // namespace farwater::routing
