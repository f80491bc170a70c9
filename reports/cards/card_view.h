// One card while it is composed, and the parts that it is made of.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "reports/cards/card_book.h"
#include "reports/cards/printed_sheet.h"

namespace farwater::reports {

// The boxes of all roads, so that a map is drawn from those near it.
class RoadsAround {
public:
    explicit RoadsAround(const District& district);
    // Adds the stretches that come near the box, the smallest roads first; drives only where the
    // map is narrow enough to show them.
    void add_to(SiteMap& map) const;

private:
    const District& district_;
    std::vector<Box> boxes_;
};

// Only a view.
struct CardView {
    const CardBook& book;
    const RoadsAround& roads;
    std::size_t card = 0;

    const CardSite& site() const { return book.sites[card]; }
    const supply::Working& working() const { return book.workings[card]; }
    const supply::ParcelSupply& supply() const { return book.findings.supply(site().worst); }
    const District& district() const { return book.district(); }
    const DumpSiteCandidate& place() const;
    // The shuttle at this dump site; null where none was worked out.
    const supply::ShuttleWorking* look() const;
    // Can tankers be run there at all?
    bool has_shuttle() const;
};

PrintedSheet card_sheet(const CardView& view);

// "Mill Road at Hill Road", "Mill Road, near 12 Mill Road".
std::string site_title(const CardView& view);

std::vector<SiteMap> card_maps(const CardView& view);

SheetPart who_comes(const CardView& view);
SheetPart dump_site_part(const CardView& view);
SheetPart hose_part(const CardView& view);
SheetPart fill_sites_part(const CardView& view);
SheetPart first_minutes_part(const CardView& view);
SheetPart limits_part(const CardView& view);
SheetPart jobs_part(const CardView& view);
SheetPart cautions_part(const CardView& view);

// A page of the source book.
PrintedSheet source_sheet(const CardBook& book, const RoadsAround& roads,
                          const supply::CountedSource& counted);
std::string source_anchor(SourceIndex source);
std::string card_anchor(std::size_t card);

}  // namespace farwater::reports
