#include "analyzer/planning/candidates.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "analyzer/supply/source_rate.h"
#include "analyzer/supply/source_volume.h"

namespace farwater::planning {
namespace {

constexpr double gallons_per_acre_foot = 325851.43;  // 43,560 cubic feet of 7.48052 gal
constexpr double square_metres_per_acre = 4046.8564224;
constexpr double whole_gallons = 1000.0;

std::string in_whole(double value) { return std::to_string(std::lround(value)); }

std::string in_tenths_of(double value) {
    const long tenths = std::lround(value * 10.0);
    return std::to_string(tenths / 10) + "." + std::to_string(std::abs(tenths % 10));
}

Length up_to_tenth_of_foot(Length length) { return feet(std::ceil(in_feet(length) * 10.0) / 10.0); }

class Finding {
public:
    Finding(const District& district, const supply::WaterReview& water)
        : district_(district), water_(water), storage_(supply::hydrant_storage(district)) {
        for (const WaterSource& source : district.sources) {
            ids_.insert(source.id);
        }
    }

    void look_at(const ProposedSource& proposed) {
        Candidate candidate{.source = proposed.source, .cost = proposed.cost};
        keep_or_leave_out(std::move(candidate));
    }

    void look_at(const RoadNearWater& road) {
        const MappedWater& water = district_.mapped_water[road.water];
        Candidate candidate{.source = dry_hydrant_at(road, water), .origin = Origin::mapped_water};
        const double cost = district_.assumptions.dry_hydrant_cost;
        candidate.cost = cost > 0.0 ? std::optional(cost) : std::nullopt;
        if (!road.road.valid()) {
            leave_out(candidate, "no road that a tanker may use comes within " +
                                     in_whole(in_feet(district_.assumptions.new_pipe_reach)) +
                                     " ft of its shore (new_pipe_reach_ft)");
        } else if (road.source_there.valid() && water_.counts[road.source_there.position()]) {
            const WaterSource& there = at(district_.sources, road.source_there);
            leave_out(candidate, "has a source already: " + there.id +
                                     (there.name.empty() ? "" : " " + there.name));
        } else {
            if (road.source_there.valid()) {
                candidate.caution = "source " + at(district_.sources, road.source_there).id +
                                    " is there and does not count yet: look at that first";
            }
            look_at_volume(std::move(candidate), water);
        }
    }

    Candidates take() { return std::move(found_); }

private:
    WaterSource dry_hydrant_at(const RoadNearWater& road, const MappedWater& water) const {
        const Assumptions& assumptions = district_.assumptions;
        WaterSource source;
        source.id = "DH-" + std::to_string(water.row + 1);
        source.name = "Dry hydrant at " +
                      (water.name.empty() ? "water in " + row_name(water.row) : water.name);
        source.place = road.road.valid() ? road.on_road : water.place;
        source.kind = SourceKind::dry_hydrant;
        source.standing = Standing::declared;
        source.rate = assumptions.new_source;
        source.suction.pipe =
            feet(std::ceil(in_feet(road.apart + assumptions.new_pipe_beyond_shore)));
        source.suction.pipe_diameter = assumptions.new_pipe_bore;
        source.suction.material = PipeMaterial::plastic;
        if (road.road_height && road.water_height) {
            const Length above = std::max(metres(0), *road.road_height - *road.water_height);
            source.suction.lift =
                up_to_tenth_of_foot(above + assumptions.new_pump_height + assumptions.drought_drop);
        }
        return source;
    }

    // Gallons that last as long as flow is judged, and whether the water could hold them.
    void look_at_volume(Candidate candidate, const MappedWater& water) {
        const Assumptions& assumptions = district_.assumptions;
        const supply::SourceRate rate =
            supply::source_rate(candidate.source, district_, false, std::nullopt);
        const Duration lasts = std::max(minutes(120), assumptions.duration);
        const double gal = std::ceil(in_gallons(rate.rate * lasts) / whole_gallons) * whole_gallons;
        candidate.to_prove = gallons(gal);
        candidate.source.usable = UsableWater::of(*candidate.to_prove);
        if (water.area_m2 > 0.0) {
            const double acre = water.area_m2 / square_metres_per_acre;
            candidate.drawdown = feet(gal / gallons_per_acre_foot / acre);
        }
        if (!rate.obstacle && candidate.drawdown &&
            *candidate.drawdown > assumptions.most_drawdown) {
            leave_out(candidate, in_whole(gal) + " gal would take " +
                                     in_tenths_of(in_feet(*candidate.drawdown)) +
                                     " ft off its whole area (most_drawdown_ft)");
            return;
        }
        keep_or_leave_out(std::move(candidate));
    }

    void keep_or_leave_out(Candidate candidate) {
        if (!ids_.insert(candidate.source.id).second) {
            leave_out(candidate, "has the id of a source or another proposal");
            return;
        }
        const supply::SourceVolume volume =
            supply::source_volume(candidate.source, storage_, district_.assumptions);
        const supply::SourceRate rate =
            supply::source_rate(candidate.source, district_, false, std::nullopt);
        if (volume.obstacle || rate.obstacle) {
            const ProblemId why = volume.obstacle ? *volume.obstacle : *rate.obstacle;
            leave_out(candidate, std::string(kind_of(why).what) + lift_in_words(candidate.source));
            return;
        }
        candidate.rate = rate.rate;
        found_.candidates.push_back(std::move(candidate));
    }

    static std::string lift_in_words(const WaterSource& source) {
        return source.suction.lift
                   ? " (lift " + in_tenths_of(in_feet(*source.suction.lift)) + " ft)"
                   : "";
    }

    void leave_out(const Candidate& candidate, std::string reason) {
        found_.left_out.push_back({candidate.source.id, candidate.source.name, candidate.origin,
                                   candidate.source.place, std::move(reason)});
    }

    const District& district_;
    const supply::WaterReview& water_;
    supply::StorageBySystem storage_;
    std::set<std::string> ids_;
    Candidates found_;
};

}  // namespace

Candidates find_candidates(const District& district, const supply::WaterReview& water,
                           std::span<const RoadNearWater> roads) {
    Finding finding(district, water);
    for (const ProposedSource& proposed : district.proposals) {
        finding.look_at(proposed);
    }
    for (const RoadNearWater& road : roads) {
        finding.look_at(road);
    }
    return finding.take();
}

}  // namespace farwater::planning
