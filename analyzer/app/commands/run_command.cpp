#include <optional>
#include <utility>

#include <fmt/format.h>

#include "analyzer/app/analysis.h"
#include "analyzer/app/commands/commands.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/next_source.h"
#include "analyzer/app/reading.h"
#include "analyzer/app/session.h"
#include "analyzer/app/write_public_results.h"
#include "analyzer/app/write_results.h"
#include "io/district_file.h"
#include "io/out_folder.h"
#include "io/read_district.h"
#include "reports/public/public_tables.h"
#include "reports/summary.h"

namespace farwater::app {
namespace {

std::filesystem::path out_folder_of(const Options& options, const io::DistrictFile& file) {
    return options.out.value_or(file.folder / "result");
}

std::string closing_text(const Options& options, const std::filesystem::path& out,
                         const reports::Findings& findings) {
    if (options.json) {
        return reports::summary_json(findings, out.string());
    }
    const std::string for_whom = options.audience == Audience::everybody
                                     ? fmt::format("\n{}\n", reports::public_sentence())
                                     : "";
    return reports::summary_text(findings) + for_whom +
           fmt::format("\nResults: {}\nTo look at, in a browser: {}\n",
                       (out / "supply.gpkg").string(), (out / "report.html").string());
}

struct Written {
    bool whole = false;                   // false: stopped
    std::optional<reports::Zones> zones;  // for the summary; none for the public
};

Written write_for(Audience audience, const std::filesystem::path& folder,
                  const io::DistrictFile& file, const io::ReadResult& read,
                  const reports::Findings& findings, const Work& work, const StageBegins& begins) {
    if (audience == Audience::everybody) {
        return {write_public_results(folder, file, read, findings, work, begins), std::nullopt};
    }
    auto zones = write_results(folder, file, read, findings, work, begins);
    const bool whole = zones.has_value();
    return {whole, std::move(zones)};
}

}  // namespace

int run_command(const Options& options, io::Interrupt& interrupt) {
    Session session(options, interrupt);
    const io::DistrictFile file = io::read_district_file(options.district_file);
    const bool proposes = file.next_source && options.audience == Audience::officers;
    if (proposes) {
        check_places(file);
    }
    const std::filesystem::path out = out_folder_of(options, file);
    io::OutFolder folder = io::OutFolder::begin(out, files_read(file));
    const io::CleanOnExit clean(interrupt, [&folder] { folder.abandon(); });

    session.stage("reading");
    Reading reading = read_with_needs(file, session.work());
    const io::ReadResult& read = reading.read;
    const StageBegins begins = [&](std::string_view stage) { session.stage(stage); };
    const auto analysis = analyse(read.district, std::move(reading.needs), session.work(), begins);
    if (!analysis) {
        return exit_interrupted;
    }
    const auto next = proposes ? choose_next_source(read.district, analysis->asked.needs, file,
                                                    read, {}, session.work(), begins)
                               : std::nullopt;
    if (proposes && !next) {
        return exit_interrupted;
    }
    reports::Findings findings = analysis->findings(read.district);
    findings.next_source = next ? &next->findings : nullptr;
    const Written written =
        write_for(options.audience, folder.folder(), file, read, findings, session.work(), begins);
    if (!written.whole || session.work().stopped()) {
        return exit_interrupted;
    }
    findings.zones = written.zones ? &*written.zones : nullptr;
    session.end();
    if (options.audience == Audience::officers) {
        session.log().write(folder.folder() / "run.log");  // it names the host
    }
    folder.commit();
    session.say(closing_text(options, out, findings));
    return options.strict && !analysis->problems.empty() ? exit_problems : exit_done;
}

}  // namespace farwater::app
