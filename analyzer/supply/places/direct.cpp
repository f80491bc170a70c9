#include "analyzer/supply/places/direct.h"

#include <algorithm>
#include <utility>

#include "analyzer/supply/places/first_water.h"
#include "analyzer/supply/places/hose_there.h"
#include "analyzer/supply/places/shuttle_case.h"
#include "analyzer/supply/unsaid.h"

namespace farwater::supply {
namespace {

// One line as it stands for one house.
struct Candidate {
    HoseLine line;
    SourceIndex source;
    Length lay;
    std::span<const Arrival> engines;  // the first attacks
    Evidence evidence = Evidence::assumed;
};

// What of the engines' hose is not laid.
HoseThere spare_hose(const District& district, const Candidate& candidate) {
    HoseThere spare = hose_there(district, candidate.engines);
    const auto size = static_cast<std::size_t>(candidate.line.size);
    const Length laid = candidate.lay * candidate.line.lines;
    spare.length[size] -= laid;
    spare.listed[size] -= laid;
    return spare;
}

// A stated value stands for what nobody says of tank, pump or hose; nobody may say with whom or
// from how far an engine comes.
Evidence evidence_of(const Situation& situation, const CountedSource& source,
                     std::span<const Arrival> engines) {
    const District& district = situation.district;
    const auto unit = [&](const Arrival& engine) -> const Unit& {
        return at(district.units, engine.unit);
    };
    const bool hose_known = std::ranges::all_of(
        engines, [&](const Arrival& engine) { return unit(engine).hose.has_value(); });
    const bool pumps_known = std::ranges::all_of(
        engines.subspan(1), [&](const Arrival& engine) { return unit(engine).pump.has_value(); });
    const bool comes = std::ranges::none_of(engines, [&](const Arrival& engine) {
        return comes_on_a_blank(district, engine.unit, situation.period);
    });
    const bool known = comes && hose_known && pumps_known && unit(engines.front()).tank_known;
    return known ? std::min(source.evidence, Evidence::declared) : Evidence::assumed;
}

Length rise_to(const Situation& situation, Point source, Point house) {
    const auto low = situation.district.elevation.at(source);
    const auto high = situation.district.elevation.at(house);
    return low && high ? *high - *low : metres(0);
}

class DirectAnswer {
public:
    DirectAnswer(const Situation& situation, std::span<const ProfileIndex> profile_of,
                 std::span<const Responder> responders, std::size_t row, const HouseOnFire& fire)
        : situation_(situation),
          profile_of_(profile_of),
          responders_(responders),
          row_(row),
          assumptions_(situation.district.assumptions),
          fire_(fire),
          start_(situation.order.flow_from(assumptions_, fire.first_arrival)),
          horizon_(std::max(assumptions_.late_horizon, start_)) {}

    ParcelSupply of(const Candidate& candidate) const {
        const HoseLine& line = candidate.line;
        ParcelSupply supply = unanswered(fire_.need);
        supply.mode = line.engines > fewest_engines ? SupplyMode::relay : SupplyMode::direct;
        supply.limit = line.limit;
        supply.evidence = std::min(supply.evidence, candidate.evidence);
        supply.fill_source = candidate.source;
        supply.first_at_site = candidate.engines.front().unit;
        supply.engines_needed =
            static_cast<std::uint8_t>(std::min<std::size_t>(line.engines, UINT8_MAX));
        const auto makers = candidate.engines.subspan(1);
        std::ranges::transform(makers.first(std::min(makers.size(), supply.makers.size())),
                               supply.makers.begin(),
                               [](const Arrival& engine) { return engine.unit; });
        supply.hose_ft = static_cast<float>(in_feet(candidate.lay));
        set_flows(supply, line);
        set_clocks(supply, line, attack_tank(candidate));
        return supply;
    }

    // Where that shortens its gap. Precondition: `supply` is that of the candidate.
    std::optional<NurseAtHouse> nurse_of(const Candidate& candidate,
                                         const ParcelSupply& supply) const {
        if (situation_.order.terms || !supply.gap || in_tenths(*supply.gap) <= 0) {
            return std::nullopt;
        }
        const auto nurse = nurse_at_house(situation_, profile_of_, responders_, row_, fire_,
                                          spare_hose(situation_.district, candidate));
        return nurse && gap_with(candidate, nurse) < *supply.gap ? nurse : std::nullopt;
    }

    // By that tanker where that is better, or takes nothing away; else what it would do stands with
    // it.
    ParcelSupply nursed(const Candidate& candidate, ParcelSupply supply,
                        const NurseAtHouse& nurse) const {
        const TenthsMinute gap = gap_with(candidate, nurse);
        ParcelSupply by_tanker = supply;
        by_tanker.nurse = nurse.tanker;
        by_tanker.gap = gap;
        if (in_tenths(gap) == 0) {
            by_tanker.continuous = std::min(
                *supply.continuous, std::max(*supply.tank_water, rounded_up(nurse.feeds_from)));
        }
        by_tanker.evidence = std::min(supply.evidence, nurse.evidence);
        const bool as_well_known = by_tanker.evidence == supply.evidence;
        if (as_well_known || worse(situation_.order, supply, by_tanker)) {
            return by_tanker;
        }
        supply.gap_nursing = gap;
        supply.nursing_flow = rounded_down(supply.cautious);
        return supply;
    }

private:
    Volume attack_tank(const Candidate& candidate) const {
        return at(situation_.district.units, candidate.engines.front().unit).tank;
    }

    TenthsMinute gap_with(const Candidate& candidate,
                          const std::optional<NurseAtHouse>& nurse) const {
        return rounded_up(dry_before(candidate.line.ready,
                                     attack_begins(assumptions_, fire_.first_arrival),
                                     attack_tank(candidate), assumptions_.initial_attack, nurse));
    }

    Duration slowed_ready(const HoseLine& line) const {
        return line.ready + line.work * (cautious_factor(assumptions_) - 1.0);
    }

    void set_flows(ParcelSupply& supply, const HoseLine& line) const {
        const HeldFlow flow = held(line.flow);
        const auto by = [&](Duration ready, Duration when) {
            return ready <= when ? flow : HeldFlow{};
        };
        supply.sustained = by(line.ready, start_);
        supply.cautious = by(slowed_ready(line), start_);
        supply.later = by(slowed_ready(line), horizon_);
        supply.one_tanker_out = supply.cautious;
        std::ranges::transform(build_up_minutes, supply.build_up.begin(), [&](int minute) {
            return rounded_down(by(slowed_ready(line), minutes(minute)));
        });
        if (supply.later >= supply.needed) {
            supply.earliest_start = rounded_up(slowed_ready(line));
        }
        judge(supply, assumptions_.firm_margin);
        if (in_tenths(supply.cautious) == 0 && in_tenths(flow) > 0) {
            supply.limit = Limit::readiness;  // the line is there too late
        }
    }

    // `tank`: of the engine that attacks.
    void set_clocks(ParcelSupply& supply, const HoseLine& line, Volume tank) const {
        const Duration attack = attack_begins(assumptions_, fire_.first_arrival);
        supply.first_engine = rounded_up(fire_.first_arrival);
        supply.tank_water = rounded_up(attack);
        if (line.flow > gpm(0)) {
            supply.continuous = rounded_up(std::max(attack, line.ready));
            supply.gap =
                assumptions_.initial_attack > gpm(0)
                    ? rounded_up(dry_before(line.ready, attack, tank, assumptions_.initial_attack,
                                            std::nullopt))
                    : rounded_up(std::max(minutes(0), line.ready - (attack + fire_.need.duration)));
        }
    }

    const Situation& situation_;
    std::span<const ProfileIndex> profile_of_;
    std::span<const Responder> responders_;
    std::size_t row_;
    const Assumptions& assumptions_;
    const HouseOnFire& fire_;
    Duration start_;
    Duration horizon_;
};

// Calls `visit(option, engines)` with every line that can be built, one after another; the engines
// of an option are left to who wants to keep it.
template <class Visit>
void for_each_option(const Situation& situation, std::span<const ProfileIndex> profile_of,
                     std::span<const Responder> responders, std::size_t row,
                     const HouseOnFire& fire, Visit visit) {
    const District& district = situation.district;
    const DirectAnswer answer(situation, profile_of, responders, row, fire);
    for (const SourceLay& lay : situation.trips.source_lays[row]) {
        const auto drive_to = [&](ProfileIndex profile, StationIndex station) {
            return situation.trips.station_to_fill_site(profile, station, lay.fill_site);
        };
        const std::vector<Arrival> engines =
            engines_at(situation, profile_of, responders, fire.first_arrival, drive_to);
        const FillSitePlace& place = at(situation.fill_places, lay.fill_site);
        if (at(district.sources, place.source).reach == Reach::portable_pump) {
            continue;  // no engine gets to it
        }
        const CountedSource& source = counted_source(situation.water, place.source);
        const Duration setup =
            source.setup + at(district.seasons, situation.trips.season).extra_setup;
        const Length rise = rise_to(situation, place.place, fire.place);
        for (std::size_t count = fewest_engines; count <= engines.size(); ++count) {
            const std::span used = std::span(engines).first(count);
            for (const HoseLine& line :
                 hose_lines(district, used, source, lay.length, rise, setup, fire.need.duration)) {
                const Candidate candidate{line, place.source, lay.length, used,
                                          evidence_of(situation, source, used)};
                HoseOption option{line,  place.source, lay.length, rise,
                                  setup, {},           {},         answer.of(candidate)};
                option.nurse = answer.nurse_of(candidate, option.supply);
                if (option.nurse) {
                    option.supply = answer.nursed(candidate, option.supply, *option.nurse);
                }
                visit(std::move(option), used);
            }
        }
    }
}

}  // namespace

std::vector<HoseOption> hose_options(const Situation& situation,
                                     std::span<const ProfileIndex> profile_of,
                                     std::span<const Responder> responders, std::size_t row,
                                     const HouseOnFire& fire) {
    std::vector<HoseOption> options;
    for_each_option(situation, profile_of, responders, row, fire,
                    [&](HoseOption option, std::span<const Arrival> engines) {
                        option.engines.assign(engines.begin(), engines.end());
                        options.push_back(std::move(option));
                    });
    return options;
}

std::optional<ParcelSupply> direct_supply(const Situation& situation,
                                          std::span<const ProfileIndex> profile_of,
                                          std::span<const Responder> responders, std::size_t row,
                                          const HouseOnFire& fire) {
    std::optional<ParcelSupply> best;
    for_each_option(situation, profile_of, responders, row, fire,
                    [&](const HoseOption& option, std::span<const Arrival>) {
                        if (!best || worse(situation.order, *best, option.supply)) {
                            best = option.supply;
                        }
                    });
    return best;
}

}  // namespace farwater::supply
