#include "analyzer/demand/needed_flow.h"

#include <algorithm>
#include <array>
#include <string>
#include <tuple>

#include "analyzer/demand/building_facts.h"
#include "analyzer/demand/method.h"

namespace farwater::demand {
namespace {

// The buildings of one parcel, as positions in the district's list.
struct BuildingRange {
    std::size_t begin = 0, end = 0;
};

// Walks through the buildings as the parcels go by.
class BuildingsInOrder {
public:
    explicit BuildingsInOrder(const District& district) : buildings_(district.buildings) {}

    BuildingRange of(std::size_t parcel) {
        while (at_ < buildings_.size() && buildings_[at_].parcel.position() < parcel) {
            ++at_;
        }
        const std::size_t begin = at_;
        while (at_ < buildings_.size() && buildings_[at_].parcel.position() == parcel) {
            ++at_;
        }
        return {begin, at_};
    }

private:
    std::span<const Building> buildings_;
    std::size_t at_ = 0;
};

bool is_size_known(const Building& building) { return building.area_m2 > 0.0F; }

constexpr float smallest_m2 = 1.0F;

// The need of a property that says it itself, or whose buildings do not tell.
Need given_or_default(std::optional<Flow> flow, std::optional<Duration> duration,
                      const Assumptions& assumptions) {
    Need need;
    need.flow = held(flow.value_or(assumptions.default_needed));
    need.duration = duration.value_or(assumptions.duration);
    need.from = flow ? NeedFrom::own_column : NeedFrom::default_flow;
    need.evidence =
        flow || assumptions.is_given("default_needed_gpm") ? Evidence::declared : Evidence::assumed;
    return need;
}

class Judge {
public:
    Judge(const District& district, const NeedRules& rules)
        : district_(district), rules_(rules), method_(method_of(rules)) {
        declared_.fill(false);
        declare(NeedInput::use, rules_.is_given("default_use"));
        declare(NeedInput::construction, rules_.is_given("default_construction"));
        declare(NeedInput::storeys, district.assumptions.is_given("default_storeys"));
    }

    std::optional<Need> of(const Parcel& parcel, BuildingRange range) const {
        if (!parcel.improved) {
            return std::nullopt;
        }
        Need need = given_or_default(
            rules_.method == NeedMethod::fixed ? no_flow : std::optional<Flow>(parcel.needed),
            parcel.duration, district_.assumptions);
        if (method_) {
            judge_buildings(parcel, range, need);
        }
        return need;
    }

private:
    static constexpr std::optional<Flow> no_flow = std::nullopt;

    struct Judged {
        BuildingNeed need;
        NeedInputs defaulted;
        bool dwelling = false;
        float area_m2 = 0.0F;
        std::size_t position = 0;

        // By flow, then by volume, then by footprint; of equals the earlier one.
        bool worse_than(const Judged& other) const {
            return std::tuple(need.flow, need.total_gal, area_m2) >
                   std::tuple(other.need.flow, other.need.total_gal, other.area_m2);
        }
    };

    void declare(NeedInput input, bool yes) { declared_[static_cast<std::size_t>(input)] = yes; }

    // One of no known size needs no less than the smallest of its kind does; how many gallons is
    // not known.
    Judged judged(std::size_t position) const {
        Building building = district_.buildings[position];
        const bool known = is_size_known(building);
        building.area_m2 = known ? building.area_m2 : smallest_m2;
        const BuildingFacts facts = facts_of(building, rules_, district_.assumptions);
        BuildingNeed need = method_(facts);
        need.total_gal = known ? need.total_gal : 0.0;
        return {need, facts.defaulted & need.looked_at, is_dwelling(facts.use),
                known ? building.area_m2 : 0.0F, position};
    }

    // The worst of a parcel's buildings, and its worst dwelling.
    struct Worst {
        std::optional<Judged> building, dwelling;
        bool all_known = true;
    };

    Worst worst_of(BuildingRange range) const {
        Worst worst;
        for (std::size_t i = range.begin; i < range.end; ++i) {
            worst.all_known = worst.all_known && is_size_known(district_.buildings[i]);
            const Judged one = judged(i);
            if (!worst.building || one.worse_than(*worst.building)) {
                worst.building = one;
            }
            if (one.dwelling && (!worst.dwelling || one.worse_than(*worst.dwelling))) {
                worst.dwelling = one;
            }
        }
        return worst;
    }

    static bool asks_for_more(const Judged& judged, HeldFlow than) {
        const HeldFlow flow = held(judged.need.flow);
        return flow > than || (flow == than && judged.area_m2 > 0.0F);
    }

    void judge_buildings(const Parcel& parcel, BuildingRange range, Need& need) const {
        const auto [worst, dwelling, all_known] = worst_of(range);
        need.dwelling = dwelling ? held(dwelling->need.flow) : HeldFlow{};
        // Of a building of no known size the default flow stands for what it may need beyond that.
        const bool judged_by_it = worst && (all_known || asks_for_more(*worst, need.flow));
        const bool own = need.from == NeedFrom::own_column;
        if (worst && (judged_by_it || own)) {
            need.worst = BuildingIndex(worst->position);
            need.total_gal = static_cast<float>(worst->need.total_gal);
        }
        if (!own) {
            judge(parcel, judged_by_it ? worst : std::nullopt, all_known, need);
        }
    }

    // `by`: the building that it is judged by; none: by the default flow.
    void judge(const Parcel& parcel, const std::optional<Judged>& by, bool all_known,
               Need& need) const {
        if (by) {
            take(*by, parcel, need);
        }
        if (!by || !all_known) {
            need.defaulted.add(NeedInput::footprint);
            need.evidence = by ? Evidence::assumed : need.evidence;
        }
    }

    void take(const Judged& worst, const Parcel& parcel, Need& need) const {
        need.from = NeedFrom::method;
        need.flow = held(worst.need.flow);
        need.defaulted = worst.defaulted;
        need.evidence = Evidence::declared;
        for (std::size_t i = 0; i < declared_.size(); ++i) {
            if (need.defaulted.has(static_cast<NeedInput>(i)) && !declared_[i]) {
                need.evidence = Evidence::assumed;
            }
        }
        const bool said = parcel.duration || district_.assumptions.is_given("duration_min");
        if (!said) {
            need.duration = std::max(need.duration, worst.need.duration);
        }
    }

    const District& district_;
    const NeedRules& rules_;
    Method method_;
    std::array<bool, 4> declared_{};  // by NeedInput: its default is the district's own word
};

std::size_t nearest_to(Point place, std::span<const Building> buildings, BuildingRange range) {
    std::size_t nearest = range.begin;
    for (std::size_t i = range.begin; i < range.end; ++i) {
        if (distance_squared(place, buildings[i].place) <
            distance_squared(place, buildings[nearest].place)) {
            nearest = i;
        }
    }
    return nearest;
}

}  // namespace

std::vector<std::optional<Need>> needs_of(const District& district) {
    return needs_under(district, district.need);
}

std::vector<std::optional<Need>> needs_under(const District& district, const NeedRules& rules) {
    const Judge judge(district, rules);
    BuildingsInOrder buildings(district);
    std::vector<std::optional<Need>> needs;
    needs.reserve(district.parcels.size() + district.targets.size());
    for (std::size_t i = 0; i < district.parcels.size(); ++i) {
        needs.push_back(judge.of(district.parcels[i], buildings.of(i)));
    }
    for (const Target& target : district.targets) {
        needs.emplace_back(given_or_default(target.needed, target.duration, district.assumptions));
    }
    return needs;
}

void move_houses(District& district, std::span<const std::optional<Need>> needs) {
    BuildingsInOrder buildings(district);
    for (std::size_t i = 0; i < district.parcels.size(); ++i) {
        const BuildingRange range = buildings.of(i);
        if (!needs[i] || !needs[i]->worst.valid()) {
            continue;
        }
        Parcel& parcel = district.parcels[i];
        const std::size_t worst = needs[i]->worst.position();
        if (parcel.house_from == HousePlace::address_point &&
            nearest_to(parcel.house, district.buildings, range) == worst) {
            continue;
        }
        parcel.house = district.buildings[worst].place;
        parcel.house_from = HousePlace::building;
    }
}

std::vector<Problem> need_problems(const District& district,
                                   std::span<const std::optional<Need>> needs) {
    std::array<std::size_t, 4> counts{};
    std::size_t improved = 0;
    for (std::size_t row = 0; row < district.parcels.size(); ++row) {
        improved += needs[row] ? 1U : 0U;
        for (std::size_t i = 0; needs[row] && i < counts.size(); ++i) {
            counts[i] += needs[row]->defaulted.has(static_cast<NeedInput>(i)) ? 1U : 0U;
        }
    }
    std::vector<Problem> problems;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (counts[i] > 0) {
            problems.push_back({ProblemId::need_input_defaulted, "parcels", "", "",
                                std::string(words_of(NeedInput{})[i]),
                                std::to_string(counts[i]) + " of " + std::to_string(improved) +
                                    " improved parcels"});
        }
    }
    return problems;
}

}  // namespace farwater::demand
