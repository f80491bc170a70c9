#include "tests/support/slow_lanes.h"

#include <algorithm>

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
    double length = 0.0;
};

std::vector<Way> ways_from_junction(const Streets& streets, std::size_t junction) {
    std::vector<Way> ways;
    for (std::size_t i = 0; i < streets.pieces.size(); ++i) {
        const Piece& piece = streets.pieces[i];
        if (piece.from == junction) {
            ways.push_back({i, piece.to, piece.length()});
        }
        if (piece.to == junction) {
            ways.push_back({i, piece.from, piece.length()});
        }
    }
    return ways;
}

std::vector<Way> ways_from(const Streets& streets, Spot spot) {
    const Piece& piece = streets.pieces[spot.piece];
    if (spot.along <= at_the_end) {
        return ways_from_junction(streets, piece.from);
    }
    if (spot.along >= piece.length() - at_the_end) {
        return ways_from_junction(streets, piece.to);
    }
    return {{spot.piece, piece.from, spot.along},
            {spot.piece, piece.to, piece.length() - spot.along}};
}

bool leads_to_loop(const Streets& streets, const std::vector<bool>& open, const Way& way,
                   double reach) {
    if (!open[way.piece]) {
        return false;
    }
    if (on_loop(streets, open, way.piece)) {
        return true;
    }
    const std::vector<Way> onward = ways_from_junction(streets, way.to);
    return way.length <= reach && std::ranges::any_of(onward, [&](const Way& next) {
               const Way longer{next.piece, next.to, way.length + next.length};
               return next.piece != way.piece && leads_to_loop(streets, open, longer, reach);
           });
}

}  // namespace

bool on_loop(const Streets& streets, const std::vector<bool>& open, std::size_t piece) {
    std::vector<bool> others = open;
    others[piece] = false;
    return open[piece] &&
           joined(streets, others, streets.pieces[piece].from)[streets.pieces[piece].to];
}

bool drive_through(const Streets& streets, const std::vector<bool>& open, Spot spot, double reach) {
    const std::vector<Way> ways = ways_from(streets, spot);
    return std::ranges::count_if(
               ways, [&](const Way& way) { return leads_to_loop(streets, open, way, reach); }) >= 2;
}

std::vector<bool> under_the_way(const Streets& streets, Spot from, Spot to) {
    const PieceCosts lengths = lengths_in_mm(streets);
    const long whole = way_between(streets, lengths, from, to);
    const auto on_the_way = [&](Spot spot) {
        return way_between(streets, lengths, from, spot) +
                   way_between(streets, lengths, spot, to) <=
               whole + 4;
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
