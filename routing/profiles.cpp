#include "routing/profiles.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "analyzer/district/sorted_once.h"

namespace farwater::routing {
namespace {

constexpr Volume large_tank = gallons(1250);
constexpr Weight large_weight = pounds(50'000);
constexpr Weight heaviest_apparatus = pounds(86'000);
constexpr Speed cap_of_large = mph(60);
constexpr Length widest_without_permit = feet(8.5);
constexpr Length tallest_without_permit = feet(13.5);

// The limits that stand on the district's roads, each once, ascending.
struct PostedLimits {
    std::vector<double> weights, widths, heights;
};

PostedLimits posted_limits(const std::vector<Road>& roads) {
    PostedLimits limits;
    for (const Road& road : roads) {
        if (road.weight_limit) {
            limits.weights.push_back(in_pounds(*road.weight_limit));
        }
        if (road.width) {
            limits.widths.push_back(in_metres(*road.width));
        }
        if (road.height_limit) {
            limits.heights.push_back(in_metres(*road.height_limit));
        }
    }
    limits.weights = sorted_once(std::move(limits.weights));
    limits.widths = sorted_once(std::move(limits.widths));
    limits.heights = sorted_once(std::move(limits.heights));
    return limits;
}

// How many different limits a measure exceeds.
long exceeded(const std::vector<double>& limits, double measure) {
    return std::ranges::lower_bound(limits, measure) - limits.begin();
}

// What the roads can tell vehicles apart by.
struct Standing {
    long loaded = 0, empty = 0, width = 0, height = 0;  // limits exceeded
    Speed top_speed;
    friend bool operator==(const Standing&, const Standing&) = default;
};

struct Group {
    UnitKind kind = UnitKind::other;
    std::vector<UnitIndex> members;
    VehicleSize size;
    WeightPerPower loaded_per_power, empty_per_power;
    Standing standing;
};

Standing standing_of(const VehicleSize& size, Speed top_speed, const PostedLimits& limits) {
    return {exceeded(limits.weights, in_pounds(size.loaded)),
            exceeded(limits.weights, in_pounds(size.empty)),
            exceeded(limits.widths, in_metres(size.width)),
            exceeded(limits.heights, in_metres(size.height)), top_speed};
}

Standing worst(const Standing& a, const Standing& b) {
    return {std::max(a.loaded, b.loaded), std::max(a.empty, b.empty), std::max(a.width, b.width),
            std::max(a.height, b.height), std::min(a.top_speed, b.top_speed)};
}

Weight estimated_weight(const Unit& unit, const Assumptions& assumptions) {
    return unit.kind == UnitKind::tanker
               ? assumptions.tanker_chassis +
                     pounds(assumptions.tanker_pounds_per_gallon) * in_gallons(unit.tank)
               : assumptions.engine_loaded;
}

// By the list, or because the district gives the estimate.
bool weight_is_known(const Unit& unit, const Assumptions& assumptions) {
    return unit.loaded || unit.empty ||
           assumptions.is_given(unit.kind == UnitKind::tanker ? "tanker_chassis_lb"
                                                              : "engine_loaded_lb");
}

Group group_of(UnitIndex index, const Unit& unit, const Assumptions& assumptions,
               const PostedLimits& limits) {
    const VehicleSize size = vehicle_size(unit, assumptions);
    return {unit.kind,
            {index},
            size,
            size.likely_loaded / size.power,
            size.likely_empty / size.power,
            standing_of(size, top_speed(unit, assumptions), limits)};
}

Group merged(const Group& a, const Group& b) {
    Group group = a;
    group.members.insert(group.members.end(), b.members.begin(), b.members.end());
    group.size.loaded = std::max(a.size.loaded, b.size.loaded);
    group.size.empty = std::max(a.size.empty, b.size.empty);
    group.size.width = std::max(a.size.width, b.size.width);
    group.size.height = std::max(a.size.height, b.size.height);
    group.loaded_per_power = std::max(a.loaded_per_power, b.loaded_per_power);
    group.empty_per_power = std::max(a.empty_per_power, b.empty_per_power);
    group.standing = worst(a.standing, b.standing);
    return group;
}

// What the members lose: first passages (limits newly exceeded, by every member), then speed.
struct Loss {
    long passages = 0;
    double miles_per_hour = 0.0;
    friend auto operator<=>(const Loss&, const Loss&) = default;
};

Loss loss_within(const Group& group, const Standing& result) {
    const Standing& own = group.standing;
    const auto members = static_cast<long>(group.members.size());
    const long passages = (result.loaded - own.loaded) + (result.empty - own.empty) +
                          (result.width - own.width) + (result.height - own.height);
    return {members * passages,
            static_cast<double>(members) * in_mph(own.top_speed - result.top_speed)};
}

Loss loss_by_merging(const Group& a, const Group& b) {
    const Standing result = worst(a.standing, b.standing);
    const Loss first = loss_within(a, result);
    const Loss second = loss_within(b, result);
    return {first.passages + second.passages, first.miles_per_hour + second.miles_per_hour};
}

using Pair = std::pair<std::size_t, std::size_t>;

// The two groups of one kind that lose least by merging, the first such two; none if no two are.
std::optional<Pair> least_loss(const std::vector<Group>& groups) {
    std::optional<Pair> best;
    Loss best_loss;
    for (std::size_t i = 0; i < groups.size(); ++i) {
        for (std::size_t j = i + 1; j < groups.size(); ++j) {
            if (groups[i].kind != groups[j].kind) {
                continue;
            }
            const Loss loss = loss_by_merging(groups[i], groups[j]);
            if (!best || loss < best_loss) {
                best = Pair{i, j};
                best_loss = loss;
            }
        }
    }
    return best;
}

void merge(std::vector<Group>& groups, Pair pair) {
    groups[pair.first] = merged(groups[pair.first], groups[pair.second]);
    groups.erase(groups.begin() + static_cast<std::ptrdiff_t>(pair.second));
}

// Members in order, and the name made of their ids.
Profile profile_of(const Group& group, const std::vector<Unit>& units) {
    Profile profile;
    profile.members = group.members;
    std::ranges::sort(profile.members);
    for (const UnitIndex member : profile.members) {
        profile.name += (profile.name.empty() ? "" : ", ") + at(units, member).id;
    }
    profile.kind = group.kind;
    profile.loaded = group.size.loaded;
    profile.empty = group.size.empty;
    profile.width = group.size.width;
    profile.height = group.size.height;
    profile.top_speed = group.standing.top_speed;
    profile.loaded_per_power = group.loaded_per_power;
    profile.empty_per_power = group.empty_per_power;
    return profile;
}

// One group for each way in which the roads treat units, in the order of their first members.
std::vector<Group> groups_that_roads_tell_apart(const District& district) {
    const PostedLimits limits = posted_limits(district.roads);
    std::vector<Group> groups;
    for (std::size_t u = 0; u < district.units.size(); ++u) {
        if (district.units[u].kind == UnitKind::other) {
            continue;
        }
        const Group alone = group_of(UnitIndex(u), district.units[u], district.assumptions, limits);
        const auto same = std::ranges::find_if(groups, [&](const Group& group) {
            return group.kind == alone.kind && group.standing == alone.standing;
        });
        if (same != groups.end()) {
            *same = merged(*same, alone);
        } else {
            groups.push_back(alone);
        }
    }
    return groups;
}

std::vector<ProfileIndex> most_members_first(std::span<const Profile> profiles, UnitKind kind) {
    std::vector<ProfileIndex> found;
    for (std::size_t p = 0; p < profiles.size(); ++p) {
        if (profiles[p].kind == kind) {
            found.emplace_back(p);
        }
    }
    std::ranges::stable_sort(found, [&](ProfileIndex a, ProfileIndex b) {
        return at(profiles, a).members.size() > at(profiles, b).members.size();
    });
    return found;
}

}  // namespace

VehicleSize vehicle_size(const Unit& unit, const Assumptions& assumptions) {
    const bool tanker = unit.kind == UnitKind::tanker;
    const Weight water = water_per_gallon * in_gallons(unit.tank);
    Weight loaded = unit.loaded.value_or(estimated_weight(unit, assumptions));
    if (unit.empty) {
        loaded = std::max(loaded, unit.loaded ? *unit.empty : *unit.empty + water);
    }
    const Weight empty = unit.empty.value_or(std::max(loaded - water, pounds(0)));
    const bool known = weight_is_known(unit, assumptions);
    return {
        .loaded = known ? loaded : heaviest_apparatus,
        .empty = known ? empty : heaviest_apparatus,
        .likely_loaded = loaded,
        .likely_empty = empty,
        .width = unit.width.value_or(widest_without_permit),
        .height = unit.height.value_or(tallest_without_permit),
        .power = unit.power.value_or(tanker ? assumptions.tanker_power : assumptions.engine_power)};
}

std::string weight_in_words(const Profile& profile, const District& district) {
    std::string unknown;
    for (const UnitIndex member : profile.members) {
        const Unit& unit = at(district.units, member);
        if (!weight_is_known(unit, district.assumptions)) {
            unknown += (unknown.empty() ? "" : ", ") + unit.id;
        }
    }
    const auto whole_pounds = [](Weight weight) {
        return std::to_string(std::lround(in_pounds(weight))) + " lb";
    };
    return unknown.empty()
               ? whole_pounds(profile.loaded) + " loaded, " + whole_pounds(profile.empty) + " empty"
               : "weight not known (" + unknown + "): no posted bridge is open";
}

Speed top_speed(const Unit& unit, const Assumptions& assumptions) {
    const Speed said =
        std::min(unit.top_speed.value_or(assumptions.speed_cap), assumptions.speed_cap);
    const bool large =
        unit.tank > large_tank || vehicle_size(unit, assumptions).likely_loaded > large_weight;
    return large ? std::min(said, cap_of_large) : said;
}

std::vector<Profile> vehicle_profiles(const District& district) {
    std::vector<Group> groups = groups_that_roads_tell_apart(district);
    const auto most = std::min<std::size_t>(
        static_cast<std::size_t>(std::max(district.assumptions.max_profiles, 1)), most_profiles);
    while (groups.size() > most) {
        const std::optional<Pair> pair = least_loss(groups);
        if (!pair) {
            break;  // one of engines and one of tankers are left
        }
        merge(groups, *pair);
    }
    std::ranges::stable_partition(
        groups, [](const Group& group) { return group.kind == UnitKind::engine; });
    std::vector<Profile> profiles;
    profiles.reserve(groups.size());
    for (const Group& group : groups) {
        profiles.push_back(profile_of(group, district.units));
    }
    return profiles;
}

std::vector<ProfileIndex> tanker_profiles(std::span<const Profile> profiles) {
    return most_members_first(profiles, UnitKind::tanker);
}

std::optional<ProfileIndex> response_profile(std::span<const Profile> profiles) {
    const std::vector<ProfileIndex> engines = most_members_first(profiles, UnitKind::engine);
    if (!engines.empty()) {
        return engines.front();
    }
    return profiles.empty() ? std::nullopt : std::optional(ProfileIndex(0));
}

}  // namespace farwater::routing
