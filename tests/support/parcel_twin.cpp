#include "tests/support/parcel_twin.h"

#include <algorithm>
#include <cmath>

#include "tests/support/slow_lanes.h"

namespace farwater::slow {

namespace {

bool used_in_some_season(const District& district, const std::vector<Profile>& profiles,
                         std::size_t road, bool tankers_only) {
    for (const Season& season : district.seasons) {
        for (const Profile& profile : profiles) {
            const bool asked = !tankers_only || profile.kind == UnitKind::tanker;
            if (asked &&
                may_drive(district.roads[road], profile, season, true, district.assumptions)) {
                return true;
            }
        }
    }
    return false;
}

Spot spot_of(const Town& town, const Nearest& nearest) {
    return spot_on(town.streets, nearest.road, nearest.along);
}

}  // namespace

Duration to_gate_in(const Station& station, const Season& season) {
    if (!station.to_gate) {
        return minutes(0);
    }
    const double share_of_speed = season.speed_factor < 1.0 ? season.speed_factor : 1.0;
    return minutes(std::ceil(in_minutes(*station.to_gate) / share_of_speed * 600.0 - 1e-7) / 600.0);
}

namespace {

long tenths(Duration duration) { return std::lround(in_minutes(duration) * 600.0); }

// Straight to the house, stretched and with some more, or as the parcel says where its drive is not
// drawn. None beyond the hose that may lie off the road.
std::optional<double> setback_metres(const Town& town, std::size_t parcel, const Nearest& access) {
    const Assumptions& a = town.district.assumptions;
    const double straight = access.apart;
    const bool drive = town.district.roads[access.road].kind == RoadClass::drive;
    if (!drive && town.district.parcels[parcel].setback) {
        return in_metres(*town.district.parcels[parcel].setback);
    }
    if (straight > in_metres(a.off_road_hose)) {
        return std::nullopt;
    }
    return straight * a.setback_factor + in_metres(a.setback_extra);
}

// The end of a way for an engine when the house stands on a road that it may not drive: the
// junction nearest along such roads to which an engine comes, if hose reaches on from there.
long arrival_at_gate(const Town& town, const PieceCosts& times, const std::vector<Start>& starts,
                     Spot house, double hose_left) {
    PieceCosts closed = lengths_in_mm(town.streets);
    for (std::size_t i = 0; i < town.streets.pieces.size(); ++i) {
        if (times.forward[i] != never || times.backward[i] != never) {
            closed.forward[i] = closed.backward[i] = never;
        }
    }
    // Lengths are the same both ways, so ways to the house are searched from it.
    const std::vector<long> ways = junction_arrivals(town.streets, closed, {{house, 0}});
    const std::vector<long> arrivals = junction_arrivals(town.streets, times, starts);
    long least_way = never;
    long arrival = never;
    for (std::size_t junction = 0; junction < town.streets.junctions; ++junction) {
        if (arrivals[junction] != never && ways[junction] < least_way) {
            least_way = ways[junction];
            arrival = arrivals[junction];
        }
    }
    return static_cast<double>(least_way) / 1000.0 <= hose_left ? arrival : never;
}

// Pieces that every tanker may use loaded.
std::vector<bool> open_to_all(const Town& town, Hour hour) {
    const Season& season = at(town.district.seasons, hour.season);
    std::vector<bool> open;
    for (const Piece& piece : town.streets.pieces) {
        open.push_back(std::ranges::all_of(town.profiles, [&](const Profile& profile) {
            return profile.kind != UnitKind::tanker ||
                   may_drive(town.district.roads[piece.road], profile, season, true,
                             town.district.assumptions);
        }));
    }
    return open;
}

}  // namespace

Town town_of(const District& district, std::vector<Profile> profiles) {
    Town town{district, std::move(profiles), streets_of(district), {}, {}};
    for (std::size_t r = 0; r < district.roads.size(); ++r) {
        town.of_tankers.push_back(used_in_some_season(district, town.profiles, r, true));
        town.of_anyone.push_back(used_in_some_season(district, town.profiles, r, false));
    }
    return town;
}

std::optional<Spot> driven_to(const Town& town, Point place, const std::vector<bool>& roads) {
    const auto nearest = nearest_place(town.district, place, town.district.assumptions.access_reach,
                                       [&](std::size_t road) { return roads[road]; });
    return nearest ? std::optional(spot_of(town, *nearest)) : std::nullopt;
}

std::optional<Nearest> access_of(const Town& town, std::size_t parcel) {
    return served_from(town.district, town.of_tankers, town.district.parcels[parcel].house,
                       town.district.assumptions.access_reach);
}

long first_engine(const Town& town, Hour hour, std::size_t parcel) {
    const auto access = access_of(town, parcel);
    if (!access) {
        return never;
    }
    const Assumptions& a = town.district.assumptions;
    const Spot house = spot_of(town, *access);
    const auto setback = setback_metres(town, parcel, *access);
    long best = never;
    for (const Profile& profile : town.profiles) {
        std::vector<Start> starts;
        long last = 0;
        for (const Coming& engine : who_comes(town, hour, town.district.parcels[parcel].zone)) {
            const Station& station =
                at(town.district.stations, at(town.district.units, engine.unit).station);
            const auto from = driven_to(town, station.place, town.of_anyone);
            const bool member = std::ranges::count(profile.members, engine.unit) > 0;
            if (profile.kind == UnitKind::engine && member && !engine.asked_for && from) {
                const Duration gate = to_gate_in(station, at(town.district.seasons, hour.season));
                starts.push_back({*from, tenths(engine.rolls + gate)});
                last = std::max(last, starts.back().cost);
            }
        }
        const PieceCosts times = drive_times(town.district, town.streets, profile,
                                             at(town.district.seasons, hour.season), true);
        long there = first_arrival(town.streets, times, starts, house);
        if (there == never && setback) {
            there = arrival_at_gate(town, times, starts, house, in_metres(a.hose_reach) - *setback);
        }
        best = there <= last + tenths(a.trip_limit) ? std::min(best, there) : best;
    }
    return best;
}

std::optional<double> hose_to(const Town& town, std::size_t parcel, const DumpSiteCandidate& site) {
    const auto access = access_of(town, parcel);
    const auto from = driven_to(town, site.place, town.of_tankers);
    const auto setback = access ? setback_metres(town, parcel, *access) : std::nullopt;
    if (!from || !setback) {
        return std::nullopt;
    }
    const long way =
        way_between(town.streets, lengths_in_mm(town.streets), *from, spot_of(town, *access));
    double off_road = 0.0;
    if (site.officers_place) {
        off_road = nearest_place(town.district, site.place, town.district.assumptions.access_reach,
                                 [&](std::size_t road) { return town.of_tankers[road]; })
                       ->apart;
    }
    return way == never ? std::nullopt
                        : std::optional(static_cast<double>(way) / 1000.0 + off_road + *setback);
}

std::optional<double> hose_from(const Town& town, std::size_t parcel, const WaterSource& source) {
    const auto access = access_of(town, parcel);
    const auto road =
        nearest_place(town.district, source.place, town.district.assumptions.access_reach,
                      [&](std::size_t r) { return town.of_tankers[r]; });
    const auto setback = access ? setback_metres(town, parcel, *access) : std::nullopt;
    if (!road || !setback) {
        return std::nullopt;
    }
    const long way = way_between(town.streets, lengths_in_mm(town.streets), spot_of(town, *road),
                                 spot_of(town, *access));
    const double length = static_cast<double>(way) / 1000.0 + road->apart + *setback;
    return way == never || length > in_metres(town.district.assumptions.relay_reach)
               ? std::nullopt
               : std::optional(length);
}

Legs legs_between(const Town& town, Hour hour, const Profile& profile,
                  const DumpSiteCandidate& site, const WaterSource& source) {
    const auto dump = driven_to(town, site.place, town.of_tankers);
    const auto fill = driven_to(town, source.place, town.of_tankers);
    if (!dump || !fill) {
        return {};
    }
    const Season& season = at(town.district.seasons, hour.season);
    const PieceCosts empty = drive_times(town.district, town.streets, profile, season, false);
    const PieceCosts loaded = drive_times(town.district, town.streets, profile, season, true);
    const Legs legs{way_between(town.streets, empty, *dump, *fill),
                    way_between(town.streets, loaded, *fill, *dump)};
    const long limit = tenths(town.district.assumptions.trip_limit);
    return legs.empty > limit || legs.loaded > limit ? Legs{} : legs;
}

namespace {

void add_spot(const Town& town, Point place, const std::vector<bool>& roads,
              std::vector<Spot>& spots) {
    if (const auto spot = driven_to(town, place, roads)) {
        spots.push_back(*spot);
    }
}

// Points of the layer within 200 ft of their road, and places and sources that have one; tankers
// come from sources and stations.
LaneMarks lane_marks(const Town& town) {
    LaneMarks marks;
    marks.from_anywhere = false;
    for (const Turnaround& turnaround : town.district.turnarounds) {
        const auto near = nearest_place(town.district, turnaround.place, feet(200),
                                        [&](std::size_t road) { return town.of_tankers[road]; });
        if (near) {
            add_spot(town, turnaround.place, town.of_tankers, marks.turnarounds);
        }
    }
    for (const DumpSitePlace& place : town.district.dump_site_places) {
        if (place.turnaround) {
            add_spot(town, place.place, town.of_tankers, marks.turnarounds);
        }
    }
    for (const WaterSource& source : town.district.sources) {
        if (source.turnaround) {
            add_spot(town, source.place, town.of_tankers, marks.turnarounds);
        }
        add_spot(town, source.place, town.of_tankers, marks.origins);
    }
    for (const Station& station : town.district.stations) {
        add_spot(town, station.place, town.of_anyone, marks.origins);
    }
    return marks;
}

}  // namespace

bool must_back(const Town& town, Hour hour, std::size_t parcel, const DumpSiteCandidate& site) {
    if (site.officers_place) {
        const DumpSitePlace& place = town.district.dump_site_places[*site.officers_place];
        if (place.lane || place.turnaround) {
            return place.lane && *place.lane == LaneClass::dead_end;
        }
    }
    const auto dump = driven_to(town, site.place, town.of_tankers);
    const auto access = access_of(town, parcel);
    if (!dump || !access) {
        return true;
    }
    std::vector<bool> open = open_to_all(town, hour);
    const std::vector<bool> closed = under_the_way(town.streets, *dump, spot_of(town, *access));
    for (std::size_t i = 0; i < open.size(); ++i) {
        open[i] = open[i] && !closed[i];
    }
    return !drive_through(town.streets, open, *dump,
                          in_metres(town.district.assumptions.turnaround_reach), lane_marks(town));
}

namespace {

bool too_narrow(const District& district, const Road& road) {
    return road.width ? *road.width < district.assumptions.two_way_width
                      : road.kind == RoadClass::narrow || road.kind == RoadClass::drive;
}

// Tenths of a second, rounded up for each piece, as the slowest of the tankers goes on the level.
double alone_on(const Town& town, Hour hour, const Road& road, double far) {
    double slowest = 1e9;
    for (const Profile& profile : town.profiles) {
        if (profile.kind == UnitKind::tanker) {
            slowest = std::min(
                slowest, miles_per_hour(road, profile, at(town.district.seasons, hour.season), true,
                                        town.district.assumptions));
        }
    }
    const double hours = far / 1609.344 / slowest;
    return std::max(1.0, std::ceil(hours * 36'000.0 - 1e-6)) / 600.0;
}

}  // namespace

double single_file_seconds(const Town& town, Hour hour, std::size_t parcel,
                           const DumpSiteCandidate& site) {
    const District& district = town.district;
    if (site.officers_place &&
        district.dump_site_places[*site.officers_place].lane == LaneClass::through) {
        return 0.0;
    }
    const auto dump = driven_to(town, site.place, town.of_tankers);
    const auto access = access_of(town, parcel);
    if (!dump || !access) {
        return 0.0;
    }
    std::vector<bool> open = open_to_all(town, hour);
    const std::vector<bool> closed = under_the_way(town.streets, *dump, spot_of(town, *access));
    std::vector<bool> narrow;
    for (std::size_t i = 0; i < open.size(); ++i) {
        open[i] = open[i] && !closed[i];
        narrow.push_back(too_narrow(district, district.roads[town.streets.pieces[i].road]));
    }
    if (drive_through(town.streets, open, *dump, in_metres(district.assumptions.turnaround_reach),
                      {})) {
        return 0.0;
    }
    const auto minutes_on = [&](std::size_t piece, double far) {
        return alone_on(town, hour, district.roads[town.streets.pieces[piece].road], far);
    };
    return std::ceil(single_file_minutes(town.streets, open, narrow, minutes_on, *dump) * 60.0 -
                     1e-9);
}

bool must_back_to_fill(const Town& town, Hour hour, const WaterSource& source) {
    if (source.lane || source.turnaround) {
        return source.lane && *source.lane == LaneClass::dead_end;
    }
    const auto fill = driven_to(town, source.place, town.of_tankers);
    LaneMarks marks = lane_marks(town);
    marks.from_anywhere = true;
    return !fill || !drive_through(town.streets, open_to_all(town, hour), *fill,
                                   in_metres(town.district.assumptions.turnaround_reach), marks);
}

}  // namespace farwater::slow
