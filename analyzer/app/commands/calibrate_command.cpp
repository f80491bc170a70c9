#include <optional>

#include <fmt/format.h>

#include "analyzer/app/commands/commands.h"
#include "analyzer/app/csv_result.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/reading.h"
#include "analyzer/app/road_work.h"
#include "analyzer/app/session.h"
#include "analyzer/app/timed_drives.h"
#include "io/csv_writer.h"
#include "io/district_file.h"
#include "io/read_district.h"
#include "io/read_timed_runs.h"
#include "reports/calibration.h"
#include "routing/profiles.h"

namespace farwater::app {
namespace {

// None when stopped.
std::optional<reports::CalibrationFindings> set_beside_plan(io::LayerRows<TimedRun> timed,
                                                            const District& district,
                                                            Session& session) {
    const Work& work = session.work();
    const std::vector<Profile> profiles = routing::vehicle_profiles(district);
    const std::optional<RoadsFound> found =
        find_roads(district, profiles, work, [&](std::string_view stage) { session.stage(stage); });
    if (!found) {
        return std::nullopt;
    }
    session.stage("drives");
    const routing::RoadSystem roads{district, found->network.network, found->access.access,
                                    profiles};
    std::vector<planning::RunBesidePlan> beside = beside_plan(roads, timed.rows, work);
    planning::Calibration calibration = planning::calibration_of(beside);
    return work.stopped() ? std::nullopt
                          : std::optional(reports::CalibrationFindings{
                                district, std::move(timed.rows), std::move(beside),
                                std::move(calibration), std::move(timed.log.problems)});
}

std::string calibration_answer(const Options& options, const reports::CalibrationFindings& found) {
    if (options.json) {
        return reports::calibration_json(found);
    }
    return reports::calibration_text(found) +
           (options.csv ? fmt::format("Written: {}\n", options.csv->string()) : "");
}

}  // namespace

int calibrate_command(const Options& options, io::Interrupt& interrupt) {
    Session session(options, interrupt);
    const io::DistrictFile file = io::read_district_file(options.district_file);
    if (options.csv) {
        refuse_over_inputs(*options.csv, file, {});
    }
    session.stage("reading");
    const Reading reading = read_with_needs(file, session.work());
    const District& district = reading.read.district;
    if (session.work().stopped()) {
        return exit_interrupted;
    }
    const auto found = set_beside_plan(
        io::read_timed_runs(file, district, reading.read.crs, session.work()), district, session);
    if (!found) {
        return exit_interrupted;
    }
    if (options.csv && !io::write_csv(*options.csv, reports::timed_runs(*found), session.work())) {
        return exit_interrupted;
    }
    session.end();
    complain_of(options, found->problems);
    session.say(calibration_answer(options, *found));
    const bool problems = !found->problems.empty() || !district.problems.empty();
    return options.strict && problems ? exit_problems : exit_done;
}

}  // namespace farwater::app
