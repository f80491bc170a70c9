// The sample region worked out by the program under test, once for all tests of a build that only
// look at the result.
#pragma once

#include <filesystem>
#include <string>

namespace farwater::support {

// The out folder of `farwater run sample_region/district.toml`, and beside it what the run said up
// to where its results are. Read only. It is kept beside the program, by the sizes and times of the
// program and of the region's files, so that a change of either works it out anew; tests that ask
// at the same time wait for the first. Throws std::runtime_error, with what the program said, where
// the run fails.
std::filesystem::path region_result(const std::filesystem::path& program);
std::string region_summary(const std::filesystem::path& program);

}  // namespace farwater::support
