#include "analyzer/supply/run/shuttle.h"

#include <algorithm>
#include <limits>

namespace farwater::supply::run {

namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();

double minutes_for(double gallons, double rate) {
    if (gallons <= 0.0) {
        return 0.0;
    }
    return rate > 0.0 ? gallons / rate : no_limit;
}

// A number of places that is of any use to `tankers`.
std::size_t useful(int places, std::size_t tankers) {
    return std::min(static_cast<std::size_t>(std::max(places, 0)), tankers);
}

std::size_t tankers_at(const Incident& incident, std::size_t site) {
    return static_cast<std::size_t>(std::ranges::count(incident.tankers, site, &Tanker::fill_site));
}

Hauler hauler_of(const Tanker& tanker) {
    return {
        .delivered = in_gallons(tanker.delivered),
        .refilled = in_gallons(tanker.refilled),
        .fill_limit = in_gpm(tanker.fill_limit),
        .fill_before = in_minutes(tanker.fill_before),
        .fill_after = in_minutes(tanker.fill_after),
        .offload_before = in_minutes(tanker.offload_before),
        .offload_flow = minutes_for(in_gallons(tanker.delivered), in_gpm(tanker.offload)),
        .offload_after = in_minutes(tanker.offload_after),
        .offload_rate = in_gpm(tanker.offload),
        .empty = in_minutes(tanker.leg.empty),
        .loaded = in_minutes(tanker.leg.loaded),
        .arrives = in_minutes(tanker.arrives),
        .site = tanker.fill_site,
        .can_nurse = tanker.can_nurse,
        .nurse_rate = in_gpm(tanker.nurse_rate),
    };
}

// The way in single file is a part of the visit to the slot instead of the legs: who comes next
// waits before it.
void give_way_to(Hauler& hauler, double single_file) {
    hauler.arrives -= single_file;
    hauler.offload_before += single_file;
    hauler.offload_after += single_file;
    hauler.empty = std::max(0.0, hauler.empty - single_file);
    hauler.loaded = std::max(0.0, hauler.loaded - single_file);
}

// Whoever waits behind a slower one would seem to have run in meanwhile.
void nurse_at_the_least_rate(std::vector<Hauler>& haulers) {
    double least = no_limit;
    for (const Hauler& hauler : haulers) {
        least = hauler.can_nurse ? std::min(least, hauler.nurse_rate) : least;
    }
    for (Hauler& hauler : haulers) {
        hauler.nurse_rate = least;
    }
}

Site site_of(const FillSite& fill_site, std::size_t tankers) {
    return {
        .pump = in_gpm(fill_site.pump),
        .ready = in_minutes(fill_site.ready),
        .usable = fill_site.usable ? in_gallons(*fill_site.usable) : no_limit,
        .inflow = in_gpm(fill_site.inflow),
        .places = useful(fill_site.places, tankers),
    };
}

double largest_fill_limit(const Incident& incident, std::size_t site) {
    double largest = 0.0;
    for (const Tanker& tanker : incident.tankers) {
        largest = std::max(largest, tanker.fill_site == site ? in_gpm(tanker.fill_limit) : 0.0);
    }
    return largest;
}

}  // namespace

FillRegimes::Choices FillRegimes::choices_at(const Incident& incident, std::size_t site) {
    const FillSite& fill_site = incident.fill_sites[site];
    const std::size_t most =
        std::max<std::size_t>(1, useful(fill_site.places, tankers_at(incident, site)));
    if (fill_site.flows) {
        const int given = std::clamp(*fill_site.flows, 1, std::max(1, fill_site.places));
        return {static_cast<std::size_t>(given), static_cast<std::size_t>(given)};
    }
    std::size_t least = 1;
    const double limit = largest_fill_limit(incident, site);
    while (least < most && in_gpm(fill_site.pump) >= limit * static_cast<double>(least + 1)) {
        ++least;
    }
    return {least, most};
}

// The last site's flows change first.
void FillRegimes::take_all_combinations() {
    for (std::size_t regime = 0; regime < count_; ++regime) {
        std::size_t rest = regime;
        std::size_t each = count_;
        for (const Choices& site : choices_) {
            each /= site.count();
            flows_.push_back(site.least + rest / each);
            rest %= each;
        }
    }
}

void FillRegimes::take_all_together() {
    count_ = std::ranges::max(choices_, {}, &Choices::most).most;
    for (std::size_t flows = 1; flows <= count_; ++flows) {
        for (const Choices& site : choices_) {
            flows_.push_back(std::clamp(flows, site.least, site.most));
        }
    }
}

void FillRegimes::find(const Incident& incident) {
    choices_.clear();
    flows_.clear();
    count_ = 1;
    for (std::size_t site = 0; site < incident.fill_sites.size(); ++site) {
        choices_.push_back(choices_at(incident, site));
        count_ = std::min(count_ * choices_.back().count(), most_regimes + 1);
    }
    if (count_ <= most_regimes) {
        take_all_combinations();
    } else {
        take_all_together();
    }
}

void make_ready(Shuttle& shuttle, const Incident& incident) {
    const DumpSite& dump = incident.dump_site;
    shuttle.haulers.clear();
    shuttle.sites.clear();
    shuttle.slots = useful(dump.offload_slots, incident.tankers.size());
    std::ranges::transform(dump.further_slots_from, shuttle.further_slots_from.begin(),
                           [](Duration from) { return in_minutes(from); });
    shuttle.places = 0;
    shuttle.lines = 0;
    shuttle.storage = dump.storage ? in_gallons(*dump.storage) : no_limit;
    shuttle.engine_tank = in_gallons(dump.engine_tank);
    shuttle.engine_arrives = in_minutes(dump.engine_arrives);
    shuttle.tanks_ready = in_minutes(dump.tanks_ready);
    shuttle.draft_ready = in_minutes(dump.draft_ready);
    shuttle.nursing_tankers = dump.nursing_tankers;
    shuttle.nurse_hookup = in_minutes(dump.nurse_hookup + dump.single_file);
    for (const Tanker& tanker : incident.tankers) {
        if (in_gallons(tanker.delivered) > 0.0) {
            shuttle.haulers.push_back(hauler_of(tanker));
            shuttle.haulers.back().fill_before +=
                in_minutes(incident.fill_sites[tanker.fill_site].backing);
            give_way_to(shuttle.haulers.back(), in_minutes(dump.single_file));
        }
    }
    if (shuttle.nursing_tankers > 1) {
        nurse_at_the_least_rate(shuttle.haulers);
    }
    for (std::size_t site = 0; site < incident.fill_sites.size(); ++site) {
        shuttle.sites.push_back(site_of(incident.fill_sites[site], tankers_at(incident, site)));
        shuttle.sites.back().first_place = shuttle.places;
        shuttle.places += shuttle.sites.back().places;
    }
}

void fill_by(Shuttle& shuttle, FillRegime regime) {
    shuttle.lines = 0;
    for (std::size_t i = 0; i < shuttle.sites.size(); ++i) {
        Site& site = shuttle.sites[i];
        site.first_line = shuttle.lines;
        site.lines = std::min(regime[i], site.places);
        shuttle.lines += site.lines;
    }
    for (Hauler& hauler : shuttle.haulers) {
        const double share =
            shuttle.sites[hauler.site].pump / static_cast<double>(regime[hauler.site]);
        hauler.fill_flow = minutes_for(hauler.refilled, std::min(hauler.fill_limit, share));
    }
}

}  // namespace farwater::supply::run
