#include <algorithm>
#include <memory>
#include <optional>
#include <span>
#include <utility>

#include "routing/drive_times.h"
#include "routing/profiles.h"
#include "routing/sites/season_lanes.h"
#include "routing/source_lays.h"
#include "routing/trips/gathered_trips.h"
#include "routing/trips/season_trips.h"
#include "routing/trips/station_drives.h"
#include "routing/trips/station_searches.h"
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

// Lists of so many dump sites and their approaches are in memory before those that are kept are
// chosen. More costs memory; with fewer, each fill site is searched from more often.
constexpr std::size_t usual_at_once = 131'072;

struct Question {
    const RoadSystem& roads;
    const DumpSites& dump_sites;
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

void offer_trips(const Question& question, const Shuttle& shuttle, const Approaches& approaches,
                 Pool<Desk>& desks, BestTrips& best) {
    const auto search_some = [&](std::size_t begin, std::size_t end) {
        const Pool<Desk>::Borrowed desk(desks);
        for (std::size_t i = begin; i < end && !question.work.stopped(); ++i) {
            if (!question.fill_sites[i].is_for_all()) {
                continue;
            }
            const RoadSpot spot = at(question.roads.access.sources, question.fill_sites[i].source);
            OneOfAll taker(best, FillSiteIndex(i));
            TripsOf(question.roads, shuttle, spot, *desk).offer_all(approaches, taker);
        }
    };
    for_each_chunk(question.work, "round trips", question.fill_sites.size(), sources_a_chunk,
                   search_some);
}

void append(std::vector<Drive>& drives, const std::vector<Drive>& more) {
    drives.insert(drives.end(), more.begin(), more.end());
}

// Rounded up; an hour and more is as good as never.
std::uint16_t whole_seconds(Duration time) {
    constexpr double hair = 1e-9;
    return static_cast<std::uint16_t>(std::min(std::ceil(in_minutes(time) * 60.0 - hair), 3600.0));
}

// The hose lays with the lane classes of the season.
Lists<HoseLay> lays_with_lanes(const DumpSites& dump_sites, const SeasonLanes& lanes) {
    Lists<HoseLay> lays = dump_sites.hose_lays;
    for (std::size_t lay = 0; lay < lays.items.size(); ++lay) {
        lays.items[lay].lane = lanes.hose_lays[lay];
        lays.items[lay].single_file_s = whole_seconds(lanes.single_file[lay]);
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

// All of a season's round trips but the trips.
RoundTrips before_trips(const Question& question, SeasonIndex season) {
    const RoadSystem& roads = question.roads;
    SeasonLanes lanes =
        season_lanes(roads.district, roads.network, roads.access, roads.profiles,
                     question.dump_sites, question.fill_sites, season, question.work);
    RoundTrips trips;
    trips.season = season;
    trips.dump_sites = sites_with_lanes(question.dump_sites, lanes);
    trips.hose_lays = lays_with_lanes(question.dump_sites, lanes);
    trips.fill_lanes = std::move(lanes.fill_sites);
    trips.source_lays = find_source_lays(roads, question.fill_sites, question.work);
    const std::optional<ProfileIndex> engine = response_profile(roads.profiles);
    trips.station_miles = engine ? station_miles(roads, *engine, season)
                                 : std::vector<std::optional<float>>(roads.access.points.size());
    return trips;
}

std::unique_ptr<Pool<Desk>> desks_of(const Question& question, std::size_t dump_sites) {
    return desks_for(question.roads.network, std::max(dump_sites, question.fill_sites.size()));
}

Lists<StationDrive> stations_of_fill_sites(const Question& question, Pool<Desk>& desks) {
    const std::vector<RoadSpot> spots = spots_of_fill_sites(question);
    std::vector<Drive> drives;
    for (std::size_t p = 0; p < question.roads.profiles.size(); ++p) {
        const Driving loaded(question.roads, question.roads.profiles[p], question.season,
                             Load::loaded);
        append(drives, drives_to(question.roads, loaded, ProfileIndex(p), spots, nullptr, desks,
                                 question.work));
    }
    return by_place(std::move(drives), spots.size());
}

// Of some neighbouring dump sites and their approaches, per row.
struct TripsThere {
    std::unique_ptr<BestTrips> best;
    Lists<StationDrive> stations;
    KeptRows kept;
};

// All profiles, tankers by members first: that is how fill sites are ranked.
TripsThere trips_to(const Question& question, const Approaches& approaches, Pool<Desk>& desks) {
    const RoadSystem& roads = question.roads;
    const int most = std::max(roads.district.assumptions.fill_sites_per_class, 1);
    TripsThere there{std::make_unique<BestTrips>(approaches.rows(), question.fill_sites,
                                                 static_cast<std::size_t>(most)),
                     {},
                     {}};
    std::vector<Drive> drives;
    const auto add_drives = [&](const Driving& loaded, ProfileIndex profile,
                                const Approaches* rows) {
        append(drives,
               drives_to(roads, loaded, profile, approaches.spots(), rows, desks, question.work));
    };
    for (const ProfileIndex profile : in_order_of_rank(roads.profiles)) {
        const Profile& vehicles = at(roads.profiles, profile);
        if (vehicles.kind != UnitKind::tanker) {
            add_drives({roads, vehicles, question.season, Load::loaded}, profile, nullptr);
        } else if (!question.work.stopped()) {
            const Shuttle shuttle(roads, approaches.spots(), vehicles, question.season);
            there.best->begin(profile);
            offer_trips(question, shuttle, approaches, desks, *there.best);
            add_drives(shuttle.loaded, profile, &approaches);
        }
    }
    there.stations = by_place(std::move(drives), approaches.rows());
    there.kept = rows_that_differ(approaches, *there.best, there.stations,
                                  tanker_profiles(roads.profiles), question.work);
    return there;
}

}  // namespace

SeasonTrips season_trips(const RoadSystem& roads, const DumpSites& dump_sites,
                         std::span<const FillSitePlace> fill_sites, SeasonIndex season,
                         const Work& work) {
    const Question question{roads, dump_sites, fill_sites, at(roads.district.seasons, season),
                            work};
    const std::size_t sites = dump_sites.spots.size();
    RoundTrips trips = before_trips(question, season);
    Approaches approaches(roads.network, dump_sites, 0, sites);
    const auto desks = desks_of(question, sites);
    trips.stations_of_fill_site = stations_of_fill_sites(question, *desks);
    TripsThere there = trips_to(question, approaches, *desks);
    if (!work.stopped()) {
        GatheredTrips gathered(sites, tanker_profiles(roads.profiles), roads.profiles.size());
        gathered.add(approaches, *there.best, there.stations, there.kept);
        std::move(gathered).give(dump_sites, trips);
    }
    return {std::move(trips), std::move(approaches), std::move(there.best),
            std::move(there.stations), std::move(there.kept)};
}

RoundTrips round_trips_by(const RoadSystem& roads, const DumpSites& dump_sites,
                          std::span<const FillSitePlace> fill_sites, SeasonIndex season,
                          std::size_t at_once, const Work& work) {
    const Question question{roads, dump_sites, fill_sites, at(roads.district.seasons, season),
                            work};
    const std::size_t sites = dump_sites.spots.size();
    RoundTrips trips = before_trips(question, season);
    const auto desks = desks_of(question, std::min(sites, at_once));
    trips.stations_of_fill_site = stations_of_fill_sites(question, *desks);
    GatheredTrips gathered(sites, tanker_profiles(roads.profiles), roads.profiles.size());
    for (std::size_t begin = 0; begin < sites && !work.stopped(); begin += at_once) {
        const Approaches approaches(roads.network, dump_sites, begin,
                                    std::min(begin + at_once, sites));
        const TripsThere there = trips_to(question, approaches, *desks);
        if (!work.stopped()) {
            gathered.add(approaches, *there.best, there.stations, there.kept);
        }
    }
    if (!work.stopped()) {
        std::move(gathered).give(dump_sites, trips);
    }
    return trips;
}

RoundTrips round_trips(const RoadSystem& roads, const DumpSites& dump_sites,
                       std::span<const FillSitePlace> fill_sites, SeasonIndex season,
                       const Work& work) {
    return round_trips_by(roads, dump_sites, fill_sites, season, usual_at_once, work);
}

}  // namespace farwater::routing
