#include "tests/support/pdf_text.h"

#include <algorithm>
#include <array>
#include <sstream>
#include <stdexcept>
#include <utility>

#include "tests/support/program.h"
#include "tests/support/sheet_text.h"
#include "tests/support/temporary_folder.h"

namespace farwater::support {
namespace {

std::string without_entities(std::string text) {
    constexpr std::array<std::pair<const char*, const char*>, 6> entities{{{"&lt;", "<"},
                                                                           {"&gt;", ">"},
                                                                           {"&quot;", "\""},
                                                                           {"&#39;", "'"},
                                                                           {"&#160;", ""},
                                                                           {"&amp;", "&"}}};
    for (const auto& [entity, letter] : entities) {
        for (std::size_t at = text.find(entity); at != std::string::npos;
             at = text.find(entity, at)) {
            text.replace(at, std::string(entity).size(), letter);
        }
    }
    return text;
}

std::string without_blanks(std::string text) {
    std::erase_if(text, [](char c) { return c == ' ' || c == '\n' || c == '\f' || c == '\t'; });
    return text;
}

}  // namespace

std::string text_of_pdf(const std::string& pdf, PdfOrder order) {
    const TemporaryFolder folder;
    put(folder / "one.pdf", pdf);
    const auto ended = run_program(
        "/usr/bin/pdftotext",
        {order == PdfOrder::as_seen ? "-layout" : "-raw", (folder / "one.pdf").string(), "-"});
    if (ended.exit_code != 0) {
        throw std::runtime_error("pdftotext: " + ended.err);
    }
    return ended.out;
}

std::vector<std::string> missing_on_paper(const std::string& html, const std::string& paper) {
    const std::string there = without_blanks(with_hashes_hidden(paper));
    std::vector<std::string> missing;
    std::istringstream lines(seen_text(html));
    for (std::string line; std::getline(lines, line);) {
        std::string wanted = without_blanks(without_entities(line));
        if (there.find(wanted) == std::string::npos) {
            missing.push_back(line);
        }
    }
    return missing;
}

}  // namespace farwater::support
