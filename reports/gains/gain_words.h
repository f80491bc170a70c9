// Gains and money in words, for pages that are read at a table.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "analyzer/planning/gains.h"
#include "analyzer/planning/weights.h"
#include "reports/as_it_is.h"

namespace farwater::reports {

std::string gained_words(const planning::GainSum& sum);  // "4,195 gpm for 101 properties, ..."
std::string lost_words(const planning::GainSum& sum);
std::string statement_of(const planning::GainSum& sum);  // a whole sentence
std::string now_words(const AsItIs& now);
// Of places without a price, where there is a budget: a whole sentence, empty where there is none.
std::string unpriced_words(std::size_t places);

// "the people there", "its value": times what a property counts; empty: times 1.
std::string counts_for_words(WeighBy by);
// "21,400 gpm x people"; empty where each property counts for 1.
std::string weighted_words(const planning::Weights& weights, const planning::GainSum& sum);
// A whole sentence or two; empty likewise.
std::string weights_statement(const planning::Weights& weights);

std::string money_words(const std::optional<double>& money);  // "85,000"; "-" where not known
// "-" where the cost is not known, or nothing is gained.
std::string cost_for_each(const std::optional<double>& cost, double gained);

// "worth it only if ...; ask the owner": one item for each clause.
std::vector<std::string> clauses(const std::string& text);

}  // namespace farwater::reports
