// What `init` made of a folder, for a terminal and as JSON.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace farwater::reports {

struct DraftedTable {
    std::string section;                                       // "parcels", "join", "elevation"
    std::string source;                                        // "county.gpkg, layer parcels"
    std::optional<std::size_t> records;                        // none = not counted, or a raster
    std::vector<std::pair<std::string, std::string>> columns;  // our field, their column
    std::vector<std::string> likely;                           // fields that are only suggested
    std::vector<std::string> lacks;                            // what it cannot be read without
    // Sources that could be the same thing, and why this one is taken.
    std::vector<std::pair<std::string, std::string>> others;
    std::vector<std::string> competing;   // fields that several columns could be; sentences
    std::vector<std::string> overlooked;  // unread columns that could change an answer; sentences
    bool suggested = false;               // stands behind # in the file
};

struct DraftPage {
    std::string folder;
    std::size_t files = 0;
    std::vector<DraftedTable> tables;
    std::vector<std::pair<std::string, std::string>> passed_over;  // source, why
    std::vector<std::string> other_files;
    std::vector<std::string> missing;  // sentences without a full stop
    std::vector<std::string> written;  // paths
    std::string next;                  // the next command
};

// Lines of about 100 letters: recognised, not read, passed over, still missing, written, the next
// command.
std::string draft_text(const DraftPage& page);

// One document with "schema_version".
std::string draft_json(const DraftPage& page);

}  // namespace farwater::reports
