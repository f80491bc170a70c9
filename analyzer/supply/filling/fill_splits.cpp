#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <tuple>

#include "analyzer/supply/filling/fill_allocation.h"

namespace farwater::supply {
namespace {

constexpr std::size_t most_programs = 20'000;
constexpr double as_good = 0.05;      // gpm: what a split must be better by
constexpr double whole_share = 1e-6;  // less of a tanker's time is none

using Sites = std::vector<std::size_t>;  // of tankers or of a choice
constexpr std::size_t undecided = std::numeric_limits<std::size_t>::max();

bool same_kind(const Tanker& a, const Tanker& b) {
    const auto key = [](const Tanker& t) {
        return std::tie(t.delivered, t.refilled, t.fill_limit, t.offload, t.fill_before,
                        t.fill_after, t.offload_before, t.offload_after);
    };
    return key(a) == key(b);
}

// For each tanker the first one of its kind.
Sites kinds_of(const Incident& incident, const FillLegs& legs) {
    Sites kinds;
    for (std::size_t t = 0; t < incident.tankers.size(); ++t) {
        std::size_t kind = 0;
        while (!(same_kind(incident.tankers[kind], incident.tankers[t]) && legs[kind] == legs[t])) {
            ++kind;
        }
        kinds.push_back(kind);
    }
    return kinds;
}

// Depth first through the choices of sites, one tanker after the other, those first that the fluid
// model would divide. Of one kind the tankers are decided in their order and never go back to an
// earlier site, so that no split is seen twice.
class SplitSearch {
public:
    SplitSearch(const Incident& incident, const FillLegs& legs, Window window, std::size_t most)
        : legs_(legs),
          kinds_(kinds_of(incident, legs)),
          model_(incident, legs, window),
          sites_(incident.fill_sites.size()),
          most_(most),
          chosen_(incident.tankers.size(), undecided) {}

    // Only `open` sites, ascending.
    void search(const Sites& open) {
        open_ = open;
        visit();
    }

    Splits found() && { return std::move(found_); }

private:
    void visit() {
        if (programs_ == most_programs) {
            found_.proved = false;
            return;
        }
        ++programs_;
        for (std::size_t t = 0; t < chosen_.size(); ++t) {
            for (std::size_t s = 0; s < sites_; ++s) {
                model_.allow(t, s, may_go(t, s));
            }
        }
        const double bound = std::round(model_.largest() * 1000.0) / 1000.0;
        if (found_.best.size() == most_ && bound <= found_.best.back().fluid + as_good) {
            return;
        }
        const std::vector<std::vector<double>> shares = all_shares();
        const std::size_t tanker = next_tanker(shares);
        if (tanker == undecided) {
            add({chosen_, bound});
            return;
        }
        for (const std::size_t site : by_share(tanker, shares[tanker])) {
            chosen_[tanker] = site;
            visit();
            chosen_[tanker] = undecided;
        }
    }

    bool may_go(std::size_t tanker, std::size_t site) const {
        if (!legs_[tanker][site] || std::ranges::find(open_, site) == open_.end()) {
            return false;
        }
        return chosen_[tanker] == undecided ? site >= least_site(tanker) : chosen_[tanker] == site;
    }

    // Of those of its kind that are decided, the last one's.
    std::size_t least_site(std::size_t tanker) const {
        std::size_t least = 0;
        for (std::size_t t = 0; t < tanker; ++t) {
            if (kinds_[t] == kinds_[tanker] && chosen_[t] != undecided) {
                least = chosen_[t];
            }
        }
        return least;
    }

    std::vector<std::vector<double>> all_shares() const {
        std::vector<std::vector<double>> shares(chosen_.size(), std::vector<double>(sites_));
        for (std::size_t t = 0; t < chosen_.size(); ++t) {
            for (std::size_t s = 0; s < sites_; ++s) {
                shares[t][s] = model_.share(t, s);
            }
        }
        return shares;
    }

    // The tanker that the model divides most, by the part that would go elsewhere; the first of its
    // kind that is undecided.
    std::size_t next_tanker(const std::vector<std::vector<double>>& shares) const {
        std::size_t next = undecided;
        double most_elsewhere = -1.0;
        for (std::size_t t = 0; t < chosen_.size(); ++t) {
            if (chosen_[t] != undecided) {
                continue;
            }
            const double all = std::accumulate(shares[t].begin(), shares[t].end(), 0.0);
            const double elsewhere = all - *std::ranges::max_element(shares[t]);
            if (elsewhere > most_elsewhere + whole_share) {
                most_elsewhere = elsewhere;
                next = t;
            }
        }
        for (std::size_t t = 0; next != undecided && t < next; ++t) {
            if (kinds_[t] == kinds_[next] && chosen_[t] == undecided) {
                return t;
            }
        }
        return next;
    }

    Sites by_share(std::size_t tanker, const std::vector<double>& shares) const {
        Sites order;
        for (const std::size_t site : open_) {
            if (may_go(tanker, site)) {
                order.push_back(site);
            }
        }
        const auto rounded = [&](std::size_t site) {
            return -std::round(shares[site] / whole_share);
        };
        std::ranges::stable_sort(order, {}, rounded);
        return order;
    }

    void add(Split split) {
        const auto better = [](const Split& a, const Split& b) {
            return a.fluid != b.fluid ? a.fluid > b.fluid : a.fill_sites < b.fill_sites;
        };
        const auto place = std::ranges::lower_bound(found_.best, split, better);
        if (place != found_.best.end() && place->fill_sites == split.fill_sites) {
            return;
        }
        found_.best.insert(place, std::move(split));
        found_.best.resize(std::min(found_.best.size(), most_));
    }

    const FillLegs& legs_;
    Sites kinds_;
    FluidModel model_;
    std::size_t sites_;
    std::size_t most_;
    Sites open_;
    Sites chosen_;
    std::size_t programs_ = 0;
    Splits found_;
};

// All choices of `count` out of 0..sites-1, ascending.
std::vector<Sites> choices_of(std::size_t sites, std::size_t count) {
    std::vector<Sites> choices;
    for (std::size_t set = 0; set < (std::size_t{1} << sites); ++set) {
        Sites choice;
        for (std::size_t site = 0; site < sites; ++site) {
            if ((set >> site & 1U) != 0) {
                choice.push_back(site);
            }
        }
        if (choice.size() == std::min(count, sites)) {
            choices.push_back(std::move(choice));
        }
    }
    return choices;
}

// Every tanker has somewhere to go.
bool serves_all(const Sites& open, const FillLegs& legs) {
    return std::ranges::all_of(legs, [&](const auto& of_tanker) {
        return std::ranges::any_of(open,
                                   [&](std::size_t site) { return of_tanker[site].has_value(); });
    });
}

}  // namespace

Splits best_splits(const Incident& incident, const FillLegs& legs, Window window,
                   std::size_t most) {
    SplitSearch search(incident, legs, window, most);
    const std::size_t sites = incident.fill_sites.size();
    bool served = incident.tankers.empty();
    for (std::size_t count = most_sites_in_use; !served && count <= std::max(sites, count);
         ++count) {
        for (const Sites& open : choices_of(sites, count)) {
            if (serves_all(open, legs)) {
                search.search(open);
                served = true;
            }
        }
        served = served || count >= sites;
    }
    return std::move(search).found();
}

}  // namespace farwater::supply
