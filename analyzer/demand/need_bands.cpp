#include "analyzer/demand/need_bands.h"

#include <algorithm>

#include "analyzer/demand/needed_flow.h"

namespace farwater::demand {
namespace {

std::string in_words(const NeedRules& rules) {
    switch (rules.method) {
        case NeedMethod::column:
            return "column, else the default flow";
        case NeedMethod::fixed:
            return "one flow for all";
        case NeedMethod::rural_supply:
            return rules.dwelling_cap ? "rural supply, dwellings' class capped"
                                      : "rural supply, no cap on dwellings";
        case NeedMethod::rating_schedule:
            return rules.separation_table == SeparationTable::older
                       ? "rating schedule, older table of dwellings"
                       : "rating schedule, newer table of dwellings";
        case NeedMethod::fire_code:
            return "fire code";
    }
    return {};
}

// None where the method leaves nothing to choose.
std::optional<NeedRules> other_choice(NeedRules rules) {
    if (rules.method == NeedMethod::rural_supply) {
        rules.dwelling_cap = !rules.dwelling_cap;
        return rules;
    }
    if (rules.method == NeedMethod::rating_schedule) {
        rules.separation_table = rules.separation_table == SeparationTable::older
                                     ? SeparationTable::newer
                                     : SeparationTable::older;
        return rules;
    }
    return std::nullopt;
}

}  // namespace

NeedBands bands_of(const District& district, std::span<const std::optional<Need>> needs,
                   std::string rule) {
    NeedBands bands{std::move(rule), {}};
    for (std::size_t row = 0; row < std::min(district.parcels.size(), needs.size()); ++row) {
        if (needs[row]) {
            const auto band = std::ranges::lower_bound(need_band_gpm, in_tenths(needs[row]->flow),
                                                       {}, [](int bound) { return 10 * bound; });
            ++bands.parcels[static_cast<std::size_t>(band - need_band_gpm.begin())];
        }
    }
    return bands;
}

std::vector<NeedBands> need_bands(const District& district,
                                  std::span<const std::optional<Need>> needs) {
    std::vector<NeedBands> all{bands_of(district, needs, in_words(district.need))};
    if (const std::optional<NeedRules> other = other_choice(district.need)) {
        all.push_back(bands_of(district, needs_under(district, *other), in_words(*other)));
    }
    return all;
}

}  // namespace farwater::demand
