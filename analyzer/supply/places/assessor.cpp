#include "analyzer/supply/places/assessor.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "analyzer/supply/places/case_answers.h"
#include "analyzer/supply/places/one_tanker_out.h"
#include "analyzer/supply/places/outdone.h"
#include "analyzer/supply/places/settled.h"

namespace farwater::supply {
namespace {

constexpr std::int32_t half_minute = 300;  // tenths of a second
constexpr std::size_t cases_per_chunk = 16;
constexpr Length hose_length = feet(50);

// The hose comes with the two engines, and the draft is set up from when the second one is there.
std::uint16_t slow_hose(const Situation& situation, Length hose) {
    const Assumptions& assumptions = situation.district.assumptions;
    const Season& season = at(situation.district.seasons, situation.trips.season);
    constexpr double hair = 1e-6;
    return laying(hose, assumptions) <= draft_setup(assumptions, season)
               ? std::uint16_t{0}
               : static_cast<std::uint16_t>(std::ceil(hose / hose_length - hair));
}

Rosters rosters_of(const Situation& situation) {
    Rosters rosters{response_zones(situation.district), {}};
    for (const std::string& zone : rosters.zones) {
        rosters.responders.push_back(roster(situation.district, situation.period, zone));
    }
    return rosters;
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

// Calls `look` with the items of each case.
template <class Look>
void for_each_case(std::vector<Keyed> items, const Work& work, const Look& look) {
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

}  // namespace

Assessor::Assessor(const Situation& situation, const std::vector<std::optional<Need>>& needs,
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

std::optional<ParcelSupply> Assessor::settled_answer(std::size_t row) const {
    return settled(situation_, needs_[row], row, first_arrivals_[row]);
}

std::optional<ParcelSupply> Assessor::direct(std::size_t row, const ParcelSupply& shuttle) const {
    return asks_for_hose(row, shuttle)
               ? direct_supply(situation_, profile_of_, responders_of(row), row, fire_at(row))
               : std::nullopt;
}

bool Assessor::asks_for_hose(std::size_t row, const ParcelSupply& shuttle) const {
    return needs_[row] && shuttle.state != SupplyState::unknown && reachable(first_arrivals_[row]);
}

std::vector<HoseOption> Assessor::hose_options_of(std::size_t row) const {
    return hose_options(situation_, profile_of_, responders_of(row), row, fire_at(row));
}

Keyed Assessor::keyed(std::size_t row, std::size_t lay, std::size_t slot, HeldFlow least) const {
    const HoseLay& hose = situation_.trips.hose_lays[row][lay];
    return {{hose.dump_site, hose.approach, hose.lane, hose.single_file_s,
             slow_hose(situation_, hose.length), in_tenths(first_arrivals_[row]) / half_minute,
             in_tenths(rounded_up(needs_[row].value_or(Need{}).duration)), zone_at(row), least},
            static_cast<std::uint32_t>(row),
            static_cast<std::uint32_t>(lay),
            static_cast<std::uint32_t>(slot)};
}

void Assessor::answer(std::vector<Keyed> items, std::vector<ParcelSupply>& slots,
                      const Work& work) const {
    for_each_case(std::move(items), work,
                  [&](std::span<const Keyed> of_case) { answer_case(of_case, slots); });
}

void Assessor::promise(std::vector<Keyed> items, std::vector<Promise>& slots,
                       const Work& work) const {
    for_each_case(std::move(items), work,
                  [&](std::span<const Keyed> of_case) { promise_case(of_case, slots); });
}

void Assessor::for_each_scene(std::vector<Keyed> items, const Work& work, const Look& look) const {
    for_each_case(std::move(items), work, [&](std::span<const Keyed> of_case) {
        look(scene_of(of_case.front().key), of_case);
    });
}

bool Assessor::may_be_likeliest(std::size_t row, std::size_t lay) const {
    const std::span<const HoseLay> lays = situation_.trips.hose_lays[row];
    const bool spares_backing =
        lays.front().lane == LaneClass::dead_end && lays[lay].lane == LaneClass::through;
    return lays.front().approach.valid() || (lanes_matter_ && spares_backing);
}

bool Assessor::is_outdone(std::size_t row, std::size_t lay, std::size_t by) const {
    const Keyed item = keyed(row, lay, 0);
    const Keyed other = keyed(row, by, 0);
    const Scene scene = scene_of(item.key);
    const Scene other_scene = scene_of(other.key);
    return carried(other_scene, other) >= carried(scene, item) &&
           outdoes(situation_, other_scene, scene);
}

ShuttleWorking Assessor::look_at(const Keyed& item) const {
    const CaseKey& key = item.key;
    const HouseOnFire fire = fire_at(item.row);
    ShuttleWorking look{.lay = situation_.trips.hose_lays[item.row][item.lay],
                        .scene = scene_of(key),
                        .shuttle = {},
                        .fill_sites = {},
                        .line = std::nullopt,
                        .without = {},
                        .supply = {}};
    CasePlans plans = plans_of(look.scene, std::span(&item, 1));
    if (plans.front().passed_over) {
        look.shuttle = std::move(plans.front());
        return look;
    }
    const CaseAnswers::Answer answer =
        CaseAnswers(situation_, look.scene, plans).answer_of(fire, look.lay);
    look.supply = answer.supply;
    look.shuttle = std::move(plans[answer.plan]);
    look.line = house_line(situation_, look.scene, fire.place, look.lay.length);
    for (const UnitIndex tanker : missed_tankers(look.scene, look.shuttle.incident)) {
        look.without.push_back({tanker, flow_without(situation_, look.scene, look.shuttle.slow,
                                                     look.shuttle.window, tanker)});
    }
    if (look.scene.missing == Limit::none) {
        for (const FillTrip& trip : situation_.trips.fill_trips[look.scene.approach.position()]) {
            look.fill_sites.push_back({at(situation_.fill_places, trip.fill_site).source,
                                       trip.fill_site,
                                       at(situation_.trips.fill_lanes, trip.fill_site),
                                       plan_with(situation_, look.scene, trip)});
        }
    }
    return look;
}

std::span<const HoseLay> Assessor::lays_of(std::size_t row) const {
    return situation_.trips.hose_lays[row];
}

const std::vector<Responder>& Assessor::responders_of(std::size_t row) const {
    return rosters_.responders[zone_at(row)];
}

Point Assessor::house_of(std::size_t row) const {
    return farwater::house_of(situation_.district, row);
}

Scene Assessor::scene_of(const CaseKey& key) const {
    HoseLay lay;
    lay.dump_site = key.dump_site;
    lay.approach = key.approach;
    lay.lane = key.lane;
    lay.single_file_s = key.single_file_s;
    lay.length = hose_length * key.slow_hose;
    return scene_at(situation_, profile_of_, rosters_.responders[key.zone], lay,
                    minutes(key.arrival_half_minutes / 2.0));
}

// Precondition: the items are of one case.
CasePlans Assessor::plans_of(const Scene& scene, std::span<const Keyed> items) const {
    const CaseKey& key = items.front().key;
    CaseWanted wanted{.duration = minutes(key.duration_tenths / 10.0), .least = key.least};
    for (const Keyed& item : items) {
        wanted.easiest = std::min(wanted.easiest, needs_[item.row].value_or(Need{}).flow);
    }
    return work_out(situation_, scene, wanted);
}

HeldFlow Assessor::carried(const Scene& scene, const Keyed& item) const {
    const auto line = house_line(situation_, scene, house_of(item.row),
                                 situation_.trips.hose_lays[item.row][item.lay].length);
    return line ? held(line->flow) : HeldFlow{};
}

std::uint32_t Assessor::zone_at(std::size_t row) const {
    return rosters_.zone_of(zone_of(situation_.district, row));
}

HouseOnFire Assessor::fire_at(std::size_t row) const {
    return {house_of(row), needs_[row].value_or(Need{}), duration_of(first_arrivals_[row])};
}

void Assessor::answer_case(std::span<const Keyed> items, std::vector<ParcelSupply>& slots) const {
    const Scene scene = scene_of(items.front().key);
    const CasePlans plans = plans_of(scene, items);
    if (plans.front().passed_over) {
        return;
    }
    CaseAnswers answers(situation_, scene, plans);
    for (const Keyed& item : items) {
        const HoseLay& lay = situation_.trips.hose_lays[item.row][item.lay];
        slots[item.slot] = answers.answer_of(fire_at(item.row), lay).supply;
    }
}

void Assessor::promise_case(std::span<const Keyed> items, std::vector<Promise>& slots) const {
    const CaseKey& key = items.front().key;
    const Scene scene = scene_of(key);
    const Promise promised = promise_of(situation_, scene, minutes(key.duration_tenths / 10.0));
    for (const Keyed& item : items) {
        slots[item.slot] = through(promised, carried(scene, item));
    }
}

}  // namespace farwater::supply
