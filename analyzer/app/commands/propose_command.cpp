#include <array>

#include <fmt/format.h>

#include "analyzer/app/commands/commands.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/propose.h"
#include "analyzer/app/reading.h"
#include "analyzer/app/session.h"
#include "analyzer/app/write_results.h"
#include "io/csv_writer.h"
#include "io/district_file.h"
#include "io/error.h"
#include "io/geopackage_writer.h"
#include "io/out_folder.h"
#include "io/read_district.h"
#include "io/whole_file.h"
#include "reports/gains/gain_pages.h"

namespace farwater::app {
namespace {

void check_places(const io::DistrictFile& file) {
    if (!file.layers.contains("proposals") && !file.layers.contains("mapped_water") &&
        file.assumptions.most_new_cisterns == 0) {
        throw io::SettingsError(fmt::format(
            "{}: there is no place to choose from: add [proposals] with your own places, or "
            "[mapped_water] with the water that is on the map, or let most_new_cisterns be more "
            "than "
            "0",
            file.path.string()));
    }
}

using TableOf = io::FeatureTable (*)(const reports::ProposalFindings&);
constexpr std::array<TableOf, 4> tables_of_proposals{
    reports::source_proposals, reports::proposal_candidates, reports::proposal_gains,
    reports::proposal_years};

// False when stopped.
bool write_proposals(const std::filesystem::path& folder, const io::DistrictFile& file,
                     const io::ReadResult& read, const reports::ProposalFindings& findings,
                     const Work& work) {
    io::GeoPackageWriter writer(folder / "proposals.gpkg", read.crs,
                                date_of_change(findings.district), read.fingerprints);
    bool going = true;
    for (const TableOf make : tables_of_proposals) {
        const io::FeatureTable table = make(findings);
        going = going && writer.write(table, work) &&
                io::write_csv(folder / (table.name + ".csv"), table, work);
    }
    const reports::RunRecord record = input_record(file, read);
    going = going && writer.write(reports::run_record_table(record), work) && writer.close(work);
    if (going) {
        io::write_whole_file(folder / "proposals.html", reports::proposal_pages(findings, record));
    }
    return going;
}

std::string closing_words(const Options& options, const std::filesystem::path& out,
                          const reports::ProposalFindings& findings) {
    if (options.json) {
        return reports::proposals_json(findings);
    }
    return reports::proposals_text(findings) +
           fmt::format("\nResults: {}\nA page to print for each: {}\n",
                       (out / "proposals.gpkg").string(), (out / "proposals.html").string());
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
    const auto findings =
        district ? propose(*district, options.propose, session.work(), begins) : std::nullopt;
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
