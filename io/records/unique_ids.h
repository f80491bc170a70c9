// Gives every record of a layer an id of its own.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "io/records/record.h"

namespace farwater::io {

// A set of texts in two flat arrays: a million ids cost one look into memory each, not three.
class TextSet {
public:
    // True when it was not there yet. O(1).
    bool insert(std::string_view text);
    bool contains(std::string_view text);  // O(1)
    std::size_t size() const { return texts_.size(); }

private:
    struct Slot {
        std::uint32_t tag = 0;       // upper half of the hash
        std::uint32_t position = 0;  // in texts_, plus one; 0 = free
    };
    Slot& slot_of(std::string_view text, std::size_t hash);
    void grow();

    std::vector<std::string> texts_;
    std::vector<Slot> slots_;  // a power of two, at most half full
};

class UniqueIds {
public:
    // The record's id, trimmed, which it is then called by. A missing one becomes "row 17"; one
    // that an earlier record has gets " (2)" behind it; both are reported. Where the layer has no
    // column for ids, "row 17" is not worth a report.
    std::string take(Record& record, std::string_view field);
    // The id itself, or the first of "ID (2)", "ID (3)" ... that nobody has. O(1), also for the
    // thousandth of one id.
    std::string unique(const std::string& id);

private:
    TextSet taken_;
    std::unordered_map<std::string, int> next_copy_;  // of ids that were there before
};

// Ids of things that must not count twice: a truck or a pond typed twice would be two. Rows are the
// same whose ids are, without regard to case and blanks.
class IdsOnce {
public:
    // The record's id as UniqueIds takes it, or none, with a problem, where a row that was used has
    // it: the record is to be set aside.
    std::optional<std::string> take(Record& record, std::string_view field);
    void used(const std::string& id);  // call for each record that is kept

private:
    TextSet used_;
};

}  // namespace farwater::io
