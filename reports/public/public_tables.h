// What goes into results for the public: named here table by table and column by column, so that
// what nobody named stays out.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "io/feature_table.h"
#include "reports/findings.h"
#include "reports/layers.h"
#include "reports/workbook_sheets.h"

namespace farwater::reports {

// Stands in the summary and in every document for the public.
std::string_view public_sentence();

// The table with these of its columns, in its own order.
io::FeatureTable only_columns(io::FeatureTable table, const std::vector<std::string_view>& names);

// Layers of supply.gpkg: flow_zones, fill_sites, dump_sites.
std::vector<io::FeatureTable> public_layers(const Findings& findings);

// tables/*.csv; sheets of the workbook beside them are `public_sheets`.
std::vector<io::FeatureTable> public_tables(const Findings& findings);
std::vector<SheetOfWorkbook> public_sheets(const Findings& findings, const RunRecord& record,
                                           std::span<const io::FeatureTable> dictionary);

// Neither the district file's text nor the names of files and vehicles.
RunRecord public_record(const RunRecord& record);

}  // namespace farwater::reports
