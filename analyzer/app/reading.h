// Reading a district and, before any way is looked for, what its roads that are drawn twice say
// together and what its properties need: access, setback and hose go to the building that the need
// goes by.
#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include "analyzer/district/need.h"
#include "analyzer/parallel/work.h"
#include "io/district_file.h"
#include "io/read_district.h"

namespace farwater::app {

struct Reading {
    io::ReadResult read;
    std::vector<std::optional<Need>> needs;  // per parcel, then per target
};

// Throws what io::read_district throws; comes back early when `work` was stopped.
Reading read_with_needs(const io::DistrictFile& file, const Work& work);

// Everything that a reading reads; an out folder must hold none of it.
std::vector<std::filesystem::path> files_read(const io::DistrictFile& file);

}  // namespace farwater::app
