// What a run says at its end: for people on the terminal, for programs as JSON.
#pragma once

#include <string>
#include <string_view>

#include "reports/findings.h"

namespace farwater::reports {

// Lines of at most about 100 characters, ending in a newline: headline, seasons and periods,
// rating, zones, records in and out, problems by kind, cautions.
std::string summary_text(const Findings& findings);

// Records read = used + repaired + set aside, one line per layer.
std::string records_text(const District& district);

// Problems by kind with count and first example.
std::string problems_text(std::span<const Problem> problems);

// One JSON document with "schema_version", sorted keys. `results` is the folder they are in.
std::string summary_json(const Findings& findings, std::string_view results);
std::string problems_json(const District& district, std::span<const Problem> problems);

}  // namespace farwater::reports
