// Reading a district and, before any road is looked at, what its properties need: access, setback
// and hose go to the building that the need goes by.
#pragma once

#include <optional>
#include <vector>

#include "analyzer/district/need.h"
#include "analyzer/work/work.h"
#include "io/district_file.h"
#include "io/read_district.h"

namespace farwater::app {

struct Reading {
    io::ReadResult read;
    std::vector<std::optional<Need>> needs;  // per parcel, then per target
};

// Throws what io::read_district throws; comes back early when `work` was stopped.
Reading read_with_needs(const io::DistrictFile& file, const Work& work);

}  // namespace farwater::app
