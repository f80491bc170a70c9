#include "analyzer/supply/assess.h"

#include <algorithm>
#include <compare>
#include <utility>

#include "analyzer/supply/case_answers.h"
#include "analyzer/supply/direct.h"
#include "analyzer/supply/shuttle_case.h"

namespace farwater::supply {
namespace {

constexpr std::int32_t half_minute = 300;  // tenths of a second
constexpr std::size_t cases_per_chunk = 16;
constexpr std::size_t rows_per_chunk = 1024;

std::string_view zone_of(const District& district, std::size_t row) {
    return row < district.parcels.size() ? std::string_view(district.parcels[row].zone) : "";
}

Point place_of(const District& district, std::size_t row) {
    return row < district.parcels.size() ? district.parcels[row].house
                                         : district.targets[row - district.parcels.size()].place;
}

struct CaseKey {
    DumpSiteIndex dump_site;
    ApproachIndex approach;  // as the lay has it
    LaneClass lane = LaneClass::dead_end;
    std::int32_t arrival_half_minutes = 0;
    std::int32_t duration_tenths = 0;  // of a minute
    std::uint32_t zone = 0;
    friend auto operator<=>(const CaseKey&, const CaseKey&) = default;
};

// One of a parcel's hose lays, the case that answers for it, and where the answer goes.
struct Keyed {
    CaseKey key;
    std::uint32_t row = 0;
    std::uint32_t lay = 0;   // place in the parcel's list
    std::uint32_t slot = 0;  // each has its own
    friend auto operator<=>(const Keyed&, const Keyed&) = default;
};

struct Rosters {
    std::vector<std::string> zones;
    std::vector<std::vector<Responder>> responders;  // per zone

    // Zones without rules respond as "" does.
    std::uint32_t zone_of(std::string_view name) const {
        const auto zone = std::ranges::lower_bound(zones, name);
        return zone != zones.end() && *zone == name
                   ? static_cast<std::uint32_t>(zone - zones.begin())
                   : 0;
    }
};

Rosters rosters_of(const Situation& situation) {
    Rosters rosters{response_zones(situation.district), {}};
    for (const std::string& zone : rosters.zones) {
        rosters.responders.push_back(roster(situation.district, situation.period, zone));
    }
    return rosters;
}

// What the answer rests on and is not there at all; the district-wide reasons come first.
std::optional<ProblemId> unknown_because(const Situation& situation, std::size_t row) {
    const auto& units = situation.district.units;
    const auto has = [&](UnitKind kind) {
        return std::ranges::any_of(units, [&](const Unit& unit) { return unit.kind == kind; });
    };
    if (!has(UnitKind::engine)) {
        return ProblemId::fleet_without_engines;
    }
    if (!has(UnitKind::tanker)) {
        return ProblemId::fleet_without_tankers;
    }
    if (situation.water.counted.empty()) {
        return ProblemId::no_source_counts;
    }
    if (!situation.access[row].road.valid()) {
        return ProblemId::parcel_no_road_in_reach;
    }
    return std::nullopt;
}

ParcelSupply without_shuttle(const Need& need, SupplyState state, Limit limit) {
    ParcelSupply supply = unanswered(need);
    supply.state = state;
    supply.limit = limit;
    return supply;
}

// A house farther from the road than hose lies over land lacks hose; else it lacks a dump site.
Limit why_no_lay(const Situation& situation, std::size_t row) {
    const bool far = situation.access[row].off_road > situation.district.assumptions.off_road_hose;
    return far ? Limit::hose : Limit::no_dump_site;
}

ParcelSupply without_building() {
    ParcelSupply supply;
    supply.state = SupplyState::no_building;
    return supply;
}

// Everything that is settled before a dump site comes into it; none = a case decides.
std::optional<ParcelSupply> settled(const Situation& situation, const std::optional<Need>& need,
                                    std::size_t row, DriveTime first_arrival) {
    if (!need) {
        return without_building();
    }
    if (const auto why = unknown_because(situation, row)) {
        ParcelSupply supply = without_shuttle(*need, SupplyState::unknown, Limit::none);
        supply.reason = why;
        return supply;
    }
    if (!reachable(first_arrival)) {
        return without_shuttle(*need, SupplyState::unreached, Limit::no_route);
    }
    if (situation.trips.hose_lays[row].empty()) {
        ParcelSupply supply =
            without_shuttle(*need, SupplyState::tank_only, why_no_lay(situation, row));
        supply.first_engine = rounded_up(duration_of(first_arrival));
        return supply;
    }
    return std::nullopt;
}

std::vector<std::size_t> group_begins(const std::vector<Keyed>& keyed) {
    std::vector<std::size_t> begins;
    for (std::size_t i = 0; i < keyed.size(); ++i) {
        if (i == 0 || keyed[i].key != keyed[i - 1].key) {
            begins.push_back(i);
        }
    }
    begins.push_back(keyed.size());
    return begins;
}

// Everything that the cases of one season and period share.
class Assessor {
public:
    Assessor(const Situation& situation, const std::vector<std::optional<Need>>& needs,
             const std::vector<DriveTime>& first_arrivals)
        : situation_(situation),
          needs_(needs),
          first_arrivals_(first_arrivals),
          rosters_(rosters_of(situation)),
          lanes_matter_(std::ranges::any_of(situation.district.units,
                                            [](const Unit& unit) {
                                                return unit.kind == UnitKind::tanker &&
                                                       !unit.backs_to_offload;
                                            })),
          profile_of_(profile_of_units(situation.district, situation.profiles)) {}

    std::optional<ParcelSupply> settled_answer(std::size_t row) const {
        return settled(situation_, needs_[row], row, first_arrivals_[row]);
    }

    // By hose from a source, where that can be and the answer is known but for that.
    std::optional<ParcelSupply> direct(std::size_t row, const ParcelSupply& shuttle) const {
        return asks_for_hose(row, shuttle)
                   ? direct_supply(situation_, profile_of_, responders_of(row), row, fire_at(row))
                   : std::nullopt;
    }
    bool asks_for_hose(std::size_t row, const ParcelSupply& shuttle) const {
        return needs_[row] && shuttle.state != SupplyState::unknown &&
               reachable(first_arrivals_[row]);
    }

    // Precondition: no settled answer.
    Keyed keyed(std::size_t row, std::size_t lay, std::size_t slot) const {
        const HoseLay& hose = situation_.trips.hose_lays[row][lay];
        return {{hose.dump_site, hose.approach, hose.lane,
                 in_tenths(first_arrivals_[row]) / half_minute,
                 in_tenths(rounded_up(needs_[row].value_or(Need{}).duration)), zone_at(row)},
                static_cast<std::uint32_t>(row),
                static_cast<std::uint32_t>(lay),
                static_cast<std::uint32_t>(slot)};
    }

    // The answer of each item into its slot.
    void answer(std::vector<Keyed> items, std::vector<ParcelSupply>& slots,
                const Work& work) const {
        for_each_case(std::move(items), work,
                      [&](std::span<const Keyed> of_case) { answer_group(of_case, slots); });
    }

    // What each item's lay promises, into its slot.
    void promise(std::vector<Keyed> items, std::vector<HeldFlow>& slots, const Work& work) const {
        for_each_case(std::move(items), work, [&](std::span<const Keyed> of_case) {
            const CaseKey& key = of_case.front().key;
            const Scene scene = scene_of(key);
            const HeldFlow promised =
                promise_of(situation_, scene, minutes(key.duration_tenths / 10.0));
            for (const Keyed& item : of_case) {
                slots[item.slot] = std::min(promised, carried(scene, item));
            }
        });
    }

    // Whether the lay is tried beside the first one, which promises something: where ways are taken
    // from that by its hose, or tankers must back there and not here.
    bool worth_trying(std::size_t row, std::size_t lay) const {
        const std::span<const HoseLay> lays = situation_.trips.hose_lays[row];
        const bool spares_backing =
            lays.front().lane == LaneClass::dead_end && lays[lay].lane == LaneClass::through;
        return lays.front().approach.valid() || (lanes_matter_ && spares_backing);
    }

    // One lay, as `answer` looks at it.
    ShuttleWorking look_at(std::size_t row, std::size_t lay) const {
        const CaseKey key = keyed(row, lay, 0).key;
        const HouseOnFire fire = fire_at(row);
        ShuttleWorking look{.lay = situation_.trips.hose_lays[row][lay],
                            .scene = scene_of(key),
                            .shuttle = {},
                            .fill_sites = {},
                            .line = std::nullopt,
                            .supply = {}};
        look.shuttle = case_of(key, look.scene);
        CaseAnswers answers(situation_, look.scene, look.shuttle);
        look.supply = answers.supply_of(fire, look.lay);
        if (look.supply.fill_sites() > 1) {
            look.shuttle = ShuttleCase(look.shuttle.several.front());
        }
        look.line = house_line(situation_, look.scene, fire.place, look.lay.length);
        if (look.scene.missing == Limit::none) {
            for (const FillTrip& trip :
                 situation_.trips.fill_trips[look.scene.approach.position()]) {
                look.fill_sites.push_back({at(situation_.fill_places, trip.fill_site).source,
                                           trip.fill_site,
                                           at(situation_.trips.fill_lanes, trip.fill_site),
                                           plan_with(situation_, look.scene, trip)});
            }
        }
        return look;
    }

    const std::vector<Responder>& responders_of(std::size_t row) const {
        return rosters_.responders[zone_at(row)];
    }

    std::vector<HoseOption> hose_options_of(std::size_t row) const {
        return hose_options(situation_, profile_of_, responders_of(row), row, fire_at(row));
    }

private:
    Scene scene_of(const CaseKey& key) const {
        HoseLay lay;
        lay.dump_site = key.dump_site;
        lay.approach = key.approach;
        lay.lane = key.lane;
        return scene_at(situation_, profile_of_, rosters_.responders[key.zone], lay,
                        minutes(key.arrival_half_minutes / 2.0));
    }
    ShuttleCase case_of(const CaseKey& key, const Scene& scene) const {
        return work_out(situation_, scene, minutes(key.duration_tenths / 10.0));
    }

    template <class Look>
    static void for_each_case(std::vector<Keyed> items, const Work& work, const Look& look) {
        std::ranges::sort(items);
        const std::vector<std::size_t> begins = group_begins(items);
        for_each_chunk(work, "supply", begins.size() - 1, cases_per_chunk,
                       [&](std::size_t first, std::size_t last) {
                           for (std::size_t group = first; group < last; ++group) {
                               look(std::span<const Keyed>(items).subspan(
                                   begins[group], begins[group + 1] - begins[group]));
                           }
                       });
    }

    // What hose carries to the house.
    HeldFlow carried(const Scene& scene, const Keyed& item) const {
        const auto line = house_line(situation_, scene, place_of(situation_.district, item.row),
                                     situation_.trips.hose_lays[item.row][item.lay].length);
        return line ? held(line->flow) : HeldFlow{};
    }

    std::uint32_t zone_at(std::size_t row) const {
        return rosters_.zone_of(zone_of(situation_.district, row));
    }

    // Precondition: there is a need, and an engine gets there.
    HouseOnFire fire_at(std::size_t row) const {
        return {place_of(situation_.district, row), needs_[row].value_or(Need{}),
                duration_of(first_arrivals_[row])};
    }

    void answer_group(std::span<const Keyed> items, std::vector<ParcelSupply>& slots) const {
        const CaseKey& key = items.front().key;
        const Scene scene = scene_of(key);
        const ShuttleCase shuttle = case_of(key, scene);
        CaseAnswers answers(situation_, scene, shuttle);
        for (const Keyed& item : items) {
            slots[item.slot] = answers.supply_of(fire_at(item.row),
                                                 situation_.trips.hose_lays[item.row][item.lay]);
        }
    }

    const Situation& situation_;
    const std::vector<std::optional<Need>>& needs_;
    const std::vector<DriveTime>& first_arrivals_;
    Rosters rosters_;
    bool lanes_matter_;  // there is a tanker that need not back where it can drive through
    std::vector<ProfileIndex> profile_of_;
};

// The lays of many rows that are looked at, one after the other.
struct Trials {
    std::vector<std::uint32_t> row;
    Lists<std::size_t> lays;         // per item of `row`
    std::vector<HeldFlow> promised;  // per item of `lays`

    void add(std::size_t one, std::span<const HoseLay> hose_lays) {
        const LaysLookedAt looked = lays_looked_at(hose_lays);
        row.push_back(static_cast<std::uint32_t>(one));
        lays.items.insert(lays.items.end(), looked.all().begin(), looked.all().end());
        lays.close_row();
    }
};

// Of rows with one lay nothing is asked, nor of lays that are not tried.
void add_promises(const Assessor& assessor, Trials& trials, const Work& work) {
    trials.promised.assign(trials.lays.items.size(), HeldFlow{});
    const auto keyed = [&](std::size_t trial, std::size_t item) {
        return assessor.keyed(trials.row[trial], trials.lays.items[item], item);
    };
    std::vector<Keyed> first;
    for (std::size_t trial = 0; trial < trials.row.size(); ++trial) {
        if (trials.lays[trial].size() > 1) {
            first.push_back(keyed(trial, trials.lays.begin[trial]));
        }
    }
    assessor.promise(std::move(first), trials.promised, work);
    std::vector<Keyed> others;
    for (std::size_t trial = 0; trial < trials.row.size(); ++trial) {
        const std::size_t begin = trials.lays.begin[trial];
        for (std::size_t i = begin + 1; i < trials.lays.begin[trial + 1]; ++i) {
            if (trials.promised[begin] > HeldFlow{} &&
                assessor.worth_trying(trials.row[trial], trials.lays.items[i])) {
                others.push_back(keyed(trial, i));
            }
        }
    }
    assessor.promise(std::move(others), trials.promised, work);
}

// The lay of a row that promises most, the first of equals.
std::size_t most_promising(const Trials& trials, std::size_t trial) {
    const std::span<const std::size_t> lays = trials.lays[trial];
    const auto promised = std::span(trials.promised).subspan(trials.lays.begin[trial], lays.size());
    return lays[static_cast<std::size_t>(std::ranges::max_element(promised) - promised.begin())];
}

// Whether the other lays are worked out too: a bound may promise what does not come.
bool promised_too_much(const ParcelSupply& supply) { return supply.cautious <= HeldFlow{}; }

// Direct supply needs no tanker: of answers that are as good it is taken. What the other mode would
// give stays beside it.
void take_direct_if_better(const Assessor& assessor, std::size_t row, ParcelSupply& supply) {
    std::optional<ParcelSupply> direct = assessor.direct(row, supply);
    if (!direct) {
        return;
    }
    direct->wheels_gal = supply.wheels_gal;
    const bool shuttle_is_better = worse(*direct, supply);
    ParcelSupply& better = shuttle_is_better ? supply : *direct;
    const ParcelSupply& other = shuttle_is_better ? *direct : supply;
    if (in_tenths(other.cautious) > 0) {
        better.runner_up = other.mode;
        better.runner_up_cautious = other.cautious;
    }
    supply = better;
}

// Works out the most promising lay of each row; where nothing is held from it, the others too, and
// keeps the better answer.
void take_best_lays(const Assessor& assessor, const Trials& trials,
                    std::vector<ParcelSupply>& supplies, const Work& work) {
    std::vector<Keyed> keyed;
    for (std::size_t trial = 0; trial < trials.row.size(); ++trial) {
        const std::uint32_t row = trials.row[trial];
        keyed.push_back(assessor.keyed(row, most_promising(trials, trial), row));
    }
    assessor.answer(std::move(keyed), supplies, work);
    keyed.clear();
    for (std::size_t trial = 0; trial < trials.row.size(); ++trial) {
        const std::uint32_t row = trials.row[trial];
        for (const std::size_t lay : trials.lays[trial]) {
            if (promised_too_much(supplies[row]) && lay != most_promising(trials, trial)) {
                keyed.push_back(assessor.keyed(row, lay, keyed.size()));
            }
        }
    }
    std::vector<ParcelSupply> others(keyed.size());
    const std::vector<Keyed> in_order = keyed;
    assessor.answer(std::move(keyed), others, work);
    for (const Keyed& item : in_order) {
        if (worse(supplies[item.row], others[item.slot])) {
            supplies[item.row] = others[item.slot];
        }
    }
}

}  // namespace

std::vector<ParcelSupply> assess(const Situation& situation,
                                 const std::vector<std::optional<Need>>& needs,
                                 const std::vector<DriveTime>& first_arrivals, const Work& work) {
    const Assessor assessor(situation, needs, first_arrivals);
    std::vector<ParcelSupply> supplies(needs.size());
    Trials trials;
    for (std::size_t row = 0; row < needs.size(); ++row) {
        if (auto supply = assessor.settled_answer(row)) {
            supplies[row] = *supply;
            continue;
        }
        trials.add(row, situation.trips.hose_lays[row]);
    }
    add_promises(assessor, trials, work);
    take_best_lays(assessor, trials, supplies, work);
    for_each_chunk(work, "direct supply", needs.size(), rows_per_chunk,
                   [&](std::size_t begin, std::size_t end) {
                       for (std::size_t row = begin; row < end; ++row) {
                           take_direct_if_better(assessor, row, supplies[row]);
                       }
                   });
    return supplies;
}

Working working_of(const Situation& situation, const std::vector<std::optional<Need>>& needs,
                   const std::vector<DriveTime>& first_arrivals, std::size_t row) {
    const Assessor assessor(situation, needs, first_arrivals);
    Working working{.variant = {situation.trips.season, situation.period},
                    .need = needs[row],
                    .house = place_of(situation.district, row),
                    .first_arrival = first_arrivals[row],
                    .responders = assessor.responders_of(row)};
    const std::span<const HoseLay> lays = situation.trips.hose_lays[row];
    working.lays.assign(lays.begin(), lays.end());
    if (const auto supply = assessor.settled_answer(row)) {
        working.supply = *supply;
    } else {
        Trials trials;
        trials.add(row, lays);
        add_promises(assessor, trials, Work{});
        working.looked.push_back(assessor.look_at(row, most_promising(trials, 0)));
        working.supply = working.looked.front().supply;
        for (const std::size_t lay : trials.lays[0]) {
            if (promised_too_much(working.looked.front().supply) &&
                lay != most_promising(trials, 0)) {
                working.looked.push_back(assessor.look_at(row, lay));
            }
        }
        for (const ShuttleWorking& look : working.looked) {
            if (worse(working.supply, look.supply)) {
                working.supply = look.supply;
            }
        }
    }
    if (assessor.asks_for_hose(row, working.supply)) {
        working.options = assessor.hose_options_of(row);
    }
    take_direct_if_better(assessor, row, working.supply);
    return working;
}

}  // namespace farwater::supply
