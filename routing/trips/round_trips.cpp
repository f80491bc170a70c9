#include <algorithm>
#include <memory>
#include <span>
#include <utility>

#include "routing/drive_times.h"
#include "routing/profiles.h"
#include "routing/sites/season_lanes.h"
#include "routing/source_lays.h"
#include "routing/trips/season_trips.h"
#include "routing/trips/station_drives.h"
#include "routing/trips/trip_search.h"

namespace farwater::routing {

std::vector<ProfileIndex> in_order_of_rank(std::span<const Profile> profiles) {
    std::vector<ProfileIndex> order = tanker_profiles(profiles);
    for (std::size_t p = 0; p < profiles.size(); ++p) {
        if (profiles[p].kind != UnitKind::tanker) {
            order.emplace_back(p);
        }
    }
    return order;
}

namespace {

constexpr std::size_t sources_a_chunk = 8;

struct Question {
    const RoadSystem& roads;
    const DumpSites& dump_sites;
    const Approaches& approaches;
    std::span<const FillSitePlace> fill_sites;
    const Season& season;
    const Work& work;
};

std::vector<RoadSpot> spots_of_fill_sites(const Question& question) {
    std::vector<RoadSpot> spots;
    for (const FillSitePlace& fill_site : question.fill_sites) {
        spots.push_back(at(question.roads.access.sources, fill_site.source));
    }
    return spots;
}

// Offers what one fill site's searches find at once, so that memory holds the best trips and not
// all.
class OneOfAll final : public TripTaker {
public:
    OneOfAll(BestTrips& best, FillSiteIndex fill_site) : best_(best), fill_site_(fill_site) {}

    DriveTime most_kept(std::uint32_t row) const override {
        return best_.most_kept(DumpSiteIndex(row), fill_site_);
    }
    void offer(std::uint32_t row, LegTimes legs) override {
        best_.offer(DumpSiteIndex(row), fill_site_, legs);
    }

private:
    BestTrips& best_;
    FillSiteIndex fill_site_;
};

void offer_trips(const Question& question, const Shuttle& shuttle, BestTrips& best) {
    const auto desks = desks_for(question.roads.network, question.dump_sites.spots.size());
    const auto search_some = [&](std::size_t begin, std::size_t end) {
        const Pool<Desk>::Borrowed desk(*desks);
        for (std::size_t i = begin; i < end && !question.work.stopped(); ++i) {
            const RoadSpot spot = at(question.roads.access.sources, question.fill_sites[i].source);
            OneOfAll taker(best, FillSiteIndex(i));
            TripsOf(question.roads, question.dump_sites, shuttle, spot, *desk)
                .offer_all(question.approaches, taker);
        }
    };
    for_each_chunk(question.work, "round trips", question.fill_sites.size(), sources_a_chunk,
                   search_some);
}

// A profile's drives from stations to a list of spots. With `approaches`, where the spots are the
// dump sites, those to the approaches too.
class Responses {
public:
    Responses(const Question& question, const Driving& loaded, ProfileIndex profile,
              std::span<const RoadSpot> spots, const Approaches* approaches)
        : question_(question),
          roads_(loaded.roads()),
          profile_(profile),
          spots_(spots),
          approaches_(approaches),
          ends_(spot_ends(question.roads.network, spots, loaded.costs(), loaded.costs())),
          rule_(question.roads.district.travel_time),
          limit_(rule_.most_of_response(trip_limit_of(question.roads.district.assumptions))) {}

    std::vector<Drive> from(StationIndex station, Desk& desk) const {
        std::vector<Drive> drives;
        const RoadSpot place = at(question_.roads.access.stations, station);
        if (!place.valid()) {
            return drives;
        }
        const DriveTime gate = gate_drive(at(question_.roads.district.stations, station));
        const auto add = [&](std::uint32_t row, std::int32_t cost) {
            if (cost != no_way) {
                drives.push_back({row, station, profile_, gate + rule_.response(cost)});
            }
        };
        desk.loaded.measure(roads_, place, spots_, ends_, limit_, desk.search);
        for (const std::uint32_t spot : desk.loaded.reached()) {
            add(spot, desk.loaded.cost(spot));
            const Approaches::Range rows = rows_of(spot);
            for (std::uint32_t row = rows.begin; row < rows.end; ++row) {
                add(row,
                    desk.closed.cost({roads_, place, desk.search}, approaches_->hose(row), limit_));
            }
        }
        desk.loaded.clear();
        desk.search.clear();
        return drives;
    }

private:
    Approaches::Range rows_of(std::uint32_t spot) const {
        return approaches_ == nullptr ? Approaches::Range{} : approaches_->of(spot);
    }

    const Question& question_;
    DrivenRoads roads_;
    ProfileIndex profile_;
    std::span<const RoadSpot> spots_;
    const Approaches* approaches_;
    SpotEnds ends_;
    TravelRule rule_;
    std::int32_t limit_;
};

std::vector<Drive> drives_to(const Question& question, const Driving& loaded, ProfileIndex profile,
                             std::span<const RoadSpot> spots, const Approaches* approaches) {
    const Responses responses(question, loaded, profile, spots, approaches);
    const std::size_t stations = question.roads.access.stations.size();
    const auto desks = desks_for(question.roads.network, spots.size());
    std::vector<std::vector<Drive>> of_station(stations);
    const auto search_some = [&](std::size_t begin, std::size_t end) {
        const Pool<Desk>::Borrowed desk(*desks);
        for (std::size_t s = begin; s < end && !question.work.stopped(); ++s) {
            of_station[s] = responses.from(StationIndex(s), *desk);
        }
    };
    for_each_chunk(question.work, "responses", stations, 1, search_some);
    std::vector<Drive> drives;
    for (const std::vector<Drive>& some : of_station) {
        drives.insert(drives.end(), some.begin(), some.end());
    }
    return drives;
}

void append(std::vector<Drive>& drives, const std::vector<Drive>& more) {
    drives.insert(drives.end(), more.begin(), more.end());
}

// The hose lays with the lane classes of the season.
Lists<HoseLay> lays_with_lanes(const DumpSites& dump_sites, const SeasonLanes& lanes) {
    Lists<HoseLay> lays = dump_sites.hose_lays;
    for (std::size_t lay = 0; lay < lays.items.size(); ++lay) {
        lays.items[lay].lane = lanes.hose_lays[lay];
    }
    return lays;
}

std::vector<DumpSiteCandidate> sites_with_lanes(const DumpSites& dump_sites,
                                                const SeasonLanes& lanes) {
    std::vector<DumpSiteCandidate> sites = dump_sites.candidates;
    for (std::size_t site = 0; site < sites.size(); ++site) {
        sites[site].lane = lanes.dump_sites[site];
    }
    return sites;
}

template <class Item>
Lists<Item> only_rows(const Lists<Item>& all, std::span<const std::uint32_t> rows) {
    Lists<Item> lists;
    lists.begin.reserve(rows.size() + 1);
    for (const std::uint32_t row : rows) {
        const std::span<const Item> items = all[row];
        lists.items.insert(lists.items.end(), items.begin(), items.end());
        lists.close_row();
    }
    return lists;
}

void keep_what_differs(SeasonTrips& found, const DumpSites& dump_sites,
                       std::span<const ProfileIndex> tankers, const Work& work) {
    found.kept = rows_that_differ(found.approaches, *found.best, found.stations, tankers, work);
    if (work.stopped()) {
        return;
    }
    tell_lays(found.approaches, dump_sites, found.kept, found.trips.hose_lays);
    found.trips.fill_trips = found.best->lists(found.kept.rows, work);
    found.trips.stations_of_dump_site = only_rows(found.stations, found.kept.rows);
}

// The drives of all profiles, tankers by members first: that is how fill sites are ranked.
struct Drives {
    std::unique_ptr<BestTrips> best;
    std::vector<Drive> to_dump_sites, to_fill_sites;
};

Drives drives_of(const Question& question) {
    const std::vector<RoadSpot> fill_spots = spots_of_fill_sites(question);
    const Assumptions& assumptions = question.roads.district.assumptions;
    Drives drives{std::make_unique<BestTrips>(
                      question.approaches.rows(), question.fill_sites,
                      static_cast<std::size_t>(std::max(assumptions.fill_sites_per_class, 1))),
                  {},
                  {}};
    for (const ProfileIndex profile : in_order_of_rank(question.roads.profiles)) {
        if (question.work.stopped()) {
            break;
        }
        const Profile& vehicles = at(question.roads.profiles, profile);
        const std::vector<RoadSpot>& sites = question.dump_sites.spots;
        if (vehicles.kind != UnitKind::tanker) {
            const Driving loaded(question.roads, vehicles, question.season, Load::loaded);
            append(drives.to_dump_sites, drives_to(question, loaded, profile, sites, nullptr));
            append(drives.to_fill_sites, drives_to(question, loaded, profile, fill_spots, nullptr));
            continue;
        }
        const Shuttle shuttle(question.roads, question.dump_sites, vehicles, question.season);
        drives.best->begin(profile);
        offer_trips(question, shuttle, *drives.best);
        append(drives.to_dump_sites,
               drives_to(question, shuttle.loaded, profile, sites, &question.approaches));
        append(drives.to_fill_sites,
               drives_to(question, shuttle.loaded, profile, fill_spots, nullptr));
    }
    return drives;
}

}  // namespace

SeasonTrips season_trips(const RoadSystem& roads, const DumpSites& dump_sites,
                         std::span<const FillSitePlace> fill_sites, SeasonIndex season,
                         const Work& work) {
    SeasonLanes lanes = season_lanes(roads.district, roads.network, roads.access, roads.profiles,
                                     dump_sites, fill_sites, season, work);
    RoundTrips trips;
    trips.season = season;
    trips.dump_sites = sites_with_lanes(dump_sites, lanes);
    trips.hose_lays = lays_with_lanes(dump_sites, lanes);
    trips.fill_lanes = std::move(lanes.fill_sites);
    trips.source_lays = find_source_lays(roads, fill_sites, work);
    const std::optional<ProfileIndex> engine = response_profile(roads.profiles);
    trips.station_miles = engine ? station_miles(roads, *engine, season)
                                 : std::vector<std::optional<float>>(roads.access.points.size());
    Approaches approaches(roads.network, dump_sites, trips.hose_lays);
    Drives drives = drives_of(
        {roads, dump_sites, approaches, fill_sites, at(roads.district.seasons, season), work});
    trips.stations_of_fill_site = by_place(std::move(drives.to_fill_sites), fill_sites.size());
    SeasonTrips found{std::move(trips), std::move(approaches), std::move(drives.best), {}, {}};
    if (!work.stopped()) {
        found.stations = by_place(std::move(drives.to_dump_sites), found.approaches.rows());
        keep_what_differs(found, dump_sites, tanker_profiles(roads.profiles), work);
    }
    return found;
}

RoundTrips round_trips(const RoadSystem& roads, const DumpSites& dump_sites,
                       std::span<const FillSitePlace> fill_sites, SeasonIndex season,
                       const Work& work) {
    return season_trips(roads, dump_sites, fill_sites, season, work).trips;
}

}  // namespace farwater::routing
