// Where to build, as a plain problem: candidates, what each of them would do for each customer,
// what it costs, and how many or how much may be spent.
//
// A customer counts with the best of the chosen sites, and nothing is counted twice. The gain of a
// set is then monotone and submodular, which the guarantees of greedy_choice.h rest on.
#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <vector>

#include "analyzer/district/round_trips.h"

namespace farwater::planning {

// Gains are whole numbers, so that sums do not depend on their order.
using Gain = std::int64_t;
using Cents = std::int64_t;

struct Offer {
    std::uint32_t customer = 0;
    Gain gain = 0;  // > 0; of the customer, with this site and no other new one
};

enum class Ruling : std::uint8_t {
    open,
    planned,    // is built whatever is chosen: it comes first and uses up no number and no budget
    ruled_out,  // never chosen
};

struct ChoiceProblem {
    std::size_t customers = 0;
    Lists<Offer> offers;          // per candidate, by customer, each once
    std::vector<Cents> costs;     // per candidate, not negative
    std::vector<Ruling> rulings;  // per candidate
    std::size_t most_sites = std::numeric_limits<std::size_t>::max();  // beside the planned ones
    std::optional<Cents> budget;                                       // likewise

    std::size_t candidates() const { return offers.size(); }
};

// Sites as they were chosen, the planned ones first.
using Sites = std::vector<std::uint32_t>;

// What the sites do together. O(their offers + customers).
Gain gain_of(const ChoiceProblem& problem, std::span<const std::uint32_t> sites);

// What those that are not planned cost together.
Cents cost_of(const ChoiceProblem& problem, std::span<const std::uint32_t> sites);

Sites planned_sites(const ChoiceProblem& problem);  // ascending

// What each customer has from the best of the chosen sites, and what one more would add.
class Standings {
public:
    explicit Standings(const ChoiceProblem& problem)
        : problem_(problem), best_(problem.customers, 0) {}

    Gain added_by(std::uint32_t site) const;  // O(its offers)
    void take(std::uint32_t site);
    const std::vector<Gain>& best() const { return best_; }

private:
    const ChoiceProblem& problem_;
    std::vector<Gain> best_;  // per customer
};

}  // namespace farwater::planning
