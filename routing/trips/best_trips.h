// The best fill sites of each dump site, kept while round trips come in one fill site at a time.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/round_trips.h"
#include "analyzer/work/work.h"

namespace farwater::routing {

inline constexpr std::size_t most_of_system = 2;  // places of one supply system in a class

// For every dump site and strength class at most `most` fill sites, of them at most two of one
// supply system, which fail and run dry together: the nearest by round trip of the profile that was
// begun first, ties to the smaller fill site; where it has fewer, those that only later profiles
// reach follow behind. In whatever order round trips are offered, what is kept
// is the same. 12 bytes a place, and 8 more for each profile after the first.
class BestTrips {
public:
    BestTrips(std::size_t dump_sites, std::span<const FillSitePlace> fill_sites, std::size_t most);

    // Before the round trips of a profile are offered.
    void begin(ProfileIndex profile);

    // A round trip of the profile begun last. Precondition: both legs have a way.
    void offer(DumpSiteIndex dump_site, FillSiteIndex fill_site, LegTimes legs);

    // The longest round trip of the profile begun last that would be kept of a fill site now; the
    // greatest time where any would, one that is less than none where none would.
    DriveTime most_kept(DumpSiteIndex dump_site, FillSiteIndex fill_site) const;

    // Per dump site: by the first profile that has a way, then round trip, then fill site.
    // Stopped early: not complete.
    Lists<FillTrip> lists(const Work& work) const;

private:
    std::vector<FillTrip> row(std::size_t dump_site) const;
    bool one_system(FillSiteIndex a, FillSiteIndex b) const;
    std::size_t of_system(std::size_t list, FillSiteIndex fill_site) const;
    // The place of the last one of its system. Precondition: there is one.
    std::size_t last_of_system(std::size_t list, FillSiteIndex fill_site) const;

    std::size_t dump_sites_;
    std::size_t most_;
    std::vector<std::uint8_t> class_of_;  // per fill site: its class, numbered without gaps
    std::size_t classes_;
    std::vector<std::uint32_t> system_of_;     // per fill site
    std::vector<FillSiteIndex> fill_site_;     // [(dump site x classes + class) x most + place]
    std::vector<std::uint8_t> count_;          // [dump site x classes + class]
    std::vector<std::uint8_t> settled_;        // of these, from profiles begun earlier
    std::vector<ProfileIndex> profiles_;       // in the order begun
    std::vector<std::vector<LegTimes>> legs_;  // per profile begun, as fill_site_
};

}  // namespace farwater::routing
