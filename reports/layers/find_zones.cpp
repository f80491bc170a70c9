#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <tuple>
#include <utility>

#include "analyzer/geometry/dissolve.h"
#include "reports/text/number_words.h"
#include "reports/zones.h"

namespace farwater::reports {
namespace {

using Rows = std::vector<std::uint32_t>;

std::int32_t short_by(const supply::ParcelSupply& supply) {
    const bool answered =
        supply.state != SupplyState::no_building && supply.state != SupplyState::unknown;
    return answered ? in_tenths(supply::shortfall_of(supply)) : 0;
}

Rows short_rows(const Findings& findings) {
    Rows rows;
    for (std::uint32_t row = 0; row < findings.parcels(); ++row) {
        if (short_by(findings.supply(row)) > 0) {
            rows.push_back(row);
        }
    }
    return rows;
}

// The value that most rows have, and how many; of equals the least.
template <class Value, class Of>
std::pair<Value, std::size_t> most_frequent(const Rows& rows, Value none, Of of) {
    std::map<Value, std::size_t> counts;
    for (const std::uint32_t row : rows) {
        if (const std::optional<Value> value = of(row)) {
            ++counts[*value];
        }
    }
    std::pair<Value, std::size_t> most{none, 0};
    for (const auto& [value, count] : counts) {
        most = count > most.second ? std::pair(value, count) : most;
    }
    return most;
}

// --- flow zones ----------------------------------------------------------------------------------

using RowsOfBands = std::array<Rows, flow_bands.size()>;

RowsOfBands rows_of_bands(const Findings& findings) {
    RowsOfBands rows_of;
    for (std::uint32_t row = 0; row < findings.parcels(); ++row) {
        if (const auto band = flow_band_of(findings.supply(row))) {
            rows_of.at(*band).push_back(row);
        }
    }
    return rows_of;
}

// Without its ground.
FlowZone flow_zone_of(const Findings& findings, std::size_t band, const Rows& rows) {
    FlowZone zone{.band = band, .parcels = rows.size()};
    for (const std::uint32_t row : rows) {
        zone.buildings += findings.district.parcels[row].buildings;
        zone.held += findings.supply(row).state == SupplyState::held ? 1U : 0U;
    }
    return zone;
}

// Those that touch enough others.
Rows in_company(const Rows& rows, const Footprints& shapes) {
    const std::vector<std::uint32_t> group = groups_within(shapes, rows, metres(dissolve_grid_m));
    std::map<std::uint32_t, std::size_t> members;
    for (const std::uint32_t of : group) {
        ++members[of];
    }
    Rows shown;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (members[group[i]] >= least_parcels_for_public) {
            shown.push_back(rows[i]);
        }
    }
    return shown;
}

std::vector<FlowZone> flow_zones_of(const Findings& findings) {
    const RowsOfBands rows_of = rows_of_bands(findings);
    std::vector<FlowZone> zones;
    for (std::size_t band = 0; band < rows_of.size(); ++band) {
        if (!rows_of.at(band).empty()) {
            zones.push_back(flow_zone_of(findings, band, rows_of.at(band)));
        }
    }
    return zones;
}

// --- shortfall zones -----------------------------------------------------------------------------

void find_nearest_source(const Findings& findings, ShortfallZone& zone) {
    double nearest = std::numeric_limits<double>::infinity();
    for (const std::uint32_t row : zone.parcels) {
        for (const supply::CountedSource& counted : findings.water.counted) {
            const double squared =
                distance_squared(findings.district.parcels[row].house,
                                 at(findings.district.sources, counted.source).place);
            if (counted.is_for_all() && squared < nearest) {
                nearest = squared;
                zone.nearest_source = counted.source;
                zone.to_nearest_source = metres(std::sqrt(squared));
            }
        }
    }
}

void find_round_trip(const Findings& findings, ShortfallZone& zone) {
    std::vector<supply::TenthsMinute> trips;
    for (const std::uint32_t row : zone.parcels) {
        if (const auto trip = findings.supply(row).round_trip) {
            trips.push_back(*trip);
        }
    }
    if (!trips.empty()) {
        std::ranges::sort(trips);
        zone.round_trip = trips[trips.size() / 2];
    }
}

ShortfallZone shortfall_zone_of(const Findings& findings, Rows rows) {
    const auto by_shortfall = [&](std::uint32_t a, std::uint32_t b) {
        const auto of_a = short_by(findings.supply(a));
        const auto of_b = short_by(findings.supply(b));
        return of_a != of_b ? of_a > of_b
                            : findings.district.parcels[a].id < findings.district.parcels[b].id;
    };
    std::ranges::sort(rows, by_shortfall);
    ShortfallZone zone{.parcels = std::move(rows)};
    for (const std::uint32_t row : zone.parcels) {
        const SupplyState state = findings.supply(row).state;
        zone.total_tenths += short_by(findings.supply(row));
        zone.unserved +=
            state == SupplyState::tank_only || state == SupplyState::unreached ? 1U : 0U;
    }
    const auto at_place = [&](std::size_t place) {
        return tenths_of_gpm(short_by(findings.supply(zone.parcels[place])));
    };
    zone.worst = at_place(0);
    zone.median = at_place((zone.parcels.size() - 1) / 2);
    std::tie(zone.limit, zone.limited) =
        most_frequent(zone.parcels, Limit::none,
                      [&](std::uint32_t row) { return std::optional(findings.supply(row).limit); });
    std::tie(zone.fill_source, zone.filled) =
        most_frequent(zone.parcels, SourceIndex{}, [&](std::uint32_t row) {
            const SourceIndex source = findings.supply(row).fill_source;
            return source.valid() ? std::optional(source) : std::nullopt;
        });
    find_nearest_source(findings, zone);
    find_round_trip(findings, zone);
    return zone;
}

std::vector<ShortfallZone> shortfall_zones_of(const Findings& findings, const Footprints& shapes) {
    const Rows all = short_rows(findings);
    const std::vector<std::uint32_t> group = groups_within(shapes, all, zone_gap);
    std::vector<Rows> rows_of;
    for (std::size_t i = 0; i < all.size(); ++i) {
        rows_of.resize(std::max<std::size_t>(rows_of.size(), group[i] + 1));
        rows_of[group[i]].push_back(all[i]);
    }
    std::vector<ShortfallZone> zones;
    for (Rows& rows : rows_of) {
        zones.push_back(shortfall_zone_of(findings, std::move(rows)));
    }
    std::ranges::stable_sort(zones, std::greater<>{}, &ShortfallZone::total_tenths);
    return zones;
}

// --- their ground --------------------------------------------------------------------------------

// Ground of one band in one shortfall zone, or in none: made once, for both layers grow from it.
class Pieces {
public:
    Pieces(const Findings& findings, const std::vector<ShortfallZone>& zones,
           const Footprints& outlines, const Work& work) {
        std::vector<std::size_t> zone_of(findings.parcels(), no_zone);
        for (std::size_t zone = 0; zone < zones.size(); ++zone) {
            for (const std::uint32_t row : zones[zone].parcels) {
                zone_of[row] = zone;
            }
        }
        std::map<std::pair<std::size_t, std::size_t>, Rows> rows_of;
        for (std::uint32_t row = 0; row < findings.parcels(); ++row) {
            if (const auto band = flow_band_of(findings.supply(row))) {
                rows_of[{*band, zone_of[row]}].push_back(row);
            }
        }
        for (const auto& [key, rows] : rows_of) {
            if (!work.stopped()) {
                add(key.first, key.second, dissolved(outlines, rows));
            }
        }
    }
    MultiPolygon of_band(std::size_t band) const { return joined(bands_, band); }
    MultiPolygon of_zone(std::size_t zone) const { return joined(zones_, zone); }

private:
    using Members = std::map<std::size_t, Rows>;
    static constexpr std::size_t no_zone = SIZE_MAX;

    void add(std::size_t band, std::size_t zone, const MultiPolygon& shape) {
        for (const Polygon& part : shape) {
            const auto piece = static_cast<std::uint32_t>(shapes_.size());
            bands_[band].push_back(piece);
            zones_[zone].push_back(piece);
            shapes_.add({part}, area_m2({part}));
        }
    }
    MultiPolygon joined(const Members& members, std::size_t key) const {
        const auto found = members.find(key);
        return found == members.end() ? MultiPolygon{} : dissolved(shapes_, found->second);
    }

    Footprints shapes_;
    Members bands_, zones_;
};

}  // namespace

std::optional<std::size_t> flow_band_of(const supply::ParcelSupply& supply) {
    if (supply.state == SupplyState::no_building) {
        return std::nullopt;
    }
    if (supply.state == SupplyState::unknown) {
        return flow_bands.size() - 1;
    }
    const int gpm = planned_gpm(supply.cautious);
    std::size_t band = 0;
    while (flow_bands.at(band).to_gpm && gpm > *flow_bands.at(band).to_gpm) {
        ++band;
    }
    return band;
}

void ParcelOutlines::add(std::span<const Polyline> rings) {
    const MultiPolygon shape = shape_of_rings(rings);
    const double area = area_m2(shape);
    if (area > 0.0) {
        shapes_.add(shape, area);
    } else {
        shapes_.add_point(rings.empty() || rings.front().empty() ? Point{} : rings.front().front());
    }
}

Zones find_zones(const Findings& findings, const ParcelOutlines& outlines, const Work& work) {
    Zones zones;
    if (outlines.shapes().size() == findings.parcels()) {
        zones.flow = flow_zones_of(findings);
        zones.shortfall = shortfall_zones_of(findings, outlines.shapes());
        const Pieces pieces(findings, zones.shortfall, outlines.shapes(), work);
        for (FlowZone& zone : zones.flow) {
            zone.shape = pieces.of_band(zone.band);
        }
        for (std::size_t i = 0; i < zones.shortfall.size() && !work.stopped(); ++i) {
            zones.shortfall[i].shape = pieces.of_zone(i);
        }
    }
    return zones;
}

PublicZones find_public_zones(const Findings& findings, const ParcelOutlines& outlines,
                              const Work& work) {
    PublicZones found;
    if (outlines.shapes().size() != findings.parcels()) {
        return found;
    }
    const RowsOfBands rows_of = rows_of_bands(findings);
    for (std::size_t band = 0; band < rows_of.size() && !work.stopped(); ++band) {
        const Rows shown = in_company(rows_of.at(band), outlines.shapes());
        found.left_out += rows_of.at(band).size() - shown.size();
        if (!shown.empty()) {
            found.zones.flow.push_back(flow_zone_of(findings, band, shown));
            found.zones.flow.back().shape = dissolved(outlines.shapes(), shown);
        }
    }
    return found;
}

}  // namespace farwater::reports
