#include "analyzer/app/card_facts.h"

#include <algorithm>
#include <utility>

#include "analyzer/supply/assess.h"

namespace farwater::app {
namespace {

std::vector<std::size_t> worst_rows(const std::vector<reports::CardSite>& sites) {
    std::vector<std::size_t> rows;
    for (const reports::CardSite& site : sites) {
        rows.push_back(site.worst);
    }
    return rows;
}

}  // namespace

std::optional<CardFacts> card_facts(const District& district,
                                    const std::vector<std::optional<Need>>& needs,
                                    const Analysis& analysis, const Work& work,
                                    const StageBegins& begins) {
    const reports::Findings findings = analysis.findings(district);
    CardFacts facts{.sites = reports::card_sites(findings), .workings = {}, .routes = {}};
    facts.workings.resize(facts.sites.size());
    if (facts.sites.empty()) {
        return facts;
    }
    const auto is_wanted = [&](const supply::Variant& variant) {
        return std::ranges::any_of(facts.sites, [&](const reports::CardSite& site) {
            return findings.worst_variant(site.worst) == variant;
        });
    };
    const auto see = [&](const VariantSeen& seen) {
        const supply::Variant variant = seen.variant();
        for_each_chunk(work, "cards", facts.sites.size(), 1,
                       [&](std::size_t begin, std::size_t end) {
                           for (std::size_t i = begin; i < end; ++i) {
                               const std::size_t row = facts.sites[i].worst;
                               if (findings.worst_variant(row) == variant) {
                                   facts.workings[i] = supply::working_of(
                                       seen.situation, seen.needs, seen.first_arrivals, row);
                               }
                           }
                       });
    };
    auto again = analyse(
        district, needs, work,
        [&](std::string_view stage) { begins("cards: " + std::string(stage)); },
        {.wanted = is_wanted, .sees = see}, worst_rows(facts.sites));
    if (!again) {
        return std::nullopt;
    }
    facts.routes = std::move(again->routes);
    return facts;
}

}  // namespace farwater::app
