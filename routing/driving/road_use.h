// Which profiles may use which road: one byte a road, one bit a profile.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "routing/network.h"

namespace farwater::routing {

using ProfileBits = std::uint8_t;
static_assert(most_profiles <= 8);

constexpr ProfileBits bit_of(std::size_t profile) {
    return static_cast<ProfileBits>(1U << profile);
}

// The profiles of tankers; all where there is no tanker. Without profiles the first bit stands for
// a vehicle of no weight and size, so that the road's access decides.
ProfileBits haulers(std::span<const Profile> profiles);
ProfileBits anyone(std::span<const Profile> profiles);

// Per road: the profiles that may use it loaded in this season.
std::vector<ProfileBits> loaded_use(const District& district, std::span<const Profile> profiles,
                                    const Season& season);
// The same in at least one of the district's seasons.
std::vector<ProfileBits> loaded_use_in_some_season(const District& district,
                                                   std::span<const Profile> profiles);

// The same in all of them.
std::vector<ProfileBits> loaded_use_in_every_season(const District& district,
                                                    std::span<const Profile> profiles);

// Per edge: 1 where its road has the bits that `wanted` names, some of them or all.
enum class Which : std::uint8_t { some, all };
std::vector<std::uint8_t> edges_used_by(const Network& network, std::span<const ProfileBits> use,
                                        ProfileBits wanted, Which which);

}  // namespace farwater::routing
