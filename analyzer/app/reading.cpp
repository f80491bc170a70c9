#include "analyzer/app/reading.h"

#include "analyzer/demand/needed_flow.h"

namespace farwater::app {

Reading read_with_needs(const io::DistrictFile& file, const Work& work) {
    Reading reading{io::read_district(file, work), {}};
    if (work.stopped()) {
        return reading;
    }
    District& district = reading.read.district;
    reading.needs = demand::needs_of(district);
    demand::move_houses(district, reading.needs);
    const std::vector<Problem> problems = demand::need_problems(district, reading.needs);
    district.problems.insert(district.problems.end(), problems.begin(), problems.end());
    return reading;
}

}  // namespace farwater::app
