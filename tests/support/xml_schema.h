// XML held against a schema, by xmllint.
#pragma once

#include <filesystem>
#include <iostream>
#include <optional>
#include <string>

#include "tests/support/program.h"

namespace farwater::support {

// What xmllint says of the file; exit code 0: it is valid. None, said in the sentence by which
// ctest knows a skipped test, where xmllint is not installed. Nothing is fetched.
inline std::optional<Ended> held_against(const std::filesystem::path& schema,
                                         const std::filesystem::path& file) {
    const std::string xmllint = "/usr/bin/xmllint";
    if (!std::filesystem::exists(xmllint)) {
        std::cout << "SKIPPED: libxml2-utils is not installed\n";
        return std::nullopt;
    }
    return run_program(xmllint, {"--nonet", "--noout", "--schema", schema.string(), file.string()});
}

}  // namespace farwater::support
