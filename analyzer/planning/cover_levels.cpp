#include "analyzer/planning/cover_levels.h"

#include <algorithm>
#include <utility>

namespace farwater::planning {
namespace {

struct SiteGain {
    Gain gain = 0;
    std::uint32_t site = 0;
};

// Per customer, the best gains first, of equals the smaller site.
std::vector<std::vector<SiteGain>> by_customer(const ChoiceProblem& problem) {
    std::vector<std::vector<SiteGain>> gains(problem.customers);
    for (std::uint32_t site = 0; site < problem.candidates(); ++site) {
        if (problem.rulings[site] != Ruling::ruled_out) {
            for (const Offer& offer : problem.offers[site]) {
                gains[offer.customer].push_back({offer.gain, site});
            }
        }
    }
    for (std::vector<SiteGain>& of_customer : gains) {
        std::ranges::stable_sort(of_customer, std::greater{}, &SiteGain::gain);
    }
    return gains;
}

// Spreads a site over 64 bits, so that sums of sites tell sets apart but for a chance that is
// checked (SplitMix64: G. Steele, D. Lea, C. Flood 2014).
std::uint64_t spread(std::uint64_t site) {
    std::uint64_t z = (site + 1) * 0x9e3779b97f4a7c15ULL;
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31U);
}

class Levels {
public:
    void add(const std::vector<SiteGain>& gains) {
        cover_.clear();
        std::uint64_t sum = 0;
        std::uint32_t above = CoverLevels::none;
        for (std::size_t i = 0; i < gains.size();) {
            const Gain gain = gains[i].gain;
            come_on_.clear();
            for (; i < gains.size() && gains[i].gain == gain; ++i) {
                come_on_.push_back(gains[i].site);
                sum += spread(gains[i].site);
            }
            const auto middle = static_cast<std::ptrdiff_t>(cover_.size());
            cover_.insert(cover_.end(), come_on_.begin(), come_on_.end());
            std::inplace_merge(cover_.begin(), cover_.begin() + middle, cover_.end());
            above = level_of(sum, above);
            levels_.worth[above] += gain - (i < gains.size() ? gains[i].gain : 0);
        }
    }

    CoverLevels take() { return std::move(levels_); }

private:
    // The level with the cover at hand, a new one where there is none yet.
    std::uint32_t level_of(std::uint64_t sum, std::uint32_t above) {
        const auto [first, last] = found_.equal_range(sum);
        for (auto it = first; it != last; ++it) {
            if (cover_of(it->second) == cover_) {
                return it->second;
            }
        }
        const auto level = static_cast<std::uint32_t>(levels_.size());
        levels_.worth.push_back(0);
        levels_.above.push_back(above);
        levels_.sites.items.insert(levels_.sites.items.end(), come_on_.begin(), come_on_.end());
        levels_.sites.close_row();
        found_.emplace(sum, level);
        return level;
    }

    std::vector<std::uint32_t> cover_of(std::uint32_t level) const {
        std::vector<std::uint32_t> cover;
        for (; level != CoverLevels::none; level = levels_.above[level]) {
            cover.insert(cover.end(), levels_.sites[level].begin(), levels_.sites[level].end());
        }
        std::ranges::sort(cover);
        return cover;
    }

    CoverLevels levels_;
    std::unordered_multimap<std::uint64_t, std::uint32_t> found_;
    std::vector<std::uint32_t> cover_, come_on_;  // of the customer at hand
};

}  // namespace

CoverLevels cover_levels(const ChoiceProblem& problem) {
    Levels levels;
    for (const std::vector<SiteGain>& gains : by_customer(problem)) {
        levels.add(gains);
    }
    return levels.take();
}

}  // namespace farwater::planning
