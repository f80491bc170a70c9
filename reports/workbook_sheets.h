// What tables/coverage.xlsx shows, sheet by sheet, and what every column of the result means.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "io/feature_table.h"
#include "reports/findings.h"
#include "reports/layers.h"

namespace farwater::reports {

struct SheetOfWorkbook {
    std::string name;
    io::FeatureTable table;
};

// Summary, then who is served by what, what falls short, what it rests on, and what it is not.
// `dictionary`: the tables whose columns are explained. All must outlive the sheets.
std::vector<SheetOfWorkbook> workbook_sheets(const Findings& findings, const RunRecord& record,
                                             std::span<const io::FeatureTable> dictionary);

// Headline, zones, date of the data, program and district file.
io::FeatureTable summary_lines(const Findings& findings, const RunRecord& record);

// Improved parcels by the station whose engine is first at their dump site or source.
io::FeatureTable by_station(const Findings& findings);

// Tankers with what the run took for them, and the shuttles in which they are first.
io::FeatureTable by_tanker(const Findings& findings);

// A row per column: table, column, type, unit, what it means.
io::FeatureTable column_meanings(std::span<const io::FeatureTable> tables);

// What must stand wherever results stand, and what is not modelled.
io::FeatureTable caution_lines(const Findings& findings);

}  // namespace farwater::reports
