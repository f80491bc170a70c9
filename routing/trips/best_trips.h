// The best fill sites of each dump site, kept while round trips come in one fill site at a time.
#pragma once

#include <array>
#include <cstdint>
#include <mutex>
#include <span>
#include <vector>

#include "analyzer/district/round_trips.h"

namespace farwater::routing {

inline constexpr std::size_t most_of_system = 2;  // places of one supply system in a class

// For every dump site and strength class at most `most` fill sites, of them at most two of one
// supply system, which fail and run dry together: the nearest by round trip of the profile that was
// begun first, ties to the smaller fill site; where it has fewer, those that only later profiles
// reach follow behind. In whatever order round trips are offered, what is kept is the same.
// A list of a dump site and class that nothing is offered to takes 8 bytes; another one 12 a place
// of `most`, and 8 more for each profile after the first.
class BestTrips {
public:
    BestTrips(std::size_t dump_sites, std::span<const FillSitePlace> fill_sites, std::size_t most);

    // Before the round trips of a profile are offered.
    void begin(ProfileIndex profile);

    // A round trip of the profile begun last. Several threads may offer at the same time.
    // Precondition: both legs have a way.
    void offer(DumpSiteIndex dump_site, FillSiteIndex fill_site, LegTimes legs);

    // The longest round trip of the profile begun last that would be kept of a fill site now; the
    // greatest time where any would, one that is less than none where none would. Also while others
    // offer.
    DriveTime most_kept(DumpSiteIndex dump_site, FillSiteIndex fill_site) const;

    // By the first profile that has a way, then round trip, then fill site. Not while others offer.
    std::vector<FillTrip> trips(std::size_t dump_site) const;

private:
    // The fill sites of one class at one dump site: places from `begin` on, of which `settled` are
    // from profiles begun earlier.
    struct List {
        static constexpr std::uint32_t no_places = UINT32_MAX;
        std::uint32_t begin = no_places;
        std::uint8_t count = 0;
        std::uint8_t settled = 0;

        std::size_t end() const { return begin + count; }
    };
    // Dump sites next to each other, which one thread at a time is at.
    struct Stretch {
        mutable std::mutex busy;
        std::vector<List> lists;
        std::vector<FillSiteIndex> fill_site;     // per place
        std::vector<std::vector<LegTimes>> legs;  // per profile begun and place
    };

    std::size_t list_of(DumpSiteIndex dump_site, FillSiteIndex fill_site) const;
    Stretch& stretch_of(std::size_t dump_site) { return stretches_[dump_site / in_a_stretch_]; }
    const Stretch& stretch_of(std::size_t dump_site) const {
        return stretches_[dump_site / in_a_stretch_];
    }
    std::span<const List> lists_of(std::size_t dump_site) const;
    void give_places(Stretch& stretch, List& list) const;
    bool one_system(FillSiteIndex a, FillSiteIndex b) const;
    bool system_is_full(const Stretch& stretch, const List& list, FillSiteIndex fill_site) const;
    // The place of the one that goes for another one of its system, or for any. Precondition: there
    // is one.
    std::size_t last_of(const Stretch& stretch, const List& list, FillSiteIndex fill_site,
                        bool of_system) const;

    std::size_t most_;
    std::vector<std::uint8_t> class_of_;  // per fill site: its class, numbered without gaps
    std::size_t classes_;
    std::vector<std::uint32_t> system_of_;  // per fill site
    std::array<Stretch, 64> stretches_;
    std::size_t in_a_stretch_;
    std::vector<ProfileIndex> profiles_;  // in the order begun
};

}  // namespace farwater::routing
