#include "analyzer/supply/places/arrivals.h"

#include <algorithm>

namespace farwater::supply {

void sort_by_arrival(const District& district, std::vector<Arrival>& arrivals) {
    const auto id = [&](const Arrival& arrival) -> const std::string& {
        return at(district.units, arrival.unit).id;
    };
    std::ranges::stable_sort(arrivals, [&](const Arrival& a, const Arrival& b) {
        return a.at_scene != b.at_scene ? a.at_scene < b.at_scene : id(a) < id(b);
    });
}

std::vector<Arrival> arrivals(const Situation& situation, std::span<const ProfileIndex> profile_of,
                              std::span<const Responder> responders, UnitKind kind,
                              Duration first_arrival, const DriveTo& drive_to) {
    const Assumptions& assumptions = situation.district.assumptions;
    const Duration asked = first_arrival + assumptions.request_delay;
    std::vector<Arrival> list;
    for (const Responder& responder : responders) {
        const Unit& unit = at(situation.district.units, responder.unit);
        const ProfileIndex profile = at(profile_of, responder.unit);
        if (unit.kind != kind || !profile.valid()) {
            continue;
        }
        const DriveTime drive = drive_to(profile, unit.station);
        if (reachable(drive)) {
            const Duration leaves =
                responder.on_request ? asked + responder.rolls : responder.rolls;
            list.push_back({responder.unit, profile, leaves, leaves + duration_of(drive)});
        }
    }
    sort_by_arrival(situation.district, list);
    const int most = kind == UnitKind::engine ? assumptions.most_engines : assumptions.most_tankers;
    list.resize(std::min(list.size(), static_cast<std::size_t>(most)));
    return list;
}

std::vector<Arrival> engines_at(const Situation& situation,
                                std::span<const ProfileIndex> profile_of,
                                std::span<const Responder> responders, Duration first_arrival,
                                const DriveTo& drive_to) {
    std::vector<Arrival> engines =
        arrivals(situation, profile_of, responders, UnitKind::engine, first_arrival, drive_to);
    if (situation.one_more_engine && !engines.empty()) {
        const Duration start =
            situation.order.flow_from(situation.district.assumptions, first_arrival);
        const auto late = std::ranges::upper_bound(engines, start, {}, &Arrival::at_scene);
        const auto last = late == engines.begin() ? late : late - 1;
        engines.insert(last + 1, Arrival(*last));
    }
    return engines;
}

}  // namespace farwater::supply
