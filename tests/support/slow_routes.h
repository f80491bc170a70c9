// The slow twin of routing: the rules of roads, junctions, drive times, hose and lanes written down
// as they are read. It compares everything with everything, relaxes all edges until nothing changes
// (Bellman 1958, Ford 1956) and shares no code with what it checks.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/plane.h"
#include "analyzer/district/round_trips.h"

namespace farwater::slow {

inline constexpr long never = 2'000'000'000'000L;  // more than any way; two still add

// A stretch of one road between neighbouring junctions, as drawn.
struct Piece {
    std::size_t road = 0;
    std::size_t from = 0, to = 0;   // junctions
    double begin = 0.0, end = 0.0;  // metres along the road
    double length() const { return end - begin; }
};

// Junctions are the ends of roads, the vertices that stand exactly equal in two lines or twice in
// one (no tolerance, no levels), and with join_crossings the places of slow_crossings.h. No road
// may be drawn twice.
struct Streets {
    std::size_t junctions = 0;
    std::vector<Piece> pieces;
};
Streets streets_of(const District& district);
bool has_length(const Polyline& line);

struct Spot {
    std::size_t piece = 0;
    double along = 0.0;  // metres from its start
};
// The spot so many metres from the start of a road.
Spot spot_on(const Streets& streets, std::size_t road, double along);

struct Nearest {
    std::size_t road = 0;
    double along = 0.0;  // metres from the start of the road
    Point place;
    double apart = 0.0;  // metres
};
// By a look at every segment of every road that passes `keep`; the first of equals.
std::optional<Nearest> nearest_place(const District& district, Point p, Length reach,
                                     const std::function<bool(std::size_t road)>& keep);

// The nearest place on any road, or on one that a tanker may use if that is within frontage_slack
// of it.
std::optional<Nearest> served_from(const District& district, const std::vector<bool>& of_tankers,
                                   Point house, Length reach);

bool may_drive(const Road& road, const Profile& profile, const Season& season, bool loaded,
               const Assumptions& assumptions);
double miles_per_hour(const Road& road, const Profile& profile, const Season& season, bool loaded,
                      const Assumptions& assumptions);

// What each piece costs forward and backward; never where that way is closed.
struct PieceCosts {
    std::vector<long> forward, backward;
    // Of times over hills, per piece: the cost without hills, and the hours that each step's climb
    // adds. Empty where every metre costs the same.
    std::vector<long> level;
    std::vector<std::vector<double>> climbs, climbs_back;
};
// The grades of a piece's equal steps, each no longer than 100 ft or a cell of the elevation grid:
// rise over run as drawn, whole hundredths of a percent. Level without elevation.
std::vector<double> grades_of(const District& district, const Streets& streets, const Piece& piece);

// Uphill (grade above 0) at the power that a vehicle has, no faster than on the level.
double climbing_mph(double level, double pounds_per_hp, double grade);

// Tenths of a second at the planning speed and up each step's grade, rounded up per piece, at least
// 1. Not for the linear rules of travel time.
PieceCosts drive_times(const District& district, const Streets& streets, const Profile& profile,
                       const Season& season, bool loaded);
PieceCosts lengths_in_mm(const Streets& streets);
// The same, where and in the direction that the profile may drive.
PieceCosts open_lengths(const District& district, const Streets& streets, const Profile& profile,
                        const Season& season, bool loaded);

// The least cost of a way; parts of a piece cost their share of what is even and their own climbs,
// rounded up, and an end of a piece is its junction. `never` where there is none.
long way_between(const Streets& streets, const PieceCosts& costs, Spot from, Spot to);

// From every start at its cost to one spot.
struct Start {
    Spot spot;
    long cost = 0;
};
long first_arrival(const Streets& streets, const PieceCosts& costs,
                   const std::vector<Start>& starts, Spot to);
// The same to every junction, and on from there to a spot.
std::vector<long> junction_arrivals(const Streets& streets, const PieceCosts& costs,
                                    const std::vector<Start>& starts);
long arrival_at(const Streets& streets, const PieceCosts& costs, const std::vector<Start>& starts,
                const std::vector<long>& junctions, Spot to);

}  // namespace farwater::slow
