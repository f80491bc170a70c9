#include "analyzer/app/routes_in_use.h"

#include <algorithm>
#include <tuple>
#include <unordered_map>
#include <utility>

#include "analyzer/app/loops_in_use.h"
#include "analyzer/app/ways_over_hose.h"
#include "analyzer/app/ways_round.h"
#include "routing/costs.h"
#include "routing/route_lines.h"

namespace farwater::app {
namespace {

// Places with the same key have the same routes.
struct Shuttle {
    SeasonIndex season;
    DumpSiteIndex dump_site;
    SourceIndex source;
    UnitIndex tanker;
    UnitIndex engine;
    ApproachIndex approach;
    bool further = false;  // a fill site beside the first: no response of its own
    friend bool operator==(const Shuttle&, const Shuttle&) = default;
};

struct HashOfShuttle {
    std::size_t operator()(const Shuttle& shuttle) const {
        std::size_t hash = shuttle.season.position() * 2 + (shuttle.further ? 1 : 0);
        for (const std::size_t part :
             {shuttle.dump_site.position(), shuttle.source.position(), shuttle.tanker.position(),
              shuttle.engine.position(), shuttle.approach.position()}) {
            hash = (hash + part) * 0x9e3779b97f4a7c15U;
            hash ^= hash >> 32U;
        }
        return hash;
    }
};

struct ShuttleOf {
    std::uint32_t place = 0;
    std::uint32_t shuttle = 0;
};

// The different shuttles in the order in which they come first, how many places have each, and
// which of them places have: a place's first, then its further ones.
struct Shuttles {
    std::vector<Shuttle> list;
    std::vector<std::uint32_t> served;
    std::vector<ShuttleOf> of;
};

class ShuttleList {
public:
    void add(std::size_t place_of, const Shuttle& shuttle) {
        const auto [place, is_new] =
            known_.try_emplace(shuttle, static_cast<std::uint32_t>(shuttles_.list.size()));
        if (is_new) {
            shuttles_.list.push_back(shuttle);
            shuttles_.served.push_back(0);
        }
        ++shuttles_.served[place->second];
        shuttles_.of.push_back({static_cast<std::uint32_t>(place_of), place->second});
    }
    Shuttles finished() && { return std::move(shuttles_); }

private:
    Shuttles shuttles_;
    std::unordered_map<Shuttle, std::uint32_t, HashOfShuttle> known_;
};

// The drives to further fill sites stand in the list, but places are only told their first one's.
Shuttles shuttles_of(const supply::Assessment& assessment) {
    ShuttleList shuttles;
    for (std::size_t row = 0; row < assessment.supplies.size(); ++row) {
        const supply::ParcelSupply& supply = assessment.supplies[row];
        if (!supply.has_round_trip()) {
            continue;
        }
        Shuttle shuttle{assessment.variants[assessment.worst_variant[row]].variant.season,
                        supply.dump_site,
                        supply.fill_source,
                        supply.first_tanker,
                        supply.first_at_site,
                        supply.approach};
        shuttles.add(row, shuttle);
        for (const supply::FurtherFill& fill : supply.further_fills) {
            if (fill.source.valid()) {
                shuttle.source = fill.source;
                shuttle.tanker = fill.first_tanker;
                shuttle.further = true;
                shuttles.add(row, shuttle);
            }
        }
    }
    return std::move(shuttles).finished();
}

DriveTime response_time(const AnswersGiven& answers, const WantedRoute& wanted) {
    const DriveTime with_gate =
        at(answers.seasons, wanted.season)
            .trips.from_station(wanted.profile, wanted.station, wanted.dump_site);
    const DriveTime gate = routing::gate_drive(at(answers.roads.district.stations, wanted.station),
                                               at(answers.roads.district.seasons, wanted.season));
    return reachable(with_gate) ? tenths_of_second(in_tenths(with_gate) - in_tenths(gate))
                                : no_time;
}

WantedRoute leg_of(const AnswersGiven& answers, const Shuttle& shuttle, RouteKind kind) {
    WantedRoute wanted{.kind = kind,
                       .season = shuttle.season,
                       .profile = at(answers.profile_of, shuttle.tanker),
                       .dump_site = shuttle.dump_site,
                       .source = shuttle.source,
                       .station = {},
                       .at_most = no_time,
                       .with_line = false};
    wanted.at_most = leg_time(answers, wanted, shuttle.approach);
    return wanted;
}

WantedRoute response_of(const AnswersGiven& answers, const Shuttle& shuttle) {
    WantedRoute wanted{.kind = RouteKind::response,
                       .season = shuttle.season,
                       .profile = at(answers.profile_of, shuttle.engine),
                       .dump_site = shuttle.dump_site,
                       .source = {},
                       .station = at(answers.roads.district.units, shuttle.engine).station,
                       .at_most = no_time,
                       .with_line = false};
    wanted.at_most = response_time(answers, wanted);
    return wanted;
}

// Each different drive once, with how many places have it.
std::vector<RouteInUse> routes_of(const AnswersGiven& answers, const Shuttles& shuttles) {
    std::vector<RouteInUse> routes;
    routes.reserve(shuttles.list.size() * 3);
    for (std::size_t i = 0; i < shuttles.list.size(); ++i) {
        const Shuttle& shuttle = shuttles.list[i];
        for (const RouteKind kind : {RouteKind::loaded, RouteKind::empty}) {
            routes.push_back({leg_of(answers, shuttle, kind), {}, shuttles.served[i]});
        }
        if (!shuttle.further) {
            routes.push_back({response_of(answers, shuttle), {}, shuttles.served[i]});
        }
    }
    std::ranges::sort(routes, InRouteOrder{}, &RouteInUse::wanted);
    std::size_t once = 0;
    for (std::size_t i = 1; i < routes.size(); ++i) {
        if (InRouteOrder{}(routes[once].wanted, routes[i].wanted)) {
            std::swap(routes[++once], routes[i]);
        } else {
            routes[once].served += routes[i].served;
            routes[once].wanted.at_most =
                std::max(routes[once].wanted.at_most, routes[i].wanted.at_most);
        }
    }
    routes.resize(std::min(routes.size(), once + 1));
    routes.shrink_to_fit();
    return routes;
}

// The drives of a shuttle among the routes.
struct Drives {
    std::uint32_t loaded = RoutesInUse::none;
    std::uint32_t empty = RoutesInUse::none;
    std::uint32_t response = RoutesInUse::none;  // of a first fill site
};

std::vector<Drives> drives_of(const AnswersGiven& answers, const Shuttles& shuttles,
                              const std::vector<RouteInUse>& routes) {
    std::vector<Drives> drives;
    drives.reserve(shuttles.list.size());
    for (const Shuttle& shuttle : shuttles.list) {
        drives.push_back({number_of(routes, leg_of(answers, shuttle, RouteKind::loaded)),
                          number_of(routes, leg_of(answers, shuttle, RouteKind::empty)),
                          shuttle.further ? RoutesInUse::none
                                          : number_of(routes, response_of(answers, shuttle))});
    }
    return drives;
}

// Lines only for the shuttles that most places depend on: a county has tens of thousands, and their
// lines would outweigh the rest of the result.
void ask_for_lines(std::vector<RouteInUse>& routes) {
    constexpr std::size_t most_lines = 4000;  // there and back
    std::vector<RouteInUse*> shuttles;
    for (RouteInUse& route : routes) {
        if (route.wanted.kind != RouteKind::response) {
            shuttles.push_back(&route);
        }
    }
    std::ranges::stable_sort(shuttles, [](const RouteInUse* a, const RouteInUse* b) {
        const auto key = [](const WantedRoute& wanted) {
            return std::tuple(wanted.season, wanted.dump_site, wanted.source, wanted.profile,
                              wanted.kind);
        };
        return a->served != b->served ? a->served > b->served : key(a->wanted) < key(b->wanted);
    });
    shuttles.resize(std::min(shuttles.size(), most_lines));
    for (RouteInUse* shuttle : shuttles) {
        shuttle->wanted.with_line = true;
    }
}

}  // namespace

DriveTime leg_time(const AnswersGiven& answers, const WantedRoute& wanted, ApproachIndex approach) {
    const reports::SeasonFindings& season = at(answers.seasons, wanted.season);
    for (const FillTrip& trip : season.trips.fill_trips[approach.position()]) {
        if (at(season.fill_places, trip.fill_site).source == wanted.source) {
            const LegTimes& legs = trip.legs[wanted.profile.position()];
            return wanted.kind == RouteKind::loaded ? legs.loaded : legs.empty;
        }
    }
    return no_time;
}

RoutesInUse routes_in_use(const AnswersGiven& answers, const Work& work) {
    RoutesInUse result;
    result.of.resize(answers.assessment.supplies.size());
    std::vector<ShuttleUse> uses;
    {
        const Shuttles shuttles = shuttles_of(answers.assessment);
        result.routes = routes_of(answers, shuttles);
        const std::vector<Drives> drives = drives_of(answers, shuttles, result.routes);
        uses.reserve(shuttles.of.size());
        for (const ShuttleOf& one : shuttles.of) {
            const Drives& of = drives[one.shuttle];
            const bool further = shuttles.list[one.shuttle].further;
            uses.push_back({one.place, of.loaded, of.empty, further});
            if (!further) {
                result.of[one.place].response = of.response;
            }
        }
    }
    ask_for_lines(result.routes);
    WaysOverHose over_hose(answers, uses, result.routes);
    routing::find_ways(
        answers.roads, answers.dump_sites, result.routes, work,
        [&](std::size_t route, const routing::Way& way) { over_hose.look(route, way); });
    send_round(answers, over_hose, uses, result, work);
    add_loops(answers, result, work);
    return result;
}

}  // namespace farwater::app
