// What the words of a column's name are, as people abbreviate them, and the unit that it ends in.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace farwater::io {

struct NameWords {
    std::vector<std::string> words;  // in one spelling each, sorted, each once; without the unit
    std::string_view unit;           // as io/records/unit_words.h spells it; empty = none

    friend bool operator==(const NameWords&, const NameWords&) = default;
    bool has(std::string_view word) const;
};

// The words of a name parted by anything between letters and figures, by a capital ("PostedSpd")
// or, where a run of letters is no word, into words that are ("POSTEDSPD", "WtLimitTon"): one for
// each thing, whatever its abbreviation. Words that say nothing ("is", "flag") are left out. In a
// name of ten letters, as a shapefile cuts them, the last word may be the beginning of one.
// O(letters squared x words known).
NameWords words_of_name(std::string_view name);

}  // namespace farwater::io
