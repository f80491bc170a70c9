// A district of one dump site, as the supply stage sees it, for tests to change.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "analyzer/supply/assess.h"

namespace farwater::supply {

inline Unit unit_of(std::string id, UnitKind kind, double tank) {
    Unit unit;
    unit.id = std::move(id);
    unit.station = StationIndex(0);
    unit.kind = kind;
    unit.tank = gallons(tank);
    unit.fill_limit = gpm(1000);
    unit.offload = gpm(1000);
    unit.crew = 8;  // enough for whatever is to be run
    unit.pump = kind == UnitKind::engine ? std::optional(gpm(1500)) : std::nullopt;
    unit.hose = HoseLoad{.hose_2_5in = {}, .hose_3in = {}, .hose_4in = feet(1000), .hose_5in = {}};
    return unit;
}

// One station, one dump site 5 min away on a road that is wide and straight, one hydrant of 1,000
// gpm 4 min from the dump site (further sources 20 s farther each), one parcel with 200 ft of hose;
// two engines and four tankers.
struct OneDumpSite {
    District district;
    WaterReview water;
    std::vector<Profile> profiles;
    std::vector<AccessPoint> access;
    RoundTrips trips;
    std::vector<FillSitePlace> places;
    std::vector<std::optional<Need>> needs;
    std::vector<DriveTime> arrivals;

    OneDumpSite() {
        district.seasons.push_back(Season{.name = "all_year"});
        district.periods.push_back(
            {.name = "any_time", .turnout_staffed = {}, .turnout_volunteer = {}});
        district.stations.push_back(Station{.id = "S1"});
        district.units = {
            unit_of("E1", UnitKind::engine, 1000), unit_of("E2", UnitKind::engine, 1000),
            unit_of("T1", UnitKind::tanker, 2500), unit_of("T2", UnitKind::tanker, 2000),
            unit_of("T3", UnitKind::tanker, 3000), unit_of("T4", UnitKind::tanker, 1800)};
        district.units[2].portable_tank = gallons(2500);
        district.units[4].portable_tank = gallons(2500);
        WaterSource hydrant;
        hydrant.id = "H1";
        hydrant.kind = SourceKind::hydrant;
        hydrant.standing = Standing::declared;
        hydrant.rate = gpm(1000);
        hydrant.places = 2;
        hydrant.usable = UsableWater::unlimited();
        district.sources.push_back(hydrant);
        district.parcels.push_back(Parcel{.id = "P1"});
        district.roads.emplace_back().width = feet(24);
        refresh();
    }

    void refresh() {
        water = review_water(district);
        places = fill_site_places(district, water, district.seasons[0]);
        profiles.clear();
        for (const UnitKind kind : {UnitKind::engine, UnitKind::tanker}) {
            Profile profile;
            profile.kind = kind;
            for (std::size_t u = 0; u < district.units.size(); ++u) {
                if (district.units[u].kind == kind) {
                    profile.members.emplace_back(u);
                }
            }
            profiles.push_back(profile);
        }
        trips = RoundTrips{};
        access.clear();
        trips.season = SeasonIndex(0);
        trips.dump_sites.emplace_back().road = RoadIndex(0);
        trips.dump_sites.back().straight = feet(200);
        StationDrive drive;
        drive.station = StationIndex(0);
        drive.loaded.fill(tenths_of_second(3000));
        trips.stations_of_dump_site.add(drive);
        trips.stations_of_dump_site.close_row();
        for (std::size_t i = 0; i < places.size(); ++i) {
            FillTrip trip;
            trip.fill_site = FillSiteIndex(i);
            const int farther = 200 * static_cast<int>(i);
            trip.legs.fill({.empty = tenths_of_second(2400 + farther),
                            .loaded = tenths_of_second(2600 + farther)});
            trips.fill_trips.add(trip);
            trips.fill_lanes.push_back(LaneClass::through);
            trips.stations_of_fill_site.items.push_back(drive);
            trips.stations_of_fill_site.close_row();
        }
        trips.fill_trips.close_row();
        for (std::size_t row = 0; row < district.parcels.size(); ++row) {
            access.emplace_back().road = RoadIndex(0);
            trips.hose_lays.items.push_back(the_lay());
            trips.hose_lays.close_row();
            trips.source_lays.close_row();
        }
        needs.assign(district.parcels.size(),
                     Need{tenths_of_gpm(5000), minutes(120), Evidence::declared});
        arrivals.assign(district.parcels.size(), tenths_of_second(7500));  // 12.5 min
    }

    static HoseLay the_lay() {
        HoseLay lay;
        lay.dump_site = DumpSiteIndex(0);
        lay.lane = LaneClass::through;
        lay.length = feet(200);
        return lay;
    }
    Situation situation() const {
        return {district, water, profiles, access, trips, places, PeriodIndex(0)};
    }
    ParcelSupply supply() const { return assess(situation(), needs, arrivals, Work{}).at(0); }
};

}  // namespace farwater::supply
