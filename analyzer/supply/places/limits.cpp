#include "analyzer/supply/places/limits.h"

#include <algorithm>
#include <array>
#include <utility>

#include "analyzer/supply/incident_run.h"

namespace farwater::supply {
namespace {

// 2,500 gal less a 2-in heel: common practice, no source.
constexpr Volume one_more_tank = gallons(2332);
constexpr Duration earlier = minutes(5);

Incident with_tanker(Incident incident) {
    const auto& tankers = incident.tankers;
    if (tankers.empty()) {
        return incident;
    }
    const auto largest = std::ranges::max_element(
        tankers, [](const Tanker& a, const Tanker& b) { return a.delivered < b.delivered; });
    const Tanker more = *largest;
    incident.tankers.push_back(more);
    return incident;
}

Incident with_fill_place(Incident incident, const TankLine& /*as it is*/) {
    for (FillSite& site : incident.fill_sites) {
        site.pump = site.pump * ((site.places + 1.0) / site.places);
        ++site.places;
        site.flows = std::nullopt;
    }
    return incident;
}

Incident with_double_source(Incident incident, const TankLine& /*as it is*/) {
    for (FillSite& site : incident.fill_sites) {
        if (site.usable) {
            site.usable = *site.usable * 2.0;
        }
    }
    return incident;
}

// With its people, who are there before those of others; in single file that tankers can pass.
Incident with_slot(Incident incident, const TankLine& /*as it is*/) {
    if (incident.dump_site.single_file > minutes(0)) {
        incident.dump_site.single_file = minutes(0);
        return incident;
    }
    auto& from = incident.dump_site.further_slots_from;
    std::ranges::copy_backward(from.begin(), from.end() - 1, from.end());
    from.front() = Duration{};
    ++incident.dump_site.offload_slots;
    return incident;
}

Incident drawing_from(Incident incident, TankLine line) {
    line.used = tanks_in_reach(line);
    incident.dump_site = with_line(incident.dump_site, line);
    return incident;
}

// With a siphon where the tank is the first to stand behind the draft tank.
TankLine longer_by(TankLine line, Volume tank) {
    if (line.tanks.size() == 1) {
        line.siphons = std::max(1, line.siphons);
    }
    line.tanks.push_back(tank);
    return line;
}

Incident with_tank(Incident incident, const TankLine& line) {
    if (line.full) {
        return incident;
    }
    if (line.used == 0) {
        if (incident.dump_site.storage) {
            incident.dump_site.storage = *incident.dump_site.storage + one_more_tank;
        }
        return incident;
    }
    return drawing_from(std::move(incident), longer_by(line, one_more_tank));
}

Incident with_road(Incident incident, const TankLine& line) {
    return line.left.empty()
               ? incident
               : drawing_from(std::move(incident), longer_by(line, line.left.front()));
}

Incident with_siphon(Incident incident, const TankLine& line) {
    TankLine more = line;
    ++more.siphons;
    return drawing_from(std::move(incident), std::move(more));
}

// What siphons hold down stays so.
Incident without_cap(Incident incident, const TankLine& line) {
    incident.dump_site.flow_cap = std::nullopt;
    TankLine open = line;
    open.draft = std::nullopt;
    incident.dump_site = with_line(incident.dump_site, open);
    return incident;
}

Incident ready_earlier(Incident incident, const TankLine& /*as it is*/) {
    const auto sooner = [](Duration ready) { return std::max(minutes(0), ready - earlier); };
    incident.dump_site.draft_ready = sooner(incident.dump_site.draft_ready);
    incident.dump_site.tanks_ready = sooner(incident.dump_site.tanks_ready);
    for (FillSite& site : incident.fill_sites) {
        site.ready = sooner(site.ready);
    }
    return incident;
}

Incident with_tanker_more(Incident incident, const TankLine& /*as it is*/) {
    return with_tanker(std::move(incident));
}

using Relief = Incident (*)(Incident, const TankLine&);
constexpr std::array<Relief, relieved.size()> reliefs{
    with_tanker_more, with_fill_place, with_double_source, without_cap,   with_tank,
    with_siphon,      with_road,       with_slot,          ready_earlier, nullptr,
};

}  // namespace

std::vector<Gain> gains(const Incident& incident, const TankLine& line, Window window,
                        HeldFlow sustained) {
    std::vector<Gain> list;
    list.reserve(reliefs.size());
    for (std::size_t i = 0; i < reliefs.size(); ++i) {
        const HeldFlow no_gain = tenths_of_gpm(in_tenths(sustained) + no_gain_below - 1);
        const HeldFlow with =
            reliefs[i] == nullptr
                ? HeldFlow{}
                : sustained_flow_above(reliefs[i](incident, line), window, no_gain);
        const bool gains = with > no_gain;
        list.push_back(
            {relieved[i], tenths_of_gpm(gains ? in_tenths(with) - in_tenths(sustained) : 0)});
    }
    return list;
}

Limit binding_limit(const std::vector<Gain>& gains) {
    const auto largest = std::ranges::max_element(
        gains, [](const Gain& a, const Gain& b) { return a.flow < b.flow; });
    return largest == gains.end() || in_tenths(largest->flow) == 0 ? Limit::none : largest->limit;
}

std::optional<int> tankers_short(const Incident& incident, Window window, HeldFlow flow, int most) {
    Incident with = incident;
    for (int more = 1; more <= most && !with.tankers.empty(); ++more) {
        with = with_tanker(std::move(with));
        if (holds(with, window, flow)) {
            return more;
        }
    }
    return std::nullopt;
}

}  // namespace farwater::supply
