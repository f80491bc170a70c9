#include <algorithm>
#include <functional>
#include <iterator>
#include <memory>

#include "analyzer/supply/road_room.h"
#include "reports/drive_words.h"
#include "reports/layers.h"
#include "reports/layers/fill_site_strength.h"
#include "reports/layers/routes.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {
namespace {

using Counts = std::vector<std::size_t>;

const supply::CountedSource& counted(const Findings& findings, std::size_t row) {
    return findings.water.counted[row];
}

const WaterSource& source_of(const Findings& findings, std::size_t row) {
    return at(findings.district.sources, counted(findings, row).source);
}

io::Value only_for(const District& district, const supply::CountedSource& source) {
    return source.is_for_all() ? io::Value{} : value_of(at(district.parcels, source.only_for).id);
}

// Improved parcels that each source, or each dump site, serves in their worst variant.
Counts parcels_by_source(const Findings& findings) {
    Counts counts(findings.district.sources.size(), 0);
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        const supply::ParcelSupply& supply = findings.supply(row);
        if (supply.fill_source.valid()) {
            ++at(counts, supply.fill_source);
        }
        for (const supply::FurtherFill& fill : supply.further_fills) {
            if (fill.source.valid()) {
                ++at(counts, fill.source);
            }
        }
    }
    return counts;
}

Counts parcels_by_dump_site(const Findings& findings) {
    Counts counts(findings.seasons.front().trips.dump_sites.size(), 0);
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        if (findings.supply(row).dump_site.valid()) {
            ++at(counts, findings.supply(row).dump_site);
        }
    }
    return counts;
}

// "summer, winter": the seasons in which the source is open.
std::string open_seasons(const Findings& findings, SourceIndex source) {
    std::string open;
    for (std::size_t season = 0; season < findings.seasons.size(); ++season) {
        const auto& places = findings.seasons[season].fill_places;
        const bool is_open = std::ranges::any_of(
            places, [&](const FillSitePlace& place) { return place.source == source; });
        if (is_open) {
            open += (open.empty() ? "" : ", ") + findings.district.seasons[season].name;
        }
    }
    return open;
}

std::vector<std::string> open_seasons_of_all(const Findings& findings) {
    std::vector<std::string> all;
    for (const supply::CountedSource& source : findings.water.counted) {
        all.push_back(open_seasons(findings, source.source));
    }
    return all;
}

// Of each counted source: dead_end where it is one in some season in which it is open.
std::vector<LaneClass> lanes_of_all(const Findings& findings) {
    std::vector<LaneClass> of_source(findings.district.sources.size(), LaneClass::through);
    for (const SeasonFindings& season : findings.seasons) {
        for (std::size_t i = 0; i < season.fill_places.size(); ++i) {
            if (season.trips.fill_lanes[i] == LaneClass::dead_end) {
                at(of_source, season.fill_places[i].source) = LaneClass::dead_end;
            }
        }
    }
    std::vector<LaneClass> lanes;
    for (const supply::CountedSource& source : findings.water.counted) {
        lanes.push_back(at(of_source, source.source));
    }
    return lanes;
}

// Improved parcels whose tankers can drive a loop, by what serves them.
template <class Key>
Counts parcels_with_loop(const Findings& findings, std::size_t keys, Key key) {
    Counts counts(keys, 0);
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        const LoopDetour* loop = loop_at(findings, row);
        if (loop != nullptr && loop->found) {
            ++at(counts, key(findings.supply(row)));
        }
    }
    return counts;
}

struct Drive {
    std::uint32_t dump_site;
    StationIndex station;
};

std::vector<Drive> all_drives(const RoundTrips& trips) {
    std::vector<Drive> drives;
    for (std::size_t site = 0; site < trips.dump_sites.size(); ++site) {
        for (const StationDrive& drive : trips.stations_of_dump_site[site]) {
            drives.push_back({static_cast<std::uint32_t>(site), drive.station});
        }
    }
    return drives;
}

// Of the first profile of a kind; no_time where there is none.
DriveTime drive_of(const Findings& findings, const Drive& drive, UnitKind kind) {
    const RoundTrips& trips = findings.seasons.front().trips;
    DriveTime slowest = no_time;
    for (std::size_t p = 0; p < findings.profiles.size(); ++p) {
        if (findings.profiles[p].kind == kind) {
            const DriveTime time =
                trips.from_station(ProfileIndex(p), drive.station, DumpSiteIndex(drive.dump_site));
            slowest = !reachable(slowest) || (reachable(time) && time > slowest) ? time : slowest;
        }
    }
    return slowest;
}

// The first listed fill site of a dump site is the nearest of its class; the nearest of all is
// found.
DriveTime least_round_trip(const FillTrips& trips, std::size_t row, SourceIndex& source,
                           const std::vector<FillSitePlace>& places) {
    DriveTime least = no_time;
    for (const FillTrip& trip : trips[row]) {
        for (const LegTimes& legs : trip.legs) {
            const DriveTime both = whole_trip(legs);
            if (both < least) {
                least = both;
                source = at(places, trip.fill_site).source;
            }
        }
    }
    return least;
}

// How it is got to, when, and for whom.
std::vector<ColumnOf> use_columns(const Findings& findings, const CountedAt& site) {
    const auto served = std::make_shared<const Counts>(parcels_by_source(findings));
    const auto looped = std::make_shared<const Counts>(
        parcels_with_loop(findings, findings.district.sources.size(),
                          [](const supply::ParcelSupply& supply) { return supply.fill_source; }));
    const auto seasons =
        std::make_shared<const std::vector<std::string>>(open_seasons_of_all(findings));
    const auto lanes = std::make_shared<const std::vector<LaneClass>>(lanes_of_all(findings));
    return {
        text("lane_class",
             "In the worst season. through: tankers drive through; dead_end: they must back or "
             "turn, which is counted.",
             [lanes](std::size_t row) { return io::Value{word((*lanes)[row])}; }),
        text("open_in", "Seasons in which it counts.",
             [seasons](std::size_t row) { return value_of((*seasons)[row]); }),
        integer("parcels_served",
                "Parcels whose tankers, or some of them, fill here in their worst season and "
                "period, or whose hose comes from here.",
                [served, site](std::size_t row) {
                    return value_of_count(at(*served, site(row).source));
                }),
        integer("parcels_with_loop",
                "Of parcels_served: those whose first tanker fills here and can go out and come "
                "back on roads of which "
                "none is driven both ways, with the road under the hose and in front of the house "
                "closed.",
                [looped, site](std::size_t row) {
                    return value_of_count(at(*looped, site(row).source));
                }),
    };
}

}  // namespace

io::FeatureTable fill_sites(const Findings& findings) {
    const auto source = [findings](std::size_t row) -> const WaterSource& {
        return source_of(findings, row);
    };
    const auto site = [findings](std::size_t row) -> const supply::CountedSource& {
        return counted(findings, row);
    };
    std::vector<ColumnOf> columns{
        text("source_id", "Water source.",
             [source](std::size_t row) { return value_of(source(row).id); }),
        text("name", "Its name.", [source](std::size_t row) { return value_of(source(row).name); }),
        text("kind", "hydrant, dry_hydrant, draft_site or cistern.",
             [source](std::size_t row) { return io::Value{word(source(row).kind)}; }),
        text("standing", "tested or declared; water that is only mapped is no fill site.",
             [source](std::size_t row) { return io::Value{word(source(row).standing)}; }),
        text("evidence",
             "tested, declared, or assumed where a stated value makes its flow or storage.",
             [site](std::size_t row) { return io::Value{word(site(row).evidence)}; }),
        text("system", "Sources of one system share volume and rate.",
             [source](std::size_t row) { return value_of(source(row).system); }),
        text("only_for",
             "The one parcel that it serves, by hose; no tanker fills there. Empty: every place.",
             [findings, site](std::size_t row) { return only_for(findings.district, site(row)); }),
    };
    std::ranges::move(strength_columns(findings, site), std::back_inserter(columns));
    std::ranges::move(use_columns(findings, site), std::back_inserter(columns));
    return layer({"fill_sites", "Fill sites",
                  "Water sources that count: tested or declared, with a known volume."},
                 io::ShapeKind::point, std::move(columns), findings.water.counted.size(),
                 [source](std::size_t row) { return Polyline{source(row).place}; });
}

namespace {

// Whether the tankers could drive one way round.
std::vector<ColumnOf> loop_columns(const Findings& findings) {
    const auto looped = std::make_shared<const Counts>(
        parcels_with_loop(findings, findings.seasons.front().trips.dump_sites.size(),
                          [](const supply::ParcelSupply& supply) { return supply.dump_site; }));
    const auto loop = [findings](std::size_t row) -> const LoopDetour* {
        const auto& of = findings.routes.loop_of_dump_site;
        return row < of.size() ? findings.routes.loop(of[row]) : nullptr;
    };
    return {
        yes_no(
            "one_way_loop",
            "On the shuttle that most of its parcels get, nothing closed: tankers can go out and "
            "come back on roads of which none is driven both ways, in half as long again or 5 "
            "minutes more. Empty where no shuttle uses it.",
            [loop](std::size_t row) { return value_of_loop(loop(row)); }),
        real(
            "loop_detour_min", "Minutes that this takes more than the fastest way out and back.",
            [loop](std::size_t row) { return minutes_of_loop(loop(row)); }, 2),
        real(
            "loop_detour_mi", "Road miles that this takes more than the fastest way out and back.",
            [loop](std::size_t row) { return miles_of_loop(loop(row)); }, 2),
        integer("parcels_with_loop",
                "Of parcels_served: those for which it can be done with the road under the hose "
                "and in front of the house closed.",
                [looped](std::size_t row) { return value_of_count((*looped)[row]); }),
    };
}

using SiteOfRow = std::function<const DumpSiteCandidate&(std::size_t row)>;

std::vector<ColumnOf> place_columns(const Findings& findings, const SiteOfRow& site) {
    const auto names = std::make_shared<const std::vector<std::string>>(dump_site_names(findings));
    return {
        text("dump_site_id", "The officer's id, or D and a number.",
             [names](std::size_t row) { return io::Value{std::string_view((*names)[row])}; }),
        yes_no("officers_place", "Named in the district's list of places.",
               [site](std::size_t row) { return io::Value{site(row).officers_place.has_value()}; }),
        text("lane_class",
             "First season, nothing closed. through: tankers drive through; dead_end: they must "
             "back or turn, also where the road is not known to leave a lane beside the tanks.",
             [site, findings](std::size_t row) {
                 return io::Value{
                     word(supply::lane_beside_tanks(findings.district, site(row), site(row).lane))};
             }),
        yes_no("single_file", "The road is so narrow that two tankers cannot meet there.",
               [site](std::size_t row) { return io::Value{site(row).single_file}; }),
        real(
            "grade_pct",
            "Steepest grade of the road where engine and portable tanks stand, %; empty where it "
            "is not known.",
            [site](std::size_t row) { return value_of(site(row).grade_pct); }, 1),
        integer("portable_tanks",
                "Portable tanks that stand in line there: the officer's number, else by width and "
                "straight, level length of the road.",
                [site, findings](std::size_t row) {
                    return io::Value{
                        std::int64_t{supply::road_room(findings.district, site(row)).tanks}};
                }),
        text("road", "Road on which it stands.",
             [site, findings](std::size_t row) {
                 return site(row).road.valid()
                            ? value_of(at(findings.district.roads, site(row).road).name)
                            : io::Value{};
             }),
    };
}

}  // namespace

io::FeatureTable dump_sites(const Findings& findings) {
    const auto served = std::make_shared<const Counts>(parcels_by_dump_site(findings));
    const SeasonFindings& season = findings.seasons.front();
    const SiteOfRow site = [&season](std::size_t row) -> const DumpSiteCandidate& {
        return season.trips.dump_sites[row];
    };
    const auto nearest = [&season](std::size_t row) {
        SourceIndex source;
        const DriveTime time =
            least_round_trip(season.trips.fill_trips, row, source, season.fill_places);
        return std::pair(time, source);
    };
    std::vector<ColumnOf> columns = place_columns(findings, site);
    std::vector<ColumnOf> water{
        text("nearest_source_id", "Fill site with the shortest round trip in the first season.",
             [nearest, findings](std::size_t row) {
                 const SourceIndex source = nearest(row).second;
                 return source.valid() ? value_of(at(findings.district.sources, source).id)
                                       : io::Value{};
             }),
        real(
            "round_trip_min",
            "Driving only, to that fill site and back, minutes." + drive_note(findings.district),
            [nearest](std::size_t row) { return value_of(nearest(row).first); }, 2),
        integer("parcels_served", "Parcels that it serves.",
                [served](std::size_t row) { return value_of_count((*served)[row]); }),
    };
    std::ranges::move(water, std::back_inserter(columns));
    std::ranges::move(loop_columns(findings), std::back_inserter(columns));
    return layer({"dump_sites", "Dump sites",
                  "Places on the road where portable tanks can stand: the officer's own, and "
                  "candidates from the road network. Look at each before you plan on it."},
                 io::ShapeKind::point, std::move(columns), season.trips.dump_sites.size(),
                 [site](std::size_t row) { return Polyline{site(row).place}; });
}

io::FeatureTable response_times(const Findings& findings) {
    const RoundTrips& trips = findings.seasons.front().trips;
    const auto names = std::make_shared<const std::vector<std::string>>(dump_site_names(findings));
    const auto drives = std::make_shared<const std::vector<Drive>>(all_drives(trips));
    std::vector<ColumnOf> columns{
        text("dump_site_id", "Dump site.",
             [names, drives](std::size_t row) {
                 return io::Value{std::string_view((*names)[(*drives)[row].dump_site])};
             }),
        text("station_id", "Station.",
             [drives, findings](std::size_t row) {
                 return value_of(at(findings.district.stations, (*drives)[row].station).id);
             }),
        real(
            "engine_min",
            "Drive of the slowest engine profile that has a way, minutes; turnout comes on top." +
                drive_note(findings.district),
            [drives, findings](std::size_t row) {
                return value_of(drive_of(findings, (*drives)[row], UnitKind::engine));
            },
            2),
        real(
            "tanker_min",
            "Drive of the slowest loaded tanker profile that has a way, minutes; turnout comes on "
            "top." +
                drive_note(findings.district),
            [drives, findings](std::size_t row) {
                return value_of(drive_of(findings, (*drives)[row], UnitKind::tanker));
            },
            2),
    };
    return table(
        {"response_times", "Drives from the stations to the dump sites",
         "First season, within the trip limit; dump_site_id leads to the layer dump_sites."},
        std::move(columns), drives->size());
}

}  // namespace farwater::reports
