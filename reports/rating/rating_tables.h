// What the insurance rating says, as columns of the parcels and as tables. All of them want
// findings with a rating.
#pragma once

#include <array>
#include <functional>
#include <string_view>
#include <vector>

#include "reports/findings.h"
#include "reports/layers.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {

// Rows are parcels, then targets. Empty without a rating.
std::vector<ColumnOf> rating_columns(const Findings& findings);

// The address of a parcel's row, empty where the data give none. What it returns outlives the
// table.
using AddressOf = std::function<std::string_view(std::size_t parcel)>;
io::FeatureTable rating_parcels(const Findings& findings, const AddressOf& address);

io::FeatureTable rating_terms(const Findings& findings);       // every number, and how sure it is
io::FeatureTable rating_categories(const Findings& findings);  // totals by category
io::FeatureTable rating_reasons(const Findings& findings);     // totals by what fails first
io::FeatureTable rating_sources(const Findings& findings);
io::FeatureTable rating_fleet(const Findings& findings);
io::FeatureTable rating_claims(const Findings& findings);
io::FeatureTable rating_missing(const Findings& findings);
io::FeatureTable rating_starts(const Findings& findings);        // when brought water begins
io::FeatureTable rating_seasons(const Findings& findings);       // and where, by season and period
io::FeatureTable rating_calculations(const Findings& findings);  // facts of the calculation sheets
io::FeatureTable rating_tankers(const Findings& findings);       // and their tankers

// All but rating_parcels.
inline constexpr std::array<MakesTable, 11> rating_csv_tables{
    rating_terms,   rating_categories,   rating_reasons, rating_starts,
    rating_seasons, rating_sources,      rating_fleet,   rating_claims,
    rating_missing, rating_calculations, rating_tankers};

}  // namespace farwater::reports
