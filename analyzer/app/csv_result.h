// What the commands share that print a table and may write it as one CSV.
#pragma once

#include <filesystem>
#include <span>
#include <vector>

#include "analyzer/app/commands/options.h"
#include "analyzer/district/problem.h"
#include "io/district_file.h"

namespace farwater::app {

// A result must not take the place of what it was made from: throws SettingsError where `csv` is
// the district file, one of its inputs, or one of `also`.
void refuse_over_inputs(const std::filesystem::path& csv, const io::DistrictFile& file,
                        std::span<const std::filesystem::path> also);

// To standard error, the first twenty, with --verbose all; nothing where quiet.
void complain_of(const Options& options, const std::vector<Problem>& problems);

}  // namespace farwater::app
