#include "analyzer/app/weigh_improvements.h"

#include <algorithm>
#include <utility>

#include "analyzer/planning/with_improvement.h"

namespace farwater::app {
namespace {

std::optional<reports::RatingShift> rating_shift(const Analysis& before, const Analysis& after,
                                                 std::size_t parcels) {
    if (!before.rating || !after.rating) {
        return std::nullopt;
    }
    reports::RatingShift shift;
    for (std::size_t row = 0; row < parcels; ++row) {
        const bool was = before.rating->places[row].has_water();
        const bool is = after.rating->places[row].has_water();
        shift.gained += is && !was ? 1 : 0;
        shift.lost += was && !is ? 1 : 0;
    }
    return shift;
}

// False when stopped.
bool weigh(reports::WeighedImprovement& weighed, const reports::ImprovementFindings& findings,
           const Analysis& as_is, const Work& work) {
    const District& district = findings.district;
    const District improved = planning::with_improvement(district, weighed.improvement);
    const std::optional<Analysis> with_it = analyse_flow(improved, as_is.asked.needs, work);
    if (!with_it) {
        return false;
    }
    weighed.changes = planning::changes_between(
        as_is.assessment.supplies, with_it->assessment.supplies, district.parcels.size());
    weighed.sum = planning::sum_of(weighed.changes, findings.weights);
    weighed.rating = rating_shift(as_is, *with_it, district.parcels.size());
    return true;
}

}  // namespace

std::optional<reports::ImprovementFindings> weigh_improvements(
    const District& district, const Analysis& as_is, std::vector<Improvement> improvements,
    planning::Weights weights, const Work& work) {
    reports::ImprovementFindings findings{.district = district, .weights = std::move(weights)};
    findings.now = reports::as_it_is(
        std::span(as_is.assessment.supplies).first(findings.district.parcels.size()));
    const Work quiet = work.told_by_number();
    for (std::size_t i = 0; i < improvements.size(); ++i) {
        work.step("improvements", i, improvements.size());
        reports::WeighedImprovement weighed{.improvement = std::move(improvements[i])};
        if (!weigh(weighed, findings, as_is, quiet)) {
            return std::nullopt;
        }
        findings.weighed.push_back(std::move(weighed));
    }
    std::ranges::stable_sort(findings.weighed, [](const auto& a, const auto& b) {
        return a.sum.weighted > b.sum.weighted;
    });
    return findings;
}

}  // namespace farwater::app
