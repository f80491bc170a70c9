// What the results rest on, as it stands in them: program, schema, district file, inputs.
#pragma once

#include <optional>
#include <string>

#include "analyzer/district/district.h"
#include "io/district_file.h"
#include "io/read_district.h"
#include "reports/findings.h"
#include "reports/layers.h"

namespace farwater::app {

// What the results rest on: program, schema, district file, CRS, inputs, routing profiles.
reports::RunRecord run_record(const io::DistrictFile& file, const io::ReadResult& read,
                              const reports::Findings& findings);

// The part of it that any command can say of its inputs.
reports::RunRecord input_record(const io::DistrictFile& file, const io::ReadResult& read);

// What a GeoPackage gives as its date of change: of the data, for the clock would make every run
// differ.
std::string date_of_change(const District& district);
std::string date_of_change(const std::optional<Date>& data_date);

}  // namespace farwater::app
