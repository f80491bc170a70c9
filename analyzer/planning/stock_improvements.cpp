#include "analyzer/planning/stock_improvements.h"

#include <algorithm>
#include <array>
#include <map>

#include "analyzer/supply/roster.h"

namespace farwater::planning {
namespace {

constexpr Length more_hose = feet(1000);
constexpr Flow large_dump_valve = gpm(1000);  // a 10-in valve; common practice, no source
constexpr Volume usual_tank = gallons(2500);  // common practice, no source
constexpr std::array hose_by_size{&HoseLoad::hose_5in, &HoseLoad::hose_4in, &HoseLoad::hose_3in,
                                  &HoseLoad::hose_2_5in};

Improvement of_kind(ImprovementKind kind, ImprovedThing thing) {
    return {.name = {},
            .kind = kind,
            .thing = std::move(thing),
            .spending = {},
            .by = OfferedBy::program,
            .to_prove = {}};
}

// One of the district's own stations, and its units of each kind, by index.
class StockOfStation {
public:
    StockOfStation(const District& district, StationIndex station)
        : district_(district), station_(station) {
        for (std::size_t i = 0; i < district.units.size(); ++i) {
            const Unit& unit = district.units[i];
            if (unit.station != station || aid_of(district, unit) != Aid::own) {
                continue;
            }
            if (unit.kind == UnitKind::tanker) {
                tankers_.emplace_back(i);
            } else if (unit.kind == UnitKind::engine) {
                engines_.emplace_back(i);
            }
        }
    }

    void offer(std::vector<Improvement>& list, PeriodIndex thinnest) const {
        offer_tanker(list);
        offer_portable_tank(list);
        offer_siphon(list);
        offer_hose(list);
        offer_dump_valve(list);
        offer_crew(list, thinnest);
    }

private:
    const Unit& unit(UnitIndex index) const { return at(district_.units, index); }

    void offer_tanker(std::vector<Improvement>& list) const {
        std::map<double, int> by_tank;
        for (const UnitIndex tanker : tankers_) {
            ++by_tank[in_gallons(unit(tanker).tank)];
        }
        const auto most = std::ranges::max_element(
            tankers_, {}, [&](UnitIndex tanker) { return by_tank[in_gallons(unit(tanker).tank)]; });
        if (most != tankers_.end()) {
            list.push_back(
                of_kind(ImprovementKind::tanker,
                        MoreUnits{.kind = UnitKind::tanker, .station = station_, .like = *most}));
        }
    }

    void offer_portable_tank(std::vector<Improvement>& list) const {
        const std::vector<UnitIndex>& carriers = engines_.empty() ? tankers_ : engines_;
        if (!carriers.empty()) {
            list.push_back(of_kind(ImprovementKind::portable_tank,
                                   MorePortableTanks{carriers.front(), tank_of_district()}));
        }
    }

    // To a station of which no unit has one.
    void offer_siphon(std::vector<Improvement>& list) const {
        const std::vector<UnitIndex>& carriers = engines_.empty() ? tankers_ : engines_;
        const auto has_one = [&](UnitIndex index) { return unit(index).jet_siphons > 0; };
        if (!carriers.empty() && std::ranges::none_of(tankers_, has_one) &&
            std::ranges::none_of(engines_, has_one)) {
            list.push_back(of_kind(ImprovementKind::siphon, MoreSiphons{carriers.front()}));
        }
    }

    // The size that most tanks of the district have; of equals the larger.
    Volume tank_of_district() const {
        std::map<double, int> sizes;
        for (const Unit& one : district_.units) {
            if (one.portable_tanks > 0) {
                sizes[in_gallons(one.portable_tank) / one.portable_tanks] += one.portable_tanks;
            }
        }
        const auto most = std::ranges::max_element(
            sizes, [](const auto& a, const auto& b) { return a.second <= b.second; });
        return most == sizes.end() ? usual_tank : gallons(most->first);
    }

    void offer_hose(std::vector<Improvement>& list) const {
        if (engines_.empty()) {
            return;
        }
        Length HoseLoad::* largest = &HoseLoad::hose_2_5in;
        for (const auto size : hose_by_size) {
            if (std::ranges::any_of(engines_, [&](UnitIndex engine) {
                    return unit(engine).hose && *unit(engine).hose.*size > feet(0);
                })) {
                largest = size;
                break;
            }
        }
        list.push_back(
            of_kind(ImprovementKind::hose, MoreHose{engines_.front(), largest, more_hose}));
    }

    void offer_dump_valve(std::vector<Improvement>& list) const {
        const auto offload = [&](UnitIndex tanker) {
            return unit(tanker).offload.value_or(district_.assumptions.offload);
        };
        const auto slowest = std::ranges::min_element(tankers_, {}, offload);
        if (slowest != tankers_.end() && offload(*slowest) < large_dump_valve) {
            list.push_back(of_kind(ImprovementKind::offload,
                                   FasterOffload{*slowest, large_dump_valve, std::nullopt}));
        }
    }

    void offer_crew(std::vector<Improvement>& list, PeriodIndex thinnest) const {
        // Whoever can be sent somewhere is there.
        std::vector<UnitIndex> there;
        for (const std::string& zone : supply::response_zones(district_)) {
            for (const supply::Responder& one : supply::roster(district_, thinnest, zone)) {
                there.push_back(one.unit);
            }
        }
        for (const auto* units : {&tankers_, &engines_}) {
            for (const UnitIndex index : *units) {
                if (std::ranges::find(there, index) == there.end()) {
                    const int crew = std::max(unit(index).min_crew.value_or(1), 1);
                    list.push_back(of_kind(ImprovementKind::staffing,
                                           MorePeople{thinnest, {index}, crew, std::nullopt}));
                    return;
                }
            }
        }
    }

    const District& district_;
    StationIndex station_;
    std::vector<UnitIndex> tankers_, engines_;
};

}  // namespace

std::vector<Improvement> stock_improvements(const District& district, PeriodIndex thinnest) {
    std::vector<Improvement> list;
    for (std::size_t i = 0; i < district.stations.size(); ++i) {
        if (district.stations[i].aid == Aid::own) {
            StockOfStation(district, StationIndex(i)).offer(list, thinnest);
        }
    }
    for (std::size_t i = 0; i < district.units.size(); ++i) {
        const Unit& unit = district.units[i];
        if (aid_of(district, unit) == Aid::mutual && unit.kind != UnitKind::other) {
            list.push_back(of_kind(ImprovementKind::automatic_aid, AutomaticAid{{UnitIndex(i)}}));
        }
    }
    return list;
}

}  // namespace farwater::planning
