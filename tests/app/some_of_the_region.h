// The sample region with the needs of some of its parcels, for the time that all would take.
#pragma once

#include "analyzer/app/reading.h"
#include "io/district_file.h"

namespace farwater::support {

// Every so many parcels have a need, the others none.
inline app::Reading some_of_the_region(std::size_t every, const Work& work) {
    app::Reading reading =
        app::read_with_needs(io::read_district_file("sample_region/district.toml"), work);
    for (std::size_t row = 0; row < reading.needs.size(); ++row) {
        if (row % every != 0) {
            reading.needs[row].reset();
        }
    }
    return reading;
}

}  // namespace farwater::support
