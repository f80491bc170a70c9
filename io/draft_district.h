// From a folder of data to a first district file: what its layers most likely are, written down so
// that a person can put it right. Nothing that is there is changed.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "analyzer/parallel/work.h"

namespace farwater::io {

// One layer, table or raster, and what it is taken for.
struct DraftTable {
    std::string section;                                       // "parcels", "join", "elevation"
    std::string source;                                        // "county.gpkg, layer parcels"
    std::optional<std::size_t> records;                        // none = not counted, or a raster
    std::vector<std::pair<std::string, std::string>> columns;  // our field, their column; sure ones
    std::vector<std::string> likely;  // fields whose column stands in the file as a suggestion
    std::vector<std::string> lacks;   // what it cannot be read without
    // Sources that could be the same thing, and why this one is taken.
    std::vector<std::pair<std::string, std::string>> others;
    std::vector<std::string> competing;   // fields that several columns could be; sentences
    std::vector<std::string> overlooked;  // unread columns that could change an answer; sentences
    bool suggested = false;               // stands behind # until somebody completes it
};

struct DraftLeftOut {
    std::string source;
    std::string why;
};

struct Draft {
    std::filesystem::path folder;
    std::size_t files = 0;                 // data sets that were looked at
    std::vector<DraftTable> tables;        // in the order of the district file
    std::vector<DraftLeftOut> left_out;    // by source
    std::vector<std::string> other_files;  // no data by their names
    std::vector<std::string> missing;      // what is still missing and where to write it; sentences
    std::vector<std::string> sheets;       // sections of department.xlsx; empty = it is not needed
    std::string district_file;             // text
};

// Looks at all data of the folder and of its folders (io/draft/find_data.h). Throws InputError
// where the folder cannot be read or nothing in it is recognised; OutputError where it holds a
// district file, or a workbook that would have to be written. Comes back early when `work` is
// stopped, to be thrown away. O(data sets): at most 200 records of each layer are read
// (io/draft/look_at_data.h), and of those that are recognised the columns of words once more from
// one end to the other (io/draft/look_at_words.h).
Draft draft_district(const std::filesystem::path& folder, const Work& work);

// Writes department.xlsx where there are sheets, and district.toml: both or none, never over a file
// that is there. Returns what was written. Throws OutputError.
std::vector<std::filesystem::path> write_draft(const Draft& draft);

}  // namespace farwater::io
