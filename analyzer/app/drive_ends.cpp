#include "analyzer/app/drive_ends.h"

#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "io/error.h"
#include "io/read_points.h"
#include "routing/costs.h"
#include "routing/speeds.h"
#include "routing/stops.h"

namespace farwater::app {
namespace {

using routing::RoadSpot;

// A side whose points have no road yet, or have the one that `run` takes.
struct Places {
    DriveSide side;
    std::vector<Point> points;
};

template <class Thing>
void add_place(Places& places, const Thing& thing, Point place, RoadSpot spot, DriveTime gate) {
    places.side.ends.ids.push_back(thing.id);
    places.side.ends.outside.push_back(gate == DriveTime{} ? 0 : 1);
    places.side.spots.push_back(spot);
    places.side.to_gate.push_back(gate);
    places.points.push_back(place);
}

template <class Thing>
void add_places(Places& places, const std::vector<Thing>& things,
                const std::vector<RoadSpot>& spots) {
    for (std::size_t i = 0; i < things.size(); ++i) {
        add_place(places, things[i], things[i].place, spots[i], DriveTime{});
    }
}

void add_stations(Places& places, const routing::RoadSystem& roads, const Season& season) {
    for (std::size_t i = 0; i < roads.district.stations.size(); ++i) {
        const Station& station = roads.district.stations[i];
        add_place(places, station, station.place, roads.access.stations[i],
                  routing::gate_drive(station, season));
    }
}

void add_parcels(Places& places, const routing::RoadSystem& roads) {
    for (std::size_t i = 0; i < roads.district.parcels.size(); ++i) {
        const Parcel& parcel = roads.district.parcels[i];
        add_place(places, parcel, parcel.house, roads.access.spots[i], DriveTime{});
    }
}

void add_targets(Places& places, const routing::RoadSystem& roads) {
    const std::size_t first = roads.district.parcels.size();
    for (std::size_t i = 0; i < roads.district.targets.size(); ++i) {
        const Target& target = roads.district.targets[i];
        add_place(places, target, target.place, roads.access.spots[first + i], DriveTime{});
    }
}

// The sections whose things the district holds; false for any other.
bool add_section(Places& places, const std::string& section, const routing::RoadSystem& roads,
                 const Season& season) {
    if (section == "stations") {
        add_stations(places, roads, season);
    } else if (section == "water_sources") {
        add_places(places, roads.district.sources, roads.access.sources);
    } else if (section == "dump_site_places") {
        add_places(places, roads.district.dump_site_places, roads.access.dump_site_places);
    } else if (section == "parcels") {
        add_parcels(places, roads);
    } else if (section == "targets") {
        add_targets(places, roads);
    } else {
        return false;
    }
    return true;
}

Places places_of(const SideAsked& asked, const routing::RoadSystem& roads, const Season& season,
                 const io::WorkingCrs& crs, const Work& work) {
    Places places;
    places.side.ends.layer = asked.spec.section;
    if (add_section(places, asked.spec.section, roads, season)) {
        if (asked.id_column) {
            throw io::SettingsError(fmt::format(
                "{} of the district file have their own ids; leave out the column \"{}\"",
                asked.spec.section, *asked.id_column));
        }
        return places;
    }
    io::PointLayer layer = io::read_points(asked.spec, asked.id_column, crs, work);
    places.side.ends.layer = std::move(layer.name);
    places.side.problems = std::move(layer.points.log.problems);
    for (const io::NamedPoint& point : layer.points.rows) {
        add_place(places, point, point.place, RoadSpot{}, DriveTime{});
    }
    return places;
}

// Those that stand on no road, or on one that the vehicles may not use.
std::vector<std::uint32_t> to_be_moved(const Places& places, const routing::RoadSystem& roads,
                                       const Profile& profile, const Season& season) {
    std::vector<std::uint32_t> rows;
    for (std::uint32_t i = 0; i < places.points.size(); ++i) {
        const RoadSpot spot = places.side.spots[i];
        const bool usable =
            spot.valid() &&
            routing::may_use(at(roads.district.roads, at(roads.network.edges, spot.edge).road),
                             profile, season, routing::Load::loaded, roads.district.assumptions);
        if (!usable) {
            rows.push_back(i);
        }
    }
    return rows;
}

void report_without_road(DriveSide& side, const District& district) {
    const std::string reach =
        fmt::format("{} ft", std::lround(in_feet(district.assumptions.access_reach)));
    for (std::size_t i = 0; i < side.spots.size(); ++i) {
        if (!side.spots[i].valid()) {
            side.problems.push_back({.id = ProblemId::point_no_road_in_reach,
                                     .layer = side.ends.layer,
                                     .file = {},
                                     .record = side.ends.ids[i],
                                     .field = {},
                                     .detail = reach});
        }
    }
}

}  // namespace

DriveSide drive_side(const SideAsked& asked, const routing::RoadSystem& roads, ProfileIndex profile,
                     SeasonIndex season, const io::WorkingCrs& crs, const Work& work) {
    const Profile& vehicles = at(roads.profiles, profile);
    const Season& now = at(roads.district.seasons, season);
    Places places = places_of(asked, roads, now, crs, work);
    const std::vector<std::uint32_t> moved = to_be_moved(places, roads, vehicles, now);
    std::vector<Point> points;
    points.reserve(moved.size());
    for (const std::uint32_t row : moved) {
        points.push_back(places.points[row]);
    }
    const std::vector<RoadSpot> stops =
        routing::stops_near(roads.district, roads.network, points, vehicles, now, work);
    for (std::size_t i = 0; i < moved.size(); ++i) {
        places.side.spots[moved[i]] = stops[i];
    }
    report_without_road(places.side, roads.district);
    return std::move(places.side);
}

}  // namespace farwater::app
