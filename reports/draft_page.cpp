#include "reports/draft_page.h"

#include <algorithm>
#include <string_view>

#include <fmt/format.h>

#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

constexpr std::size_t width_of_page = 100;
constexpr std::size_t indent_of_page = 4;
constexpr std::size_t most_other_files_named = 6;
constexpr std::size_t most_passed_over_shown = 40;

// Words wrapped at the page's width, lines after the first by the indent.
std::string wrapped_words(std::string_view words, std::size_t indent) {
    std::string text;
    std::size_t column = indent;
    while (!words.empty()) {
        const std::size_t end = std::min(words.find(' '), words.size());
        const std::string_view word = words.substr(0, end);
        if (column > indent && column + 1 + letters(word) > width_of_page) {
            text += "\n" + std::string(indent, ' ');
            column = indent;
        } else if (column > indent) {
            text += ' ';
            ++column;
        }
        text += word;
        column += letters(word);
        words.remove_prefix(std::min(end + 1, words.size()));
    }
    return text;
}

std::string indented(const std::string& words) {
    return std::string(indent_of_page, ' ') + wrapped_words(on_one_line(words), indent_of_page) +
           "\n";
}

std::string joined_words(const std::vector<std::string>& list) {
    std::string text;
    for (const std::string& one : list) {
        text += (text.empty() ? "" : ", ") + one;
    }
    return text;
}

std::string counted_records(const std::optional<std::size_t>& records) {
    return records ? fmt::format(", {} record{}", *records, *records == 1 ? "" : "s") : "";
}

std::string table_text(const DraftedTable& table) {
    std::string text = fmt::format("  {:<17} {}{}\n", table.section, on_one_line(table.source),
                                   counted_records(table.records));
    std::string columns;
    for (const auto& [field, column] : table.columns) {
        columns += fmt::format("{}{}", columns.empty() ? "" : ", ", field);
        columns += column == field ? "" : fmt::format(" = {}", column);
    }
    text += columns.empty() ? "" : indented("columns: " + columns);
    text += table.likely.empty()
                ? ""
                : indented("likely, not sure, behind # in the file: " + joined_words(table.likely));
    text += table.suggested && !table.lacks.empty()
                ? indented("behind # in the file, for it lacks " + joined_words(table.lacks))
                : "";
    text += table.suggested && table.lacks.empty()
                ? indented("behind # in the file, for its keys are not proved")
                : "";
    for (const auto& [source, why] : table.others) {
        text += indented(fmt::format("could be the same, not used: {}: {}", source, why));
    }
    for (const std::string& sentence : table.competing) {
        text += indented(sentence);
    }
    return text;
}

// What would help if it were left out unseen.
std::string overlooked_text(const std::vector<DraftedTable>& tables) {
    std::string text;
    for (const DraftedTable& table : tables) {
        for (const std::string& sentence : table.overlooked) {
            text += "  " + wrapped_words(on_one_line(sentence), 2) + "\n";
        }
    }
    return text.empty() ? text : "\nNot read, and answers may be too good without it\n" + text;
}

std::string others_text(const std::vector<std::string>& files) {
    if (files.empty()) {
        return {};
    }
    std::vector<std::string> named(
        files.begin(), files.begin() + static_cast<std::ptrdiff_t>(
                                           std::min(files.size(), most_other_files_named)));
    const std::size_t more = files.size() - named.size();
    return indented(fmt::format("no data by {}: {}{}",
                                files.size() == 1 ? "its name" : "their names", joined_words(named),
                                more == 0 ? "" : fmt::format(" and {} more", more)));
}

}  // namespace

std::string draft_text(const DraftPage& page) {
    std::string text = fmt::format("{} data set{} in {}\n\nRecognised\n", page.files,
                                   page.files == 1 ? "" : "s", on_one_line(page.folder));
    for (const DraftedTable& table : page.tables) {
        text += table_text(table);
    }
    text += overlooked_text(page.tables);
    if (!page.passed_over.empty() || !page.other_files.empty()) {
        text += "\nPassed over\n";
        const std::size_t shown = std::min(page.passed_over.size(), most_passed_over_shown);
        for (std::size_t i = 0; i < shown; ++i) {
            const auto& [source, why] = page.passed_over[i];
            text += "  " + wrapped_words(on_one_line(fmt::format("{}: {}", source, why)), 2) + "\n";
        }
        if (shown < page.passed_over.size()) {
            text +=
                fmt::format("  and {} more; --json lists all\n", page.passed_over.size() - shown);
        }
        text += others_text(page.other_files);
    }
    if (!page.missing.empty()) {
        text += "\nStill missing\n";
        for (const std::string& one : page.missing) {
            text += "  " + wrapped_words(on_one_line(one), 2) + "\n";
        }
    }
    text += "\nWritten: " + on_one_line(joined_words(page.written)) + "\n";
    text += "Read it through; then: " + on_one_line(page.next) + "\n";
    return text;
}

}  // namespace farwater::reports
