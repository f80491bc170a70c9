// Tables as one spreadsheet workbook (ISO/IEC 29500, by libxlsxwriter): a sheet for each, to be
// read, sorted and printed.
#pragma once

#include <chrono>
#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

#include "analyzer/parallel/work.h"
#include "io/feature_table.h"

namespace farwater::io {

struct WorkbookSheet {
    std::string name;  // at most 31 letters, none of []:*?/ and backslash; once in the workbook
    FeatureTable table;
};

struct WorkbookHead {
    std::string title;              // on top of each printed page
    std::string footing;            // at its foot
    std::chrono::sys_days created;  // of the data, never of the clock
};

// Rows of a sheet beyond it are left out, and its last row says so: a list that long is for the
// CSV.
inline constexpr std::size_t most_rows_of_sheet = 20000;

// "shortfall_gpm" as a heading: "shortfall, gpm".
std::string heading_of(const Column& column);

// Each sheet has one row of headings with units that stays in sight, a filter, a format by the
// column's decimals and a width by what it holds; it prints in landscape, headings on every page.
// Text is always text, whatever it looks like; what is no UTF-8 becomes ?, control characters are
// left out, and 32,000 letters are the most of a cell. The same bytes for the same tables. False
// when stopped. Throws OutputError. O(cells); holds one row.
bool write_workbook(const std::filesystem::path& file, const WorkbookHead& head,
                    const std::vector<WorkbookSheet>& sheets, const Work& work);

}  // namespace farwater::io
