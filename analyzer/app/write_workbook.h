// Tables as one workbook, and what their columns mean.
#pragma once

#include <filesystem>
#include <span>
#include <vector>

#include "analyzer/parallel/work.h"
#include "reports/workbook_sheets.h"

namespace farwater::app {

// coverage.xlsx and columns.csv in the folder. False when stopped. Throws OutputError.
bool write_workbook_and_columns(const std::filesystem::path& folder, const District& district,
                                std::vector<reports::SheetOfWorkbook> sheets,
                                std::span<const io::FeatureTable> dictionary, const Work& work);

}  // namespace farwater::app
