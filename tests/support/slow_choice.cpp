#include "tests/support/slow_choice.h"

#include <algorithm>

namespace farwater::slow {

std::int64_t gain_of_set(const SiteTable& table, std::uint32_t set) {
    std::int64_t sum = 0;
    const std::size_t customers = table.gains.empty() ? 0 : table.gains.front().size();
    for (std::size_t customer = 0; customer < customers; ++customer) {
        std::int64_t best = 0;
        for (std::size_t site = 0; site < table.gains.size(); ++site) {
            if ((set >> site & 1U) != 0) {
                best = std::max(best, table.gains[site][customer]);
            }
        }
        sum += best;
    }
    return sum;
}

std::int64_t best_gain(const SiteTable& table) {
    std::int64_t best = -1;
    for (std::uint32_t set = 0; set < 1U << table.gains.size(); ++set) {
        std::int64_t cost = 0;
        std::size_t count = 0;
        bool allowed = true;
        for (std::size_t site = 0; site < table.gains.size(); ++site) {
            const bool in = (set >> site & 1U) != 0;
            allowed = allowed && (in || !table.planned[site]) && !(in && table.ruled_out[site]);
            if (in && !table.planned[site]) {
                cost += table.costs[site];
                ++count;
            }
        }
        if (allowed && count <= table.most_sites && (!table.budget || cost <= *table.budget)) {
            best = std::max(best, gain_of_set(table, set));
        }
    }
    return best;
}

}  // namespace farwater::slow
