// What the department says, what the data show, and what is missing: lists that the tables and the
// documents of the rating share.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "reports/findings.h"

namespace farwater::reports {

// Something that the assessor will ask for and that the data do not hold.
struct MissingEvidence {
    std::string subject;  // source, unit or district
    std::string record;   // its id; empty: the district as a whole
    std::string what;
    bool stops = false;  // without it the source does not count
};
// Sources that are declared for rating, then apparatus that counts, then the district's papers,
// which no data can hold.
std::vector<MissingEvidence> missing_evidence(const Findings& findings);

// Per unit: the parcels with a building for which it makes water, at the dump site, a fill site or
// in line.
std::vector<std::size_t> makes_water_for(const Findings& findings);

// Per source: the units that pump from it for parcels with a building, and for how many, by unit.
struct PumpsAt {
    UnitIndex unit;
    std::size_t parcels = 0;
};
std::vector<std::vector<PumpsAt>> engines_at_sources(const Findings& findings);
// "E1 (12 parcels), E3 (1 parcel)".
std::string engines_in_words(const District& district, const std::vector<PumpsAt>& engines);

// "first arrival" and so on: where the clock of the terms starts.
std::string_view clock_in_words(ClockStart clock);

// Missing papers of one source in words, "" between them by "; ".
std::string lacks_in_words(const rating::SourceVerdict& verdict);

// Flow as documents show it: rounded down to 25 gpm below 500 and to 50 above.
int shown_gpm(HeldFlow flow);

}  // namespace farwater::reports
