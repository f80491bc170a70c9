#include <fmt/format.h>

#include "analyzer/app/commands/commands.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/session.h"
#include "io/draft_district.h"
#include "reports/draft_page.h"

namespace farwater::app {
namespace {

reports::DraftedTable page_row(const io::DraftTable& table) {
    return {.section = table.section,
            .source = table.source,
            .records = table.records,
            .columns = table.columns,
            .likely = table.likely,
            .lacks = table.lacks,
            .others = table.others,
            .competing = table.competing,
            .overlooked = table.overlooked,
            .suggested = table.suggested};
}

// As a shell takes it for one word.
std::string shell_word(const std::string& word) {
    constexpr std::string_view plain =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_./-+,:@%";
    if (!word.empty() && word.find_first_not_of(plain) == std::string::npos) {
        return word;
    }
    std::string quoted = "'";
    for (const char letter : word) {
        quoted += letter == '\'' ? "'\\''" : std::string(1, letter);
    }
    return quoted + "'";
}

reports::DraftPage page_of(const io::Draft& draft,
                           const std::vector<std::filesystem::path>& written) {
    reports::DraftPage page{.folder = draft.folder.string(),
                            .files = draft.files,
                            .other_files = draft.other_files,
                            .missing = draft.missing};
    for (const io::DraftTable& table : draft.tables) {
        page.tables.push_back(page_row(table));
    }
    for (const io::DraftLeftOut& one : draft.left_out) {
        page.passed_over.emplace_back(one.source, one.why);
    }
    for (const std::filesystem::path& file : written) {
        page.written.push_back(file.string());
    }
    page.next = fmt::format("farwater check {}", shell_word(written.front().string()));
    return page;
}

}  // namespace

int init_command(const Options& options, io::Interrupt& interrupt) {
    Session session(options, interrupt);
    session.stage("looking at data");
    const io::Draft draft = io::draft_district(options.folder, session.work());
    if (session.work().stopped()) {
        return exit_interrupted;
    }
    const reports::DraftPage page = page_of(draft, io::write_draft(draft));
    session.end();
    session.say(options.json ? reports::draft_json(page) : reports::draft_text(page));
    return exit_done;
}

}  // namespace farwater::app
