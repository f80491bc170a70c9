// Which drives of which places would run over their own hose or past the burning house.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/app/routes_in_use.h"
#include "routing/fastest_ways.h"

namespace farwater::app {

// A place that drives a shuttle: its way to the dump site and back, as places in a list of routes.
struct ShuttleUse {
    std::uint32_t place = 0;
    std::uint32_t loaded = 0;
    std::uint32_t empty = 0;
    bool further = false;  // to a fill site beside the first
};

class WaysOverHose {
public:
    // All must outlive it.
    WaysOverHose(const AnswersGiven& answers, std::span<const ShuttleUse> uses,
                 std::span<const RouteInUse> routes);

    // Looks at the way of a route for all places that have it. For several threads, each with other
    // routes.
    void look(std::size_t route, const routing::Way& way);

    // What was found; a way that was not looked at does not run over hose.
    bool loaded_over(std::size_t use) const { return loaded_[use] != 0; }
    bool empty_over(std::size_t use) const { return empty_[use] != 0; }

private:
    bool over_hose(const routing::Way& way, std::uint32_t place, DumpSiteIndex dump_site) const;

    const AnswersGiven& answers_;
    std::span<const ShuttleUse> uses_;
    std::span<const RouteInUse> routes_;
    Lists<std::uint32_t> uses_of_;              // per route
    std::vector<std::uint8_t> loaded_, empty_;  // per use: 1 = over the hose
};

}  // namespace farwater::app
