// A table whose columns are added to the parcels' by a key.
#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "analyzer/parallel/work.h"
#include "io/district_file.h"
#include "io/records/layer_rows.h"
#include "io/records/layer_source.h"
#include "io/records/record.h"

namespace farwater::io {

class JoinedTable {
public:
    // Opens the table. Throws what open_source throws.
    explicit JoinedTable(const JoinSpec& spec);

    // Reads all of it, once. Throws what for_each_record throws.
    void read(const Work& work);

    const LayerSource& source() const { return source_; }
    const std::string& parcel_key() const { return parcel_key_; }  // empty = the parcel's id
    bool has(std::string_view field) const;

    // The cells of the row with this key, marked as found; empty when there is none. They live as
    // long as the table.
    std::vector<JoinedCell> find(const std::string& key);

    // The table's log when all parcels have looked: rows that none found are set aside. Throws
    // InputError when no row at all was found.
    LayerLog log() const;

private:
    struct Row {
        std::vector<Cell> cells;  // in the order of fields_
        bool found = false;
    };

    LayerSource source_;
    std::string parcel_key_;
    std::vector<std::string> fields_;   // of the parcels
    std::vector<std::string> columns_;  // theirs, in the same order
    std::vector<Row> rows_;
    std::vector<std::string> keys_;  // of the rows
    std::unordered_map<std::string, std::size_t> by_key_;
    LayerLog log_;
};

}  // namespace farwater::io
