// The two sides of a table of drives: which places, and where they are on the roads.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/problem.h"
#include "analyzer/district/units.h"
#include "analyzer/parallel/work.h"
#include "io/crs.h"
#include "io/district_file.h"
#include "reports/drive_times.h"
#include "routing/drive_times.h"
#include "routing/network.h"

namespace farwater::app {

struct DriveSide {
    reports::DriveEnds ends;
    std::vector<routing::RoadSpot> spots;
    std::vector<DriveTime> to_gate;  // added to every drive: the station is beyond the road data
    std::vector<Problem> problems;   // of reading the layer; points that reach no road
};

// What is asked of one side.
struct SideAsked {
    io::LayerSpec spec;
    std::optional<std::string> id_column;
};

// Stations, water sources and the officer's places stand where `run` puts them on the roads;
// parcels and targets too, unless the vehicles may not use that road: then they and all other
// points stand at the nearest road that the vehicles may use. Throws what io::read_points throws,
// and SettingsError for an id column of a section that has its own ids.
DriveSide drive_side(const SideAsked& asked, const routing::RoadSystem& roads, ProfileIndex profile,
                     SeasonIndex season, const io::WorkingCrs& crs, const Work& work);

}  // namespace farwater::app
