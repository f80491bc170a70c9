// The table of drives between two layers of points.
#pragma once

#include <string>
#include <vector>

#include "analyzer/district/problem.h"
#include "analyzer/district/routes.h"
#include "io/feature_table.h"

namespace farwater::reports {

// The places of one side of the table.
struct DriveEnds {
    std::string layer;
    std::vector<std::string> ids;
    std::vector<std::uint8_t> outside;  // 1: beyond the data, its miles are not known
};

struct DriveTable {
    std::string district;
    std::string season;
    std::string vehicles;    // of the routing profile, with its kind
    std::string time_model;  // what the minutes come from
    double limit_min = 0.0;
    DriveEnds from, to;
    std::vector<DrivePair> drives;
    std::vector<Problem> problems;  // of the two layers

    std::size_t pairs() const { return from.ids.size() * to.ids.size(); }
};

// from_id, to_id, loaded_min, loaded_mi, empty_min, empty_mi. The drives must outlive it.
io::FeatureTable drive_times(const DriveTable& drives);

// Heading, the first `most` rows (0: none) as aligned columns, and how many pairs have no way.
std::string drive_times_text(const DriveTable& drives, std::size_t most);

// One document with "schema_version" and every drive.
std::string drive_times_json(const DriveTable& drives);

}  // namespace farwater::reports
