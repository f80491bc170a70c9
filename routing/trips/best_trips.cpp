#include "routing/trips/best_trips.h"

#include <algorithm>
#include <tuple>

#include "analyzer/district/sorted_once.h"

namespace farwater::routing {
namespace {

std::vector<std::uint8_t> without_gaps(std::span<const FillSitePlace> fill_sites) {
    std::vector<std::uint8_t> classes;
    for (const FillSitePlace& fill_site : fill_sites) {
        classes.push_back(fill_site.strength_class);
    }
    const std::vector<std::uint8_t> distinct = sorted_once(classes);
    for (std::uint8_t& one : classes) {
        const auto at = std::ranges::lower_bound(distinct, one);
        one = static_cast<std::uint8_t>(at - distinct.begin());
    }
    return classes;
}

std::vector<std::uint32_t> systems_of(std::span<const FillSitePlace> fill_sites) {
    std::vector<std::uint32_t> systems;
    for (const FillSitePlace& fill_site : fill_sites) {
        systems.push_back(fill_site.system);
    }
    return systems;
}

}  // namespace

BestTrips::BestTrips(std::size_t dump_sites, std::span<const FillSitePlace> fill_sites,
                     std::size_t most)
    : most_(std::clamp<std::size_t>(most, 1, 255)),
      class_of_(without_gaps(fill_sites)),
      classes_(class_of_.empty() ? 0 : std::ranges::max(class_of_) + std::size_t{1}),
      system_of_(systems_of(fill_sites)),
      in_a_stretch_(dump_sites / stretches_.size() + 1) {
    for (std::size_t s = 0; s < stretches_.size(); ++s) {
        const std::size_t before = std::min(s * in_a_stretch_, dump_sites);
        const std::size_t here = std::min(in_a_stretch_, dump_sites - before);
        stretches_[s].lists.resize(here * classes_);
    }
}

void BestTrips::begin(ProfileIndex profile) {
    profiles_.push_back(profile);
    for (Stretch& stretch : stretches_) {
        for (List& list : stretch.lists) {
            list.settled = list.count;
        }
        stretch.legs.emplace_back(stretch.fill_site.size());
    }
}

// Within its stretch.
std::size_t BestTrips::list_of(DumpSiteIndex dump_site, FillSiteIndex fill_site) const {
    return dump_site.position() % in_a_stretch_ * classes_ + at(class_of_, fill_site);
}

void BestTrips::give_places(Stretch& stretch, List& list) const {
    list.begin = static_cast<std::uint32_t>(stretch.fill_site.size());
    stretch.fill_site.resize(stretch.fill_site.size() + most_);
    for (std::vector<LegTimes>& legs : stretch.legs) {
        legs.resize(stretch.fill_site.size());
    }
}

void BestTrips::offer(DumpSiteIndex dump_site, FillSiteIndex fill_site, LegTimes legs) {
    Stretch& stretch = stretch_of(dump_site.position());
    const std::scoped_lock here(stretch.busy);
    List& list = stretch.lists[list_of(dump_site, fill_site)];
    if (list.begin == List::no_places) {
        give_places(stretch, list);
    }
    std::vector<FillSiteIndex>& fill_sites = stretch.fill_site;
    std::vector<LegTimes>& legs_now = stretch.legs.back();
    const std::size_t open = list.begin + list.settled;
    for (std::size_t i = list.begin; i < open; ++i) {
        if (fill_sites[i] == fill_site) {
            legs_now[i] = legs;
            return;
        }
    }
    const bool system_full = system_is_full(stretch, list, fill_site);
    std::size_t place = list.end();
    if (!system_full && list.count < most_) {
        ++list.count;
    } else {
        place = last_of(stretch, list, fill_site, system_full);  // free where it has to go
        if (place < open || std::tuple(whole_trip(legs_now[place]), fill_sites[place]) <=
                                std::tuple(whole_trip(legs), fill_site)) {
            return;
        }
    }
    for (; place > open && std::tuple(whole_trip(legs), fill_site) <
                               std::tuple(whole_trip(legs_now[place - 1]), fill_sites[place - 1]);
         --place) {
        legs_now[place] = legs_now[place - 1];
        fill_sites[place] = fill_sites[place - 1];
    }
    legs_now[place] = legs;
    fill_sites[place] = fill_site;
}

DriveTime BestTrips::most_kept(DumpSiteIndex dump_site, FillSiteIndex fill_site) const {
    const Stretch& stretch = stretch_of(dump_site.position());
    const std::scoped_lock here(stretch.busy);
    const List& list = stretch.lists[list_of(dump_site, fill_site)];
    if (list.count == 0) {
        return no_time;
    }
    const std::size_t open = list.begin + list.settled;
    for (std::size_t i = list.begin; i < open; ++i) {
        if (stretch.fill_site[i] == fill_site) {
            return no_time;
        }
    }
    const bool system_full = system_is_full(stretch, list, fill_site);
    if (!system_full && list.count < most_) {
        return no_time;
    }
    const std::size_t last = last_of(stretch, list, fill_site, system_full);
    return last < open ? tenths_of_second(-1) : whole_trip(stretch.legs.back()[last]);
}

bool BestTrips::one_system(FillSiteIndex a, FillSiteIndex b) const {
    return at(system_of_, a) != FillSitePlace::no_system && at(system_of_, a) == at(system_of_, b);
}

bool BestTrips::system_is_full(const Stretch& stretch, const List& list,
                               FillSiteIndex fill_site) const {
    std::size_t count = 0;
    for (std::size_t i = list.begin; i < list.end(); ++i) {
        count += one_system(stretch.fill_site[i], fill_site) ? 1U : 0U;
    }
    return count >= most_of_system;
}

std::size_t BestTrips::last_of(const Stretch& stretch, const List& list, FillSiteIndex fill_site,
                               bool of_system) const {
    std::size_t last = list.end() - 1;
    while (of_system && !one_system(stretch.fill_site[last], fill_site)) {
        --last;
    }
    return last;
}

std::span<const BestTrips::List> BestTrips::lists_of(std::size_t dump_site) const {
    return std::span(stretch_of(dump_site).lists)
        .subspan(dump_site % in_a_stretch_ * classes_, classes_);
}

std::vector<FillTrip> BestTrips::trips(std::size_t dump_site) const {
    const Stretch& stretch = stretch_of(dump_site);
    std::vector<FillTrip> trips;
    for (const List& list : lists_of(dump_site)) {
        for (std::size_t i = list.begin; i < list.end() && list.count > 0; ++i) {
            FillTrip trip{stretch.fill_site[i], {}};
            for (std::size_t p = 0; p < profiles_.size(); ++p) {
                at(trip.legs, profiles_[p]) = stretch.legs[p][i];
            }
            trips.push_back(trip);
        }
    }
    const auto key = [&](const FillTrip& trip) {
        std::size_t p = 0;
        while (p + 1 < profiles_.size() && !reachable(whole_trip(at(trip.legs, profiles_[p])))) {
            ++p;
        }
        return std::tuple(p, whole_trip(at(trip.legs, profiles_[p])), trip.fill_site);
    };
    std::ranges::sort(trips, [&](const FillTrip& a, const FillTrip& b) { return key(a) < key(b); });
    return trips;
}

}  // namespace farwater::routing
