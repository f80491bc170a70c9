#include "reports/explain/worked_page.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

constexpr std::size_t what_width = 36;
constexpr std::size_t line_width = 118;

double rounded(double value, int decimals) {
    const double scale = std::pow(10.0, decimals);
    const double result = std::round(value * scale) / scale;
    return result == 0.0 ? 0.0 : result;  // never minus nothing
}

std::string figure_of(const WorkedLine& line) {
    if (!line.value) {
        return line.words;
    }
    const std::string number = fmt::format("{:.{}f}{}{}", *line.value, line.decimals,
                                           line.unit.empty() ? "" : " ", line.unit);
    return line.sum.empty() ? number : line.sum + " = " + number;
}

std::string line_text(const WorkedLine& line) {
    const std::size_t used = letters(line.what);
    std::string text = "  " + line.what +
                       std::string(what_width - std::min(what_width, used), ' ') + "  " +
                       figure_of(line);
    if (line.note.empty()) {
        return text + "\n";
    }
    const bool fits = letters(text) + letters(line.note) + 4 <= line_width;
    return text + (fits ? "  (" : "\n      (") + line.note + ")\n";
}

}  // namespace

void WorkedPage::part(std::string title) { parts_.push_back({std::move(title), {}}); }

void WorkedPage::number(std::string what, double value, Digits digits, std::string_view unit,
                        std::string note) {
    sum(std::move(what), {}, value, digits, unit, std::move(note));
}

void WorkedPage::sum(std::string what, std::string sum, double value, Digits digits,
                     std::string_view unit, std::string note) {
    const int decimals = static_cast<int>(digits);
    parts_.back().lines.push_back({std::move(what),
                                   std::move(sum),
                                   rounded(value, decimals),
                                   decimals,
                                   std::string(unit),
                                   {},
                                   std::move(note)});
}

void WorkedPage::words(std::string what, std::string words, std::string note) {
    parts_.back().lines.push_back(
        {std::move(what), {}, std::nullopt, 0, {}, std::move(words), std::move(note)});
}

void WorkedPage::rests_on(std::initializer_list<std::string_view> keys) {
    assumptions_.insert(keys.begin(), keys.end());
}

std::string plain(double number, int decimals) {
    std::string text = fmt::format("{:.{}f}", number, decimals);
    if (decimals > 0) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') {
            text.pop_back();
        }
    }
    return text == "-0" ? "0" : text;
}
std::string plain(Duration duration) { return plain(in_minutes(duration)); }
std::string plain(Flow flow) { return plain(in_gpm(flow), 1); }
std::string plain(Volume volume) { return plain(in_gallons(volume), 1); }
std::string in_plain_feet(Length length) { return plain(in_feet(length), 1); }

std::string worked_text(const std::vector<WorkedPart>& parts) {
    std::string text;
    for (const WorkedPart& part : parts) {
        text += part.title + "\n";
        for (const WorkedLine& line : part.lines) {
            text += line_text(line);
        }
        text += "\n";
    }
    return text;
}

}  // namespace farwater::reports
