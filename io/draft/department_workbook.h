// The workbook that a department fills in where no table tells its stations, apparatus, water
// sources and dump sites (ISO/IEC 29500, by libxlsxwriter).
#pragma once

#include <filesystem>
#include <span>
#include <string_view>
#include <vector>

#include "io/settings/schema.h"

namespace farwater::io {

inline constexpr std::string_view workbook_name = "department.xlsx";
// A phone's two numbers of a place, as people call them.
inline constexpr std::string_view heading_of_x = "longitude";
inline constexpr std::string_view heading_of_y = "latitude";

// The sections that have a sheet, in order: stations, apparatus, water_sources, dump_site_places.
std::span<const std::string_view> sections_with_sheet();

// How the section's sheet is called. Precondition: it has one.
std::string_view sheet_of_section(std::string_view section);

// What the note on a column's heading says: meaning, unit, range or words, what a blank means. From
// the texts of the schema.
std::string note_of_field(const FieldRow& field);

// A first sheet with plain words, then one for each of `sections`: names of columns in row 1, those
// asked first leftmost, a note on each, words to choose from, cells of words as text so that 4-11
// stays what it is. The same bytes for the same sections. Throws OutputError; what was begun is
// removed then. Precondition: each has a sheet.
void write_department_workbook(const std::filesystem::path& file,
                               const std::vector<std::string_view>& sections);

}  // namespace farwater::io
