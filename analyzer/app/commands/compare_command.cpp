#include <algorithm>
#include <filesystem>
#include <optional>
#include <string>

#include <fmt/format.h>

#include "analyzer/app/commands/commands.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/session.h"
#include "analyzer/app/write_comparison.h"
#include "analyzer/planning/comparison.h"
#include "io/error.h"
#include "io/out_folder.h"
#include "io/result_file.h"
#include "reports/comparison/comparison_results.h"

namespace farwater::app {
namespace {

namespace fs = std::filesystem;

fs::path whole_path(const fs::path& path) {
    std::error_code error;
    const fs::path whole = fs::weakly_canonical(fs::absolute(path, error), error);
    return whole.has_filename() ? whole : whole.parent_path();
}

fs::path comparison_folder(const Options& options, const io::ResultFile& after) {
    const fs::path beside = after.folder().value_or(after.file());
    return options.out.value_or(whole_path(beside).parent_path() / "comparison");
}

// The next run would find a folder in its result that it does not know.
void require_outside(const fs::path& out, const io::ResultFile& result) {
    if (!result.folder()) {
        return;
    }
    const fs::path folder = whole_path(*result.folder());
    const fs::path inside = whole_path(out);
    if (std::ranges::mismatch(folder, inside).in1 == folder.end()) {
        throw io::OutputError(fmt::format(
            "{}: lies in the result {}, which a run replaces as a whole. Give another folder with "
            "--out. Nothing was changed.",
            out.string(), folder.string()));
    }
}

std::string where_it_is(const fs::path& out) {
    return fmt::format("\nResults: {}\nTo print: {}\n", (out / "comparison.gpkg").string(),
                       (out / "comparison.html").string());
}

}  // namespace

int compare_command(const Options& options, io::Interrupt& interrupt) {
    Session session(options, interrupt);
    io::ResultFile before_file(options.compare.before);
    const io::ResultFile after_file(options.compare.after);
    const fs::path out = comparison_folder(options, after_file);
    require_outside(out, before_file);
    require_outside(out, after_file);
    io::OutFolder folder = io::OutFolder::begin(out, {before_file.file(), after_file.file()});
    const io::CleanOnExit clean(interrupt, [&folder] { folder.abandon(); });

    session.stage("reading the earlier result");
    const StoredResult before = before_file.read(session.work());
    session.stage("reading the later result");
    const StoredResult after = after_file.read(session.work());
    if (session.work().stopped()) {
        return exit_interrupted;
    }
    session.stage("comparing");
    const planning::Comparison comparison = planning::compare(before, after);
    const reports::ComparedResults results{before, after, comparison};
    before_file.show_in(after_file.crs());
    session.stage("writing the comparison");
    if (!write_comparison(folder.folder(), before_file, after_file, results, session.work())) {
        return exit_interrupted;
    }
    session.end();
    session.log().write(folder.folder() / "run.log");
    folder.commit();
    session.say(options.json ? reports::comparison_json(results)
                             : reports::comparison_text(results) + where_it_is(out));
    return exit_done;
}

}  // namespace farwater::app
