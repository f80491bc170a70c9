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

}  // namespace farwater::reports
