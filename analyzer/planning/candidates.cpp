#include "analyzer/planning/candidates.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "analyzer/planning/number_words.h"
#include "analyzer/planning/proposed_source.h"
#include "analyzer/planning/stand_ins.h"
#include "analyzer/planning/strong_water.h"
#include "analyzer/planning/worth_a_look.h"
#include "analyzer/supply/source_rate.h"
#include "analyzer/supply/source_volume.h"

namespace farwater::planning {
namespace {

constexpr double gallons_per_acre_foot = square_feet_per_acre * gallons_per_cubic_foot;
constexpr double whole_gallons = 1000.0;
constexpr std::size_t most_told_one_by_one = 50;
constexpr std::array reasons_to_pass_over{PassedOver::strong_source_near,
                                          PassedOver::nothing_missing_near, PassedOver::place_near,
                                          PassedOver::beyond_the_most};

std::optional<double> known_cost(double cost) {
    return cost > 0.0 ? std::optional(cost) : std::nullopt;
}

Origin origin_of(const RoadsidePlace& place) {
    return place.parcel.valid() ? Origin::public_parcel : Origin::junction;
}

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

    // The ways to one water.
    void look_at(std::span<const RoadNearWater> ways) {
        const RoadNearWater& first = ways.front();
        if (!first.road.valid()) {
            leave_out(at_shore(first, 1),
                      "no road that a tanker may use comes within " +
                          whole_words(in_feet(district_.assumptions.new_pipe_reach)) +
                          " ft of its shore (new_pipe_reach_ft)");
            return;
        }
        if (first.source_there.valid() && water_.counts[first.source_there.position()]) {
            const WaterSource& there = at(district_.sources, first.source_there);
            leave_out(at_shore(first, 1), "has a source already: " + there.id +
                                              (there.name.empty() ? "" : " " + there.name));
            return;
        }
        const std::size_t before = found_.candidates.size();
        for (std::size_t i = 0; i < ways.size(); ++i) {
            look_at_volume(at_shore(ways[i], i + 1), district_.mapped_water[first.water]);
        }
        tell_stand_ins(found_.candidates, before, district_.assumptions.one_water_within);
    }

    // `missing` as in CisternNeeds.
    void look_at(std::span<const RoadsidePlace> places, std::span<const Gain> missing) {
        const std::vector<Point> strong = as_strong_as_cisterns();
        const std::vector<PassedOver> passed =
            passed_over(district_, {.places = places, .missing = missing, .as_strong = strong});
        for (std::size_t i = 0; i < places.size(); ++i) {
            if (passed[i] == PassedOver::no) {
                keep_or_leave_out({.source = cistern_at(district_, places[i]),
                                   .cost = known_cost(district_.assumptions.cistern_cost),
                                   .origin = origin_of(places[i])});
            }
        }
        for (const PassedOver reason : reasons_to_pass_over) {
            pass_over(reason, places, passed);
        }
    }

    Candidates take() { return std::move(found_); }

private:
    Candidate at_shore(const RoadNearWater& way, std::size_t nth) const {
        Candidate candidate{.source = dry_hydrant_at(district_, way, nth),
                            .cost = known_cost(district_.assumptions.dry_hydrant_cost),
                            .origin = Origin::mapped_water};
        if (way.source_there.valid()) {
            candidate.caution = "source " + at(district_.sources, way.source_there).id +
                                " is there and does not count yet: look at that first";
        }
        return candidate;
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
            leave_out(candidate, whole_words(gal) + " gal would take " +
                                     tenths_words(in_feet(*candidate.drawdown)) +
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
            // A rate first: water that cannot be lifted gives none, and so has no gallons to prove.
            const ProblemId why = rate.obstacle ? *rate.obstacle : *volume.obstacle;
            leave_out(candidate, std::string(kind_of(why).what) + lift_in_words(candidate.source));
            return;
        }
        candidate.rate = rate.rate;
        found_.candidates.push_back(std::move(candidate));
    }

    static std::string lift_in_words(const WaterSource& source) {
        return source.suction.lift
                   ? " (lift " + tenths_words(in_feet(*source.suction.lift)) + " ft)"
                   : "";
    }

    // Where sources are, or would be by the officer's own ideas, that do no less than a proposed
    // cistern does, in every season.
    std::vector<Point> as_strong_as_cisterns() const {
        const WaterSource cistern = cistern_at(district_, {.road = RoadIndex(0)});
        const Flow rate = supply::source_rate(cistern, district_, false, std::nullopt).rate;
        const Volume usable = district_.assumptions.new_cistern;
        std::vector<Point> places = water_as_strong(district_, water_, rate, usable);
        for (const Candidate& own : found_.candidates) {
            const std::optional<UsableWater>& water = own.source.usable;
            if (own.origin == Origin::own && own.rate >= rate && water &&
                (water->is_unlimited() || water->volume() >= usable)) {
                places.push_back(own.source.place);
            }
        }
        return places;
    }

    // Counted, and told one by one where they are few.
    void pass_over(PassedOver reason, std::span<const RoadsidePlace> places,
                   std::span<const PassedOver> passed) {
        const auto count = static_cast<std::size_t>(std::ranges::count(passed, reason));
        if (count == 0) {
            return;
        }
        const std::string words = reason_of(reason, district_.assumptions);
        found_.passed_over.push_back({words, count});
        for (std::size_t i = 0; count <= most_told_one_by_one && i < places.size(); ++i) {
            if (passed[i] == reason) {
                leave_out(
                    {.source = cistern_at(district_, places[i]), .origin = origin_of(places[i])},
                    words);
            }
        }
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
                           const Surroundings& around) {
    Finding finding(district, water);
    for (const ProposedSource& proposed : district.proposals) {
        finding.look_at(proposed);
    }
    for (auto way = around.near_water.begin(); way != around.near_water.end();) {
        const auto next =
            std::find_if(way, around.near_water.end(),
                         [&](const RoadNearWater& other) { return other.water != way->water; });
        finding.look_at(std::span(way, next));
        way = next;
    }
    if (district.assumptions.most_new_cisterns > 0 && !district.roads.empty()) {
        finding.look_at(around.roadside, around.missing);
    }
    return finding.take();
}

}  // namespace farwater::planning
