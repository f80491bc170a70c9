#include "analyzer/app/loops_in_use.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "routing/blocked_ways.h"
#include "routing/loop_trips.h"

namespace farwater::app {
namespace {

using routing::WantedLoop;

// A loop that is asked for, the shuttle that it is compared with, and where the answer goes.
struct AskedLoop {
    WantedLoop wanted;
    RoutesInUse::OfPlace shuttle;
    std::uint32_t* answer = nullptr;
};

auto question(const AskedLoop& asked) {
    const WantedLoop& wanted = asked.wanted;
    return std::tuple(wanted.season, wanted.profile, wanted.source, wanted.dump_site,
                      wanted.lane_case);
}

WantedLoop loop_of(const RoutesInUse& routes, const RoutesInUse::OfPlace& shuttle,
                   std::uint32_t lane_case) {
    const RouteInUse& loaded = routes.routes[shuttle.loaded];
    WantedLoop wanted{loaded.wanted.season, loaded.wanted.profile, loaded.wanted.source,
                      loaded.wanted.dump_site, lane_case};
    wanted.plain = loaded.way.time + routes.routes[shuttle.empty].way.time;
    return wanted;
}

bool is_driven(const RoutesInUse& routes, const RoutesInUse::OfPlace& shuttle) {
    const RouteLine* loaded = routes.way(shuttle.loaded);
    const RouteLine* empty = routes.way(shuttle.empty);
    return loaded != nullptr && empty != nullptr && reachable(loaded->time) &&
           reachable(empty->time);
}

void ask_for_places(const routing::DumpSites& dump_sites, RoutesInUse& routes,
                    std::vector<AskedLoop>& asked) {
    for (std::size_t place = 0; place < routes.of.size(); ++place) {
        RoutesInUse::OfPlace& shuttle = routes.of[place];
        if (is_driven(routes, shuttle)) {
            const DumpSiteIndex dump_site = routes.routes[shuttle.loaded].wanted.dump_site;
            const std::uint32_t lane_case = routing::lane_case_of(dump_sites, place, dump_site)
                                                .value_or(WantedLoop::nothing_closed);
            asked.push_back({loop_of(routes, shuttle, lane_case), shuttle, &shuttle.loop});
        }
    }
}

void ask_for_dump_sites(RoutesInUse& routes, std::vector<AskedLoop>& asked) {
    std::vector<RoutesInUse::OfPlace> main(routes.loop_of_dump_site.size());
    for (const RoutesInUse::OfPlace& shuttle : routes.of) {
        if (!is_driven(routes, shuttle)) {
            continue;
        }
        const RouteInUse& route = routes.routes[shuttle.loaded];
        RoutesInUse::OfPlace& best = at(main, route.wanted.dump_site);
        const auto key = [&](std::uint32_t loaded) {
            return std::tuple(-static_cast<std::int64_t>(routes.routes[loaded].served), loaded);
        };
        if (best.loaded == RoutesInUse::none || key(shuttle.loaded) < key(best.loaded)) {
            best = shuttle;
        }
    }
    for (std::size_t site = 0; site < main.size(); ++site) {
        if (main[site].loaded != RoutesInUse::none) {
            asked.push_back({loop_of(routes, main[site], WantedLoop::nothing_closed), main[site],
                             &routes.loop_of_dump_site[site]});
        }
    }
}

LoopDetour detour_of(const RoutesInUse& routes, const RoutesInUse::OfPlace& shuttle,
                     const routing::LoopTrip& loop) {
    const RouteLine& loaded = *routes.way(shuttle.loaded);
    const RouteLine& empty = *routes.way(shuttle.empty);
    if (!loop.found) {
        return {};
    }
    return {
        true,
        tenths_of_second(in_tenths(loop.empty + loop.loaded) - in_tenths(empty.time + loaded.time)),
        loop.length - (empty.length + loaded.length)};
}

}  // namespace

void add_loops(const AnswersGiven& answers, RoutesInUse& routes, const Work& work) {
    routes.loop_of_dump_site.assign(answers.dump_sites.candidates.size(), RoutesInUse::none);
    std::vector<AskedLoop> asked;
    ask_for_places(answers.dump_sites, routes, asked);
    ask_for_dump_sites(routes, asked);
    std::ranges::stable_sort(asked, {}, question);
    std::vector<WantedLoop> wanted;
    std::vector<RoutesInUse::OfPlace> shuttles;
    for (std::size_t i = 0; i < asked.size(); ++i) {
        if (i == 0 || question(asked[i]) != question(asked[i - 1])) {
            wanted.push_back(asked[i].wanted);
            shuttles.push_back(asked[i].shuttle);
        }
        *asked[i].answer = static_cast<std::uint32_t>(wanted.size() - 1);
    }
    const auto loops = routing::loop_trips(answers.roads, answers.dump_sites, wanted, work);
    for (std::size_t i = 0; i < loops.size(); ++i) {
        routes.loops.push_back(detour_of(routes, shuttles[i], loops[i]));
    }
}

}  // namespace farwater::app
