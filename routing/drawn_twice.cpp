#include "routing/drawn_twice.h"

#include <algorithm>
#include <string>
#include <utility>

#include "routing/noding/duplicates.h"
#include "routing/noding/road_problem.h"
#include "routing/speeds.h"

namespace farwater::routing {
namespace {

// A direction as it is called along a line that is drawn from the other end.
OneWay seen_from(bool reversed, OneWay way) {
    if (!reversed || way == OneWay::both) {
        return way;
    }
    return way == OneWay::forward ? OneWay::backward : OneWay::forward;
}

// What the duplicate says otherwise than the record that it is drawn as.
std::string differences(const Road& used, const Road& duplicate, bool reversed) {
    std::string list;
    const auto add = [&](bool differs, const char* what) {
        list += differs ? (list.empty() ? "" : ", ") + std::string(what) : "";
    };
    add(used.kind != duplicate.kind, "class");
    add(used.surface != duplicate.surface, "surface");
    add(used.access != duplicate.access, "access");
    add(used.one_way != seen_from(reversed, duplicate.one_way), "one_way");
    add(used.bridge != duplicate.bridge, "bridge");
    add(used.tunnel != duplicate.tunnel, "tunnel");
    add(used.rail_crossing != duplicate.rail_crossing, "railway crossing");
    add(!(used.maintained == duplicate.maintained), "maintained months");
    add(used.posted_speed != duplicate.posted_speed, "posted speed");
    add(used.width != duplicate.width, "width");
    add(used.weight_limit != duplicate.weight_limit, "weight limit");
    add(used.height_limit != duplicate.height_limit, "height limit");
    return list.empty() ? "" : "; they differ in " + list;
}

std::vector<Problem> duplicate_problems(const std::vector<Road>& roads,
                                        const std::vector<Duplicate>& duplicates) {
    std::vector<Problem> problems;
    for (const Duplicate& duplicate : duplicates) {
        const Road& road = roads[duplicate.road];
        const Road& used = roads[duplicate.of];
        problems.push_back(road_problem(ProblemId::road_duplicate, road,
                                        (road.name.empty() ? "" : road.name.text() + ", ") +
                                            "drawn as " + named(used) +
                                            differences(used, road, duplicate.reversed)));
    }
    return problems;
}

template <class Measure>
void take_lesser(Maybe<Measure>& own, const Maybe<Measure>& other) {
    own = own && other ? Maybe<Measure>(std::min(*own, *other)) : (own ? own : other);
}

// A class that nobody gave stands as narrow, and is no word against one that was given.
void take_slower_class(Road& own, const Road& other) {
    if (own.kind_known == other.kind_known) {
        own.kind = std::max(own.kind, other.kind);
    } else if (other.kind_known) {
        own.kind = other.kind;
        own.kind_known = true;
    }
    own.surface = own.surface && other.surface ? std::max(*own.surface, *other.surface)
                                               : (own.surface ? own.surface : other.surface);
}

// What of two records is the stricter, in one district.
class Stricter {
public:
    explicit Stricter(const District& district) : district_(district) {}

    void take(Road& own, const Road& other, bool reversed) const {
        take_slower_class(own, other);
        own.maintained = own.maintained.in_common(other.maintained);
        take_more_closed(own, other.access);
        own.one_way =
            own.one_way == OneWay::both ? seen_from(reversed, other.one_way) : own.one_way;
        own.bridge = own.bridge || other.bridge;
        own.tunnel = own.tunnel || other.tunnel;
        own.rail_crossing = own.rail_crossing || other.rail_crossing;
        take_lesser(own.posted_speed, other.posted_speed);
        take_lesser(own.width, other.width);
        take_lesser(own.weight_limit, other.weight_limit);
        take_lesser(own.height_limit, other.height_limit);
    }

private:
    // The seasons that close the access which is given up close the road all the same.
    void take_more_closed(Road& own, RoadAccess other) const {
        if (own.access == other) {
            return;
        }
        const bool others = rank(own.access) < rank(other);
        const RoadAccess given_up = others ? own.access : other;
        own.access = others ? other : own.access;
        own.maintained = own.maintained.in_common(open_months(given_up));
    }

    // What the assumptions keep shut goes before what they open.
    std::pair<bool, RoadAccess> rank(RoadAccess access) const {
        Road road;
        road.access = access;
        return {!open_to_apparatus(road, Season{}, district_.assumptions), access};
    }

    MonthSet open_months(RoadAccess access) const {
        MonthSet months = MonthSet::all();
        for (const Season& season : district_.seasons) {
            const auto& closed = season.closed_access;
            if (std::ranges::find(closed, access) != closed.end()) {
                months = months.without(season.months);
            }
        }
        return months;
    }

    const District& district_;
};

}  // namespace

std::vector<Problem> settle_drawn_twice(District& district) {
    std::vector<Road>& roads = district.roads;
    const JoinReach reach = reach_of(district.assumptions.join_tolerance);
    const std::vector<Duplicate> alike = drawn_alike(roads, reach);
    std::vector<Problem> problems = duplicate_problems(roads, first_of_each(alike));
    const Stricter stricter(district);
    // Twice, for what the last record says has still to reach a half beside another half.
    for (int round = 0; round < 2; ++round) {
        for (const Duplicate& pair : alike) {
            stricter.take(roads[pair.road], roads[pair.of], pair.reversed);
            stricter.take(roads[pair.of], roads[pair.road], pair.reversed);
        }
    }
    return problems;
}

}  // namespace farwater::routing
