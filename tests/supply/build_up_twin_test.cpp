// How the flow builds up, and how many more tankers meet a need, against a run of each question.
#include <catch2/catch.hpp>

#include "analyzer/supply/build_up.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/places/limits.h"
#include "tests/supply/incidents.h"
#include "tests/supply/random_incidents.h"
#include "tests/support/draws.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

constexpr Duration two_hours = minutes(120);

Window from_minute(std::size_t i) { return {minutes(build_up_minutes[i]), two_hours}; }

}  // namespace

TEST_CASE("with tankers of one kind the flow builds up to the least of all later starts") {
    Dice dice(11);
    for (int draw = test::draws(300); draw > 0; --draw) {
        const Incident incident = random_incident(dice, {.identical = true});
        const BuildUp flows = build_up(incident, two_hours);
        HeldFlow least = sustained_flow(incident, from_minute(flows.size() - 1));
        for (std::size_t i = flows.size(); i-- > 0;) {
            CAPTURE(draw, i);
            least = std::min(least, sustained_flow(incident, from_minute(i)));
            CHECK(flows[i] == least);
        }
    }
}

TEST_CASE("what is told of the build-up holds, and never falls") {
    Dice dice(12);
    for (int draw = test::draws(300); draw > 0; --draw) {
        const Incident incident = random_incident(dice, {});
        const BuildUp flows = build_up(incident, two_hours);
        CHECK(std::ranges::is_sorted(flows));
        for (std::size_t i = 0; i < flows.size(); ++i) {
            CAPTURE(draw, i);
            CHECK(holds(incident, from_minute(i), flows[i]));
        }
    }
}

TEST_CASE("the ordinary case builds up as its clocks say") {
    // Draft from minute 20, fill site from 22: our own slow run, no source.
    const BuildUp flows = build_up(ordinary_case(), two_hours);
    CHECK(in_tenths(flows[0]) == 0);
    CHECK(flows[5] > flows[4]);
    CHECK(flows[6] >= sustained_flow(ordinary_case(), ordinary_window));
}

TEST_CASE("the tankers that are short are the fewest with which the flow holds") {
    Dice dice(13);
    constexpr int most = 4;
    for (int draw = test::draws(200); draw > 0; --draw) {
        const Incident incident = random_incident(dice, {});
        const Window window{minutes(25), two_hours};
        const HeldFlow flow =
            tenths_of_gpm(in_tenths(sustained_flow(incident, window)) + dice.whole(10, 3000));
        if (holds(incident, window, flow)) {
            continue;
        }
        const auto largest = std::ranges::max_element(incident.tankers, {}, &Tanker::delivered);
        Incident with = incident;
        std::optional<int> fewest;
        for (int more = 1; more <= most && !fewest; ++more) {
            with.tankers.push_back(*largest);
            fewest = holds(with, window, flow) ? std::optional(more) : std::nullopt;
        }
        CAPTURE(draw);
        CHECK(tankers_short(incident, window, flow, most) == fewest);
    }
    CHECK_FALSE(
        tankers_short(bare_case(std::nullopt), {minutes(0), two_hours}, tenths_of_gpm(10), most));
}
