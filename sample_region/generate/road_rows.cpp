#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "sample_region/generate/random.h"
#include "sample_region/generate/records.h"
#include "sample_region/generate/village.h"

namespace farwater::sample {
namespace {

struct Codes {
    std::string_view road_class, access, months;
    int width_low, width_high;  // feet
    int speed;                  // mph, 0 = never posted
    double known;               // share of roads whose width the county knows
};

Codes codes_of(RoadKind kind) {
    switch (kind) {
        case RoadKind::state:
            return {"II", "O", "", 24, 28, 50, 1.0};
        case RoadKind::street:
            return {"IV", "O", "", 20, 26, 25, 0.9};
        case RoadKind::paved:
            return {"V-P", "O", "", 20, 22, 40, 0.85};
        case RoadKind::paved_lane:
            return {"V-L", "O", "", 14, 17, 30, 0.7};
        case RoadKind::gravel:
            return {"V-G", "O", "", 16, 20, 35, 0.75};
        case RoadKind::narrow:
            return {"V-N", "O", "", 10, 13, 0, 0.6};
        case RoadKind::private_road:
            return {"PR", "P", "", 10, 15, 0, 0.5};
        case RoadKind::seasonal:
            return {"VI", "N", "", 9, 12, 0, 0.5};
        case RoadKind::gated:
            return {"V-G", "G", "", 12, 15, 0, 0.8};
        case RoadKind::drive:
            return {"DR", "P", "", 8, 11, 0, 0.0};
    }
    return {};
}

constexpr int posted_bridge_tons = 20;  // 40,000 lb: engines and empty tankers, not loaded ones
constexpr double apart = 4;             // metres between two cuts, and from a line's ends

struct Cut {
    double station;
    Point place;
};

class Rows {
public:
    Rows(const Township& township, const Stamp& stamp) : township_(township), stamp_(stamp) {
        find_posted_bridge();
    }

    std::vector<RoadRow> rows(std::size_t drives, double shortest_drive) {
        std::vector<RoadRow> drawn = draw_drives(drives, shortest_drive);
        std::vector<RoadRow> result;
        for (std::size_t i = 0; i < township_.roads.size(); ++i) {
            cut_up(i, result);
        }
        std::move(drawn.begin(), drawn.end(), std::back_inserter(result));
        return result;
    }

private:
    const Route& route(const RoadLine& road) const {
        return township_.routes[static_cast<std::size_t>(road.route)];
    }

    // A bridge and the road line that it is on.
    struct Bridge {
        std::size_t road;
        Point place;
    };
    std::vector<Bridge> bridges() const {
        std::vector<Bridge> result;
        for (std::size_t i = 0; i < township_.roads.size(); ++i) {
            for (const Stretch& stretch : township_.roads[i].stretches) {
                if (stretch.what == Stretch::What::bridge) {
                    result.push_back({i, station_at(township_.roads[i].line, stretch.from).place});
                }
            }
        }
        return result;
    }
    bool is_state(const Bridge& bridge) const {
        return route(township_.roads[bridge.road]).kind == RoadKind::state;
    }

    // Of the town's bridges the nearest to the village that is not beside a state road's.
    void find_posted_bridge() {
        double best = std::numeric_limits<double>::infinity();
        const std::vector<Bridge> all = bridges();
        for (const Bridge& bridge : all) {
            const bool beside = std::ranges::any_of(all, [&](const Bridge& other) {
                return is_state(other) && metres_between(other.place, bridge.place) < 450;
            });
            const double off =
                metres_between(bridge.place, township_.ground.village.centre) + (beside ? 1e6 : 0);
            if (!is_state(bridge) && off < best) {
                best = off;
                posted_ = bridge.road;
            }
        }
    }

    RoadRow blank_row(const RoadLine& road) const {
        const Codes codes = codes_of(route(road).kind);
        Random random(mixed(stamp_.seed, 111U, static_cast<std::uint64_t>(road.route)));
        RoadRow row;
        row.name = route(road).name;
        row.road_class = codes.road_class;
        row.access = codes.access;
        row.months = road.route == township_.lake_route ? "4-11" : codes.months;
        row.one_way = road.one_way == OneWay::forward ? "F" : "B";
        row.width_ft =
            random.chance(codes.known) ? random.whole(codes.width_low, codes.width_high) : 0;
        row.speed_mph = random.chance(0.8) || codes.speed > 40 ? codes.speed : 0;
        if (row.speed_mph > 30 && in_village(township_.ground.village, road.line.front()) &&
            in_village(township_.ground.village, road.line.back())) {
            row.speed_mph = 30;
        }
        return row;
    }

    bool is_free(std::size_t road, double station, double length) const {
        if (station < apart || station > length - apart) {
            return false;
        }
        const auto& stretches = township_.roads[road].stretches;
        const bool on_stretch = std::ranges::any_of(stretches, [&](const Stretch& stretch) {
            return station > stretch.from - apart && station < stretch.to + apart;
        });
        return !on_stretch && std::ranges::none_of(cuts_[road], [&](const Cut& cut) {
            return std::abs(cut.station - station) < apart;
        });
    }

    std::vector<RoadRow> draw_drives(std::size_t wanted, double shortest) {
        std::vector<const Holding*> longest;
        for (const Holding& holding : township_.holdings) {
            if (holding.drive && holding.setback >= shortest) {
                longest.push_back(&holding);
            }
        }
        std::ranges::stable_sort(
            longest, [](const Holding* a, const Holding* b) { return a->setback > b->setback; });
        cuts_.resize(township_.roads.size());
        std::vector<RoadRow> rows;
        for (const Holding* holding : longest) {
            const auto road = static_cast<std::size_t>(holding->drive->road);
            const double length = metres_along(township_.roads[road].line);
            if (rows.size() == wanted) {
                break;
            }
            if (!is_free(road, holding->drive->station, length)) {
                continue;
            }
            cuts_[road].push_back({holding->drive->station, holding->drive->line.front()});
            const Codes codes = codes_of(RoadKind::drive);
            RoadRow row;
            row.road_class = codes.road_class;
            row.access = codes.access;
            row.one_way = "B";
            row.line = holding->drive->line;
            rows.push_back(std::move(row));
        }
        return rows;
    }

    // Pieces between cuts and around stretches.
    void cut_up(std::size_t index, std::vector<RoadRow>& rows) const {
        const RoadLine& road = township_.roads[index];
        const double length = metres_along(road.line);
        std::vector<double> ends{0, length};
        for (const Cut& cut : cuts_[index]) {
            ends.push_back(cut.station);
        }
        for (const Stretch& stretch : road.stretches) {
            ends.push_back(stretch.from);
            ends.push_back(stretch.to);
        }
        std::ranges::sort(ends);
        const RoadRow blank = blank_row(road);
        double from = 0;
        for (const double to : ends) {
            if (to - from < 0.5) {
                continue;
            }
            RoadRow row = blank;
            row.line = piece(road.line, from, length - to < 0.5 ? length : to);
            mark(row, index, (from + to) / 2);
            rows.push_back(std::move(row));
            from = to;
        }
    }

    void mark(RoadRow& row, std::size_t index, double middle) const {
        for (const Stretch& stretch : township_.roads[index].stretches) {
            if (middle > stretch.from && middle < stretch.to) {
                row.bridge = row.bridge || stretch.what == Stretch::What::bridge;
                row.rail_crossing =
                    row.rail_crossing || stretch.what == Stretch::What::rail_crossing;
            }
        }
        if (row.bridge && index == posted_) {
            row.posted_tons = posted_bridge_tons;
        }
    }

    const Township& township_;
    const Stamp& stamp_;
    std::size_t posted_ = std::numeric_limits<std::size_t>::max();
    std::vector<std::vector<Cut>> cuts_;
};

}  // namespace

std::vector<RoadRow> road_rows(const Township& township, const Stamp& stamp, std::size_t drives,
                               double shortest_drive) {
    return Rows(township, stamp).rows(drives, shortest_drive);
}

}  // namespace farwater::sample
