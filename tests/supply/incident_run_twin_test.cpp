// The incident run against two slow twins that share no code with it
// (tests/support/slow_shuttle.h).
#include <algorithm>
#include <cmath>
#include <limits>

#include <catch2/catch.hpp>

#include "analyzer/supply/incident_run.h"
#include "tests/supply/incidents.h"
#include "tests/supply/random_incidents.h"
#include "tests/support/draws.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

constexpr int incidents_for_slow_twin = test::draws(500);
constexpr int incidents_for_ticks = test::draws(300);
constexpr double tick = 0.005;  // minutes

HeldFlow cautious_flow_of(const Incident& incident, Window window) {
    return sustained_flow(slowed(incident, cautious_factor(0.2)), window);
}

// With fill sites whose flows are open, the best of all.
int slow_best(Incident incident, Window window, std::size_t site = 0) {
    while (site < incident.fill_sites.size() && incident.fill_sites[site].flows) {
        ++site;
    }
    const double start = in_minutes(window.start);
    const double duration = in_minutes(window.duration);
    if (site == incident.fill_sites.size()) {
        return slow::slow_sustained_flow(slow_of(incident), start, duration, 30'000);
    }
    int best = 0;
    for (int flows = 1; flows <= incident.fill_sites[site].places; ++flows) {
        Incident tried = incident;
        tried.fill_sites[site].flows = flows;
        best = std::max(best, slow_best(tried, window, site + 1));
    }
    return best;
}

double ticked(const Incident& incident, Window window, double most = 3000) {
    return slow::ticked_sustained_flow(slow_of(incident), in_minutes(window.start),
                                       in_minutes(window.duration), most, tick);
}

struct Pin {
    const char* name;
    Incident incident;
    int sustained;  // tenths of a gpm
    int cautious;
};

// What a simulation in coarse ticks had said before stands behind each name.
std::vector<Pin> pins() {
    const Incident usual = ordinary_case();
    std::vector<Pin> list{{"as it is (502, cautious 469)", usual, 5050, 4720}};
    const auto add = [&](const char* name, int sustained, int cautious, auto change) {
        Pin pin{name, usual, sustained, cautious};
        change(pin.incident);
        list.push_back(pin);
    };
    add("largest tanker out (367)", 3704, 3440,
        [](Incident& i) { i.tankers.erase(i.tankers.begin() + 2); });
    add("one more tanker (602, cautious 564)", 6047, 5678,
        [](Incident& i) { i.tankers.push_back(usual_tanker(2000, 28)); });
    add("third portable tank (520)", 5236, 4862,
        [](Incident& i) { i.dump_site.storage = gallons(3 * 2332); });
    add("backing instead of driving through (402)", 4064, 3804, [](Incident& i) {
        for (Tanker& tanker : i.tankers) {
            tanker.offload_before = minutes(3.0);
        }
    });
    add("500 gpm in, 500 gpm out (391)", 3908, 3683, [](Incident& i) {
        for (Tanker& tanker : i.tankers) {
            tanker.fill_limit = tanker.offload = gpm(500);
        }
    });
    add("with a 200 gpm attack since minute 14", 4999, 4642,
        [](Incident& i) { i.initial_attack = {gpm(200), minutes(14)}; });
    add("with that attack and one tanker nursing", 5071, 4708, [](Incident& i) {
        i.initial_attack = {gpm(200), minutes(14)};
        i.dump_site.nursing_tankers = 1;
    });
    return list;
}

// A weekday noon with one tanker of our own, an automatic-aid tanker and a hydrant of 600 gpm.
Incident noon() {
    Incident incident = ordinary_case();
    incident.dump_site.engine_arrives = minutes(14.5);
    incident.dump_site.tanks_ready = minutes(19);
    incident.dump_site.draft_ready = minutes(24);
    incident.fill_sites[0].places = 1;
    incident.fill_sites[0].pump = gpm(600);
    incident.fill_sites[0].ready = minutes(23);
    incident.tankers = {usual_tanker(2500, 15.5), usual_tanker(1800, 24)};
    return incident;
}

}  // namespace

TEST_CASE("the ordinary case and its variants are what both twins say") {
    for (const Pin& pin : pins()) {
        CAPTURE(pin.name);
        const HeldFlow sustained = sustained_flow(pin.incident, ordinary_window);
        CHECK(in_tenths(sustained) == pin.sustained);
        CHECK(in_tenths(cautious_flow_of(pin.incident, ordinary_window)) == pin.cautious);
        Incident one_line = pin.incident;
        one_line.fill_sites[0].flows = 1;  // which is the better way in all of them
        CHECK(ticked(one_line, ordinary_window) == Approx(pin.sustained / 10.0).epsilon(0.003));
        if (pin.incident.initial_attack.flow == Flow{}) {
            CHECK(slow_best(pin.incident, ordinary_window) == pin.sustained);
            CHECK(slow_best(slowed(pin.incident, 1.07), ordinary_window) == pin.cautious);
        }
    }
}

TEST_CASE("the ordinary case from five minutes after arrival") {
    // The coarse ticks had said 398 without an attack, 119 with it, 469 with one tanker nursing.
    const Window from_17_5{minutes(17.5), minutes(120)};
    Incident incident = ordinary_case();
    incident.fill_sites[0].flows = 1;
    CHECK(sustained_flow(incident, from_17_5) == tenths_of_gpm(4000));
    CHECK(ticked(incident, from_17_5) == Approx(400).epsilon(0.003));
    incident.initial_attack = {gpm(200), minutes(14)};
    CHECK(sustained_flow(incident, from_17_5) == tenths_of_gpm(1200));
    CHECK(ticked(incident, from_17_5) == Approx(120).epsilon(0.003));
    incident.dump_site.nursing_tankers = 1;
    CHECK(sustained_flow(incident, from_17_5) == tenths_of_gpm(4801));
    CHECK(ticked(incident, from_17_5) == Approx(480.1).epsilon(0.003));
}

TEST_CASE("weekday noon is what both twins say") {
    // The coarse ticks had said 230, cautious 219; with a mutual-aid tanker 342.
    const Window window{minutes(29.5), minutes(120)};
    Incident incident = noon();
    CHECK(sustained_flow(incident, window) == tenths_of_gpm(2340));
    CHECK(cautious_flow_of(incident, window) == tenths_of_gpm(2187));
    CHECK(slow_best(incident, window) == 2340);
    incident.tankers.push_back(usual_tanker(2500, 38));
    CHECK(sustained_flow(incident, window) == tenths_of_gpm(3450));
    CHECK(slow_best(incident, window) == 3450);
    incident.fill_sites[0].flows = 1;
    CHECK(ticked(incident, window) == Approx(345.0).epsilon(0.003));
}

TEST_CASE("the incident run and the slow rules agree on every flow") {
    for (std::uint64_t seed = 1; seed <= incidents_for_slow_twin; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const Incident incident =
            random_incident(dice, {.identical = seed % 3 == 0, .attack = false});
        const Window window = random_window(dice);
        const slow::Incident twin = slow_of(incident);
        const double start = in_minutes(window.start);
        const double duration = in_minutes(window.duration);

        const int answer = in_tenths(sustained_flow(incident, window));
        CHECK((answer == 0 || slow::slow_holds(twin, start, duration, answer / 10.0)));
        CHECK_FALSE(slow::slow_holds(twin, start, duration, (answer + 1) / 10.0));
        for (int trial = 0; trial < 8; ++trial) {
            const int flow = dice.whole(1, 2 * answer + 100);
            CAPTURE(flow);
            const HeldFlow tried = tenths_of_gpm(flow);
            const bool held = slow::slow_holds(twin, start, duration, flow / 10.0);
            CHECK(holds(incident, window, tried) == held);
            const double lasted = in_minutes(lasts(incident, window.start, tried, window.duration));
            CHECK((lasted >= duration) == held);
            if (!held) {
                CHECK(
                    (lasted < 0.001 || slow::slow_holds(twin, start, lasted - 0.001, flow / 10.0)));
                CHECK_FALSE(slow::slow_holds(twin, start, lasted + 0.001, flow / 10.0));
            }
        }
    }
}

TEST_CASE("tankers of one kind have one answer and both searches find it") {
    for (std::uint64_t seed = 1; seed <= incidents_for_slow_twin; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 1'000);
        const Incident incident =
            random_incident(dice, {.identical = true, .attack = false, .open_flows = true});
        const Window window = random_window(dice);
        CHECK(in_tenths(sustained_flow(incident, window)) == slow_best(incident, window));
    }
}

namespace {

// Does the answer hang on a hundredth of a minute? Then a tick may well miss it.
bool brittle(const Incident& incident, Window window, double tolerance) {
    const double answer = in_gpm(flow_of(sustained_flow(incident, window)));
    const auto moves = [&](const Incident& other, Window when) {
        return std::abs(in_gpm(flow_of(sustained_flow(other, when))) - answer) > tolerance;
    };
    for (const double shift : {-2 * tick, -tick, tick, 2 * tick}) {
        Incident later = incident;
        Incident slower = incident;
        for (std::size_t i = 0; i < incident.tankers.size(); ++i) {
            later.tankers[i].leg.loaded += minutes(shift);
            slower.tankers[i].fill_after += minutes(shift);
            slower.tankers[i].offload_after += minutes(shift);
        }
        if (moves(incident, {window.start + minutes(shift), window.duration}) ||
            moves(later, window) || moves(slower, window)) {
            return true;
        }
    }
    return false;
}

// That the ticks say the same of the answer, gpm, within what they may miss. False: the answer is
// brittle and nothing was checked.
bool checked_by_ticks(const Incident& incident, Window window, double answer) {
    const double tolerance = 0.005 * answer + 0.5;
    if (brittle(incident, window, tolerance)) {
        return false;
    }
    const double start = in_minutes(window.start);
    const double end = in_minutes(window.start + window.duration);
    const auto dry_at = [&](double flow) {
        return slow::ticked_run(slow_of(incident), start, flow, end, tick).first_dry;
    };
    CAPTURE(answer);
    CHECK(dry_at(answer + tolerance) < end + tick);
    CHECK((answer <= tolerance || dry_at(answer - tolerance) > end));
    return true;
}

// Likewise by the slow twin, which misses nothing. `answer`: in tenths.
void check_by_both_twins(const Incident& incident, Window window, int answer) {
    const double start = in_minutes(window.start);
    const double duration = in_minutes(window.duration);
    const slow::Incident twin = slow_of(incident);
    CHECK((answer == 0 || slow::slow_holds(twin, start, duration, answer / 10.0)));
    CHECK_FALSE(slow::slow_holds(twin, start, duration, (answer + 1) / 10.0));
    checked_by_ticks(incident, window, answer / 10.0);
}

}  // namespace

TEST_CASE("the incident run and the ticks agree within what a tick may miss") {
    int left_out = 0;
    for (std::uint64_t seed = 1; seed <= incidents_for_ticks; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 100'000);
        const Incident incident = random_incident(dice, {.identical = seed % 3 == 0});
        const Window window = random_window(dice);
        const double answer = in_gpm(flow_of(sustained_flow(incident, window)));
        left_out += checked_by_ticks(incident, window, answer) ? 0 : 1;
    }
    CHECK(left_out <= incidents_for_ticks / 50);
}

TEST_CASE("the attack runs dry when and as long as the ticks do") {
    int dry_cases = 0;
    for (std::uint64_t seed = 1; seed <= incidents_for_ticks; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 200'000);
        Incident incident = random_incident(dice, {.identical = seed % 3 == 0});
        incident.initial_attack = {gpm(dice.between(50, 500)), minutes(dice.between(0, 20))};
        const Window window{minutes(0), minutes(dice.between(20, 90))};
        const double end = in_minutes(window.duration);
        const FirstMinutes clocks = first_minutes(incident, window);
        const slow::Ticked twin = slow::ticked_run(slow_of(incident), end, 1.0, end, tick / 5);
        CHECK(in_minutes(clocks.dry) == Approx(twin.attack_dry).margin(0.1));
        if (clocks.continuous && clocks.dry > minutes(0.1)) {
            ++dry_cases;
            CHECK(in_minutes(*clocks.continuous) > twin.attack_dry_until - 0.1);
        }
    }
    CHECK(dry_cases > incidents_for_ticks / 10);
}

TEST_CASE("slots whose people come later are used by both twins from then on") {
    int waiting = 0;
    for (std::uint64_t seed = 1; seed <= incidents_for_ticks; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 300'000);
        Incident incident = random_incident(dice, {.attack = false});
        incident.dump_site.offload_slots = dice.whole(2, 3);
        const double second = dice.between(10.0, 60.0);
        incident.dump_site.further_slots_from[0] = minutes(second);
        incident.dump_site.further_slots_from[1] = minutes(second + dice.between(0.0, 30.0));
        const Window window = random_window(dice);
        const int answer = in_tenths(sustained_flow(incident, window));
        check_by_both_twins(incident, window, answer);
        Incident at_once = incident;
        at_once.dump_site.further_slots_from = {};
        waiting += in_tenths(sustained_flow(at_once, window)) > answer ? 1 : 0;
    }
    CHECK(waiting > incidents_for_ticks / 20);
}

TEST_CASE("tankers that come in single file are one at a time in the lane") {
    int held_up = 0;
    for (std::uint64_t seed = 1; seed <= incidents_for_ticks; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 400'000);
        Incident incident = random_incident(dice, {.identical = true, .attack = false});
        incident.dump_site.offload_slots = 1;
        const Window window = random_window(dice);
        const int in_two_ways = in_tenths(sustained_flow(incident, window));
        incident.dump_site.single_file = minutes(dice.between(0.0, 1.5));
        const int answer = in_tenths(sustained_flow(incident, window));
        CHECK(answer <= in_two_ways);
        held_up += answer < in_two_ways ? 1 : 0;
        check_by_both_twins(incident, window, answer);
    }
    CHECK(held_up > incidents_for_ticks / 10);
}
