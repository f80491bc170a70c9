// From two compared results to files in a folder.
#pragma once

#include <filesystem>

#include "analyzer/parallel/work.h"
#include "io/result_file.h"
#include "reports/comparison/comparison_results.h"

namespace farwater::app {

// comparison.gpkg in the CRS of the later result, comparison.html, a CSV for each table,
// columns.csv. Shapes come from both files, a row at a time. False when stopped. Throws InputError,
// OutputError.
bool write_comparison(const std::filesystem::path& folder, const io::ResultFile& before,
                      const io::ResultFile& after, const reports::ComparedResults& results,
                      const Work& work);

}  // namespace farwater::app
