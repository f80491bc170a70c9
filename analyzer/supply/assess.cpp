#include "analyzer/supply/assess.h"

#include <algorithm>
#include <compare>
#include <map>
#include <utility>

#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/shuttle_case.h"

namespace farwater::supply {
namespace {

constexpr std::int32_t half_minute = 300;  // tenths of a second
constexpr std::size_t cases_per_chunk = 16;

// One parcel or target as the supply stage sees it.
struct Asker {
    std::optional<Need> need;
    Point house;
    std::string_view zone;
};

Asker asker_at(const District& district, const std::vector<std::optional<Need>>& needs,
               std::size_t row) {
    if (row < district.parcels.size()) {
        return {needs[row], district.parcels[row].house, district.parcels[row].zone};
    }
    return {needs[row], district.targets[row - district.parcels.size()].place, ""};
}

struct CaseKey {
    DumpSiteIndex dump_site;
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

ParcelSupply without_shuttle(const Asker& asker, SupplyState state, Limit limit) {
    ParcelSupply supply;
    supply.state = state;
    supply.limit = limit;
    if (asker.need) {
        supply.needed = asker.need->flow;
        supply.duration = rounded_up(asker.need->duration);
        supply.evidence = asker.need->evidence;
    }
    return supply;
}

// A house farther from the road than hose lies over land lacks hose; else it lacks a dump site.
Limit why_no_lay(const Situation& situation, std::size_t row) {
    const bool far = situation.access[row].off_road > situation.district.assumptions.off_road_hose;
    return far ? Limit::hose : Limit::no_dump_site;
}

// Everything that is settled before a dump site comes into it; none = a case decides.
std::optional<ParcelSupply> settled(const Situation& situation, const Asker& asker, std::size_t row,
                                    DriveTime first_arrival) {
    const bool has_lay = !situation.trips.hose_lays[row].empty();
    if (!asker.need) {
        return without_shuttle(asker, SupplyState::no_building, Limit::none);
    }
    if (const auto why = unknown_because(situation, row)) {
        ParcelSupply supply = without_shuttle(asker, SupplyState::unknown, Limit::none);
        supply.reason = why;
        return supply;
    }
    if (!reachable(first_arrival)) {
        return without_shuttle(asker, SupplyState::unreached, Limit::no_route);
    }
    if (!has_lay) {
        ParcelSupply supply =
            without_shuttle(asker, SupplyState::tank_only, why_no_lay(situation, row));
        supply.first_engine = rounded_up(duration_of(first_arrival));
        return supply;
    }
    return std::nullopt;
}

// What the hose to this house carries; none = no hose that is there is long enough.
std::optional<Flow> supply_line(const Situation& situation, const Scene& scene, Point house,
                                Length lay) {
    const Assumptions& assumptions = situation.district.assumptions;
    const auto size = scene.hose.size_for(lay);
    if (!size) {
        return std::nullopt;
    }
    const ElevationGrid& ground = situation.district.elevation;
    const auto at_house = ground.at(house);
    const auto at_site = ground.at(at(situation.trips.dump_sites, scene.dump_site).place);
    const Length rise = at_house && at_site ? *at_house - *at_site : metres(0);
    return hydraulics::supply_line_flow(*size, lay, rise, assumptions.supply_line_pressure_psi,
                                        assumptions.residual_pressure_psi);
}

Margin margin_of(HeldFlow cautious, HeldFlow needed, double firm) {
    if (cautious < needed) {
        return Margin::none;
    }
    return in_tenths(cautious) >= firm * in_tenths(needed) ? Margin::firm : Margin::thin;
}

// The parcels of one case, one after another; earliest starts are kept by need.
class CaseWorker {
public:
    CaseWorker(const Situation& situation, const Scene& scene, const ShuttleCase& shuttle)
        : situation_(situation), scene_(scene), shuttle_(shuttle) {}

    ParcelSupply supply_of(const Asker& asker, HoseLay lay, DriveTime first_arrival) {
        ParcelSupply supply = without_shuttle(asker, SupplyState::tank_only, shuttle_.limit);
        supply.first_engine = rounded_up(duration_of(first_arrival));
        supply.wheels_gal = static_cast<float>(in_gallons(scene_.on_wheels));
        supply.dump_site = scene_.dump_site;
        supply.lane = scene_.lane;
        supply.hose_ft = static_cast<float>(in_feet(lay.length));
        supply.tankers = static_cast<std::uint8_t>(std::min<std::size_t>(255, shuttle_.tankers));
        if (shuttle_.tankers > 0) {
            describe(supply);
        }
        const std::optional<Flow> line = supply_line(situation_, scene_, asker.house, lay.length);
        if (!shuttle_.flows()) {
            return supply;
        }
        if (line) {
            judge(supply, held(*line));
        } else {
            supply.limit = Limit::hose;
        }
        return supply;
    }

private:
    void describe(ParcelSupply& supply) const {
        supply.handbook = held(shuttle_.handbook);
        supply.fill_source = shuttle_.source;
        supply.first_tanker = shuttle_.first_tanker;
        supply.first_at_site = scene_.engines.front().unit;
        supply.tank_water = rounded_up(shuttle_.tank_water);
        if (shuttle_.continuous) {
            supply.continuous = rounded_up(*shuttle_.continuous);
        }
        supply.gap = rounded_up(shuttle_.gap);
        supply.round_trip = rounded_up(shuttle_.round_trip);
        supply.evidence = std::min(supply.evidence, shuttle_.evidence);
    }

    void judge(ParcelSupply& supply, HeldFlow line) {
        supply.mode = SupplyMode::shuttle;
        supply.limit = line < shuttle_.sustained ? Limit::supply_line : shuttle_.limit;
        supply.sustained = std::min(shuttle_.sustained, line);
        supply.cautious = std::min(shuttle_.cautious, line);
        supply.later = std::min(shuttle_.later, line);
        supply.one_tanker_out = std::min(shuttle_.one_tanker_out, line);
        supply.margin =
            margin_of(supply.cautious, supply.needed, situation_.district.assumptions.firm_margin);
        if (line >= supply.needed) {
            supply.earliest_start = earliest(supply.needed);
        }
        if (supply.cautious >= supply.needed) {
            supply.state = SupplyState::held;
        } else if (supply.earliest_start) {
            supply.state = SupplyState::late;
        } else if (in_tenths(supply.later) > 0) {
            supply.state = SupplyState::short_flow;
        }
    }

    std::optional<TenthsMinute> earliest(HeldFlow needed) {
        const auto known = earliest_.find(needed);
        if (known != earliest_.end()) {
            return known->second;
        }
        const Duration latest =
            std::max(situation_.district.assumptions.late_horizon, shuttle_.window.start);
        const auto start = earliest_start(shuttle_.slow, needed, shuttle_.window.duration, latest);
        const auto kept = start ? std::optional(rounded_up(*start)) : std::nullopt;
        earliest_.emplace(needed, kept);
        return kept;
    }

    const Situation& situation_;
    const Scene& scene_;
    const ShuttleCase& shuttle_;
    std::map<HeldFlow, std::optional<TenthsMinute>> earliest_;
};

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
          profile_of_(profile_of_units(situation.district, situation.profiles)) {}

    std::optional<ParcelSupply> settled_answer(std::size_t row) const {
        return settled(situation_, asker(row), row, first_arrivals_[row]);
    }

    // Precondition: no settled answer.
    Keyed keyed(std::size_t row, std::size_t lay, std::size_t slot) const {
        const HoseLay& hose = situation_.trips.hose_lays[row][lay];
        return {{hose.dump_site, hose.lane, in_tenths(first_arrivals_[row]) / half_minute,
                 in_tenths(rounded_up(needs_[row].value_or(Need{}).duration)),
                 rosters_.zone_of(asker(row).zone)},
                static_cast<std::uint32_t>(row),
                static_cast<std::uint32_t>(lay),
                static_cast<std::uint32_t>(slot)};
    }

    // The answer of each item into its slot. Precondition: sorted.
    void answer(const std::vector<Keyed>& items, std::vector<ParcelSupply>& slots,
                const Work& work) const {
        const std::vector<std::size_t> begins = group_begins(items);
        const auto answer_some = [&](std::size_t first, std::size_t last) {
            for (std::size_t group = first; group < last; ++group) {
                answer_group(
                    std::span(items).subspan(begins[group], begins[group + 1] - begins[group]),
                    slots);
            }
        };
        for_each_chunk(work, "supply", begins.size() - 1, cases_per_chunk, answer_some);
    }

private:
    Asker asker(std::size_t row) const { return asker_at(situation_.district, needs_, row); }

    void answer_group(std::span<const Keyed> items, std::vector<ParcelSupply>& slots) const {
        const CaseKey& key = items.front().key;
        const Scene scene =
            scene_at(situation_, profile_of_, rosters_.responders[key.zone], key.dump_site,
                     key.lane, minutes(key.arrival_half_minutes / 2.0));
        const ShuttleCase shuttle =
            work_out(situation_, scene, minutes(key.duration_tenths / 10.0));
        CaseWorker worker(situation_, scene, shuttle);
        for (const Keyed& item : items) {
            slots[item.slot] =
                worker.supply_of(asker(item.row), situation_.trips.hose_lays[item.row][item.lay],
                                 first_arrivals_[item.row]);
        }
    }

    const Situation& situation_;
    const std::vector<std::optional<Need>>& needs_;
    const std::vector<DriveTime>& first_arrivals_;
    Rosters rosters_;
    std::vector<ProfileIndex> profile_of_;
};

// Whether there is a tanker that need not back where it can drive through.
bool lanes_matter(const District& district) {
    return std::ranges::any_of(district.units, [](const Unit& unit) {
        return unit.kind == UnitKind::tanker && !unit.backs_to_offload;
    });
}

// The first lay from which tankers need not back, where they must at the first of all.
std::optional<std::size_t> lay_without_backing(std::span<const HoseLay> lays) {
    const auto through = std::ranges::find(lays, LaneClass::through, &HoseLay::lane);
    return through == lays.begin() || through == lays.end()
               ? std::nullopt
               : std::optional(static_cast<std::size_t>(through - lays.begin()));
}

}  // namespace

std::vector<ParcelSupply> assess(const Situation& situation,
                                 const std::vector<std::optional<Need>>& needs,
                                 const std::vector<DriveTime>& first_arrivals, const Work& work) {
    const Assessor assessor(situation, needs, first_arrivals);
    const bool lanes = lanes_matter(situation.district);
    std::vector<ParcelSupply> supplies(needs.size());
    std::vector<Keyed> keyed;
    std::vector<std::uint32_t> second;  // rows with a second lay; their answers follow the rows'
    for (std::size_t row = 0; row < needs.size(); ++row) {
        if (auto supply = assessor.settled_answer(row)) {
            supplies[row] = *supply;
            continue;
        }
        keyed.push_back(assessor.keyed(row, 0, row));
        if (const auto lay = lay_without_backing(situation.trips.hose_lays[row]); lanes && lay) {
            keyed.push_back(assessor.keyed(row, *lay, needs.size() + second.size()));
            second.push_back(static_cast<std::uint32_t>(row));
        }
    }
    std::ranges::sort(keyed);
    supplies.resize(needs.size() + second.size());
    assessor.answer(keyed, supplies, work);
    for (std::size_t i = 0; i < second.size(); ++i) {
        if (worse(supplies[second[i]], supplies[needs.size() + i])) {
            supplies[second[i]] = supplies[needs.size() + i];
        }
    }
    supplies.resize(needs.size());
    return supplies;
}

}  // namespace farwater::supply
