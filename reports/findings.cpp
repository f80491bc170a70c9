#include "reports/findings.h"

#include <fmt/format.h>

namespace farwater::reports {

std::vector<std::string> dump_site_names(const Findings& findings) {
    std::vector<std::string> names;
    if (findings.seasons.empty()) {
        return names;
    }
    for (const DumpSiteCandidate& site : findings.seasons.front().trips.dump_sites) {
        names.push_back(site.officers_place
                            ? findings.district.dump_site_places[*site.officers_place].id
                            : fmt::format("D{:04}", names.size() + 1));
    }
    return names;
}

Box extent_of(const District& district) {
    Box box;
    for (const Road& road : district.roads) {
        for (const Point p : road.line) {
            box.include(p);
        }
    }
    for (const Parcel& parcel : district.parcels) {
        box.include(parcel.house);
    }
    return box;
}

}  // namespace farwater::reports
