// Plain words of the trade for kinds of apparatus and of water, where they mean one of ours alone.
#pragma once

#include <string>
#include <string_view>

#include "io/settings/schema.h"

namespace farwater::io {

// Our word of the list that theirs means; empty where the list has none for it. Upper and lower
// case, blanks, hyphens, slashes and underscores are alike: "Tanker/Pumper" is a tanker, "pond" a
// draft_site. What could be either ("engine/tanker", "fill site") is none. As in the United
// States, where a tender is a tanker.
std::string_view trade_word(std::string_view theirs, WordList words);

// "tender and water tender mean tanker; ...": all of the list, for the reference page.
std::string trade_words_told(WordList words);

}  // namespace farwater::io
