#include "analyzer/app/csv_result.h"

#include <algorithm>

#include <fmt/format.h>

#include "analyzer/app/reading.h"
#include "analyzer/app/terminal.h"
#include "io/error.h"

namespace farwater::app {
namespace {

constexpr std::size_t most_problems_said = 20;

}  // namespace

void refuse_over_inputs(const std::filesystem::path& csv, const io::DistrictFile& file,
                        std::span<const std::filesystem::path> also) {
    std::vector<std::filesystem::path> inputs = files_read(file);
    inputs.insert(inputs.end(), also.begin(), also.end());
    for (const std::filesystem::path& input : inputs) {
        std::error_code error;
        if (!input.empty() && std::filesystem::equivalent(input, csv, error)) {
            throw io::SettingsError(
                fmt::format("--csv {} is one of the inputs; name another file", csv.string()));
        }
    }
}

void complain_of(const Options& options, const std::vector<Problem>& problems) {
    if (options.quiet) {
        return;
    }
    const std::size_t said =
        options.verbose ? problems.size() : std::min(problems.size(), most_problems_said);
    for (std::size_t i = 0; i < said; ++i) {
        say(fmt::format("farwater: {}\n", sentence(problems[i])));
    }
    if (said < problems.size()) {
        say(fmt::format("farwater: {} more problems of this kind; --verbose says all\n",
                        problems.size() - said));
    }
}

}  // namespace farwater::app
