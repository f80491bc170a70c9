#include "tests/support/slow_crossings.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace farwater::slow {
namespace {

double apart(Point p, Point q) { return std::hypot(p.x - q.x, p.y - q.y); }

struct Place {
    Point point;
    double along = 0.0;  // from the start of the segment
    double apart = 0.0;  // from what was asked for
};

Place nearest(Point a, Point b, Point p) {
    const double length = apart(a, b);
    if (length == 0.0) {
        return {a, 0.0, apart(a, p)};
    }
    const Point way{(b.x - a.x) / length, (b.y - a.y) / length};
    const double along = std::clamp((p.x - a.x) * way.x + (p.y - a.y) * way.y, 0.0, length);
    const Point there{a.x + along * way.x, a.y + along * way.y};
    return {there, along, apart(there, p)};
}

// A line with what the rules ask about it.
struct Line {
    const Road* road = nullptr;
    std::size_t number = 0;
    std::vector<double> along;  // per vertex
    Point low, high;            // corners of the box around it

    const Polyline& points() const { return road->line; }
    bool is_end(std::size_t v) const { return v == 0 || v + 1 == points().size(); }
    Place near(std::size_t segment, Point p) const {
        return nearest(points()[segment], points()[segment + 1], p);
    }
};

Line line_of(const Road& road, std::size_t number) {
    Line line{&road, number, {0.0}, road.line.front(), road.line.front()};
    for (std::size_t i = 1; i < road.line.size(); ++i) {
        const Point p = road.line[i];
        line.along.push_back(line.along.back() + apart(road.line[i - 1], p));
        line.low = {std::min(line.low.x, p.x), std::min(line.low.y, p.y)};
        line.high = {std::max(line.high.x, p.x), std::max(line.high.y, p.y)};
    }
    return line;
}

class Rules {
public:
    explicit Rules(const Assumptions& assumptions)
        : ends_(in_metres(assumptions.join_tolerance)), inside_(std::min(ends_, 0.05)) {}

    static bool may_meet(const Line& a, const Line& b) {
        return !a.road->bridge && !a.road->tunnel && !b.road->bridge && !b.road->tunnel &&
               a.road->level == b.road->level;
    }

    // Nothing that is farther apart meets, whatever of it is looked at.
    bool may_be_near(const Line& a, const Line& b) const {
        const double most = std::max(ends_, inside_) + 1.0;
        return a.low.x - most <= b.high.x && b.low.x - most <= a.high.x &&
               a.low.y - most <= b.high.y && b.low.y - most <= a.high.y;
    }

    double reach(const Line& line, std::size_t vertex) const {
        return std::max(line.is_end(vertex) ? ends_ : inside_, 0.001);
    }

    bool share(const Line& a, std::size_t v, const Line& b, std::size_t w) const {
        const double most = a.is_end(v) || b.is_end(w) ? ends_ : inside_;
        return apart(a.points()[v], b.points()[w]) <= most;
    }

    bool next_door(LineSpot a, LineSpot b) const {
        return a.road == b.road && std::abs(a.along - b.along) <= std::max(2 * ends_, 0.002);
    }

    double merged() const { return std::max(inside_, 0.001); }

private:
    double ends_;
    double inside_;
};

class Search {
public:
    explicit Search(const District& district) : rules_(district.assumptions) {
        for (std::size_t r = 0; r < district.roads.size(); ++r) {
            const Polyline& line = district.roads[r].line;
            if (std::any_of(line.begin(), line.end(), [&](Point p) { return p != line[0]; })) {
                lines_.push_back(line_of(district.roads[r], r));
            }
        }
    }

    std::vector<Meet> all() {
        for (const Line& a : lines_) {
            for (const Line& b : lines_) {
                if (Rules::may_meet(a, b) && rules_.may_be_near(a, b)) {
                    touches(a, b);
                    if (a.number <= b.number) {
                        crossings(a, b);
                    }
                }
            }
        }
        return std::move(found_);
    }

private:
    // The vertices of a on the segments of b.
    void touches(const Line& a, const Line& b) {
        for (std::size_t v = 0; v < a.points().size(); ++v) {
            for (std::size_t s = 0; s + 1 < b.points().size(); ++s) {
                if (touches(a, v, b, s)) {
                    found(LineSpot{a.number, a.along[v]}, touched(b, s, a.points()[v]));
                }
            }
        }
    }

    bool touches(const Line& a, std::size_t v, const Line& b, std::size_t s) const {
        const bool same = a.number == b.number;
        const double here = b.near(s, a.points()[v]).apart;
        if ((same && (v == s || v == s + 1)) || here > rules_.reach(a, v) ||
            rules_.share(a, v, b, s) || rules_.share(a, v, b, s + 1)) {
            return false;
        }
        const bool own_before = same && v + 1 == s;
        const bool own_after = same && v == s + 2;
        const bool before =
            s > 0 && !own_before && b.near(s - 1, a.points()[v]).apart <= here + 1e-6;
        const bool after = s + 2 < b.points().size() && !own_after &&
                           b.near(s + 1, a.points()[v]).apart < here - 1e-6;
        return !before && !after;
    }

    LineSpot touched(const Line& b, std::size_t s, Point p) const {
        const double along = b.near(s, p).along;
        const double length = apart(b.points()[s], b.points()[s + 1]);
        if (std::min(along, length - along) > rules_.merged()) {
            return {b.number, b.along[s] + along};
        }
        return {b.number, along <= length - along ? b.along[s] : b.along[s + 1]};
    }

    void crossings(const Line& a, const Line& b) {
        for (std::size_t s = 0; s + 1 < a.points().size(); ++s) {
            const std::size_t from = a.number == b.number ? s + 2 : 0;
            for (std::size_t t = from; t + 1 < b.points().size(); ++t) {
                if (!ends_near(a, s, b, t) && !ends_near(b, t, a, s)) {
                    crossing(a, s, b, t);
                }
            }
        }
    }

    bool ends_near(const Line& a, std::size_t s, const Line& b, std::size_t t) const {
        return b.near(t, a.points()[s]).apart <= rules_.reach(a, s) ||
               b.near(t, a.points()[s + 1]).apart <= rules_.reach(a, s + 1);
    }

    // Solves p + u (q - p) = r + w (s - r).
    void crossing(const Line& a, std::size_t s, const Line& b, std::size_t t) {
        const Point p = a.points()[s];
        const Point r = b.points()[t];
        const Point one{a.points()[s + 1].x - p.x, a.points()[s + 1].y - p.y};
        const Point other{b.points()[t + 1].x - r.x, b.points()[t + 1].y - r.y};
        const double area = one.x * other.y - one.y * other.x;
        if (area == 0.0) {
            return;
        }
        const double u = ((r.x - p.x) * other.y - (r.y - p.y) * other.x) / area;
        const double w = ((r.x - p.x) * one.y - (r.y - p.y) * one.x) / area;
        if (u > 0.0 && u < 1.0 && w > 0.0 && w < 1.0) {
            found({a.number, a.along[s] + u * std::hypot(one.x, one.y)},
                  {b.number, b.along[t] + w * std::hypot(other.x, other.y)});
        }
    }

    void found(LineSpot a, LineSpot b) {
        if (!rules_.next_door(a, b)) {
            found_.push_back({a, b});
        }
    }

    Rules rules_;
    std::vector<Line> lines_;
    std::vector<Meet> found_;
};

}  // namespace

std::vector<Meet> meets_of(const District& district) { return Search(district).all(); }

double merged_cuts(const Assumptions& assumptions) { return Rules(assumptions).merged(); }

}  // namespace farwater::slow
