#include <fmt/format.h>

#include "analyzer/app/analysis.h"
#include "analyzer/app/commands.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/reading.h"
#include "analyzer/app/session.h"
#include "analyzer/app/write_results.h"
#include "io/district_file.h"
#include "io/out_folder.h"
#include "io/read_district.h"
#include "reports/summary.h"

namespace farwater::app {
namespace {

std::filesystem::path out_folder_of(const Options& options, const io::DistrictFile& file) {
    return options.out.value_or(file.folder / "result");
}

std::string closing_text(const Options& options, const std::filesystem::path& out,
                         const reports::Findings& findings) {
    if (options.json) {
        return reports::summary_json(findings);
    }
    return reports::summary_text(findings) +
           fmt::format("\nResults: {}\nTo look at, in a browser: {}\n",
                       (out / "supply.gpkg").string(), (out / "report.html").string());
}

}  // namespace

int run_command(const Options& options, io::Interrupt& interrupt) {
    Session session(options, interrupt);
    const io::DistrictFile file = io::read_district_file(options.district_file);
    const std::filesystem::path out = out_folder_of(options, file);
    io::OutFolder folder = io::OutFolder::begin(out, files_read(file));
    const io::CleanOnExit clean(interrupt, [&folder] { folder.abandon(); });

    session.stage("reading");
    Reading reading = read_with_needs(file, session.work());
    const io::ReadResult& read = reading.read;
    const StageBegins begins = [&](std::string_view stage) { session.stage(stage); };
    const auto analysis = analyse(read.district, std::move(reading.needs), session.work(), begins);
    const auto zones =
        analysis ? write_results(folder.folder(), file, read, analysis->findings(read.district),
                                 session.work(), begins)
                 : std::nullopt;
    if (!zones || session.work().stopped()) {
        return exit_interrupted;
    }
    session.end();
    session.log().write(folder.folder() / "run.log");
    folder.commit();
    reports::Findings findings = analysis->findings(read.district);
    findings.zones = &*zones;
    session.say(closing_text(options, out, findings));
    return options.strict && !analysis->problems.empty() ? exit_problems : exit_done;
}

}  // namespace farwater::app
