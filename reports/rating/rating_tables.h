// What the insurance rating says, as columns of the parcels and as tables. All of them want
// findings with a rating.
#pragma once

#include <array>
#include <vector>

#include "reports/findings.h"
#include "reports/layers.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {

// Rows are parcels, then targets. Empty without a rating.
std::vector<ColumnOf> rating_columns(const Findings& findings);

io::FeatureTable rating_terms(const Findings& findings);       // every number, and how sure it is
io::FeatureTable rating_categories(const Findings& findings);  // totals by category
io::FeatureTable rating_reasons(const Findings& findings);     // totals by what fails first
io::FeatureTable rating_sources(const Findings& findings);
io::FeatureTable rating_fleet(const Findings& findings);
io::FeatureTable rating_claims(const Findings& findings);
io::FeatureTable rating_missing(const Findings& findings);
io::FeatureTable rating_tankers(const Findings& findings);  // of the calculation sheets

inline constexpr std::array<MakesTable, 8> rating_csv_tables{
    rating_terms, rating_categories, rating_reasons, rating_sources,
    rating_fleet, rating_claims,     rating_missing, rating_tankers};

}  // namespace farwater::reports
