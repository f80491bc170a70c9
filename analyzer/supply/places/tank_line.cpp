#include "analyzer/supply/places/tank_line.h"

#include <algorithm>
#include <numeric>
#include <span>

#include "analyzer/hydraulics/transfer.h"

namespace farwater::supply {

std::optional<Flow> DrawnLine::cap() const {
    return draft && transfer ? std::min(*draft, *transfer) : draft ? draft : transfer;
}

std::size_t tanks_in_reach(const TankLine& line) {
    return line.siphons > 0 ? line.tanks.size() : std::min<std::size_t>(1, line.tanks.size());
}

DrawnLine drawn_from(const TankLine& line) {
    const auto used = std::span(line.tanks).first(line.used);
    DrawnLine drawn{.storage = std::accumulate(used.begin(), used.end(), Volume{}),
                    .draft = line.draft,
                    .transfer = {}};
    if (line.used < 2) {
        return drawn;
    }
    const double running = line.siphons;
    drawn.transfer = hydraulics::transfer_limit(used, line.siphon * running);
    if (line.draft) {
        drawn.draft = std::max(Flow{}, *line.draft - line.drive_water * running);
    }
    return drawn;
}

DumpSite with_line(DumpSite site, const TankLine& line) {
    if (line.used > 0) {
        const DrawnLine drawn = drawn_from(line);
        site.storage = drawn.storage;
        site.flow_cap = drawn.cap();
    }
    return site;
}

}  // namespace farwater::supply
