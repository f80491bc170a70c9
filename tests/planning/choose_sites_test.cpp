#include "analyzer/planning/choose_sites.h"

#include <catch2/catch.hpp>

using namespace farwater;
using namespace farwater::planning;

namespace {

struct Row {
    Cents cost;
    std::vector<Offer> offers;
    Ruling ruling = Ruling::open;
};

ChoiceProblem problem_of(std::size_t customers, const std::vector<Row>& rows) {
    ChoiceProblem problem;
    problem.customers = customers;
    for (const Row& row : rows) {
        problem.offers.items.insert(problem.offers.items.end(), row.offers.begin(),
                                    row.offers.end());
        problem.offers.close_row();
        problem.costs.push_back(row.cost);
        problem.rulings.push_back(row.ruling);
    }
    return problem;
}

}  // namespace

TEST_CASE("an exchange finds what taking one after the other misses") {
    // Greedy takes the middle first: 11, then either side adds 5. Both sides together give 20.
    ChoiceProblem problem =
        problem_of(4, {{1, {{0, 5}, {1, 5}}}, {1, {{1, 5}, {2, 6}}}, {1, {{2, 5}, {3, 5}}}});
    problem.most_sites = 2;
    const Choice choice = choose_sites(problem);
    CHECK(choice.greedy_gain == 16);
    CHECK(choice.gain == 20);
    CHECK(choice.sites == Sites{0, 2});
    CHECK(choice.at_most == 20);
    CHECK(choice.gap() == 0.0);
}

TEST_CASE("a budget is not spent on what is dear for its gain") {
    ChoiceProblem problem =
        problem_of(3, {{100, {{0, 50}}}, {30, {{1, 40}}}, {40, {{2, 30}}}, {0, {{2, 10}}}});
    problem.budget = 100;
    const Choice choice = choose_sites(problem);
    CHECK(choice.sites == Sites{1, 2});
    CHECK(choice.gain == 70);
    CHECK(choice.at_most >= 70);
}

TEST_CASE("planned sites come first and use up neither number nor budget") {
    ChoiceProblem problem =
        problem_of(2, {{5, {{0, 9}}}, {7, {{1, 3}}, Ruling::planned}, {1, {{1, 8}}}});
    problem.most_sites = 1;
    problem.budget = 5;
    const Choice choice = choose_sites(problem);
    CHECK(choice.sites == Sites{1, 0});
    CHECK(choice.gain == 12);
}

TEST_CASE("a site that is ruled out is not chosen, nor is one that helps nobody") {
    const ChoiceProblem problem = problem_of(1, {{0, {{0, 9}}, Ruling::ruled_out}, {0, {}}});
    const Choice choice = choose_sites(problem);
    CHECK(choice.sites.empty());
    CHECK(choice.gain == 0);
    CHECK(choice.at_most == 0);
}

TEST_CASE("there is a choice of nothing from nothing") {
    const Choice choice = choose_sites(ChoiceProblem{});
    CHECK(choice.sites.empty());
    CHECK(choice.gap() == 0.0);
}
