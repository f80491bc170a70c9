// Times on open road networks equal those of general-purpose libraries, for all pairs of a sample.
#include <algorithm>

#include <catch2/catch.hpp>

#include "tests/reference/lemon_times.h"
#include "tests/reference/open_networks.h"
#include "tests/reference/scipy_times.h"

using namespace farwater::reference;

namespace {

// A comparison in which hardly anything is reached would compare nothing.
void check_that_enough_is_reached(const Question& question) {
    const auto all = static_cast<std::ptrdiff_t>(question.ours.size());
    REQUIRE(all == 100 * 1000);
    CHECK(std::ranges::count(question.ours, unreached) < all / 2);
    CHECK(std::ranges::count(question.ours_in_twenty_minutes, unreached) < all);
}

void check_against_lemon(const Questions& questions) {
    if (!questions) {
        return;
    }
    for (const Question& question : *questions) {
        CAPTURE(question.name);
        check_that_enough_is_reached(question);
        const Times theirs = lemon_times(question.graph, question.sample);
        CHECK((question.ours == theirs));
        CHECK((question.ours_in_twenty_minutes == within(theirs, twenty_minutes)));
    }
}

void check_against_scipy(const Questions& questions) {
    if (!questions) {
        return;
    }
    for (const Question& question : *questions) {
        const Compared compared =
            compare_with_scipy(question.graph, question.sample, question.ours);
        INFO(question.name << ": " << compared.said);
        CHECK(compared.equal);
    }
}

}  // namespace

TEST_CASE("times on weighted one-way streets equal LEMON's") {
    check_against_lemon(weighted_streets());
}
TEST_CASE("times on a topology with stated weights equal LEMON's") {
    check_against_lemon(topology_with_stated_weights());
}
TEST_CASE("times between spots of the rural town equal LEMON's") {
    check_against_lemon(rural_town());
}
TEST_CASE("times between spots of the npm package's city equal LEMON's") {
    check_against_lemon(city_of_the_npm_package());
}

TEST_CASE("times on weighted one-way streets equal SciPy's") {
    if (scipy_installed()) {
        check_against_scipy(weighted_streets());
    }
}
TEST_CASE("times on a topology with stated weights equal SciPy's") {
    if (scipy_installed()) {
        check_against_scipy(topology_with_stated_weights());
    }
}
TEST_CASE("times between spots of the rural town equal SciPy's") {
    if (scipy_installed()) {
        check_against_scipy(rural_town());
    }
}
TEST_CASE("times between spots of the npm package's city equal SciPy's") {
    if (scipy_installed()) {
        check_against_scipy(city_of_the_npm_package());
    }
}
