// Where many parcels fare alike: ground by the flow that is held, and neighbours that miss theirs.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/geometry/footprints.h"
#include "analyzer/parallel/work.h"
#include "io/feature_table.h"
#include "reports/findings.h"

namespace farwater::reports {

// Outlines of more parcels are not kept in memory; then there are no zones, which is said.
inline constexpr std::size_t most_parcels_in_zones = 150000;

// Parcels as near as this are neighbours, so that a road between them does not part a zone: common
// practice, no source; a right of way is 33 to 66 ft wide, with a shoulder or a brook 100.
inline constexpr Length zone_gap = feet(100.0);

// The key of the map page: cautious flow as documents show it, gpm.
struct FlowBand {
    std::string_view word;
    std::string_view legend;
    std::optional<int> from_gpm, to_gpm;  // both counted in; no upper one: and more
};
inline constexpr std::array flow_bands{
    FlowBand{"none", "no flow that keeps coming", 0, 0},
    FlowBand{"25_to_225", "25 to 225 gpm", 25, 225},
    FlowBand{"250_to_475", "250 to 475 gpm", 250, 475},
    FlowBand{"500_to_700", "500 to 700 gpm", 500, 700},
    FlowBand{"750_to_950", "750 to 950 gpm", 750, 950},
    FlowBand{"1000_to_1450", "1,000 to 1,450 gpm", 1000, 1450},
    FlowBand{"1500_and_more", "1,500 gpm and more", 1500, std::nullopt},
    FlowBand{"unknown", "not known", std::nullopt, std::nullopt},
};

// Place in flow_bands; none for a parcel without a building.
std::optional<std::size_t> flow_band_of(const supply::ParcelSupply& supply);

struct FlowZone {
    std::size_t band = 0;     // place in flow_bands
    std::size_t parcels = 0;  // improved
    std::size_t buildings = 0;
    std::size_t held = 0;  // of them: meet their planned flow
    MultiPolygon shape;
};

struct ShortfallZone {
    std::vector<std::uint32_t> parcels;  // rows, the largest shortfall first
    HeldFlow worst{}, median{};          // of what is missing by the better way from the start
    std::int64_t total_tenths = 0;       // the same, of all parcels together, tenths of a gpm
    std::size_t unserved = 0;            // of them: water on wheels only, or no way there
    Limit limit = Limit::none;           // of most of them
    std::size_t limited = 0;             // how many
    SourceIndex fill_source;             // where the tankers of most of them fill
    std::size_t filled = 0;
    SourceIndex nearest_source;  // of those that count, straight from the nearest house
    Length to_nearest_source;
    std::optional<supply::TenthsMinute> round_trip;  // median of those that have a shuttle
    MultiPolygon shape;
};

struct Zones {
    bool left_out = false;                 // more parcels than most_parcels_in_zones
    std::vector<FlowZone> flow;            // those with parcels, in the order of flow_bands
    std::vector<ShortfallZone> shortfall;  // the largest total first
};

// Collects the parcels' outlines as they go by on the second pass, in the order of the parcels.
class ParcelOutlines {
public:
    void add(std::span<const Polyline> rings);
    const Footprints& shapes() const { return shapes_; }

private:
    Footprints shapes_;
};

// Empty where `outlines` does not have every parcel, or when stopped. O(vertices log vertices +
// short parcels x sources).
Zones find_zones(const Findings& findings, const ParcelOutlines& outlines, const Work& work);

// For the public: ground of a band that hangs together with fewer parcels than this is left out, so
// that no answer stands for one property alone.
inline constexpr std::size_t least_parcels_for_public = 5;
struct PublicZones {
    Zones zones;               // no shortfall zones
    std::size_t left_out = 0;  // improved parcels on ground that is not shown
};
PublicZones find_public_zones(const Findings& findings, const ParcelOutlines& outlines,
                              const Work& work);

// "zone 3: 41 parcels, worst short by 310 gpm, most limited by fill site"; the largest `most`, then
// how many more there are. Empty where there is nothing to say.
std::vector<std::string> zone_sentences(const Findings& findings, std::size_t most);

// Layers of findings.zones, which must outlive them.
io::FeatureTable flow_zones(const Findings& findings);
io::FeatureTable shortfall_zones(const Findings& findings);

}  // namespace farwater::reports
