#include "tests/support/slow_allocation.h"

#include <algorithm>
#include <cmath>

namespace farwater::slow {
namespace {

// max gain x with x >= 0 and every row's uses of x at most what it has (not negative). Dantzig's
// tableau with Bland's rule, which cannot go round in circles.
class Tableau {
public:
    Tableau(const std::vector<double>& gains, const std::vector<std::vector<double>>& uses,
            const std::vector<double>& has) {
        const std::size_t columns = gains.size();
        for (std::size_t row = 0; row < has.size(); ++row) {
            rows_.push_back(uses[row]);
            rows_.back().resize(columns + has.size(), 0.0);
            rows_.back()[columns + row] = 1.0;
            rows_.back().push_back(has[row]);
            basis_.push_back(columns + row);
        }
        costs_.assign(columns + has.size() + 1, 0.0);
        for (std::size_t column = 0; column < columns; ++column) {
            costs_[column] = -gains[column];
        }
    }

    double largest() {
        for (;;) {
            std::size_t enters = 0;
            while (enters + 1 < costs_.size() && costs_[enters] >= -1e-11) {
                ++enters;
            }
            if (enters + 1 == costs_.size()) {
                return costs_.back();
            }
            pivot(leaving_row(enters), enters);
        }
    }

private:
    std::size_t leaving_row(std::size_t enters) const {
        std::size_t leaves = rows_.size();
        double least = 0.0;
        for (std::size_t row = 0; row < rows_.size(); ++row) {
            if (rows_[row][enters] <= 1e-11) {
                continue;
            }
            const double ratio = rows_[row].back() / rows_[row][enters];
            const bool first = leaves == rows_.size() || ratio < least - 1e-12;
            if (first || (ratio < least + 1e-12 && basis_[row] < basis_[leaves])) {
                leaves = row;
                least = ratio;
            }
        }
        return leaves;
    }

    void pivot(std::size_t leaves, std::size_t enters) {
        const double by = rows_[leaves][enters];
        for (double& value : rows_[leaves]) {
            value /= by;
        }
        for (std::size_t row = 0; row < rows_.size(); ++row) {
            if (row != leaves) {
                subtract(rows_[row], rows_[leaves], enters);
            }
        }
        subtract(costs_, rows_[leaves], enters);
        basis_[leaves] = enters;
    }

    static void subtract(std::vector<double>& from, const std::vector<double>& row,
                         std::size_t enters) {
        const double times = from[enters];
        for (std::size_t i = 0; i < from.size(); ++i) {
            from[i] -= times * row[i];
        }
    }

    std::vector<std::vector<double>> rows_;
    std::vector<double> costs_;
    std::vector<std::size_t> basis_;
};

struct Resources {
    std::vector<std::vector<double>> uses;
    std::vector<double> has;
    template <class Uses>
    void add(const Incident& incident, double amount, Uses uses_of) {
        uses.emplace_back();
        for (std::size_t t = 0; t < incident.tankers.size(); ++t) {
            uses.back().push_back(uses_of(t));
        }
        has.push_back(amount);
    }
};

}  // namespace

double slow_fluid_flow(const Incident& incident, double duration) {
    const auto& tankers = incident.tankers;
    const auto site_of = [&](std::size_t t) { return incident.fill_sites[tankers[t].fill_site]; };
    const auto flowing = [&](std::size_t t) {
        const FillSite site = site_of(t);
        const double share = site.pump / static_cast<double>(std::max<std::size_t>(1, site.flows));
        return tankers[t].refilled / std::min(tankers[t].fill_limit, share);
    };
    const auto in_place = [&](std::size_t t) {
        return tankers[t].fill_before + flowing(t) + tankers[t].fill_after;
    };
    const auto in_slot = [&](std::size_t t) {
        return tankers[t].offload_before + tankers[t].delivered / tankers[t].offload +
               tankers[t].offload_after;
    };
    Resources rows;
    rows.add(incident, static_cast<double>(incident.slots), in_slot);
    for (std::size_t one = 0; one < tankers.size(); ++one) {
        rows.add(incident, 1.0, [&](std::size_t t) {
            return t != one
                       ? 0.0
                       : in_place(t) + in_slot(t) + tankers[t].empty_leg + tankers[t].loaded_leg;
        });
    }
    for (std::size_t s = 0; s < incident.fill_sites.size(); ++s) {
        const FillSite& site = incident.fill_sites[s];
        const auto here = [&](auto uses_of) {
            return [&tankers, s, uses_of](std::size_t t) {
                return tankers[t].fill_site == s ? uses_of(t) : 0.0;
            };
        };
        const auto gallons = [&](std::size_t t) { return tankers[t].refilled; };
        rows.add(incident, static_cast<double>(site.places), here(in_place));
        rows.add(incident, static_cast<double>(site.flows == 0 ? site.places : site.flows),
                 here(flowing));
        rows.add(incident, site.pump, here(gallons));
        if (std::isfinite(site.usable)) {
            rows.add(incident, site.usable / duration + site.inflow, here(gallons));
        }
    }
    std::vector<double> gains;
    for (const Tanker& tanker : tankers) {
        gains.push_back(tanker.delivered);
    }
    return Tableau(gains, rows.uses, rows.has).largest();
}

std::vector<SplitValue> slow_splits(const Incident& incident,
                                    const std::vector<std::vector<WayThere>>& ways,
                                    double duration) {
    std::vector<SplitValue> splits;
    std::vector<std::size_t> sites(ways.size(), 0);
    for (;;) {
        Incident sent = incident;
        bool possible = true;
        for (std::size_t t = 0; t < ways.size(); ++t) {
            const WayThere& way = ways[t][sites[t]];
            possible = possible && way.has_value();
            sent.tankers[t].fill_site = sites[t];
            sent.tankers[t].empty_leg = way ? way->first : 0.0;
            sent.tankers[t].loaded_leg = way ? way->second : 0.0;
        }
        if (possible) {
            splits.push_back({sites, slow_fluid_flow(sent, duration)});
        }
        std::size_t next = 0;
        while (next < sites.size() && ++sites[next] == incident.fill_sites.size()) {
            sites[next++] = 0;
        }
        if (next == sites.size()) {
            break;
        }
    }
    std::stable_sort(splits.begin(), splits.end(),
                     [](const SplitValue& a, const SplitValue& b) { return a.flow > b.flow; });
    return splits;
}

}  // namespace farwater::slow
