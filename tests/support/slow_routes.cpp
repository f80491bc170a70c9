#include "tests/support/slow_routes.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace farwater::slow {
namespace {

// Hours of climbing between two places of a piece, both in metres from its start.
double climbing(const std::vector<double>& climbs, double length, double begin, double end) {
    const double step = length / static_cast<double>(climbs.size());
    double hours = 0.0;
    for (std::size_t i = 0; i < climbs.size(); ++i) {
        const double first = step * static_cast<double>(i);
        const double on_step = std::min(end, first + step) - std::max(begin, first);
        hours += climbs[i] * std::max(on_step, 0.0) / step;
    }
    return hours;
}

// What a piece costs between two places on it.
long share(const Streets& streets, const PieceCosts& costs, std::size_t piece, bool forward,
           double begin, double end) {
    const double length = streets.pieces[piece].length();
    const long whole = forward ? costs.forward[piece] : costs.backward[piece];
    if (end - begin <= 0.0) {
        return 0;
    }
    if (whole == never || end - begin >= length) {
        return whole;
    }
    double climbs_there = 0.0;
    long level = whole;
    if (!costs.climbs.empty()) {
        const auto& climbs = forward ? costs.climbs[piece] : costs.climbs_back[piece];
        const double all = climbing(climbs, length, 0.0, length);
        if (all > 0.0) {
            level = costs.level[piece];
            climbs_there =
                static_cast<double>(whole - level) * climbing(climbs, length, begin, end) / all;
        }
    }
    const double there = static_cast<double>(level) * (end - begin) / length + climbs_there;
    return static_cast<long>(std::ceil(std::max(there - 1e-6, 0.0)));
}

long sum(long a, long b) { return a >= never || b >= never ? never : a + b; }

double class_mph(RoadClass kind, const Assumptions& a) {
    switch (kind) {
        case RoadClass::state:
            return in_mph(a.speed_state);
        case RoadClass::paved:
            return in_mph(a.speed_paved);
        case RoadClass::paved_lane:
            return in_mph(a.speed_paved_lane);
        case RoadClass::gravel:
            return in_mph(a.speed_gravel);
        case RoadClass::narrow:
            return in_mph(a.speed_narrow);
        case RoadClass::drive:
            return in_mph(a.speed_drive);
    }
    return 0.0;
}

bool let_in(RoadAccess access, const Assumptions& a) {
    return access == RoadAccess::open ||
           (access == RoadAccess::private_road && a.private_roads_usable) ||
           (access == RoadAccess::gated && a.gated_roads_usable) ||
           (access == RoadAccess::unmaintained && a.unmaintained_roads_usable);
}

Point point_of(const Polyline& line, double along) {
    for (std::size_t i = 1; i < line.size(); ++i) {
        const double length = std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
        if (length > 0.0 && (along <= length || i + 1 == line.size())) {
            const double t = std::clamp(along / length, 0.0, 1.0);
            return {line[i - 1].x + t * (line[i].x - line[i - 1].x),
                    line[i - 1].y + t * (line[i].y - line[i - 1].y)};
        }
        along -= length;
    }
    return line.back();
}

// The mean height of nine points 30 m apart; of the middle one where one of them has none.
std::optional<double> ground_at(const District& district, Point p) {
    double sum = 0.0;
    for (int i = 0; i < 9; ++i) {
        const auto height =
            district.elevation.at({p.x + 30.0 * (i % 3 - 1), p.y + 30.0 * (i / 3 - 1)});
        if (!height) {
            const auto middle = district.elevation.at(p);
            return middle ? std::optional(in_metres(*middle)) : std::nullopt;
        }
        sum += in_metres(*height);
    }
    return sum / 9.0;
}

// Rise over run in whole hundredths of a percent, at most 18 %; 0 where a height is not known.
double grade_between(const District& district, Point low, Point high, double run) {
    const auto bottom = ground_at(district, low);
    const auto top = ground_at(district, high);
    if (!bottom || !top) {
        return 0.0;
    }
    return std::clamp(std::round((*top - *bottom) / run * 10'000.0), -1800.0, 1800.0) / 10'000.0;
}

}  // namespace

Spot spot_on(const Streets& streets, std::size_t road, double along) {
    Spot spot;
    for (std::size_t i = 0; i < streets.pieces.size(); ++i) {
        const Piece& piece = streets.pieces[i];
        if (piece.road == road && piece.begin <= along + 1e-9) {
            spot = {i, std::min(along - piece.begin, piece.length())};
        }
    }
    const double length = streets.pieces[spot.piece].length();
    if (spot.along < 1e-3) {
        spot.along = 0.0;
    } else if (length - spot.along < 1e-3) {
        spot.along = length;
    }
    return spot;
}

std::optional<Nearest> nearest_place(const District& district, Point p, Length reach,
                                     const std::function<bool(std::size_t road)>& keep) {
    std::optional<Nearest> best;
    for (std::size_t r = 0; r < district.roads.size(); ++r) {
        const Polyline& line = district.roads[r].line;
        double along = 0.0;
        for (std::size_t i = 1; i < line.size() && has_length(line) && keep(r); ++i) {
            const Point a = line[i - 1];
            const Point b = line[i];
            const double length = std::hypot(b.x - a.x, b.y - a.y);
            const double on =
                length == 0.0
                    ? 0.0
                    : ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / (length * length);
            const double t = std::clamp(on, 0.0, 1.0);
            const Point place{a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
            const double apart = std::hypot(place.x - p.x, place.y - p.y);
            if (apart <= in_metres(reach) && (!best || apart < best->apart)) {
                best = Nearest{r, along + t * length, place, apart};
            }
            along += length;
        }
    }
    return best;
}

std::optional<Nearest> served_from(const District& district, const std::vector<bool>& of_tankers,
                                   Point house, Length reach) {
    const auto any = nearest_place(district, house, reach, [](std::size_t) { return true; });
    const auto usable =
        nearest_place(district, house, reach, [&](std::size_t road) { return of_tankers[road]; });
    const double slack = in_metres(district.assumptions.frontage_slack);
    return usable && usable->apart <= any->apart + slack ? usable : any;
}

bool may_drive(const Road& road, const Profile& profile, const Season& season, bool loaded,
               const Assumptions& assumptions) {
    for (const RoadAccess closed : season.closed_access) {
        if (road.access == closed) {
            return false;
        }
    }
    for (unsigned month = 1; month <= 12; ++month) {
        if (season.months.contains(std::chrono::month(month)) &&
            !road.maintained.contains(std::chrono::month(month))) {
            return false;
        }
    }
    const double pounds_there = in_pounds(loaded ? profile.loaded : profile.empty);
    const bool too_heavy = road.weight_limit && pounds_there > in_pounds(*road.weight_limit);
    const bool too_tall =
        road.height_limit && profile.height && *profile.height > *road.height_limit;
    const bool too_wide = road.width && profile.width && *profile.width > *road.width;
    return let_in(road.access, assumptions) && !too_heavy && !too_tall && !too_wide;
}

double miles_per_hour(const Road& road, const Profile& profile, const Season& season, bool loaded,
                      const Assumptions& assumptions) {
    double mph = class_mph(road.kind, assumptions);
    if (road.surface && *road.surface == Surface::gravel) {
        mph = std::min(mph, class_mph(RoadClass::gravel, assumptions));
    }
    if (road.posted_speed) {
        mph = std::min(mph, in_mph(*road.posted_speed));
    }
    mph *= season.speed_factor * (loaded ? 1.0 : assumptions.empty_speed_factor);
    if (road.posted_speed) {
        mph = std::min(mph, in_mph(*road.posted_speed));
    }
    return std::min({mph, in_mph(profile.top_speed), in_mph(assumptions.speed_cap)});
}

double climbing_mph(double level, double pounds_per_hp, double grade) {
    if (grade <= 0.0 || pounds_per_hp <= 0.0) {
        return level;
    }
    const double crawl = 375.0 * 0.85 / (pounds_per_hp * (grade + 0.012));
    return std::min(level, std::max(crawl, 5.0));
}

std::vector<double> grades_of(const District& district, const Streets& streets,
                              const Piece& piece) {
    const Polyline& line = district.roads[piece.road].line;
    if (district.elevation.empty()) {
        return {0.0};
    }
    const double longest = std::max(100 * 0.3048, district.elevation.cell);
    const auto steps =
        static_cast<std::size_t>(std::max(std::ceil(piece.length() / longest - 1e-6), 1.0));
    const Road& road = district.roads[piece.road];
    if (road.bridge || road.tunnel) {
        double length = 0.0;
        for (const Piece& other : streets.pieces) {
            length += other.road == piece.road ? other.length() : 0.0;
        }
        return std::vector<double>(steps,
                                   grade_between(district, line.front(), line.back(), length));
    }
    std::vector<double> grades;
    const double run = piece.length() / static_cast<double>(steps);
    for (std::size_t i = 0; i < steps; ++i) {
        const double from = piece.begin + run * static_cast<double>(i);
        grades.push_back(
            grade_between(district, point_of(line, from), point_of(line, from + run), run));
    }
    return grades;
}

PieceCosts drive_times(const District& district, const Streets& streets, const Profile& profile,
                       const Season& season, bool loaded) {
    PieceCosts costs;
    for (const Piece& piece : streets.pieces) {
        const Road& road = district.roads[piece.road];
        const double mph = miles_per_hour(road, profile, season, loaded, district.assumptions);
        const double pounds_per_hp =
            in_pounds_per_horsepower(loaded ? profile.loaded_per_power : profile.empty_per_power);
        const bool open = may_drive(road, profile, season, loaded, district.assumptions);
        const double even = piece.length() / 1609.344 / mph;
        double hours = 0.0;
        double hours_back = 0.0;
        const std::vector<double> grades = grades_of(district, streets, piece);
        std::vector<double> climbs;
        std::vector<double> climbs_back;
        for (const double grade : grades) {
            const double miles = piece.length() / static_cast<double>(grades.size()) / 1609.344;
            const double up = miles / climbing_mph(mph, pounds_per_hp, grade);
            const double down = miles / climbing_mph(mph, pounds_per_hp, -grade);
            hours += up;
            hours_back += down;
            climbs.push_back(std::max(up - miles / mph, 0.0));
            climbs_back.push_back(std::max(down - miles / mph, 0.0));
        }
        const auto tenths = [open](double time) {
            const double up = std::ceil(time * 36000.0 - 1e-7);
            return open ? std::max(static_cast<long>(up), 1L) : never;
        };
        costs.level.push_back(tenths(even));
        costs.climbs.push_back(std::move(climbs));
        costs.climbs_back.push_back(std::move(climbs_back));
        costs.forward.push_back(road.one_way == OneWay::backward ? never : tenths(hours));
        costs.backward.push_back(road.one_way == OneWay::forward ? never : tenths(hours_back));
    }
    return costs;
}

PieceCosts open_lengths(const District& district, const Streets& streets, const Profile& profile,
                        const Season& season, bool loaded) {
    PieceCosts costs = lengths_in_mm(streets);
    for (std::size_t i = 0; i < streets.pieces.size(); ++i) {
        const Road& road = district.roads[streets.pieces[i].road];
        const bool open = may_drive(road, profile, season, loaded, district.assumptions);
        if (!open || road.one_way == OneWay::backward) {
            costs.forward[i] = never;
        }
        if (!open || road.one_way == OneWay::forward) {
            costs.backward[i] = never;
        }
    }
    return costs;
}

PieceCosts lengths_in_mm(const Streets& streets) {
    PieceCosts costs;
    for (const Piece& piece : streets.pieces) {
        costs.forward.push_back(std::lround(piece.length() * 1000.0));
    }
    costs.backward = costs.forward;
    return costs;
}

std::vector<long> junction_arrivals(const Streets& streets, const PieceCosts& costs,
                                    const std::vector<Start>& starts) {
    std::vector<long> best(streets.junctions, never);
    for (const Start& start : starts) {
        const Piece& piece = streets.pieces[start.spot.piece];
        const auto& [here, along] = start.spot;
        const long back = share(streets, costs, here, false, 0.0, along);
        const long on = share(streets, costs, here, true, along, piece.length());
        best[piece.from] = std::min(best[piece.from], sum(start.cost, back));
        best[piece.to] = std::min(best[piece.to], sum(start.cost, on));
    }
    for (bool changed = true; changed;) {
        changed = false;
        for (std::size_t i = 0; i < streets.pieces.size(); ++i) {
            const Piece& piece = streets.pieces[i];
            const long there = sum(best[piece.from], costs.forward[i]);
            const long back = sum(best[piece.to], costs.backward[i]);
            changed = changed || there < best[piece.to] || back < best[piece.from];
            best[piece.to] = std::min(best[piece.to], there);
            best[piece.from] = std::min(best[piece.from], back);
        }
    }
    return best;
}

long arrival_at(const Streets& streets, const PieceCosts& costs, const std::vector<Start>& starts,
                const std::vector<long>& junctions, Spot to) {
    const Piece& piece = streets.pieces[to.piece];
    const long ahead = share(streets, costs, to.piece, true, 0.0, to.along);
    const long back = share(streets, costs, to.piece, false, to.along, piece.length());
    long best = std::min(sum(junctions[piece.from], ahead), sum(junctions[piece.to], back));
    for (const Start& start : starts) {
        if (start.spot.piece == to.piece) {
            const auto [first, last] = std::minmax(start.spot.along, to.along);
            const bool forward = start.spot.along <= to.along;
            best = std::min(best,
                            sum(start.cost, share(streets, costs, to.piece, forward, first, last)));
        }
    }
    return best;
}

long first_arrival(const Streets& streets, const PieceCosts& costs,
                   const std::vector<Start>& starts, Spot to) {
    return arrival_at(streets, costs, starts, junction_arrivals(streets, costs, starts), to);
}

long way_between(const Streets& streets, const PieceCosts& costs, Spot from, Spot to) {
    return first_arrival(streets, costs, {{from, 0}}, to);
}

}  // namespace farwater::slow
