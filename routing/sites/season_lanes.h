// The lane classes of one season: of dump sites, of hose lays, and of fill sites.
#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "routing/access.h"
#include "routing/dump_sites.h"
#include "routing/network.h"

namespace farwater::routing {

struct SeasonLanes {
    std::vector<LaneClass> dump_sites;  // with no road closed
    std::vector<LaneClass> hose_lays;   // per item of DumpSites::hose_lays: with the road under the
                                        // hose and in front of the house closed
    std::vector<LaneClass> fill_sites;
    // Per item of DumpSites::hose_lays: the way that a tanker has to itself there (single_file.h);
    // zero where all can drive one way round, and where the officer says that they drive through.
    std::vector<Duration> single_file;
};

// By the roads that all loaded tankers can use in the season (lanes.h). Tankers turn at the
// turnarounds, and at places and sources that have one. To a dump site they come from sources and
// stations, to a fill site from anywhere. What the officer says of a place or a source of his own
// stands above it. Each case is looked at once. Stopped early: not complete.
SeasonLanes season_lanes(const District& district, const Network& network, const Access& access,
                         std::span<const Profile> profiles, const DumpSites& dump_sites,
                         std::span<const FillSitePlace> fill_sites, SeasonIndex season,
                         const Work& work);

// What a place more that tankers come from does to the lanes of one season.
class FurtherLanes {
public:
    // All that is given must outlive it.
    FurtherLanes(const District& district, const Network& network, const Access& access,
                 std::span<const Profile> profiles, const DumpSites& dump_sites,
                 SeasonIndex season);
    ~FurtherLanes();
    FurtherLanes(FurtherLanes&&) noexcept;
    FurtherLanes& operator=(FurtherLanes&&) noexcept;
    FurtherLanes(const FurtherLanes&) = delete;
    FurtherLanes& operator=(const FurtherLanes&) = delete;

    // The dump sites, ascending, that have another lane class when tankers come from there too, by
    // itself or while hose lies. Places with a turnaround are not for this. O(dump sites).
    std::vector<std::uint32_t> changed_by(RoadSpot spot) const;

    LaneClass of_fill_site(const WaterSource& source, RoadSpot spot) const;

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace farwater::routing
