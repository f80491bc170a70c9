// What the fire department itself keeps: sources, stations, apparatus, staffing, places.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sample_region/generate/records.h"

namespace farwater::sample {

// Points of the tables are in the working plane; writers put them where the format wants them.
TypedTable source_table(const Township& township, const Stamp& stamp);
// The sources that a department would name first, at most `count`: different kinds, spread out.
TypedTable first_sources(const TypedTable& all, std::size_t count);

TypedTable station_table(const Township& township, const Gates& gates, const Stamp& stamp);
// Only units of the stations that there are: a small township has fewer.
TypedTable apparatus_table(const TypedTable& stations);
TypedTable staffing_table(const TypedTable& apparatus);
TypedTable zone_table(const TypedTable& apparatus);
TypedTable target_table(const Township& township);
TypedTable dump_place_table(const Township& township);
TypedTable turnaround_table(const Township& township);
// Where the officer thinks of a cistern: crossroads far from each other, one without a price, one
// whose size is not decided.
TypedTable proposal_table(const Township& township);

// Runs of a year, by where they ended: some a button was forgotten on.
TypedTable run_table(const Township& township, const TypedTable& stations, std::uint64_t seed);

// One station with an engine and two tankers, for regions of many townships.
PointRow region_station(const Township& township, const Stamp& stamp);
void add_region_apparatus(TypedTable& apparatus, const std::string& station, std::uint64_t seed);

}  // namespace farwater::sample
