#include <filesystem>
#include <functional>

#include <fmt/format.h>

#include "analyzer/app/analysis.h"
#include "analyzer/app/card_facts.h"
#include "analyzer/app/commands/commands.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/reading.h"
#include "analyzer/app/run_record.h"
#include "analyzer/app/session.h"
#include "io/csv_writer.h"
#include "io/district_file.h"
#include "io/error.h"
#include "io/out_folder.h"
#include "io/whole_file.h"
#include "reports/atlas/atlas.h"
#include "reports/cards/card_book.h"

namespace farwater::app {
namespace {

void write_document(const std::filesystem::path& path,
                    const std::function<bool(const reports::ByteSink&)>& write, const Work& work) {
    io::WholeFile whole(path);
    const bool made = write([&](std::string_view bytes) { whole.write(bytes); });
    if (work.stopped()) {
        return;
    }
    if (!made) {
        throw io::OutputError(path.string() + ": the document cannot be made");
    }
    whole.finish();
}

// False when stopped.
bool write_cards(const std::filesystem::path& folder, const reports::CardBook& book,
                 const Work& work) {
    write_document(
        folder / "cards.pdf",
        [&](const reports::ByteSink& sink) { return reports::write_cards_pdf(book, work, sink); },
        work);
    if (!work.stopped()) {
        write_document(
            folder / "wall_sheet.pdf",
            [&](const reports::ByteSink& sink) { return reports::write_wall_sheet(book, sink); },
            work);
    }
    if (!work.stopped()) {
        write_document(
            folder / "atlas.pdf",
            [&](const reports::ByteSink& sink) { return reports::write_atlas(book, work, sink); },
            work);
    }
    if (work.stopped()) {
        return false;
    }
    io::WholeFile html(folder / "cards.html");
    reports::write_cards_html(book, work, [&](std::string_view bytes) { html.write(bytes); });
    html.finish();
    return io::write_csv(folder / "dispatch.csv", reports::dispatch_table(book), work) &&
           !work.stopped();
}

std::string closing_words(const Options& options, const std::filesystem::path& out,
                          const reports::CardBook& book) {
    if (options.json) {
        return reports::cards_json(book);
    }
    const std::size_t left_out = reports::sites_left_out(book);
    const std::size_t sources = reports::sources_with_page(book).size();
    std::string text =
        fmt::format("{} run card{}, {} source page{}.\n", book.sites.size(),
                    book.sites.size() == 1 ? "" : "s", sources, sources == 1 ? "" : "s");
    if (left_out > 0) {
        text += fmt::format(
            "{} dump sites that serve the fewest places have no card; the index says which "
            "houses.\n",
            left_out);
    }
    return text + fmt::format("To print: {}, wall_sheet.pdf (36 x 24 in), atlas.pdf (11 x 17 in)\n",
                              (out / "cards.pdf").string());
}

}  // namespace

int cards_command(const Options& options, io::Interrupt& interrupt) {
    Session session(options, interrupt);
    const io::DistrictFile file = io::read_district_file(options.district_file);
    const std::filesystem::path out = options.out.value_or(file.folder / "cards");
    io::OutFolder folder = io::OutFolder::begin(out, files_read(file));
    const io::CleanOnExit clean(interrupt, [&folder] { folder.abandon(); });
    const StageBegins begins = [&](std::string_view stage) { session.stage(stage); };

    session.stage("reading");
    Reading reading = read_with_needs(file, session.work());
    reading.read.district.rating.reset();  // a second analysis, of which cards show nothing
    const District& district = reading.read.district;
    const auto analysis = analyse(district, reading.needs, session.work(), begins);
    const auto facts = analysis
                           ? card_facts(district, reading.needs, *analysis, session.work(), begins)
                           : std::nullopt;
    if (!facts) {
        return exit_interrupted;
    }
    session.stage("writing cards");
    const reports::Findings findings = analysis->findings(district);
    const reports::RunRecord record = run_record(file, reading.read, findings);
    const reports::CardBook book{findings,
                                 record,
                                 [&](std::size_t parcel) { return reading.read.addresses[parcel]; },
                                 facts->sites,
                                 facts->workings,
                                 facts->routes};
    if (!write_cards(folder.folder(), book, session.work())) {
        return exit_interrupted;
    }
    session.end();
    session.log().write(folder.folder() / "run.log");
    folder.commit();
    session.say(closing_words(options, out, book));
    return options.strict && !analysis->problems.empty() ? exit_problems : exit_done;
}

}  // namespace farwater::app
