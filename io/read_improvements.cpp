#include "io/read_improvements.h"

#include <algorithm>
#include <functional>

#include <fmt/format.h>

#include "io/near_word.h"
#include "io/records/refer.h"
#include "io/settings/faults.h"

namespace farwater::io {
namespace {

// One table, its ids looked up in the district.
class ImprovementReading {
public:
    ImprovementReading(const ImprovementSpec& spec, const District& district,
                       std::span<const ProposedSource> places, Faults& faults)
        : spec_(spec), district_(district), places_(places), faults_(faults) {}

    Improvement read() {
        Improvement improvement;
        improvement.name = text("name");
        improvement.kind = spec_.kind;
        improvement.spending = {number("cost"), number("life_years"), number("upkeep_per_year")};
        improvement.thing = thing(improvement);
        return improvement;
    }

private:
    ImprovedThing thing(Improvement& improvement) {
        switch (spec_.kind) {
            case ImprovementKind::tanker:
                return more_units(UnitKind::tanker);
            case ImprovementKind::fill_engine:
                return more_units(UnitKind::engine);
            case ImprovementKind::portable_tank:
                return MorePortableTanks{unit("unit"), gallons(*number("gallons")), count()};
            case ImprovementKind::siphon:
                return MoreSiphons{unit("unit"), count()};
            case ImprovementKind::hose:
                return more_hose();
            case ImprovementKind::offload:
                return faster_offload();
            case ImprovementKind::automatic_aid:
                return AutomaticAid{mutual_units()};
            case ImprovementKind::winter_access:
                return winter_access();
            case ImprovementKind::bridge:
                return posting_lifted();
            case ImprovementKind::staffing:
                return more_people();
            case ImprovementKind::source:
                return new_source(improvement);
        }
        return {};
    }

    MoreUnits more_units(UnitKind kind) {
        MoreUnits more{.kind = kind, .station = station(), .like = unit("like")};
        if (more.like.valid() && at(district_.units, more.like).kind != kind) {
            fault("like", fmt::format("is no {}", word(kind)));
        }
        more.tank = quantity("gallons", &gallons);
        more.pump = quantity("pump_gpm", &gpm);
        more.fill_limit = quantity("fill_limit_gpm", &gpm);
        more.offload = quantity("offload_gpm", &gpm);
        more.count = count();
        return more;
    }

    MoreHose more_hose() {
        MoreHose more{.unit = unit("unit"), .length = feet(*number("length_ft"))};
        if (more.unit.valid() && at(district_.units, more.unit).kind != UnitKind::engine) {
            fault("unit", "is no engine, and only engines' hose is laid");
        }
        const double diameter = *number("diameter_in");
        more.size = diameter < 3.0   ? &HoseLoad::hose_2_5in
                    : diameter < 4.0 ? &HoseLoad::hose_3in
                    : diameter < 5.0 ? &HoseLoad::hose_4in
                                     : &HoseLoad::hose_5in;
        return more;
    }

    FasterOffload faster_offload() {
        const FasterOffload faster{unit("unit"), gpm(*number("offload_gpm")),
                                   spec_.backs_to_offload};
        if (faster.unit.valid() && at(district_.units, faster.unit).kind != UnitKind::tanker) {
            fault("unit", "is no tanker");
        }
        return faster;
    }

    std::vector<UnitIndex> mutual_units() {
        std::vector<UnitIndex> units = units_meant();
        std::erase_if(units, [&](UnitIndex index) {
            const Unit& unit = at(district_.units, index);
            return aid_of(district_, unit) != Aid::mutual;
        });
        if (units.empty()) {
            const std::string_view key = given("unit") ? "unit" : "station";
            fault(key, "has no mutual aid to make automatic", true);
        }
        return units;
    }

    ImprovedThing winter_access() {
        if (given("source")) {
            return SourceInWinter{look_up<SourceIndex>("source", district_.sources,
                                                       &WaterSource::id, "[water_sources]")};
        }
        return RoadsKeptOpen{roads(
            [](const Road& road) {
                return road.maintained != MonthSet::all() ||
                       road.access == RoadAccess::unmaintained;
            },
            "is maintained all year")};
    }

    ImprovedThing posting_lifted() {
        return PostingLifted{roads([](const Road& road) { return road.weight_limit.has_value(); },
                                   "has no posted weight"),
                             quantity("weight_limit_lb", &pounds)};
    }

    ImprovedThing more_people() {
        MorePeople people{.period = look_up<PeriodIndex>("period", district_.periods, &Period::name,
                                                         "the district file's periods"),
                          .units = units_meant()};
        if (const std::optional<double> crew = number("crew")) {
            people.crew = static_cast<int>(*crew);
        }
        people.turnout = quantity("turnout_min", &minutes);
        return people;
    }

    ImprovedThing new_source(Improvement& improvement) {
        std::vector<std::string_view> ids;
        for (const ProposedSource& place : places_) {
            ids.push_back(place.source.id);
            if (place.source.id == text("proposal")) {
                Spending& spending = improvement.spending;
                spending.cost = spending.cost ? spending.cost : place.cost;
                return NewSource{place.source};
            }
        }
        fault("proposal", fmt::format("is none of the {} places that `propose` can choose from{}",
                                      ids.size(), did_you_mean(text("proposal"), ids)));
        return NewSource{};
    }

    // The units of a station, or the one that is named.
    std::vector<UnitIndex> units_meant() {
        if (given("unit")) {
            const UnitIndex one = unit("unit");
            return one.valid() ? std::vector{one} : std::vector<UnitIndex>{};
        }
        const StationIndex home = station();
        std::vector<UnitIndex> units;
        for (std::size_t i = 0; i < district_.units.size(); ++i) {
            if (district_.units[i].station == home) {
                units.emplace_back(i);
            }
        }
        if (units.empty() && home.valid()) {
            fault("station", "has no units");
        }
        return units;
    }

    std::vector<RoadIndex> roads(const std::function<bool(const Road&)>& would_change,
                                 std::string_view why_not) {
        const std::string name = text("road");
        std::vector<RoadIndex> found;
        bool known = false;
        for (std::size_t i = 0; i < district_.roads.size(); ++i) {
            const Road& road = district_.roads[i];
            if (!name.empty() && (road.name == name || row_name(road.row) == name)) {
                known = true;
                if (would_change(road)) {
                    found.emplace_back(i);
                }
            }
        }
        if (!known) {
            std::vector<std::string_view> names;
            for (const Road& road : district_.roads) {
                names.push_back(road.name);
            }
            fault("road", fmt::format("is no road of [roads]{}", did_you_mean(name, names)));
        } else if (found.empty()) {
            fault("road", why_not);
        }
        return found;
    }

    UnitIndex unit(std::string_view key) {
        return look_up<UnitIndex>(key, district_.units, &Unit::id, "[apparatus]");
    }
    StationIndex station() {
        return look_up<StationIndex>("station", district_.stations, &Station::id, "[stations]");
    }

    // Not valid where the key is not there and, with a fault, where nothing has that id.
    template <class Index, class Thing>
    Index look_up(std::string_view key, const std::vector<Thing>& things, std::string Thing::* id,
                  std::string_view where) {
        if (!given(key)) {
            return {};
        }
        const auto found = find_in<Index>(things, text(key), std::mem_fn(id));
        if (found.valid()) {
            return found;
        }
        std::vector<std::string_view> ids;
        for (const Thing& thing : things) {
            ids.push_back(thing.*id);
        }
        fault(key, fmt::format("is not in {}{}", where, did_you_mean(text(key), ids)));
        return {};
    }

    void fault(std::string_view key, std::string_view what, bool unless_told = false) {
        if (!unless_told || !faulty_) {
            faults_.add(spec_.places.find(key)->second,
                        fmt::format("[[improvement]] {} \"{}\" {}", key, text(key), what));
        }
        faulty_ = true;
    }

    bool given(std::string_view key) const { return spec_.texts.contains(key); }
    std::string text(std::string_view key) const {
        const auto found = spec_.texts.find(key);
        return found == spec_.texts.end() ? std::string() : found->second;
    }
    std::optional<double> number(std::string_view key) const {
        const auto found = spec_.numbers.find(key);
        return found == spec_.numbers.end() ? std::nullopt : std::optional(found->second);
    }
    template <class Quantity>
    std::optional<Quantity> quantity(std::string_view key, Quantity (*of)(double)) const {
        const std::optional<double> value = number(key);
        return value ? std::optional(of(*value)) : std::nullopt;
    }
    int count() const { return static_cast<int>(number("count").value_or(1.0)); }

    const ImprovementSpec& spec_;
    const District& district_;
    std::span<const ProposedSource> places_;
    Faults& faults_;
    bool faulty_ = false;
};

}  // namespace

std::vector<Improvement> read_improvements(const DistrictFile& file, const District& district,
                                           std::span<const ProposedSource> places) {
    Faults faults(file.path.string());
    std::vector<Improvement> improvements;
    for (const ImprovementSpec& spec : file.improvements) {
        improvements.push_back(ImprovementReading(spec, district, places, faults).read());
    }
    faults.throw_if_any();
    return improvements;
}

}  // namespace farwater::io
