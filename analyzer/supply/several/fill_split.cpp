#include "analyzer/supply/several/fill_split.h"

#include <algorithm>
#include <utility>

#include "analyzer/supply/incident_run.h"

namespace farwater::supply {
namespace {

constexpr std::size_t not_in_use = static_cast<std::size_t>(-1);

Incident with_all(const Incident& bare, const std::vector<Tanker>& tankers, const FillSet& set) {
    Incident all = bare;
    all.tankers = tankers;
    all.fill_sites = set.sites;
    return all;
}

Leg times(const Leg& leg, double factor) { return {leg.empty * factor, leg.loaded * factor}; }

bool is_last_at_its_site(const FillSplit& split, std::size_t tanker) {
    const int site = split.where[tanker];
    return site != FillSplit::stands_by && std::ranges::count(split.where, site) == 1;
}

bool try_each_elsewhere(const SplitIncidents& incidents, const PlanJudge& judge, FillSplit& best) {
    const FillSplit from = best;
    for (std::size_t tanker = 0; tanker < incidents.tankers(); ++tanker) {
        if (is_last_at_its_site(from, tanker)) {
            continue;
        }
        for (int site = FillSplit::stands_by; site < static_cast<int>(incidents.sites()); ++site) {
            const bool may = site < 0 || incidents.may_go(tanker, static_cast<std::size_t>(site));
            if (may && site != from.where[tanker]) {
                FillSplit split = from;
                split.where[tanker] = site;
                try_split(incidents, judge, std::move(split), best);
            }
        }
    }
    return better(best.merit, from.merit);
}

bool try_exchanges(const SplitIncidents& incidents, const PlanJudge& judge, FillSplit& best) {
    const FillSplit from = best;
    const auto may = [&](std::size_t tanker, int site) {
        return site < 0 || incidents.may_go(tanker, static_cast<std::size_t>(site));
    };
    for (std::size_t one = 0; one < incidents.tankers(); ++one) {
        for (std::size_t other = one + 1; other < incidents.tankers(); ++other) {
            if (from.where[one] != from.where[other] && may(one, from.where[other]) &&
                may(other, from.where[one])) {
                FillSplit split = from;
                std::swap(split.where[one], split.where[other]);
                try_split(incidents, judge, std::move(split), best);
            }
        }
    }
    return better(best.merit, from.merit);
}

bool try_nursing(const SplitIncidents& incidents, const PlanJudge& judge, FillSplit& best) {
    if (!incidents.can_nurse()) {
        return false;
    }
    FillSplit split = best;
    split.nursing = 1 - split.nursing;
    return try_split(incidents, judge, std::move(split), best);
}

}  // namespace

SplitIncidents::SplitIncidents(const Incident& bare, const std::vector<Tanker>& tankers,
                               const FillSet& set, double factor)
    : plain_(with_all(bare, tankers, set)),
      slow_(slowed(plain_, factor)),
      options_(set.options),
      factor_(factor) {}

bool SplitIncidents::may_go(std::size_t tanker, std::size_t site) const {
    return options_[site]->legs[tanker].has_value();
}

bool SplitIncidents::can_nurse() const {
    return std::ranges::any_of(plain_.tankers, &Tanker::can_nurse);
}

Incident SplitIncidents::sent(const Incident& all, double factor, const FillSplit& split,
                              std::vector<std::size_t>* used) const {
    Incident incident{.dump_site = all.dump_site,
                      .fill_sites = {},
                      .tankers = {},
                      .initial_attack = all.initial_attack};
    incident.dump_site.nursing_tankers = split.nursing;
    incident.tankers.reserve(all.tankers.size());
    incident.fill_sites.reserve(all.fill_sites.size());
    std::vector<std::size_t> place(all.fill_sites.size(), not_in_use);
    for (std::size_t t = 0; t < all.tankers.size(); ++t) {
        if (split.where[t] == FillSplit::stands_by) {
            continue;
        }
        const auto site = static_cast<std::size_t>(split.where[t]);
        if (place[site] == not_in_use) {
            place[site] = incident.fill_sites.size();
            incident.fill_sites.push_back(all.fill_sites[site]);
            if (used != nullptr) {
                used->push_back(site);
            }
        }
        Duration& ready = incident.fill_sites[place[site]].ready;
        ready = std::min(ready, options_[site]->opened_by[t].value_or(ready));
        incident.tankers.push_back(all.tankers[t]);
        incident.tankers.back().fill_site = place[site];
        incident.tankers.back().leg = times(*options_[site]->legs[t], factor);
    }
    return incident;
}

Incident SplitIncidents::plain(const FillSplit& split, std::vector<std::size_t>* used) const {
    return sent(plain_, 1.0, split, used);
}

Incident SplitIncidents::slow(const FillSplit& split) const {
    return sent(slow_, factor_, split, nullptr);
}

FillSite SplitIncidents::all_in_one() const {
    FillSite all = slow_.fill_sites.front();
    for (std::size_t s = 1; s < sites(); ++s) {
        const FillSite& site = slow_.fill_sites[s];
        all.places += site.places;
        all.pump += site.pump;
        all.ready = std::min(all.ready, site.ready);
        all.usable =
            all.usable && site.usable ? std::optional(*all.usable + *site.usable) : std::nullopt;
        all.inflow += site.inflow;
        all.backing = std::min(all.backing, site.backing);
    }
    for (const FillOption* option : options_) {
        for (const auto& opened : option->opened_by) {
            all.ready = std::min(all.ready, opened.value_or(all.ready));
        }
    }
    return all;
}

std::optional<Leg> SplitIncidents::nearest_leg(std::size_t tanker) const {
    std::optional<Leg> nearest;
    for (const FillOption* option : options_) {
        if (const auto& leg = option->legs[tanker]) {
            const Leg slow = times(*leg, factor_);
            nearest = nearest ? Leg{std::min(nearest->empty, slow.empty),
                                    std::min(nearest->loaded, slow.loaded)}
                              : slow;
        }
    }
    return nearest;
}

Incident SplitIncidents::most() const {
    Incident best = slow_;
    best.fill_sites = {all_in_one()};
    best.dump_site.nursing_tankers = can_nurse() ? 1 : 0;
    best.tankers.clear();
    for (std::size_t t = 0; t < tankers(); ++t) {
        if (const auto leg = nearest_leg(t)) {
            best.tankers.push_back(slow_.tankers[t]);
            best.tankers.back().leg = *leg;
        }
    }
    return best;
}

bool try_split(const SplitIncidents& incidents, const PlanJudge& judge, FillSplit split,
               FillSplit& best) {
    const auto merit = judge.better_than(best.merit, incidents.slow(split),
                                         [&] { return incidents.plain(split); });
    if (merit) {
        split.merit = *merit;
        best = std::move(split);
    }
    return merit.has_value();
}

bool send_one_to_last(const SplitIncidents& incidents, const PlanJudge& judge, FillSplit& best) {
    const std::size_t last = incidents.sites() - 1;
    const FillSplit from = best;
    for (std::size_t tanker = 0; tanker < incidents.tankers(); ++tanker) {
        if (incidents.may_go(tanker, last) && !is_last_at_its_site(from, tanker)) {
            FillSplit split = from;
            split.where[tanker] = static_cast<int>(last);
            try_split(incidents, judge, std::move(split), best);
        }
    }
    return better(best.merit, from.merit);
}

void improve_split(const SplitIncidents& incidents, const PlanJudge& judge, FillSplit& best) {
    while (try_each_elsewhere(incidents, judge, best) || try_nursing(incidents, judge, best) ||
           try_exchanges(incidents, judge, best)) {
    }
}

}  // namespace farwater::supply
