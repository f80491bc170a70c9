#include "io/settings/faults.h"

#include <algorithm>
#include <tuple>

#include <fmt/format.h>

#include "io/error.h"

namespace farwater::io {
namespace {

constexpr std::size_t most_faults_shown = 20;

}  // namespace

void Faults::add(TomlPlace place, const std::string& what) { faults_.push_back({place, what}); }

void Faults::throw_if_any() const {
    if (faults_.empty()) {
        return;
    }
    std::vector<Fault> sorted = faults_;
    std::stable_sort(sorted.begin(), sorted.end(), [](const Fault& a, const Fault& b) {
        return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
    });
    std::string text;
    for (std::size_t i = 0; i < std::min(sorted.size(), most_faults_shown); ++i) {
        text += fmt::format("{}{}:{}:{}: {}", i == 0 ? "" : "\n", file_, sorted[i].place.line,
                            sorted[i].place.column, sorted[i].what);
    }
    if (sorted.size() > most_faults_shown) {
        text += fmt::format("\nand {} more", sorted.size() - most_faults_shown);
    }
    throw SettingsError(text);
}

}  // namespace farwater::io
