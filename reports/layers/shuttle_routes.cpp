#include <algorithm>
#include <functional>
#include <iterator>
#include <memory>

#include <fmt/format.h>

#include "reports/layers.h"
#include "reports/layers/routes.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {
namespace {

std::size_t shuttle_legs(const RoutesInUse& routes) {
    return static_cast<std::size_t>(std::ranges::count_if(
        routes.routes,
        [](const RouteInUse& route) { return route.wanted.kind != RouteKind::response; }));
}

std::string description_of(std::size_t drawn, std::size_t all) {
    const std::string which =
        drawn == all ? "The way of the first tanker of every shuttle in use, there and back."
                     : fmt::format(
                           "The ways of first tankers, there and back, that most parcels "
                           "depend on: {} of {}.",
                           drawn, all);
    return which + " Drive each before you plan on it.";
}

}  // namespace

std::vector<std::uint32_t> drawn_routes(const RoutesInUse& routes) {
    std::vector<std::uint32_t> drawn;
    for (std::uint32_t i = 0; i < routes.routes.size(); ++i) {
        if (routes.routes[i].wanted.with_line) {
            drawn.push_back(i);
        }
    }
    return drawn;
}

std::optional<int> default_speed_percent(DriveTime on_defaults, DriveTime time) {
    if (!reachable(time) || in_tenths(time) == 0) {
        return std::nullopt;
    }
    const std::int64_t part = in_tenths(on_defaults);
    const std::int64_t whole = in_tenths(time);
    return static_cast<int>((100 * part + whole - 1) / whole);
}

std::optional<RoundTripWays> round_trip_ways(const Findings& findings, std::size_t row) {
    if (row >= findings.routes.of.size()) {
        return std::nullopt;
    }
    const RoutesInUse::OfPlace& of = findings.routes.of[row];
    const RouteLine* loaded = findings.routes.way(of.loaded);
    const RouteLine* empty = findings.routes.way(of.empty);
    if (loaded == nullptr || empty == nullptr) {
        return std::nullopt;
    }
    return RoundTripWays{loaded->time + empty->time, loaded->on_defaults + empty->on_defaults,
                         loaded->length + empty->length};
}

const LoopDetour* loop_at(const Findings& findings, std::size_t row) {
    return row < findings.routes.of.size() ? findings.routes.loop(findings.routes.of[row].loop)
                                           : nullptr;
}

io::Value value_of_loop(const LoopDetour* loop) {
    return loop != nullptr ? io::Value{loop->found} : io::Value{};
}

io::Value minutes_of_loop(const LoopDetour* loop) {
    return loop != nullptr && loop->found ? value_of(loop->longer) : io::Value{};
}

io::Value miles_of_loop(const LoopDetour* loop) {
    return loop != nullptr && loop->found ? value_of(std::optional(in_miles(loop->farther)))
                                          : io::Value{};
}

namespace {

using RouteAt = std::function<const RouteInUse&(std::size_t row)>;

// Which way it is.
std::vector<ColumnOf> which_columns(const Findings& findings, const RouteAt& route) {
    const auto names = std::make_shared<const std::vector<std::string>>(dump_site_names(findings));
    return {
        text("dump_site_id", "Dump site.",
             [names, route](std::size_t row) {
                 return value_of(at(*names, route(row).wanted.dump_site));
             }),
        text("source_id", "Fill site.",
             [findings, route](std::size_t row) {
                 return value_of(at(findings.district.sources, route(row).wanted.source).id);
             }),
        text("direction", "loaded: fill site to dump site; empty: back to the fill site.",
             [route](std::size_t row) {
                 const bool loaded = route(row).wanted.kind == RouteKind::loaded;
                 return io::Value{std::string_view(loaded ? "loaded" : "empty")};
             }),
        text("season", "Season in which it is driven.",
             [findings, route](std::size_t row) {
                 return value_of(at(findings.district.seasons, route(row).wanted.season).name);
             }),
        text("vehicles", "Units of the routing profile that it holds for.",
             [findings, route](std::size_t row) {
                 return value_of(at(findings.profiles, route(row).wanted.profile).name);
             }),
    };
}

// How far it is, what it rests on, and for whom it is driven.
std::vector<ColumnOf> drive_columns(const RouteAt& route) {
    return {
        real(
            "drive_min", "Driving only, minutes.",
            [route](std::size_t row) { return value_of(route(row).way.time); }, 2),
        real(
            "drive_mi", "Road miles.",
            [route](std::size_t row) {
                const RouteLine& way = route(row).way;
                return value_of(reachable(way.time)
                                    ? std::optional(static_cast<float>(in_miles(way.length)))
                                    : std::nullopt);
            },
            2),
        integer("default_speed_pct",
                "Per cent of the driving time on roads whose speed is the default of their class, "
                "no posted limit; rounded up.",
                [route](std::size_t row) {
                    const RouteLine& way = route(row).way;
                    const auto percent = default_speed_percent(way.on_defaults, way.time);
                    return percent ? value_of_count(static_cast<std::size_t>(*percent))
                                   : io::Value{};
                }),
        integer("unposted_bridges", "Bridges on it that have no posted weight limit.",
                [route](std::size_t row) {
                    return value_of_count(route(row).way.unposted_bridges.size());
                }),
        integer("parcels_served",
                "Parcels and targets for which it is driven in their worst season and period.",
                [route](std::size_t row) { return value_of_count(route(row).served); }),
    };
}

}  // namespace

io::FeatureTable shuttle_routes(const Findings& findings) {
    const auto drawn =
        std::make_shared<const std::vector<std::uint32_t>>(drawn_routes(findings.routes));
    const auto route = [findings, drawn](std::size_t row) -> const RouteInUse& {
        return findings.routes.routes[(*drawn)[row]];
    };
    std::vector<ColumnOf> columns = which_columns(findings, route);
    std::ranges::move(drive_columns(route), std::back_inserter(columns));
    return layer({"shuttle_routes", "Ways of the shuttles",
                  description_of(drawn->size(), shuttle_legs(findings.routes))},
                 io::ShapeKind::line, std::move(columns), drawn->size(),
                 [route](std::size_t row) { return route(row).way.line; });
}

}  // namespace farwater::reports
