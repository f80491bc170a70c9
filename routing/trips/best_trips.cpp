#include "routing/trips/best_trips.h"

#include <algorithm>
#include <numeric>
#include <tuple>

namespace farwater::routing {
namespace {

std::vector<std::uint8_t> without_gaps(std::span<const FillSitePlace> fill_sites) {
    std::vector<std::uint8_t> classes;
    for (const FillSitePlace& fill_site : fill_sites) {
        classes.push_back(fill_site.strength_class);
    }
    std::vector<std::uint8_t> distinct = classes;
    std::ranges::sort(distinct);
    const auto rest = std::ranges::unique(distinct);
    distinct.erase(rest.begin(), rest.end());
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

DriveTime round_trip(const LegTimes& legs) { return legs.empty + legs.loaded; }

}  // namespace

BestTrips::BestTrips(std::size_t dump_sites, std::span<const FillSitePlace> fill_sites,
                     std::size_t most)
    : dump_sites_(dump_sites),
      most_(std::clamp<std::size_t>(most, 1, 255)),
      class_of_(without_gaps(fill_sites)),
      classes_(class_of_.empty() ? 0 : std::ranges::max(class_of_) + std::size_t{1}),
      system_of_(systems_of(fill_sites)),
      fill_site_(dump_sites * classes_ * most_),
      count_(dump_sites * classes_, 0),
      settled_(count_) {}

void BestTrips::begin(ProfileIndex profile) {
    settled_ = count_;
    profiles_.push_back(profile);
    legs_.emplace_back(fill_site_.size());
}

void BestTrips::offer(DumpSiteIndex dump_site, FillSiteIndex fill_site, LegTimes legs) {
    const std::size_t list = dump_site.position() * classes_ + at(class_of_, fill_site);
    const std::size_t begin = list * most_;
    std::vector<LegTimes>& legs_now = legs_.back();
    for (std::size_t i = begin; i < begin + settled_[list]; ++i) {
        if (fill_site_[i] == fill_site) {
            legs_now[i] = legs;
            return;
        }
    }
    const bool system_full = of_system(list, fill_site) >= most_of_system;
    std::size_t place = begin + count_[list];
    if (!system_full && count_[list] < most_) {
        ++count_[list];
    } else {
        const std::size_t last = system_full ? last_of_system(list, fill_site) : place - 1;
        if (last < begin + settled_[list] ||
            std::tuple(round_trip(legs_now[last]), fill_site_[last]) <=
                std::tuple(round_trip(legs), fill_site)) {
            return;
        }
        place = last;  // its place is free
    }
    for (; place > begin + settled_[list] &&
           std::tuple(round_trip(legs), fill_site) <
               std::tuple(round_trip(legs_now[place - 1]), fill_site_[place - 1]);
         --place) {
        legs_now[place] = legs_now[place - 1];
        fill_site_[place] = fill_site_[place - 1];
    }
    legs_now[place] = legs;
    fill_site_[place] = fill_site;
}

DriveTime BestTrips::most_kept(DumpSiteIndex dump_site, FillSiteIndex fill_site) const {
    const std::size_t list = dump_site.position() * classes_ + at(class_of_, fill_site);
    const std::size_t begin = list * most_;
    for (std::size_t i = begin; i < begin + settled_[list]; ++i) {
        if (fill_site_[i] == fill_site) {
            return no_time;
        }
    }
    const bool system_full = of_system(list, fill_site) >= most_of_system;
    if (!system_full && count_[list] < most_) {
        return no_time;
    }
    const std::size_t last =
        system_full ? last_of_system(list, fill_site) : begin + count_[list] - 1;
    return last < begin + settled_[list] ? tenths_of_second(-1) : round_trip(legs_.back()[last]);
}

bool BestTrips::one_system(FillSiteIndex a, FillSiteIndex b) const {
    return at(system_of_, a) != FillSitePlace::no_system && at(system_of_, a) == at(system_of_, b);
}

std::size_t BestTrips::of_system(std::size_t list, FillSiteIndex fill_site) const {
    std::size_t count = 0;
    for (std::size_t i = list * most_; i < list * most_ + count_[list]; ++i) {
        count += one_system(fill_site_[i], fill_site) ? 1U : 0U;
    }
    return count;
}

std::size_t BestTrips::last_of_system(std::size_t list, FillSiteIndex fill_site) const {
    std::size_t last = list * most_ + count_[list] - 1;
    while (!one_system(fill_site_[last], fill_site)) {
        --last;
    }
    return last;
}

std::vector<FillTrip> BestTrips::row(std::size_t dump_site) const {
    std::vector<FillTrip> trips;
    for (std::size_t list = dump_site * classes_; list < (dump_site + 1) * classes_; ++list) {
        for (std::size_t i = list * most_; i < list * most_ + count_[list]; ++i) {
            FillTrip trip{fill_site_[i], {}};
            for (std::size_t p = 0; p < profiles_.size(); ++p) {
                at(trip.legs, profiles_[p]) = legs_[p][i];
            }
            trips.push_back(trip);
        }
    }
    const auto key = [&](const FillTrip& trip) {
        std::size_t p = 0;
        while (p + 1 < profiles_.size() && !reachable(round_trip(at(trip.legs, profiles_[p])))) {
            ++p;
        }
        return std::tuple(p, round_trip(at(trip.legs, profiles_[p])), trip.fill_site);
    };
    std::ranges::sort(trips, [&](const FillTrip& a, const FillTrip& b) { return key(a) < key(b); });
    return trips;
}

Lists<FillTrip> BestTrips::lists(const Work& work) const {
    constexpr std::size_t dump_sites_a_chunk = 4096;
    Lists<FillTrip> lists;
    lists.begin.reserve(dump_sites_ + 1);
    for (std::size_t dump_site = 0; dump_site < dump_sites_; ++dump_site) {
        const auto counts = std::span(count_).subspan(dump_site * classes_, classes_);
        lists.begin.push_back(std::accumulate(counts.begin(), counts.end(), lists.begin.back()));
    }
    lists.items.resize(lists.begin.back());
    const auto fill_some = [&](std::size_t begin, std::size_t end) {
        for (std::size_t dump_site = begin; dump_site < end; ++dump_site) {
            std::ranges::copy(row(dump_site), lists.items.begin() + lists.begin[dump_site]);
        }
    };
    for_each_chunk(work, "best round trips", dump_sites_, dump_sites_a_chunk, fill_some);
    return lists;
}

}  // namespace farwater::routing
