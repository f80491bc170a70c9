#include "analyzer/supply/case_answers.h"

#include <algorithm>

#include "analyzer/hydraulics/hose.h"
#include "analyzer/supply/incident_run.h"

namespace farwater::supply {

std::optional<HouseLine> house_line(const Situation& situation, const Scene& scene, Point house,
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
    return HouseLine{
        *size, rise,
        hydraulics::supply_line_flow(*size, lay, rise, assumptions.supply_line_pressure_psi,
                                     assumptions.residual_pressure_psi)};
}

ParcelSupply CaseAnswers::supply_of(const HouseOnFire& fire, const HoseLay& lay) {
    ParcelSupply supply = unanswered(fire.need);
    supply.state = SupplyState::tank_only;
    supply.limit = shuttle_.limit;
    supply.first_engine = rounded_up(fire.first_arrival);
    supply.wheels_gal = static_cast<float>(in_gallons(scene_.on_wheels));
    supply.dump_site = scene_.dump_site;
    supply.lane = scene_.lane;
    supply.hose_ft = static_cast<float>(in_feet(lay.length));
    supply.tankers = static_cast<std::uint8_t>(std::min<std::size_t>(255, shuttle_.tankers));
    if (shuttle_.tankers > 0) {
        describe(supply);
    }
    if (!shuttle_.flows()) {
        return supply;
    }
    if (const auto line = house_line(situation_, scene_, fire.place, lay.length)) {
        give(supply, held(line->flow));
    } else {
        supply.limit = Limit::hose;
    }
    return supply;
}

void CaseAnswers::describe(ParcelSupply& supply) const {
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

void CaseAnswers::give(ParcelSupply& supply, HeldFlow line) {
    supply.mode = SupplyMode::shuttle;
    supply.limit = line < shuttle_.sustained ? Limit::supply_line : shuttle_.limit;
    supply.sustained = std::min(shuttle_.sustained, line);
    supply.cautious = std::min(shuttle_.cautious, line);
    supply.later = std::min(shuttle_.later, line);
    supply.one_tanker_out = std::min(shuttle_.one_tanker_out, line);
    if (line >= supply.needed) {
        supply.earliest_start = earliest(supply.needed);
    }
    judge(supply, situation_.district.assumptions.firm_margin);
}

std::optional<TenthsMinute> CaseAnswers::earliest(HeldFlow needed) {
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

}  // namespace farwater::supply
