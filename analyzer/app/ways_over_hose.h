// Which places have a shuttle that would run over their own hose or past the burning house.
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/app/routes_in_use.h"
#include "routing/fastest_ways.h"

namespace farwater::app {

class WaysOverHose {
public:
    // Both must outlive it, and the routes stay as they are meanwhile.
    WaysOverHose(const AnswersGiven& answers, const RoutesInUse& routes);

    // Looks at the way of a route for all places that have it. For several threads, each with other
    // routes.
    void look(std::size_t route, const routing::Way& way);

    // What was found, into the places. A place whose ways were not looked at has none over the
    // hose.
    void mark(std::vector<RoutesInUse::OfPlace>& places) const;

private:
    bool over_hose(const routing::Way& way, std::uint32_t place, DumpSiteIndex dump_site) const;

    const AnswersGiven& answers_;
    const RoutesInUse& routes_;
    Lists<std::uint32_t> places_of_;            // per route
    std::vector<std::uint8_t> loaded_, empty_;  // per place: 1 = over the hose
};

}  // namespace farwater::app
