// What proposals and improvements gain, as files in a folder.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/parallel/work.h"
#include "io/district_file.h"
#include "io/feature_table.h"
#include "io/read_district.h"
#include "reports/layers.h"

namespace farwater::app {

struct GainFiles {
    std::string_view name;  // of the GeoPackage and of the pages
    std::vector<io::FeatureTable> tables;
    std::function<std::string(const reports::RunRecord& record)> pages;  // HTML, to print
};

// NAME.gpkg with the tables and the run record, TABLE.csv for each table, NAME.html. False when
// stopped.
bool write_gains(const std::filesystem::path& folder, const GainFiles& files,
                 const io::DistrictFile& file, const io::ReadResult& read, const District& district,
                 const Work& work);

// Where they are, for the end of what a person is told.
std::string where_gains_are(const std::filesystem::path& folder, std::string_view name);

}  // namespace farwater::app
