#include "tests/support/slow_loops.h"

#include <algorithm>
#include <cmath>

namespace farwater::slow {
namespace {

struct Part {
    std::size_t from = 0, to = 0;
    long out_forward = 0, out_backward = 0;
    long back_forward = 0, back_backward = 0;
};

long share(long whole, double part, double length) {
    return whole >= never || part >= length
               ? whole
               : static_cast<long>(std::ceil(static_cast<double>(whole) * part / length - 1e-6));
}

constexpr double at_the_ends = 0.002;  // metres

// The graph with pieces cut at both spots.
struct CutStreets {
    std::size_t nodes = 0;
    std::vector<Part> parts;
    std::size_t place = 0, target = 0;
};

CutStreets cut(const Streets& streets, const std::vector<bool>& open, const PieceCosts& out,
               const PieceCosts& back, Spot place, Spot target) {
    CutStreets result{streets.junctions, {}, 0, 0};
    std::vector<std::vector<std::pair<double, std::size_t>>> cuts(streets.pieces.size());
    const auto node_of = [&](Spot spot) {
        const Piece& piece = streets.pieces[spot.piece];
        if (spot.along <= at_the_ends) {
            return piece.from;
        }
        if (spot.along >= piece.length() - at_the_ends) {
            return piece.to;
        }
        cuts[spot.piece].emplace_back(spot.along, result.nodes);
        return result.nodes++;
    };
    result.place = node_of(place);
    result.target = node_of(target);
    for (std::size_t i = 0; i < streets.pieces.size(); ++i) {
        const Piece& piece = streets.pieces[i];
        std::ranges::sort(cuts[i]);
        cuts[i].emplace_back(piece.length(), piece.to);
        double begin = 0.0;
        std::size_t node = piece.from;
        for (const auto& [end, next] : cuts[i]) {
            const auto cost = [&, begin = begin, end = end](const std::vector<long>& whole) {
                return open[i] ? share(whole[i], end - begin, piece.length()) : never;
            };
            result.parts.push_back({node, next, cost(out.forward), cost(out.backward),
                                    cost(back.forward), cost(back.backward)});
            begin = end;
            node = next;
        }
    }
    return result;
}

// Bellman 1958, Ford 1956, on the parts whose bit is set as asked.
long least(const CutStreets& streets, unsigned bits, bool is_out) {
    std::vector<long> cost(streets.nodes, never);
    cost[is_out ? streets.place : streets.target] = 0;
    for (bool more = true; more;) {
        more = false;
        for (std::size_t i = 0; i < streets.parts.size(); ++i) {
            if (((bits >> i) & 1U) != (is_out ? 1U : 0U)) {
                continue;
            }
            const Part& part = streets.parts[i];
            const long there = cost[part.from] + (is_out ? part.out_forward : part.back_forward);
            const long here = cost[part.to] + (is_out ? part.out_backward : part.back_backward);
            if (there < cost[part.to] || here < cost[part.from]) {
                cost[part.to] = std::min(cost[part.to], there);
                cost[part.from] = std::min(cost[part.from], here);
                more = true;
            }
        }
    }
    return cost[is_out ? streets.target : streets.place];
}

}  // namespace

std::optional<long> out_and_back(const Streets& streets, const std::vector<bool>& open,
                                 const PieceCosts& out, const PieceCosts& back, Spot place,
                                 Spot target) {
    const CutStreets graph = cut(streets, open, out, back, place, target);
    long best = never;
    for (unsigned bits = 0; bits < (1U << graph.parts.size()); ++bits) {
        const long there = least(graph, bits, true);
        if (there < best) {
            best = std::min(best, there + least(graph, bits, false));
        }
    }
    return best < never ? std::optional(best) : std::nullopt;
}

}  // namespace farwater::slow
