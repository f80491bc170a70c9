#include "tests/support/slow_lanes.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace farwater::slow {
namespace {

constexpr double at_the_end = 0.002;  // metres

// Which junctions hang together with `start` by open pieces.
std::vector<bool> joined(const Streets& streets, const std::vector<bool>& open, std::size_t start) {
    std::vector<bool> there(streets.junctions, false);
    there[start] = true;
    for (bool more = true; more;) {
        more = false;
        for (std::size_t i = 0; i < streets.pieces.size(); ++i) {
            const Piece& piece = streets.pieces[i];
            if (open[i] && there[piece.from] != there[piece.to]) {
                there[piece.from] = there[piece.to] = true;
                more = true;
            }
        }
    }
    return there;
}

struct Way {
    std::size_t piece = 0;
    std::size_t to = 0;  // junction
    bool as_drawn = true;
    double entered = 0.0;  // metres along the piece
    double before = 0.0;   // metres from the spot to there
    double length() const { return before + rest; }
    double rest = 0.0;  // metres on to the junction
};

std::vector<Way> ways_from_junction(const Streets& streets, std::size_t junction, double before) {
    std::vector<Way> ways;
    for (std::size_t i = 0; i < streets.pieces.size(); ++i) {
        const Piece& piece = streets.pieces[i];
        if (piece.from == junction) {
            ways.push_back({i, piece.to, true, 0.0, before, piece.length()});
        }
        if (piece.to == junction) {
            ways.push_back({i, piece.from, false, piece.length(), before, piece.length()});
        }
    }
    return ways;
}

// The junction that a spot is at; none inside a piece.
std::optional<std::size_t> junction_of(const Streets& streets, Spot spot) {
    const Piece& piece = streets.pieces[spot.piece];
    if (spot.along <= at_the_end) {
        return piece.from;
    }
    return spot.along >= piece.length() - at_the_end ? std::optional(piece.to) : std::nullopt;
}

std::vector<Way> ways_from(const Streets& streets, Spot spot) {
    if (const auto junction = junction_of(streets, spot)) {
        return ways_from_junction(streets, *junction, 0.0);
    }
    const Piece& piece = streets.pieces[spot.piece];
    return {{spot.piece, piece.from, false, spot.along, 0.0, spot.along},
            {spot.piece, piece.to, true, spot.along, 0.0, piece.length() - spot.along}};
}

bool stands_on(const Streets& streets, const std::vector<Spot>& spots, const Way& way,
               double farthest) {
    return std::ranges::any_of(spots, [&](Spot spot) {
        if (const auto junction = junction_of(streets, spot)) {
            return *junction == way.to && way.length() <= farthest;
        }
        const double on = way.as_drawn ? spot.along - way.entered : way.entered - spot.along;
        return spot.piece == way.piece && on >= 0.0 && way.before + on <= farthest;
    });
}

bool stands_at(const Streets& streets, const std::vector<Spot>& spots, Spot place) {
    return std::ranges::any_of(spots, [&](Spot spot) {
        const auto junction = junction_of(streets, spot);
        return junction || junction_of(streets, place)
                   ? junction == junction_of(streets, place)
                   : spot.piece == place.piece && std::abs(spot.along - place.along) <= 1.0;
    });
}

bool is_good(const Streets& streets, const std::vector<bool>& open, const Way& way, double reach,
             const LaneMarks& marks) {
    if (!open[way.piece]) {
        return false;
    }
    if (on_loop(streets, open, way.piece) || stands_on(streets, marks.turnarounds, way, reach)) {
        return true;
    }
    const std::vector<Way> onward = ways_from_junction(streets, way.to, way.length());
    return way.length() <= reach && std::ranges::any_of(onward, [&](const Way& next) {
               return next.piece != way.piece && is_good(streets, open, next, reach, marks);
           });
}

// Metres from the spot to every junction behind the way, as if the way's piece were gone after it.
std::vector<double> behind(const Streets& streets, const std::vector<bool>& open, const Way& way) {
    std::vector<double> metres(streets.junctions, 1e12);
    metres[way.to] = way.length();
    for (bool more = true; more;) {
        more = false;
        for (std::size_t i = 0; i < streets.pieces.size(); ++i) {
            const Piece& piece = streets.pieces[i];
            if (!open[i] || i == way.piece) {
                continue;
            }
            const double least = std::min(metres[piece.from], metres[piece.to]) + piece.length();
            for (const std::size_t end : {piece.from, piece.to}) {
                if (least < metres[end] - 1e-9) {
                    metres[end] = least;
                    more = true;
                }
            }
        }
    }
    return metres;
}

bool nobody_comes_by(const Streets& streets, const std::vector<bool>& open, const Way& way,
                     Spot spot, double reach, const LaneMarks& marks) {
    const std::vector<double> metres = behind(streets, open, way);
    const auto met = [&](std::size_t junction) { return metres[junction] < 1e12; };
    const auto place = junction_of(streets, spot);
    const Piece& own = streets.pieces[spot.piece];
    const std::size_t other_end = own.to == way.to ? own.from : own.to;
    const bool ring = !place && own.to == own.from;
    if (ring || (place ? met(*place) : met(other_end))) {
        return false;
    }
    for (std::size_t i = 0; i < streets.pieces.size(); ++i) {
        const Piece& piece = streets.pieces[i];
        const bool behind_it = i != way.piece && open[i] && (met(piece.from) || met(piece.to));
        const std::vector<Way> both{{i, piece.to, true, 0.0, 0.0, piece.length()},
                                    {i, piece.from, false, piece.length(), 0.0, piece.length()}};
        if (behind_it && std::ranges::any_of(both, [&](const Way& one) {
                return stands_on(streets, marks.origins, one, 1e12);
            })) {
            return false;
        }
    }
    return !stands_on(streets, marks.origins, way, 1e12) &&
           std::ranges::all_of(metres, [&](double far) { return far >= 1e12 || far <= reach; });
}

}  // namespace

bool on_loop(const Streets& streets, const std::vector<bool>& open, std::size_t piece) {
    std::vector<bool> others = open;
    others[piece] = false;
    return open[piece] &&
           joined(streets, others, streets.pieces[piece].from)[streets.pieces[piece].to];
}

bool drive_through(const Streets& streets, const std::vector<bool>& open, Spot spot, double reach,
                   const LaneMarks& marks) {
    std::vector<Way> good;
    for (const Way& way : ways_from(streets, spot)) {
        if (is_good(streets, open, way, reach, marks)) {
            good.push_back(way);
        }
    }
    return stands_at(streets, marks.turnarounds, spot) || good.size() >= 2 ||
           (good.size() == 1 && !marks.from_anywhere &&
            nobody_comes_by(streets, open, good[0], spot, reach, marks));
}

double single_file_minutes(const Streets& streets, const std::vector<bool>& open,
                           const std::vector<bool>& narrow,
                           const std::function<double(std::size_t piece, double metres)>& minutes,
                           Spot spot) {
    if (!narrow[spot.piece]) {
        return 0.0;
    }
    std::vector<Way> ways = ways_from(streets, spot);
    if (std::ranges::any_of(ways, [&](const Way& way) { return open[way.piece]; })) {
        std::erase_if(ways, [&](const Way& way) { return !open[way.piece]; });
    }
    const auto wide = [&](const Way& way) { return !narrow[way.piece]; };
    if (ways.size() > 2 || std::ranges::any_of(ways, wide)) {
        return 0.0;
    }
    double to_pass = -1.0;
    double to_end = 0.0;
    for (const Way& begun : ways) {
        double taken = minutes(begun.piece, begun.length());
        Way way = begun;
        std::vector<Way> on;
        do {
            on = ways_from_junction(streets, way.to, 0.0);
            std::erase_if(
                on, [&](const Way& next) { return next.piece == way.piece || !open[next.piece]; });
            if (on.size() == 1 && !wide(on[0]) && on[0].piece != begun.piece) {
                way = on[0];
                taken += minutes(way.piece, way.length());
            } else {
                break;
            }
        } while (true);
        const bool passes = on.size() > 1 || std::ranges::any_of(on, wide);
        (passes ? to_pass : to_end) = std::max(passes ? to_pass : to_end, taken);
    }
    return to_pass >= 0.0 ? to_pass : to_end;
}

std::vector<bool> under_the_way(const Streets& streets, Spot from, Spot to) {
    const PieceCosts lengths = lengths_in_mm(streets);
    const std::vector<Start> begin{{from, 0}};
    const std::vector<Start> end{{to, 0}};  // lengths are the same both ways
    const std::vector<long> from_begin = junction_arrivals(streets, lengths, begin);
    const std::vector<long> from_end = junction_arrivals(streets, lengths, end);
    const long whole = arrival_at(streets, lengths, begin, from_begin, to);
    const auto on_the_way = [&](Spot spot) {
        const long there = arrival_at(streets, lengths, begin, from_begin, spot);
        return there <= whole + 4 &&
               there + arrival_at(streets, lengths, end, from_end, spot) <= whole + 4;
    };
    std::vector<bool> under(streets.pieces.size(), false);
    for (std::size_t i = 0; i < streets.pieces.size(); ++i) {
        const double middle = streets.pieces[i].length() / 2.0;
        const bool inside = i == from.piece && from.along > at_the_end &&
                            from.along < streets.pieces[i].length() - at_the_end;
        under[i] = i == to.piece || inside || on_the_way({i, middle});
    }
    return under;
}

}  // namespace farwater::slow
