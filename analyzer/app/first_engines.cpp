#include "analyzer/app/first_engines.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>

namespace farwater::app {

DriveTime in_drive_time(Duration duration) {
    return tenths_of_second(static_cast<std::int32_t>(std::lround(in_minutes(duration) * 600.0)));
}

namespace {

std::vector<routing::Departure> departures_of(const District& district, const Profile& profile,
                                              const std::vector<supply::Responder>& responders) {
    std::vector<routing::Departure> departures;
    for (const supply::Responder& responder : responders) {
        const bool member =
            std::ranges::find(profile.members, responder.unit) != profile.members.end();
        if (member && !responder.on_request) {
            departures.push_back(
                {at(district.units, responder.unit).station, in_drive_time(responder.rolls)});
        }
    }
    return departures;
}

// The earliest engine of any profile at each parcel and target, for one zone's responders.
std::vector<DriveTime> first_engines(const routing::RoadSystem& roads,
                                     const std::vector<supply::Responder>& responders,
                                     SeasonIndex season) {
    std::vector<DriveTime> first(roads.district.parcels.size() + roads.district.targets.size(),
                                 no_time);
    for (const auto& [profile, departures] :
         engines_at_alarm(roads.district, roads.profiles, responders)) {
        const std::vector<DriveTime> arrivals =
            routing::first_arrivals(roads, profile, departures, season);
        for (std::size_t row = 0; row < first.size(); ++row) {
            first[row] = std::min(first[row], arrivals[row]);
        }
    }
    return first;
}

}  // namespace

std::vector<routing::ProfileDepartures> engines_at_alarm(
    const District& district, std::span<const Profile> profiles,
    const std::vector<supply::Responder>& responders) {
    std::vector<routing::ProfileDepartures> engines;
    for (std::size_t p = 0; p < profiles.size(); ++p) {
        auto departures = departures_of(district, profiles[p], responders);
        if (profiles[p].kind == UnitKind::engine && !departures.empty()) {
            engines.push_back({ProfileIndex(p), std::move(departures)});
        }
    }
    return engines;
}

std::vector<DriveTime> first_arrivals(const routing::RoadSystem& roads, SeasonIndex season,
                                      PeriodIndex period) {
    const std::vector<std::string> zones = supply::response_zones(roads.district);
    std::vector<DriveTime> arrivals =
        first_engines(roads, supply::roster(roads.district, period, ""), season);
    for (const std::string& zone : zones) {
        if (zone.empty()) {
            continue;
        }
        const std::vector<DriveTime> of_zone =
            first_engines(roads, supply::roster(roads.district, period, zone), season);
        for (std::size_t row = 0; row < arrivals.size(); ++row) {
            arrivals[row] = zone_of(roads.district, row) == zone ? of_zone[row] : arrivals[row];
        }
    }
    return arrivals;
}

}  // namespace farwater::app
