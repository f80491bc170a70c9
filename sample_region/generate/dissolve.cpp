// The outlines of groups of cells; see cells.h.
#include <algorithm>
#include <utility>

#include "sample_region/generate/cells.h"

namespace farwater::sample {
namespace {

// A side walked with its group on the left.
struct Step {
    std::int32_t group = 0, from = 0, to = 0;
    friend auto operator<=>(const Step&, const Step&) = default;
};

using Ring = std::vector<std::int32_t>;  // corners

std::size_t index(std::int32_t number) { return static_cast<std::size_t>(number); }

std::vector<CellSide> border_sides(const Cells& cells, const std::vector<std::int32_t>& group_of) {
    std::vector<CellSide> borders;
    for (const CellSide& side : cells.sides) {
        if (group_of[index(side.left)] != group_of[index(side.right)]) {
            borders.push_back(side);
        }
    }
    return borders;
}

// Border sides by corner, as one array with offsets.
class Borders {
public:
    Borders(std::size_t corners, const std::vector<CellSide>& sides) : start_(corners + 1, 0) {
        for (const CellSide& side : sides) {
            ++start_[index(side.from) + 1];
            ++start_[index(side.to) + 1];
        }
        for (std::size_t i = 1; i < start_.size(); ++i) {
            start_[i] += start_[i - 1];
        }
        entries_.resize(start_.back());
        std::vector<std::size_t> next(start_.begin(), start_.end() - 1);
        for (std::size_t i = 0; i < sides.size(); ++i) {
            entries_[next[index(sides[i].from)]++] = i;
            entries_[next[index(sides[i].to)]++] = i;
        }
    }
    std::size_t degree(std::int32_t corner) const {
        return start_[index(corner) + 1] - start_[index(corner)];
    }
    std::size_t side(std::int32_t corner, std::size_t i) const {
        return entries_[start_[index(corner)] + i];
    }

private:
    std::vector<std::size_t> start_, entries_;
};

// Walks from `corner` along side `first` to the next junction (or back to `corner`).
Ring walk(const std::vector<CellSide>& sides, const Borders& borders, std::int32_t corner,
          std::size_t first, std::vector<bool>& used) {
    Ring arc{corner};
    std::size_t side = first;
    while (true) {
        used[side] = true;
        const std::int32_t at = arc.back();
        const std::int32_t next = sides[side].from == at ? sides[side].to : sides[side].from;
        arc.push_back(next);
        if (borders.degree(next) != 2 || next == corner) {
            return arc;
        }
        side = borders.side(next, 0) == side ? borders.side(next, 1) : borders.side(next, 0);
    }
}

void keep_shape(const Cells& cells, Ring arc, double tolerance, std::vector<bool>& kept) {
    if (arc.front() > arc.back()) {
        std::ranges::reverse(arc);  // one answer for both directions
    }
    // A closed arc is kept in thirds, which leaves a polygon whatever the tolerance.
    const std::size_t pieces = arc.front() == arc.back() ? 3 : 1;
    for (std::size_t piece_number = 0; piece_number < pieces; ++piece_number) {
        const std::size_t from = (arc.size() - 1) * piece_number / pieces;
        const std::size_t to = (arc.size() - 1) * (piece_number + 1) / pieces;
        Polyline line;
        for (std::size_t i = from; i <= to; ++i) {
            line.push_back(cells.corners[index(arc[i])]);
        }
        const Polyline shape = simplified(line, tolerance);
        std::size_t next = 0;
        for (std::size_t i = from; i <= to && next < shape.size(); ++i) {
            if (line[i - from] == shape[next]) {
                kept[index(arc[i])] = true;
                ++next;
            }
        }
    }
}

std::vector<bool> kept_corners(const Cells& cells, const std::vector<CellSide>& sides,
                               double tolerance) {
    const Borders borders(cells.corners.size(), sides);
    std::vector<bool> kept(cells.corners.size(), false);
    std::vector<bool> used(sides.size(), false);
    const auto trace = [&](std::int32_t corner) {
        for (std::size_t i = 0; i < borders.degree(corner); ++i) {
            if (!used[borders.side(corner, i)]) {
                keep_shape(cells, walk(sides, borders, corner, borders.side(corner, i), used),
                           tolerance, kept);
            }
        }
    };
    const auto count = static_cast<std::int32_t>(cells.corners.size());
    for (std::int32_t corner = 0; corner < count; ++corner) {
        if (borders.degree(corner) != 2) {
            trace(corner);
        }
    }
    for (std::int32_t corner = 0; corner < count; ++corner) {
        trace(corner);  // closed arcs without a junction
    }
    return kept;
}

// The way on that turns most to the left, which stays with the same piece of land.
std::size_t leftmost(const Cells& cells, const std::vector<Step>& steps, std::size_t first,
                     std::size_t last, const std::vector<bool>& used, std::int32_t before) {
    std::size_t best = last;
    double best_turn = 0;
    for (std::size_t i = first; i < last; ++i) {
        if (used[i]) {
            continue;
        }
        const Point at = cells.corners[index(steps[i].from)];
        const Point back = unit(cells.corners[index(before)] - at);
        const Point ahead = unit(cells.corners[index(steps[i].to)] - at);
        // Grows with the angle from `back` clockwise to `ahead`, from 0 to 4.
        const double sine = -cross(back, ahead);
        const double cosine = dot(back, ahead);
        const double turn = sine >= 0 ? 1 - cosine : 3 + cosine;
        if (best == last || turn < best_turn) {
            best = i;
            best_turn = turn;
        }
    }
    return best;
}

// Cuts a ring that meets itself in a corner into rings that do not.
std::vector<Ring> cut_apart(const Ring& ring) {
    std::vector<Ring> rings;
    Ring open;
    for (const std::int32_t corner : ring) {
        const auto seen = std::ranges::find(open, corner);
        if (seen != open.end()) {
            rings.emplace_back(seen, open.end());
            open.erase(seen, open.end());
        }
        open.push_back(corner);
    }
    rings.push_back(open);
    return rings;
}

// All rings of one group, whose steps are steps[first, last).
std::vector<Ring> rings_of(const Cells& cells, const std::vector<Step>& steps, std::size_t first,
                           std::size_t last, std::vector<bool>& used) {
    std::vector<Ring> rings;
    for (std::size_t start = first; start < last; ++start) {
        if (used[start]) {
            continue;
        }
        Ring ring;
        for (std::size_t at = start; at != last;) {
            used[at] = true;
            ring.push_back(steps[at].from);
            const Step wanted{steps[at].group, steps[at].to, -1};
            const auto range =
                std::lower_bound(steps.begin() + static_cast<std::ptrdiff_t>(first),
                                 steps.begin() + static_cast<std::ptrdiff_t>(last), wanted);
            const auto from = static_cast<std::size_t>(range - steps.begin());
            std::size_t to = from;
            while (to < last && steps[to].from == wanted.from) {
                ++to;
            }
            const std::size_t next = leftmost(cells, steps, from, to, used, steps[at].from);
            at = next == to ? last : next;
        }
        for (Ring& part : cut_apart(ring)) {
            rings.push_back(std::move(part));
        }
    }
    return rings;
}

Polygons assembled(const std::vector<Polyline>& rings) {
    Polygons polygons;
    for (const Polyline& ring : rings) {
        if (signed_area(ring) > 0) {
            polygons.push_back({{ring}});
        }
    }
    for (const Polyline& ring : rings) {
        if (signed_area(ring) >= 0) {
            continue;
        }
        const Point inside = (ring[0] + ring[1]) * 0.5;
        const auto owner = std::ranges::find_if(polygons, [&](const Polygon& polygon) {
            return polygons.size() == 1 || contains(polygon.rings.front(), inside);
        });
        if (owner != polygons.end()) {
            owner->rings.push_back(ring);
        }
    }
    return polygons;
}

std::vector<Polyline> drawn(const Cells& cells, const std::vector<Ring>& rings,
                            const std::vector<bool>& kept) {
    std::vector<Polyline> result;
    for (const Ring& corners : rings) {
        Polyline ring;
        for (const std::int32_t corner : corners) {
            if (kept[index(corner)]) {
                ring.push_back(cells.corners[index(corner)]);
            }
        }
        if (ring.size() >= 3) {
            result.push_back(std::move(ring));
        }
    }
    return result;
}

}  // namespace

std::vector<Polygons> dissolved(const Cells& cells, const std::vector<std::int32_t>& group_of,
                                std::size_t groups, double tolerance) {
    const std::vector<CellSide> sides = border_sides(cells, group_of);
    const std::vector<bool> kept = kept_corners(cells, sides, tolerance);
    std::vector<Step> steps;
    for (const CellSide& side : sides) {
        steps.push_back({group_of[index(side.left)], side.from, side.to});
        steps.push_back({group_of[index(side.right)], side.to, side.from});
    }
    std::ranges::sort(steps);
    std::vector<bool> used(steps.size(), false);
    std::vector<Polygons> result(groups);
    for (std::size_t first = 0; first < steps.size();) {
        std::size_t last = first;
        while (last < steps.size() && steps[last].group == steps[first].group) {
            ++last;
        }
        if (steps[first].group >= 0) {
            result[index(steps[first].group)] =
                assembled(drawn(cells, rings_of(cells, steps, first, last, used), kept));
        }
        first = last;
    }
    return result;
}

}  // namespace farwater::sample
