// Runs a script of this folder, which drives a real browser.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <string>
#include <vector>

#include "tests/support/program.h"

namespace farwater::support {

// Where somebody has one elsewhere than Debian does.
inline std::string chromium() {
    const char* given = std::getenv("FARWATER_CHROMIUM");
    return given != nullptr ? given : "/usr/bin/chromium";
}

inline std::string node() {
    for (const char* place : {"/usr/bin/node", "/usr/local/bin/node"}) {
        if (std::filesystem::exists(place)) {
            return place;
        }
    }
    return {};
}

// False, with the sentence that ctest knows, where the browser or its driver is not installed.
inline bool has_browser() {
    const bool there = !node().empty() && std::filesystem::exists(chromium()) &&
                       std::filesystem::exists("tests/browser/node_modules/playwright-core") &&
                       std::filesystem::exists("tests/browser/node_modules/axe-core");
    if (!there) {
        std::cout << "SKIPPED: Chromium or the packages of tests/browser are not installed\n";
    }
    return there;
}

inline Ended run_script(const std::string& name, const std::vector<std::string>& arguments) {
    std::vector<std::string> all{"tests/browser/" + name};
    for (const std::string& argument : arguments) {
        all.push_back(argument);
    }
    return run_program(node(), all);
}

}  // namespace farwater::support
