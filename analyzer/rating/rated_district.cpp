#include "analyzer/rating/rated_district.h"

#include <algorithm>
#include <limits>

namespace farwater::rating {

bool unit_counts(const District& district, const Unit& unit, const Terms& terms) {
    return aid_of(district, unit) <= terms.farthest_aid;
}

District only_what_counts(const District& district, std::span<const SourceVerdict> sources,
                          const Terms& terms) {
    District rated = district;
    rated.problems.clear();
    for (std::size_t i = 0; i < rated.sources.size(); ++i) {
        if (!sources[i].creditable()) {
            rated.sources[i].standing = Standing::mapped;
        }
    }
    for (Unit& unit : rated.units) {
        if (!unit_counts(district, unit, terms)) {
            unit.crew = 0;
            unit.min_crew = std::numeric_limits<int>::max();
        }
    }
    rated.assumptions.relay_reach = std::max(rated.assumptions.relay_reach, terms.hose);
    return rated;
}

supply::PlanOrder order_of(const Terms& terms) {
    return {.terms = supply::FirstMinutesTerms{.flow = held(terms.minimum),
                                               .within = terms.start_within,
                                               .full_within = terms.full_within,
                                               .from_alarm = terms.clock == ClockStart::alarm}};
}

std::vector<std::optional<Need>> needs_by_terms(std::span<const std::optional<Need>> needs,
                                                const Terms& terms) {
    std::vector<std::optional<Need>> by_terms(needs.begin(), needs.end());
    for (std::optional<Need>& need : by_terms) {
        if (need) {
            need->flow = held(terms.minimum);
            need->duration = terms.duration;
        }
    }
    return by_terms;
}

}  // namespace farwater::rating
