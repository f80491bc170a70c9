#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "analyzer/app/commands/commands.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/pipes_to_water.h"
#include "analyzer/app/propose.h"
#include "analyzer/app/reading.h"
#include "analyzer/app/session.h"
#include "analyzer/app/write_gains.h"
#include "io/district_file.h"
#include "io/error.h"
#include "io/out_folder.h"
#include "io/read_district.h"
#include "reports/gains/gain_pages.h"

namespace farwater::app {
namespace {

void check_places(const io::DistrictFile& file) {
    if (!file.layers.contains("proposals") && !file.layers.contains("mapped_water") &&
        file.assumptions.most_new_cisterns == 0) {
        throw io::SettingsError(fmt::format(
            "{}: there is no place to choose from: add [proposals] with your own places, or "
            "[mapped_water] with the water that is on the map, or let most_new_cisterns be more "
            "than 0",
            file.path.string()));
    }
}

constexpr std::string_view proposal_files = "proposals";

// False when stopped.
bool write_proposals(const std::filesystem::path& folder, const io::DistrictFile& file,
                     const io::ReadResult& read, const reports::ProposalFindings& findings,
                     const Work& work) {
    const auto pages = [&](const reports::RunRecord& record) {
        return reports::proposal_pages(findings, record);
    };
    return write_gains(
        folder,
        {proposal_files,
         {reports::source_proposals(findings), reports::proposal_candidates(findings),
          reports::proposal_gains(findings), reports::proposal_years(findings)},
         pages},
        file, read, findings.district, work);
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
    std::optional<WhatIf> district = WhatIf::of(std::move(reading.read.district),
                                                std::move(reading.needs), session.work(), begins);
    if (!district) {
        return exit_interrupted;
    }
    session.stage("mapped water");
    const std::vector<RoadNearWater> pipes = pipes_to_water(
        district->district(), district->profiles(), file, reading.read, session.work());
    const auto findings = propose(*district, pipes, options.propose, session.work(), begins);
    if (!findings) {
        return exit_interrupted;
    }
    session.stage("writing proposals");
    if (!write_proposals(folder.folder(), file, reading.read, *findings, session.work())) {
        return exit_interrupted;
    }
    session.end();
    session.log().write(folder.folder() / "run.log");
    folder.commit();
    session.say(closing_words(options, out, *findings));
    return options.strict && problems ? exit_problems : exit_done;
}

}  // namespace farwater::app
