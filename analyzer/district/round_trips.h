// What routing hands to the supply stage: where dump sites can be, what can be driven from where to
// where in which time, and where each parcel is served from. One value per season.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/fill_trips.h"
#include "analyzer/district/ids.h"
#include "analyzer/district/maybe.h"
#include "analyzer/district/plane.h"
#include "analyzer/district/station_drives.h"
#include "analyzer/district/units.h"
#include "analyzer/district/words.h"

namespace farwater {

// Vehicles that the roads treat alike: one restriction and speed class. The group is as heavy,
// wide and tall as its largest member, as fast as its slowest, and climbs as its weakest.
struct Profile {
    std::string name;  // the members' ids, for the report
    std::vector<UnitIndex> members;
    UnitKind kind = UnitKind::tanker;  // engines and tankers are never grouped together
    Weight loaded, empty;
    std::optional<Length> width, height;
    Speed top_speed = mph(50);
    WeightPerPower loaded_per_power, empty_per_power;  // 0 = no grade slows it
};

// A place where a fill site stands, as the supply stage offers it to routing. Sources of a higher
// class are at least as strong in rate and in volume.
struct FillSitePlace {
    SourceIndex source;
    Point place;
    std::uint8_t strength_class = 0;
    static constexpr std::uint32_t no_system = UINT32_MAX;
    std::uint32_t system = no_system;  // the same number: one water main system, pond or stream
    ParcelIndex only_for;  // by hose, and no tanker fills there; not valid: it is for every place

    bool is_for_all() const { return !only_for.valid(); }
};

// Where a thing off the road meets the road that it is served from.
struct AccessPoint {
    RoadIndex road;   // not valid: no road in reach
    Point place;      // on the road, to the millimetre
    Length off_road;  // straight from the thing to `place`
    bool doubtful =
        false;  // farther than the off-road hose reaches, or on a road that no tanker may use
};

struct DumpSiteCandidate {
    Point place;
    RoadIndex road;
    LaneClass lane = LaneClass::through;  // of its road with nothing closed; dead_end = tankers
                                          // must back or turn
    bool single_file = false;  // narrower than two_way_width, or narrow and of unknown width
    std::optional<std::uint32_t> officers_place;  // index into District::dump_site_places
    Maybe<double> grade_pct;  // steepest of the road over dump_site_length; none: not known
    Maybe<Length> straight;   // road there that is straight and level, as far as the longest line
                              // of tanks takes; none: it stands off the road
};

// Hose from a dump site to a parcel's house: along roads and drives, then the setback.
struct HoseLay {
    DumpSiteIndex dump_site;
    // The ways that tankers have while the road under the hose and in front of the house is closed;
    // not valid: those of the dump site.
    ApproachIndex approach;
    LaneClass lane = LaneClass::dead_end;  // of the dump site, with the same roads closed
    // Seconds that a loaded tanker drives in single file from where the next one waits, which can
    // not meet it, to the dump site; 0: they can pass each other, or drive one way round.
    std::uint16_t single_file_s = 0;
    Length length;

    ApproachIndex ways() const {
        return approach.valid() ? approach : ApproachIndex(dump_site.position());
    }
};

// Hose from a fill site to a parcel's house, for direct supply and relay.
struct SourceLay {
    FillSiteIndex fill_site;
    Length length;
};

// Lists of variable length per row, stored as one list: rows never allocate on their own.
template <class Item>
struct Lists {
    std::vector<std::uint32_t> begin{0};  // one more than there are rows
    std::vector<Item> items;

    std::size_t size() const { return begin.size() - 1; }
    std::span<const Item> operator[](std::size_t row) const {
        return std::span(items).subspan(begin[row], begin[row + 1] - begin[row]);
    }
    void close_row() { begin.push_back(static_cast<std::uint32_t>(items.size())); }
};

struct RoundTrips {
    SeasonIndex season;
    std::vector<DumpSiteCandidate> dump_sites;

    // Per approach: first the dump sites with no road closed, then those while hose lies that takes
    // ways from them (each that differs once, by dump site). The nearest fill sites of every
    // strength class, by round trip of the profile with the most tankers; ties go to the smaller
    // fill site index. At most two places of one system in a class.
    FillTrips fill_trips;

    std::vector<LaneClass> fill_lanes;  // per fill site: the source's own word, else of its road

    // Per approach, and per fill site: the stations that can get there within the trip limit, by
    // index, with the drive of each profile, loaded. Station::to_gate is included. While hose lies
    // only tankers are told: the engines come before, or lay it.
    StationDrives stations_of_dump_site;
    Lists<StationDrive> stations_of_fill_site;

    // Per parcel, then per target: the dump sites in hose reach, the officer's places first, then
    // the nearest.
    Lists<HoseLay> hose_lays;

    // Per parcel, then per target: the nearest fill site of each strength class within relay_reach
    // of hose, and all that are for the parcel alone, by length.
    Lists<SourceLay> source_lays;

    // Road miles from the nearest station to the parcel's access point; none where there is no way.
    std::vector<std::optional<float>> station_miles;

    // no_time where the profile has no way from there.
    DriveTime from_station(ProfileIndex profile, StationIndex station,
                           DumpSiteIndex dump_site) const {
        return drive_from(stations_of_dump_site[dump_site.position()], profile, station);
    }
    DriveTime tanker_from_station(ProfileIndex profile, StationIndex station,
                                  ApproachIndex approach) const {
        return drive_from(stations_of_dump_site[approach.position()], profile, station);
    }
    DriveTime station_to_fill_site(ProfileIndex profile, StationIndex station,
                                   FillSiteIndex fill_site) const {
        return drive_from(stations_of_fill_site[fill_site.position()], profile, station);
    }
};

// Per road of the district, for the road_times layer. no_time / none where a thing cannot be said.
struct RoadTimes {
    std::vector<DriveTime>
        from_station;  // first engine that can be at the road's far end, station's offset included
    std::vector<DriveTime>
        from_fill;             // loaded tanker from the nearest fill site to the road's nearer end
    std::vector<Speed> speed;  // loaded, average over the road; 0 under a linear travel-time rule
    std::vector<std::optional<float>> grade_pct;  // steepest stretch; none without elevation
    std::vector<bool> speed_posted;               // the posted limit made it, not the class default
    std::vector<bool> tanker_may_use;
    std::vector<std::int32_t> component;  // 0 = the largest connected part
};

}  // namespace farwater
