// A small drawn district with a choice to make: one parcel, up to four hose lays to dump sites of
// their own, up to six fill sites, up to six tankers.
#pragma once

#include <string>

#include "tests/supply/one_dump_site.h"
#include "tests/supply/random_incidents.h"

namespace farwater::supply {

inline WaterSource drawn_fill_source(Dice& dice, int number) {
    WaterSource source;
    source.id = "W" + std::to_string(number);
    source.system = "S" + std::to_string(number);
    source.kind = dice.chance(0.5) ? SourceKind::hydrant : SourceKind::dry_hydrant;
    source.standing = Standing::declared;
    source.rate = gpm(50 * dice.whole(5, 24));
    source.places = dice.whole(1, 2);
    source.usable = dice.chance(0.7) ? UsableWater::unlimited()
                                     : UsableWater::of(gallons(2'000.0 * dice.whole(8, 40)));
    return source;
}

inline void draw_fleet(Dice& dice, District& district) {
    district.units.resize(2);
    for (int engine = dice.whole(1, 3); engine > 0; --engine) {
        district.units.push_back(unit_of("F" + std::to_string(engine), UnitKind::engine, 1000));
    }
    for (int tanker = dice.whole(2, 6); tanker > 0; --tanker) {
        Unit unit =
            unit_of("T" + std::to_string(tanker), UnitKind::tanker, 100.0 * dice.whole(10, 35));
        unit.fill_limit = gpm(50 * dice.whole(8, 20));
        unit.offload = gpm(50 * dice.whole(8, 24));
        unit.pump = dice.chance(0.3) ? std::optional(gpm(500)) : std::nullopt;
        unit.portable_tank = gallons(dice.chance(0.6) ? 2500 : 0);
        unit.jet_siphons = dice.chance(0.3) ? 1 : 0;
        district.units.push_back(unit);
    }
    district.units.back().portable_tank = gallons(2500);
    for (Unit& unit : district.units) {
        unit.hose = HoseLoad{.hose_2_5in = {},
                             .hose_3in = {},
                             .hose_4in = feet(100 * dice.whole(2, 8)),
                             .hose_5in = {}};
    }
}

// One way from the station, to each fill site, and to the house.
struct DrawnLay {
    HoseLay hose;
    DriveTime from_station = no_time;
    std::vector<LegTimes> legs;  // per source
};

inline DrawnLay drawn_lay(Dice& dice, std::size_t number, std::size_t sources) {
    DrawnLay lay;
    lay.hose.dump_site = DumpSiteIndex(number);
    lay.hose.lane = dice.chance(0.5) ? LaneClass::dead_end : LaneClass::through;
    lay.hose.length = feet(100 * dice.whole(1, 14));
    lay.from_station = tenths_of_second(600 * dice.whole(3, 9));
    for (std::size_t i = 0; i < sources; ++i) {
        lay.legs.push_back({.empty = tenths_of_second(60 * dice.whole(10, 90)),
                            .loaded = tenths_of_second(60 * dice.whole(10, 100))});
    }
    return lay;
}

struct DrawnLays {
    OneDumpSite district;
    std::vector<DrawnLay> lays;

    explicit DrawnLays(Dice& dice) {
        draw_fleet(dice, district.district);
        district.district.sources.clear();
        for (int number = dice.whole(2, 6); number > 0; --number) {
            district.district.sources.push_back(drawn_fill_source(dice, number));
        }
        for (std::size_t i = 0, most = static_cast<std::size_t>(dice.whole(1, 4)); i < most; ++i) {
            lays.push_back(drawn_lay(dice, i, district.district.sources.size()));
        }
        need_ = Need{tenths_of_gpm(500 * dice.whole(3, 14)), minutes(120), Evidence::declared};
        arrival_ = tenths_of_second(600 * dice.whole(5, 14));
    }

    // With so many of the lays and sources, each from the first on, or with one of the lays alone.
    ParcelSupply supply(std::size_t lays_there, std::size_t sources) {
        std::vector<std::size_t> used(lays_there);
        for (std::size_t i = 0; i < used.size(); ++i) {
            used[i] = i;
        }
        return supply_of(used, sources);
    }
    ParcelSupply supply() { return supply(lays.size(), district.district.sources.size()); }
    ParcelSupply supply_by(std::size_t lay) {
        return supply_of({lay}, district.district.sources.size());
    }

private:
    ParcelSupply supply_of(const std::vector<std::size_t>& used, std::size_t sources) {
        const std::vector<WaterSource> all = district.district.sources;
        district.district.sources.resize(sources);
        district.refresh();
        district.needs.front() = need_;
        district.arrivals.front() = arrival_;
        const RoundTrips bare = district.trips;
        RoundTrips& trips = district.trips;
        trips.dump_sites.assign(lays.size(), bare.dump_sites.front());
        trips.fill_trips = {};
        trips.stations_of_dump_site = {};
        trips.hose_lays = {};
        for (const DrawnLay& lay : lays) {
            StationDrive drive = bare.stations_of_dump_site[0].front();
            drive.loaded.fill(lay.from_station);
            trips.stations_of_dump_site.add(drive);
            trips.stations_of_dump_site.close_row();
            for (FillTrip trip : bare.fill_trips[0]) {
                const SourceIndex source = at(district.places, trip.fill_site).source;
                trip.legs.fill(lay.legs[source.position()]);
                trips.fill_trips.add(trip);
            }
            trips.fill_trips.close_row();
        }
        for (const std::size_t lay : used) {
            trips.hose_lays.items.push_back(lays[lay].hose);
        }
        trips.hose_lays.close_row();
        const ParcelSupply answer = district.supply();
        district.district.sources = all;
        return answer;
    }

    Need need_;
    DriveTime arrival_ = no_time;
};

}  // namespace farwater::supply
