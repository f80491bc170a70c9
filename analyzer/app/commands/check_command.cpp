#include <fmt/format.h>

#include "analyzer/app/analysis.h"
#include "analyzer/app/commands/commands.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/reading.h"
#include "analyzer/app/session.h"
#include "analyzer/app/source_places.h"
#include "io/district_file.h"
#include "io/read_district.h"
#include "io/read_improvements.h"
#include "io/shuttle_file.h"
#include "reports/summary.h"

namespace farwater::app {
namespace {

std::string findings_text(const Options& options, const io::ReadResult& read,
                          std::span<const Problem> problems) {
    if (options.json) {
        return reports::problems_json(read.district, problems);
    }
    std::string text = fmt::format(
        "Working CRS: {} {} ({})\n\n{}\n{}", read.crs.code, read.crs.name, read.crs.chosen,
        reports::records_text(read.district), reports::problems_text(problems));
    if (options.verbose) {
        text += "\n";
        for (const Problem& problem : problems) {
            text += sentence(problem) + "\n";
        }
    }
    return text;
}

// Throws where one of them names what is not there.
void check_improvements(const io::DistrictFile& file, const io::ReadResult& read,
                        const Work& work) {
    if (file.improvements.empty()) {
        return;
    }
    const std::vector<ProposedSource> places = as_proposals(source_places(file, read, work));
    if (!work.stopped()) {
        io::read_improvements(file, read.district, places);
    }
}

}  // namespace

int check_command(const Options& options, io::Interrupt& interrupt) {
    Session session(options, interrupt);
    const io::DistrictFile file = io::read_district_file(options.district_file);
    session.stage("reading");
    const Reading reading = read_with_needs(file, session.work());
    const io::ReadResult& read = reading.read;
    const auto problems = check_district(read.district, session.work(),
                                         [&](std::string_view stage) { session.stage(stage); });
    if (!problems) {
        return exit_interrupted;
    }
    check_improvements(file, read, session.work());
    session.end();
    session.say(findings_text(options, read, *problems));
    return problems->empty() ? exit_done : exit_problems;
}

int keys_command() {
    fmt::print("{}\n{}", io::district_file_reference(), io::shuttle_file_reference());
    return exit_done;
}

}  // namespace farwater::app
