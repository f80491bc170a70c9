#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "analyzer/app/commands/commands.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/next_source.h"
#include "analyzer/app/reading.h"
#include "analyzer/app/session.h"
#include "analyzer/app/write_gains.h"
#include "io/district_file.h"
#include "io/out_folder.h"
#include "io/read_district.h"
#include "reports/gains/gain_pages.h"

namespace farwater::app {
namespace {

constexpr std::string_view proposal_files = "proposals";

// False when stopped.
bool write_proposals(const std::filesystem::path& folder, const io::DistrictFile& file,
                     const io::ReadResult& read, const reports::ProposalFindings& findings,
                     const Work& work) {
    const auto pages = [&](const reports::RunRecord& record) {
        return reports::proposal_pages(findings, record);
    };
    return write_gains(folder, {proposal_files, reports::proposal_tables(findings), pages}, file,
                       read, findings.district, work);
}

std::string closing_words(const Options& options, const std::filesystem::path& out,
                          const reports::ProposalFindings& findings) {
    return options.json ? reports::proposals_json(findings)
                        : reports::proposals_text(findings) + where_gains_are(out, proposal_files);
}

}  // namespace

int propose_command(const Options& options, io::Interrupt& interrupt) {
    Session session(options, interrupt);
    const io::DistrictFile file = io::read_district_file(options.district_file);
    check_places(file);
    const std::filesystem::path out = options.out.value_or(file.folder / "proposals");
    io::OutFolder folder = io::OutFolder::begin(out, files_read(file));
    const io::CleanOnExit clean(interrupt, [&folder] { folder.abandon(); });
    const StageBegins begins = [&](std::string_view stage) { session.stage(stage); };

    session.stage("reading");
    Reading reading = read_with_needs(file, session.work());
    const bool problems = !reading.read.district.problems.empty();
    const auto chosen =
        choose_next_source(std::move(reading.read.district), std::move(reading.needs), file,
                           reading.read, options.propose, session.work(), begins);
    if (!chosen) {
        return exit_interrupted;
    }
    const reports::ProposalFindings& findings = chosen->findings;
    session.stage("writing proposals");
    if (!write_proposals(folder.folder(), file, reading.read, findings, session.work())) {
        return exit_interrupted;
    }
    session.end();
    session.log().write(folder.folder() / "run.log");
    folder.commit();
    session.say(closing_words(options, out, findings));
    return options.strict && problems ? exit_problems : exit_done;
}

}  // namespace farwater::app
