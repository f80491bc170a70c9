// From findings to a folder that may be handed to anybody.
#pragma once

#include <filesystem>

#include "analyzer/app/analysis.h"
#include "analyzer/parallel/work.h"
#include "io/district_file.h"
#include "io/read_district.h"
#include "reports/findings.h"

namespace farwater::app {

// supply.gpkg without the parcels, tables/ with the workbook, and report.html: only what
// reports/public names. No inputs, maps of houses, rating, places or log. False when stopped: the
// folder is then incomplete. Throws InputError, OutputError.
bool write_public_results(const std::filesystem::path& folder, const io::DistrictFile& file,
                          const io::ReadResult& read, const reports::Findings& findings,
                          const Work& work, const StageBegins& begins);

}  // namespace farwater::app
