#include "analyzer/app/loops_in_use.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "routing/blocked_ways.h"
#include "routing/loop_trips.h"

namespace farwater::app {
namespace {

using routing::WantedLoop;

// A loop that is asked for, and for whom: a place, or a dump site, numbered on after the places.
struct AskedLoop {
    WantedLoop wanted;
    std::uint32_t asks = 0;
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

void ask_for_places(const routing::DumpSites& dump_sites, const RoutesInUse& routes,
                    std::vector<AskedLoop>& asked) {
    for (std::uint32_t place = 0; place < routes.of.size(); ++place) {
        const RoutesInUse::OfPlace& shuttle = routes.of[place];
        if (is_driven(routes, shuttle)) {
            const DumpSiteIndex dump_site = routes.routes[shuttle.loaded].wanted.dump_site;
            const std::uint32_t lane_case = routing::lane_case_of(dump_sites, place, dump_site)
                                                .value_or(WantedLoop::nothing_closed);
            asked.push_back({loop_of(routes, shuttle, lane_case), place});
        }
    }
}

// Per dump site: the shuttle that most places have, the first of equals.
std::vector<RoutesInUse::OfPlace> main_shuttles(const RoutesInUse& routes, std::size_t dump_sites) {
    std::vector<RoutesInUse::OfPlace> main(dump_sites);
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
    return main;
}

void ask_for_dump_sites(const RoutesInUse& routes, const std::vector<RoutesInUse::OfPlace>& main,
                        std::vector<AskedLoop>& asked) {
    for (std::size_t site = 0; site < main.size(); ++site) {
        if (main[site].loaded != RoutesInUse::none) {
            asked.push_back({loop_of(routes, main[site], WantedLoop::nothing_closed),
                             static_cast<std::uint32_t>(routes.of.size() + site)});
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
    const std::int32_t longer =
        in_tenths(loop.empty + loop.loaded) - in_tenths(empty.time + loaded.time);
    return {true, tenths_of_second(std::max(0, longer)),
            std::max(Length(), loop.length - (empty.length + loaded.length))};
}

// Each different question once, of those who ask the same that of the first; who asks gets its
// number. Beside it the shuttle that the loop is compared with.
struct Questions {
    std::vector<WantedLoop> wanted;
    std::vector<RoutesInUse::OfPlace> shuttles;
};

Questions number_questions(std::vector<AskedLoop> asked,
                           const std::vector<RoutesInUse::OfPlace>& main, RoutesInUse& routes) {
    Questions questions;
    std::ranges::sort(asked, {}, [](const AskedLoop& one) {
        return std::tuple_cat(question(one), std::tuple(one.asks));
    });
    for (std::size_t i = 0; i < asked.size(); ++i) {
        const std::size_t places = routes.of.size();
        const bool is_place = asked[i].asks < places;
        const std::size_t site = asked[i].asks - (is_place ? 0 : places);
        if (i == 0 || question(asked[i]) != question(asked[i - 1])) {
            questions.wanted.push_back(asked[i].wanted);
            questions.shuttles.push_back(is_place ? routes.of[asked[i].asks] : main[site]);
        }
        (is_place ? routes.of[asked[i].asks].loop : routes.loop_of_dump_site[site]) =
            static_cast<std::uint32_t>(questions.wanted.size() - 1);
    }
    return questions;
}

}  // namespace

void add_loops(const AnswersGiven& answers, RoutesInUse& routes, const Work& work) {
    const std::size_t dump_sites = answers.dump_sites.spots.size();
    routes.loop_of_dump_site.assign(dump_sites, RoutesInUse::none);
    const std::vector<RoutesInUse::OfPlace> main = main_shuttles(routes, dump_sites);
    std::vector<AskedLoop> asked;
    ask_for_places(answers.dump_sites, routes, asked);
    ask_for_dump_sites(routes, main, asked);
    const Questions questions = number_questions(std::move(asked), main, routes);
    const auto loops =
        routing::loop_trips(answers.roads, answers.dump_sites, questions.wanted, work);
    routes.loops.reserve(loops.size());
    for (std::size_t i = 0; i < loops.size(); ++i) {
        routes.loops.push_back(detour_of(routes, questions.shuttles[i], loops[i]));
    }
}

}  // namespace farwater::app
