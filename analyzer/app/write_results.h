// From findings to files in a folder.
#pragma once

#include <filesystem>
#include <optional>

#include "analyzer/app/stages.h"
#include "analyzer/parallel/work.h"
#include "io/district_file.h"
#include "io/pass_through.h"
#include "io/read_district.h"
#include "reports/findings.h"
#include "reports/zones.h"

namespace farwater::app {

// The input as it was read; `nth` of its section, since several tables may be joined.
io::PassThroughInput input_of(const io::LayerSpec& spec, const io::ReadResult& read,
                              std::size_t nth = 0);

// supply.gpkg, tables/*.csv with columns.csv and coverage.xlsx, places/*.gpx and *.kml,
// report.html, with proposals proposals.html, with a rating rating/*.html and rating.pdf; up to
// 200,000 parcels inputs.gpkg, up to 50,000 maps/overview.svg. The zones come from the parcels'
// shapes as they are written. None when stopped: the folder is then incomplete. Throws InputError,
// OutputError.
std::optional<reports::Zones> write_results(const std::filesystem::path& folder,
                                            const io::DistrictFile& file,
                                            const io::ReadResult& read,
                                            const reports::Findings& findings, const Work& work,
                                            const StageBegins& begins);

}  // namespace farwater::app
