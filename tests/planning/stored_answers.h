// Answers of results, made by hand.
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "analyzer/district/stored_result.h"

namespace farwater::test {

// Tenths of a gpm; none: blank.
inline StoredAnswer stored(std::string id, SupplyState state, std::optional<int> needed,
                           std::optional<int> cautious, std::optional<int> later = {}) {
    StoredAnswer answer;
    answer.id = std::move(id);
    answer.state = state;
    const auto put = [&answer](AnswerNumber which, std::optional<int> tenths) {
        if (tenths) {
            answer.numbers[static_cast<std::size_t>(which)] = Tenths{*tenths};
        }
    };
    put(AnswerNumber::needed, needed);
    put(AnswerNumber::cautious, cautious);
    put(AnswerNumber::later, later ? later : cautious);
    return answer;
}

inline StoredAnswers told(std::vector<StoredAnswer> places) {
    StoredAnswers answers{.told = true, .places = std::move(places)};
    answers.numbers_told.fill(true);
    answers.texts_told.fill(true);
    return answers;
}

}  // namespace farwater::test
