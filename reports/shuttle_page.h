// The answer about a shuttle typed by hand, as a page for a terminal and as JSON.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "analyzer/supply/shuttle_answer.h"
#include "analyzer/supply/typed_shuttle.h"

namespace farwater::reports {

struct ShuttlePage {
    std::string file;  // name of the scenario
    const supply::TypedShuttle& typed;
    const supply::ShuttleAnswer& answer;
};

std::string shuttle_text(const ShuttlePage& page);
std::string shuttle_json(const ShuttlePage& page);

// One more of each thing: its word in JSON, what it is, and what it gains.
struct GainWords {
    std::string_view key, words;
    HeldFlow gain{};
};
std::vector<GainWords> gain_words(const supply::ShuttleAnswer& answer);

// What the shuttle page leaves out.
std::vector<std::string_view> shuttle_not_modelled();

}  // namespace farwater::reports
