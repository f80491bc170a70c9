// Roads on which two tankers cannot meet, and how far one has such a road to itself.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "routing/network.h"

namespace farwater::routing {

// Narrower than two_way_width; of unknown width where its class is narrow or drive.
bool single_file(const Road& road, const Assumptions& assumptions);

class SingleFile {
public:
    // The network must outlive it. `open_edges`: those that tankers may use; `season`: whose
    // speeds.
    SingleFile(const District& district, const Network& network,
               std::vector<std::uint8_t> open_edges, std::span<const Profile> profiles,
               const Season& season);

    // From the spot to where the next tanker waits: the nearest place on the way at which two can
    // pass, that is a junction of three roads or of a wider one, those that are closed left out.
    // Where there are two ways to go the longer one counts, but for ways that are closed or lead
    // to no such place; where there is none, as far as the road goes. As the slowest loaded tanker
    // drives, level. Zero where the spot's road is no single file.
    Duration way_of(RoadSpot spot, std::span<const EdgeIndex> closed) const;

private:
    struct Found {
        Duration drive;
        bool passes = false;  // at its end
    };
    Found along(EdgeIndex edge, NodeIndex to, double metres,
                std::span<const EdgeIndex> closed) const;
    Duration drive(EdgeIndex edge, double metres) const;
    bool open(EdgeIndex edge, std::span<const EdgeIndex> closed) const;
    bool narrow(EdgeIndex edge) const { return at(narrow_, at(network_.edges, edge).road) != 0; }

    const Network& network_;
    std::vector<std::uint8_t> open_;    // per edge
    std::vector<std::uint8_t> narrow_;  // per road
    std::vector<Speed> speed_;          // per road
};

}  // namespace farwater::routing
