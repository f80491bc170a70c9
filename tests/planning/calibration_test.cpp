// Timed runs beside the plan: shares, ranks, groups.
#include "analyzer/planning/calibration.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "tests/routing/random_district.h"

using namespace farwater;
using namespace farwater::planning;

namespace {

RunBesidePlan drive_of(double timed, double planned, UnitKind kind = UnitKind::engine,
                       std::size_t season = 0) {
    RunBesidePlan run;
    run.kind = kind;
    run.station = StationIndex(0);
    run.season = SeasonIndex(season);
    run.drive = minutes(timed);
    run.planned_drive = minutes(planned);
    return run;
}

RunBesidePlan turnout_of_run(double timed, double planned, std::size_t station) {
    RunBesidePlan run;
    run.station = StationIndex(station);
    run.period = PeriodIndex(0);
    run.turnout = minutes(timed);
    run.planned_turnout = minutes(planned);
    return run;
}

}  // namespace

TEST_CASE("drives are parts of the planned drive, and figures are of runs that were timed") {
    const std::vector<RunBesidePlan> runs{drive_of(5, 10), drive_of(10, 10), drive_of(11, 10),
                                          drive_of(12, 10), drive_of(30, 10)};
    const Spread drives = calibration_of(runs).drives;
    CHECK(drives.runs == 5);
    CHECK(drives.within == 2);  // as planned is within
    CHECK(drives.half == Approx(1.1));
    CHECK(drives.eight_of_ten == Approx(1.2));  // four of five
}

TEST_CASE("a run that was not timed, has no plan or no way to drive counts nowhere") {
    RunBesidePlan untimed = drive_of(5, 10);
    untimed.drive.reset();
    RunBesidePlan unplanned = drive_of(5, 10);
    unplanned.planned_drive.reset();
    const Calibration none = calibration_of(std::vector{untimed, unplanned, drive_of(5, 0)});
    CHECK(none.drives.runs == 0);
    CHECK(none.by_kind.empty());
    CHECK(none.turnouts.empty());
    CHECK_FALSE(speed_factor(none.drives));
}

TEST_CASE("runs are grouped by kind and season, turnouts by station and what is planned") {
    const Calibration found = calibration_of(
        std::vector{drive_of(10, 10), drive_of(20, 10, UnitKind::tanker),
                    drive_of(15, 10, UnitKind::tanker, 1), turnout_of_run(4, 6, 0),
                    turnout_of_run(8, 6, 0), turnout_of_run(2, 1.5, 0), turnout_of_run(2, 6, 1)});
    REQUIRE(found.by_kind.size() == 2);
    CHECK(found.by_kind[0].spread.half == Approx(1.0));
    CHECK(found.by_kind[1].spread.half == Approx(1.5));
    REQUIRE(found.by_season.size() == 2);
    CHECK(found.by_season[1].spread.runs == 1);
    REQUIRE(found.turnouts.size() == 3);
    CHECK(in_minutes(found.turnouts[0].planned) == 1.5);  // a staffed unit of the same station
    CHECK(found.turnouts[0].spread.within == 0);
    CHECK(found.turnouts[1].spread.within == 1);
    CHECK(found.turnouts[1].spread.eight_of_ten == Approx(8.0));
    CHECK(found.turnouts[2].station == StationIndex(1));
}

TEST_CASE("speeds are advised by ten runs or more that are not as planned") {
    const auto factor_of = [](std::size_t runs, double timed) {
        return speed_factor(
            calibration_of(std::vector<RunBesidePlan>(runs, drive_of(timed, 10))).drives);
    };
    CHECK_FALSE(factor_of(9, 12.5));
    REQUIRE(factor_of(10, 12.5));
    CHECK(*factor_of(10, 12.5) == Approx(0.8));
    CHECK_FALSE(factor_of(10, 10.5));  // within a twentieth
    CHECK_FALSE(factor_of(10, 9.5));
    CHECK(*factor_of(10, 8.0) == Approx(1.25));
}

TEST_CASE("so many of the runs as are said did not exceed what is said", "[property]") {
    for (std::uint64_t seed = 1; seed <= 300; ++seed) {
        CAPTURE(seed);
        farwater::test::Dice dice(seed);
        std::vector<RunBesidePlan> runs;
        std::vector<double> parts;
        for (std::size_t i = 1 + dice.below(40); i > 0; --i) {
            const double planned = dice.between(1, 30);
            parts.push_back(dice.between(0.3, 3.0));
            runs.push_back(drive_of(parts.back() * planned, planned));
        }
        const Spread drives = calibration_of(runs).drives;
        const auto no_more_than = [&](double most) {
            return static_cast<double>(
                std::ranges::count_if(parts, [&](double part) { return part <= most + 1e-9; }));
        };
        const auto count = static_cast<double>(parts.size());
        CHECK(no_more_than(drives.half) >= 0.5 * count);
        CHECK(no_more_than(drives.half - 2e-9) < 0.5 * count);
        CHECK(no_more_than(drives.eight_of_ten) >= 0.8 * count - 1e-9);
        CHECK(no_more_than(drives.eight_of_ten - 2e-9) < 0.8 * count);
        CHECK(drives.within <= drives.runs);
    }
}
