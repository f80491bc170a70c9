#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include <fmt/format.h>

#include "sample_region/generate/department.h"
#include "sample_region/generate/random.h"
#include "sample_region/generate/source_facts.h"
#include "sample_region/generate/village.h"

namespace farwater::sample {
namespace {

constexpr double gallons_per_cubic_metre = 264.172;
constexpr double hydrant_spacing = 165;
constexpr std::size_t acres_cell = 36;  // of a row: what stands under ACRES

// One row before it is numbered; everything is text, as it was typed. Blank = not known.
struct Source {
    std::string name, kind, standing, by, tested, use, parcel, system, months, frost_proof, rate,
        usable, inflow, places, reach, no_engine, lift, all_weather, lane, note, system_rate;
    HydrantFacts hydrant;
    PipeFacts pipe;
    PondFacts pond;
    PaperFacts papers;
    Point place;
};

class Sources {
public:
    Sources(const Township& township, const Stamp& stamp)
        : township_(township), stamp_(stamp), random_(mixed(stamp.seed, 121U)) {}

    TypedTable table() {
        add_hydrants();
        add_river();
        add_lake();
        add_ponds();
        add_cistern();
        TypedTable table;
        table.header = {"ID",      "NAME",       "KIND",   "STANDING", "BY",       "TESTED",
                        "USE",     "OWN_PARCEL", "SYSTEM", "MONTHS",   "FROSTOK",  "GPM",
                        "GALLONS", "INFLOW",     "PLACES", "REACH",    "NOENGINE", "LIFT_FT",
                        "ALLWX",   "LANE",       "NOTE"};
        const std::vector<std::string> facts = fact_headers();
        table.header.insert(table.header.end(), facts.begin(), facts.end());
        int number = 0;
        for (const Source& s : sources_) {
            table.rows.push_back({cells_of(s, ++number), s.place});
        }
        return table;
    }

private:
    std::vector<std::string> cells_of(const Source& s, int number) const {
        std::vector<std::string> cells{fmt::format("{}W{:02}", stamp_.prefix, number),
                                       s.name,
                                       s.kind,
                                       s.standing,
                                       s.by,
                                       s.tested,
                                       s.use,
                                       s.parcel,
                                       s.system,
                                       s.months,
                                       s.frost_proof,
                                       s.rate,
                                       s.usable,
                                       s.inflow,
                                       s.places,
                                       s.reach,
                                       s.no_engine,
                                       s.lift,
                                       s.all_weather,
                                       s.lane,
                                       s.note};
        const std::vector<std::string> facts =
            fact_cells(s.hydrant, s.pipe, s.pond, s.system_rate, s.papers);
        cells.insert(cells.end(), facts.begin(), facts.end());
        return cells;
    }

    RoadKind kind_of(const RoadLine& road) const {
        return township_.routes[static_cast<std::size_t>(road.route)].kind;
    }

    // Along the village's streets; the main under Main Street is the strong one.
    void add_hydrants() {
        std::vector<Point> taken;
        for (const RoadLine& road : township_.roads) {
            const VillageFrame& frame = township_.ground.village;
            if (!in_village(frame, road.line.front()) || !in_village(frame, road.line.back())) {
                continue;
            }
            for (double at = 20; at < metres_along(road.line); at += 35) {
                const Station station = station_at(road.line, at);
                const Point p = station.place - left_of(station.direction) * 5;
                const bool near = std::ranges::any_of(
                    taken, [&](Point other) { return metres_between(other, p) < hydrant_spacing; });
                if (!near) {
                    taken.push_back(p);
                    add_hydrant(road, p);
                }
            }
        }
    }

    void add_hydrant(const RoadLine& road, Point p) {
        const std::string& street = township_.routes[static_cast<std::size_t>(road.route)].name;
        ++hydrants_;
        const double draw = random_.unit();
        Source s;
        s.name =
            fmt::format("Hydrant {} {}", street, 1 + static_cast<int>(road.address_start / 100));
        s.kind = "hydrant";
        s.system = stamp_.prefix + "VILLAGE WATER";
        s.usable = "160000";
        s.inflow = "180";
        s.all_weather = "Y";
        s.lane = "through";
        s.note = "village precinct; storage tank on the hill";
        const bool strong = kind_of(road) == RoadKind::state;
        s.places = strong ? "2" : "";
        if (draw < 0.55) {
            s.standing = "tested";
            s.tested = random_.chance(0.75) ? "2024-06-12" : "2019-09-03";
            // As the superintendent's list has it; the newer tests came with their pressures.
            s.rate = strong ? "1000" : random_.chance(0.5) ? "750" : "850";
            if (s.tested == "2024-06-12") {
                s.rate = "";
                s.hydrant = tested_hydrant(hydrants_, strong);
            }
        } else {
            s.standing = "declared";
            s.rate = draw < 0.8 ? (strong ? "900" : "600") : "";
            if (s.rate.empty()) {
                s.hydrant = untested_hydrant(hydrants_);
            }
        }
        s.system_rate = "1500";
        s.use = "rating";
        s.by = "Water superintendent";
        s.place = p;
        sources_.push_back(std::move(s));
    }

    // At bridges: one dry hydrant that was tested, else banks where engines have drafted.
    void add_river() {
        bool has_dry_hydrant = false;
        for (const RoadLine& road : township_.roads) {
            for (const Stretch& stretch : road.stretches) {
                const double length = metres_along(road.line);
                if (stretch.what != Stretch::What::bridge || stretch.to + 30 > length) {
                    continue;
                }
                const Station station = station_at(road.line, stretch.to + 12);
                Source s;
                const std::string& name =
                    township_.routes[static_cast<std::size_t>(road.route)].name;
                s.place = station.place + left_of(station.direction) * 9;
                s.usable = "unlimited";
                s.system = stamp_.prefix + "RIVER";
                s.places = "1";
                if (!has_dry_hydrant && kind_of(road) != RoadKind::state) {
                    has_dry_hydrant = true;
                    s.name = "Dry hydrant " + name + " bridge";
                    s.kind = "dry_hydrant";
                    s.standing = "tested";
                    s.tested = "2025-09-20";
                    s.rate = "1000";
                    s.lift = "9";
                    s.pipe = plastic_pipe(45, 8, 2, 0, "1.0");
                    s.frost_proof = "Y";
                    s.places = "2";
                    s.use = "rating";
                    s.papers.agreement = "town right of way";
                } else {
                    s.name = "River at " + name;
                    s.kind = "draft_site";
                    s.standing = "declared";
                    s.months = "4-11";
                    s.rate = "750";
                    s.lift = "11";
                    s.note = "soft shoulder in spring";
                }
                s.by = "Water supply officer";
                sources_.push_back(std::move(s));
            }
        }
    }

    // The shore's point nearest to a road of this kind; none within 170 m.
    std::optional<Point> shore_near(RoadKind kind) const {
        double best = 170;
        std::optional<Point> place;
        for (const RoadLine& road : township_.roads) {
            if (kind_of(road) != kind) {
                continue;
            }
            for (const Polyline& shore : township_.ground.terrain.lakes) {
                for (const Point p : shore) {
                    const double off = metres_to_line(p, road.line);
                    if (off < best) {
                        best = off;
                        place = p;
                    }
                }
            }
        }
        return place;
    }

    void add_lake() {
        if (const auto landing = shore_near(RoadKind::paved_lane)) {
            Source s;
            s.name = township_.lake_name + " landing";
            s.kind = "dry_hydrant";
            s.standing = "tested";
            s.tested = "2025-10-11";
            s.by = "Water supply officer";
            s.system = stamp_.prefix + "LAKE";
            s.rate = "1200";
            s.usable = "unlimited";
            s.places = "2";
            s.frost_proof = "Y";
            s.lift = "7";
            s.pipe = plastic_pipe(60, 8, 1, 2, "1.0");
            s.all_weather = "Y";
            s.use = "rating";
            s.papers = {"town landing", "R. Alder PE 4711", "2024-11-18", "Lake Road"};
            s.place = *landing;
            sources_.push_back(std::move(s));
        }
        if (const auto beach = shore_near(RoadKind::private_road)) {
            Source s;
            s.name = township_.lake_name + " camp beach";
            s.kind = "draft_site";
            s.standing = "declared";
            s.by = "Camp association";
            s.system = stamp_.prefix + "LAKE";
            s.months = "5-10";
            s.rate = "500";
            s.usable = "unlimited";
            s.lane = "dead_end";
            s.place = *beach;
            sources_.push_back(std::move(s));
        }
    }

    // Half of the water at drought level, 0.9 m of usable depth: rounded down to 5,000 gal.
    static std::string usable_gallons(const Pond& pond) {
        const double gallons = pond.area * 0.5 * 0.9 * gallons_per_cubic_metre;
        return fmt::format("{}", static_cast<int>(gallons / 5000) * 5000);
    }

    void add_ponds() {
        std::vector<const Pond*> ponds;
        for (const Pond& pond : township_.ponds) {
            if (pond.metres_to_road < 60) {
                ponds.push_back(&pond);
            }
        }
        std::ranges::stable_sort(ponds,
                                 [](const Pond* a, const Pond* b) { return a->area > b->area; });
        for (std::size_t i = 0; i < ponds.size() && i < 9; ++i) {
            add_pond(*ponds[i], i);
        }
    }

    // The property whose house is nearest to where an engine stands at it.
    std::string owner_of(const Pond& pond) const {
        std::string owner;
        double nearest = std::numeric_limits<double>::infinity();
        for (std::size_t i = 0; i < township_.holdings.size(); ++i) {
            const Holding& holding = township_.holdings[i];
            const double squared = distance_squared(holding.house, pond.landing);
            if (!holding.buildings.empty() && squared < nearest) {
                nearest = squared;
                owner = parcel_id(stamp_, i);
            }
        }
        return owner;
    }

    void add_pond(const Pond& pond, std::size_t rank) {
        Source s;
        s.name = pond.name.empty() ? fmt::format("Pond no. {}", rank + 1) : pond.name;
        s.system = fmt::format("{}POND {}", stamp_.prefix, rank + 1);
        s.usable = usable_gallons(pond);
        s.place = pond.landing;
        s.kind = rank < 3 ? "dry_hydrant" : "draft_site";
        s.standing = rank < 2 ? "tested" : rank < 7 ? "declared" : "mapped";
        s.by = rank < 7 ? "Water supply officer" : "";
        if (rank < 3) {
            s.tested = rank == 0 ? "2025-08-30" : rank == 1 ? "2022-05-14" : "";
            s.rate = rank == 0 ? "1000" : "750";
            s.frost_proof = "Y";
            s.lift = "10";
            s.pipe = rank == 0 ? plastic_pipe(50, 8, 2, 0, "1.0") : plastic_pipe(65, 6, 2, 1);
            s.places = rank == 0 ? "2" : "";
            s.use = "rating";
            if (rank == 0) {
                s.all_weather = "Y";
                s.papers = {"written, until 2031", "R. Alder PE 4711", "2024-11-18", ""};
            }
        } else if (rank < 7) {
            s.months = rank == 4 ? "5-10" : "";
            s.rate = rank == 3 ? "600" : "";
        }
        if (rank == 2 || rank == 3) {  // the officer gave area and depth; gallons follow
            s.usable = "";
            s.pond = pond_at_drought(pond.area, rank == 2 ? "6" : "5", rank == 2);
            s.lift = rank == 2 ? s.lift : "8";
        }
        if (rank == 4) {
            s.use = "own_parcel";
            s.parcel = owner_of(pond);
            s.note = "the owner allows it for a fire of his own";
        }
        if (rank == 5) {
            s.usable = "";
            s.note = "never sounded";
        }
        if (rank == 6) {
            s.reach = "portable_pump";
            s.rate = "250";
            s.note = "carry the pump in over the wall";
        }
        if (rank >= 7) {
            s.usable = "";
            s.note = "seen from the road; nobody has asked the owner";
        }
        sources_.push_back(std::move(s));
    }

    void add_cistern() {
        if (township_.hamlets.empty()) {
            return;
        }
        const Place& hamlet = township_.hamlets.back();
        Source s;
        s.name = hamlet.name + " cistern";
        s.kind = "cistern";
        s.use = "rating";
        s.papers.agreement = "town lot";
        s.standing = "tested";
        s.tested = "2025-11-02";
        s.by = "Chief";
        s.rate = "800";
        s.usable = "30000";
        s.frost_proof = "Y";
        s.all_weather = "Y";
        s.lift = "10";
        s.pipe = plastic_pipe(25, 6, 1, 0, "1.0");
        s.place = hamlet.place + Point{18, 12};
        sources_.push_back(std::move(s));
    }

    const Township& township_;
    const Stamp& stamp_;
    Random random_;
    int hydrants_ = 0;
    std::vector<Source> sources_;
};

}  // namespace

TypedTable source_table(const Township& township, const Stamp& stamp) {
    return Sources(township, stamp).table();
}

TypedTable first_sources(const TypedTable& all, std::size_t count) {
    // Farthest-first among those that may count, beginning with the first non-hydrant.
    const auto counts = [](const PointRow& row) {
        const bool has_volume = !row.cells[12].empty() || !row.cells[acres_cell].empty();
        return row.cells[3] != "mapped" && row.cells[6] != "own_parcel" && has_volume;
    };
    TypedTable chosen{all.header, {}};
    while (chosen.rows.size() < count) {
        const PointRow* best = nullptr;
        double farthest = 1;
        for (const PointRow& row : all.rows) {
            double off = row.cells[2] == "hydrant" ? 4e4 : 1e5;
            for (const PointRow& other : chosen.rows) {
                off = std::min(off, metres_between(other.place, row.place));
            }
            if (counts(row) && off > farthest) {
                best = &row;
                farthest = off;
            }
        }
        if (best == nullptr) {
            break;
        }
        chosen.rows.push_back(*best);
    }
    return chosen;
}

}  // namespace farwater::sample
