#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include "tests/support/slow_crossings.h"
#include "tests/support/slow_routes.h"

namespace farwater::slow {
bool has_length(const Polyline& line) {
    return std::any_of(line.begin(), line.end(), [&](Point p) { return p != line.front(); });
}

namespace {

std::map<Point, int> uses_of_points(const District& district) {
    std::map<Point, int> uses;
    for (const Road& road : district.roads) {
        if (has_length(road.line)) {
            for (std::size_t i = 0; i < road.line.size(); ++i) {
                const bool repeated = i > 0 && road.line[i] == road.line[i - 1];
                uses[road.line[i]] += repeated ? 0 : 1;
            }
        }
    }
    return uses;
}

struct Stop {
    double along = 0.0;
    std::size_t junction = 0;
};

class StreetBuilder {
public:
    explicit StreetBuilder(const District& district)
        : district_(district), stops_(district.roads.size()) {
        if (district.assumptions.join_crossings) {
            meets_ = meets_of(district);
        }
    }

    Streets build() {
        stop_at_vertices();
        stop_at_cuts();
        for (const Meet& meet : meets_) {
            become_one(junction_at(meet.a), junction_at(meet.b));
        }
        return pieces();
    }

private:
    void stop_at_vertices() {
        const std::map<Point, int> uses = uses_of_points(district_);
        std::map<Point, std::size_t> junction_of;
        for (std::size_t r = 0; r < stops_.size(); ++r) {
            const Polyline& line = district_.roads[r].line;
            double along = 0.0;
            for (std::size_t i = 0; i < line.size() && has_length(line); ++i) {
                along +=
                    i == 0 ? 0.0 : std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
                if (i == 0 || i + 1 == line.size() || uses.at(line[i]) > 1 || is_met(r, along)) {
                    const auto known = junction_of.try_emplace(line[i], junctions_);
                    junctions_ += known.second ? 1U : 0U;
                    stops_[r].push_back({along, known.first->second});
                }
            }
        }
    }

    bool is_met(std::size_t road, double along) const {
        return std::any_of(meets_.begin(), meets_.end(), [&](const Meet& meet) {
            return at(meet.a, road, along) || at(meet.b, road, along);
        });
    }
    static bool at(const LineSpot& spot, std::size_t road, double along) {
        return spot.road == road && std::abs(spot.along - along) < 1e-6;
    }

    // A cut that lies close behind the last one, or at a vertex, is no new one.
    void stop_at_cuts() {
        std::vector<LineSpot> cuts;
        for (const Meet& meet : meets_) {
            cuts.push_back(meet.a);
            cuts.push_back(meet.b);
        }
        std::sort(cuts.begin(), cuts.end(), [](const LineSpot& a, const LineSpot& b) {
            return std::pair(a.road, a.along) < std::pair(b.road, b.along);
        });
        for (const LineSpot& cut : cuts) {
            if (!stop_before(cut)) {
                stops_[cut.road].push_back({cut.along, junctions_++});
            }
        }
        for (std::vector<Stop>& stops : stops_) {
            std::sort(stops.begin(), stops.end(),
                      [](const Stop& a, const Stop& b) { return a.along < b.along; });
        }
    }

    // The stop at the cut or so little before it that it is the same.
    std::optional<Stop> stop_before(const LineSpot& cut) const {
        std::optional<Stop> best;
        for (const Stop& stop : stops_[cut.road]) {
            const double behind = cut.along - stop.along;
            if (behind > -1e-6 && behind <= merged_cuts(district_.assumptions) + 1e-9 &&
                (!best || stop.along > best->along)) {
                best = stop;
            }
        }
        return best;
    }

    std::size_t junction_at(const LineSpot& spot) const {
        return stop_before(spot).value().junction;
    }

    void become_one(std::size_t a, std::size_t b) {
        for (std::vector<Stop>& stops : stops_) {
            for (Stop& stop : stops) {
                stop.junction = stop.junction == b ? a : stop.junction;
            }
        }
    }

    Streets pieces() const {
        Streets streets;
        std::map<std::size_t, std::size_t> numbers;
        const auto number = [&](std::size_t junction) {
            return numbers.try_emplace(junction, numbers.size()).first->second;
        };
        for (std::size_t r = 0; r < stops_.size(); ++r) {
            for (std::size_t i = 1; i < stops_[r].size(); ++i) {
                const Stop& last = stops_[r][i - 1];
                const Stop& stop = stops_[r][i];
                if (stop.along > last.along) {  // the same vertex twice is no way
                    streets.pieces.push_back(
                        {r, number(last.junction), number(stop.junction), last.along, stop.along});
                }
            }
        }
        streets.junctions = numbers.size();
        return streets;
    }

    const District& district_;
    std::vector<Meet> meets_;
    std::vector<std::vector<Stop>> stops_;  // per road
    std::size_t junctions_ = 0;
};

}  // namespace

Streets streets_of(const District& district) { return StreetBuilder(district).build(); }

}  // namespace farwater::slow
