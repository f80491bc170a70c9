#include <algorithm>
#include <map>
#include <utility>

#include "analyzer/district/sorted_once.h"
#include "reports/cards/card_book.h"
#include "reports/cards/card_words.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

bool is_served(const supply::ParcelSupply& supply) {
    return supply.state != SupplyState::no_building && supply.dump_site.valid();
}

std::vector<CardSite> all_sites(const Findings& findings) {
    std::map<DumpSiteIndex, CardSite> sites;
    for (std::size_t row = 0; row < findings.assessment.supplies.size(); ++row) {
        const supply::ParcelSupply& supply = findings.supply(row);
        if (!is_served(supply)) {
            continue;
        }
        CardSite& site = sites[supply.dump_site];
        const auto place = static_cast<std::uint32_t>(row);
        if (site.rows.empty() || supply::worse(supply, findings.supply(site.worst))) {
            site.worst = place;
        }
        site.dump_site = supply.dump_site;
        site.rows.push_back(place);
    }
    std::vector<CardSite> list;
    for (auto& [index, site] : sites) {
        list.push_back(std::move(site));
    }
    return list;
}

}  // namespace

std::vector<CardSite> card_sites(const Findings& findings, std::size_t most) {
    std::vector<CardSite> sites = all_sites(findings);
    if (sites.size() <= most) {
        return sites;
    }
    std::ranges::stable_sort(sites, std::greater<>{},
                             [](const CardSite& site) { return site.rows.size(); });
    sites.resize(most);
    std::ranges::sort(sites, {}, &CardSite::dump_site);
    return sites;
}

std::string CardBook::place_name(std::size_t row) const {
    if (row >= findings.parcels()) {
        const Target& target = district().targets[row - findings.parcels()];
        return name_words(target.name.empty() ? target.id : target.name);
    }
    const std::string_view known = address(row);
    return known.empty() ? "parcel " + name_words(district().parcels[row].id) : name_words(known);
}

std::string CardBook::data_date() const { return day(district().data_date); }

std::vector<std::optional<std::uint32_t>> card_of_rows(const CardBook& book) {
    std::vector<std::optional<std::uint32_t>> cards(book.findings.assessment.supplies.size());
    for (std::size_t card = 0; card < book.sites.size(); ++card) {
        for (const std::uint32_t row : book.sites[card].rows) {
            cards[row] = static_cast<std::uint32_t>(card);
        }
    }
    return cards;
}

std::size_t sites_left_out(const CardBook& book) {
    std::vector<DumpSiteIndex> used;
    for (const supply::ParcelSupply& supply : book.findings.assessment.supplies) {
        if (is_served(supply)) {
            used.push_back(supply.dump_site);
        }
    }
    return sorted_once(std::move(used)).size() - book.sites.size();
}

std::vector<const supply::CountedSource*> sources_with_page(const CardBook& book,
                                                            std::size_t most) {
    std::vector<std::size_t> uses(book.district().sources.size(), 0);
    for (const supply::ParcelSupply& supply : book.findings.assessment.supplies) {
        if (supply.fill_source.valid()) {
            ++at(uses, supply.fill_source);
        }
        for (const supply::FurtherFill& fill : supply.further_fills) {
            if (fill.source.valid()) {
                ++at(uses, fill.source);
            }
        }
    }
    std::vector<const supply::CountedSource*> sources;
    for (const supply::CountedSource& counted : book.findings.water.counted) {
        const WaterSource& source = at(book.district().sources, counted.source);
        if (source.kind != SourceKind::hydrant || at(uses, counted.source) > 0) {
            sources.push_back(&counted);
        }
    }
    if (sources.size() > most) {
        std::ranges::stable_sort(sources, std::greater<>{},
                                 [&](const auto* counted) { return at(uses, counted->source); });
        sources.resize(most);
        std::ranges::sort(sources, {}, &supply::CountedSource::source);
    }
    return sources;
}

}  // namespace farwater::reports
