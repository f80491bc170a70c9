// The book of run cards: one card for each dump site that an improved property is assigned to.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/parallel/work.h"
#include "analyzer/supply/working.h"
#include "io/feature_table.h"
#include "reports/findings.h"
#include "reports/layers.h"

namespace farwater::reports {

inline constexpr std::size_t most_cards = 1500;
inline constexpr std::size_t most_cards_in_html = 600;

inline constexpr std::size_t most_source_pages = 500;

// A dump site with the parcels and targets that it serves in the worst season and period of each.
struct CardSite {
    DumpSiteIndex dump_site;
    std::vector<std::uint32_t> rows;  // ascending
    std::uint32_t worst = 0;          // of them: the card's figures are its own
};

// By dump site. Where there are more than `most`, those that serve most: the others have no card,
// and the index says so. Of equals the first. O(rows).
std::vector<CardSite> card_sites(const Findings& findings, std::size_t most = most_cards);

// Only a view: all must outlive it.
struct CardBook {
    const Findings& findings;
    const RunRecord& record;
    std::function<std::string_view(std::size_t parcel)> address;
    const std::vector<CardSite>& sites;
    const std::vector<supply::Working>& workings;  // of each site's worst place
    const RoutesInUse& routes;  // of the worst places, with lines; by row as the findings'

    const District& district() const { return findings.district; }
    // "12 Mill Road", else the parcel's or target's name or id.
    std::string place_name(std::size_t row) const;
    std::string data_date() const;
};

// Per row the place of its card in `sites`; none: it has none.
std::vector<std::optional<std::uint32_t>> card_of_rows(const CardBook& book);

// How many dump sites in use have no card.
std::size_t sites_left_out(const CardBook& book);

// What `farwater cards --json` prints: how many cards, and how many dump sites in use have none.
std::string cards_json(const CardBook& book);

// The sources that get a page, by source: all that count but hydrants that fill for no place; of
// more than `most` those that fill for most places. O(places + sources).
std::vector<const supply::CountedSource*> sources_with_page(const CardBook& book,
                                                            std::size_t most = most_source_pages);

using ByteSink = std::function<void(std::string_view)>;

// The index, every card, then a page for each source of sources_with_page. The same bytes for the
// same book. Memory: one sheet at a time and what cairo keeps of the document. False: it could not
// be made.
bool write_cards_pdf(const CardBook& book, const Work& work, const ByteSink& sink);

// The same in HTML: at most most_cards_in_html cards with the most places; it says so.
void write_cards_html(const CardBook& book, const Work& work, const ByteSink& sink);

// dispatch.csv: address, card, dump site, fill sites and first tankers, one row per improved parcel
// and target.
io::FeatureTable dispatch_table(const CardBook& book);

}  // namespace farwater::reports
