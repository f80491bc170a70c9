// A district with every routing stage run, as the tests ask about it.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/parallel/work.h"
#include "routing/access.h"
#include "routing/drive_times.h"
#include "routing/dump_sites.h"
#include "routing/network.h"
#include "routing/profiles.h"
#include "tests/support/ascii_region.h"

namespace farwater::test {

struct Routed {
    explicit Routed(const District& given, unsigned threads = 1) : district(given) {
        work.threads = threads;
        profiles = routing::vehicle_profiles(district);
        network = routing::build_network(district, work);
        access = routing::find_access(district, network.network, profiles, work);
        dump_sites =
            routing::find_dump_sites(district, network.network, access.access, profiles,
                                     std::vector<bool>(access.access.points.size(), true), work);
        for (std::size_t s = 0; s < district.sources.size(); ++s) {
            fill_sites.push_back({SourceIndex(s), district.sources[s].place, 0});
        }
    }

    routing::RoadSystem roads() const {
        return {district, network.network, access.access, profiles};
    }
    RoundTrips round_trips(SeasonIndex season = SeasonIndex(0)) const {
        return routing::round_trips(roads(), dump_sites, fill_sites, season, work);
    }
    ProfileIndex profile_of(UnitKind kind) const {
        for (std::size_t p = 0; p < profiles.size(); ++p) {
            if (profiles[p].kind == kind) {
                return ProfileIndex(p);
            }
        }
        return {};
    }
    // Of an engine that leaves each station at once.
    std::vector<DriveTime> arrivals() const {
        std::vector<routing::Departure> departures;
        for (std::size_t s = 0; s < district.stations.size(); ++s) {
            departures.push_back({StationIndex(s), {}});
        }
        return routing::first_arrivals(roads(), profile_of(UnitKind::engine), departures,
                                       SeasonIndex(0));
    }

    const District& district;  // must outlive this
    Work work;
    std::vector<Profile> profiles;
    routing::NetworkResult network;
    routing::AccessResult access;
    routing::DumpSites dump_sites;
    std::vector<FillSitePlace> fill_sites;
};

// The region with an engine and a tanker at one station.
inline AsciiRegion with_fleet(AsciiRegion region, char station = 'S') {
    region.station(station);
    region.unit(UnitKind::engine, "E1", station);
    region.unit(UnitKind::tanker, "T1", station);
    return region;
}

// The dump site nearest to a point.
inline DumpSiteIndex dump_site_at(const std::vector<DumpSiteCandidate>& sites, Point p) {
    DumpSiteIndex best;
    for (std::size_t i = 0; i < sites.size(); ++i) {
        if (!best.valid() ||
            distance(sites[i].place, p) < distance(sites[best.position()].place, p)) {
            best = DumpSiteIndex(i);
        }
    }
    return best;
}

// One fill site's legs from a dump site for a profile; no way when it is not listed.
inline LegTimes legs_between(const RoundTrips& trips, DumpSiteIndex dump_site,
                             std::size_t fill_site, ProfileIndex profile) {
    for (const FillTrip& trip : trips.fill_trips[dump_site.position()]) {
        if (trip.fill_site == FillSiteIndex(fill_site)) {
            return trip.legs[profile.position()];
        }
    }
    return {};
}

inline std::size_t count_of(const std::vector<Problem>& problems, ProblemId id) {
    return static_cast<std::size_t>(
        std::count_if(problems.begin(), problems.end(),
                      [&](const Problem& problem) { return problem.id == id; }));
}

inline std::vector<Problem> problems_of(const std::vector<Problem>& problems, ProblemId id) {
    std::vector<Problem> those;
    std::ranges::copy_if(problems, std::back_inserter(those),
                         [&](const Problem& problem) { return problem.id == id; });
    return those;
}

}  // namespace farwater::test
