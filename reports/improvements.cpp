#include "reports/improvements.h"

#include <algorithm>
#include <memory>

#include "analyzer/district/building_areas.h"
#include "analyzer/planning/improvement_words.h"
#include "reports/layers/table_builder.h"
#include "reports/proposals.h"

namespace farwater::reports {
namespace {

// A row of improvements.
struct Weighed {
    const ImprovementFindings& findings;
    std::shared_ptr<const std::vector<NewlyMet>> met;

    const WeighedImprovement& operator()(std::size_t row) const { return findings.weighed[row]; }
    const Spending& spending(std::size_t row) const { return (*this)(row).improvement.spending; }
};

std::shared_ptr<const std::vector<NewlyMet>> newly_met_of_all(const ImprovementFindings& findings) {
    auto all = std::make_shared<std::vector<NewlyMet>>();
    const std::vector<double> areas = building_areas(findings.district);
    for (const WeighedImprovement& weighed : findings.weighed) {
        all->push_back(newly_met(findings.district, weighed, areas));
    }
    return all;
}

RowValue count_of(const Weighed& at, std::size_t planning::GainSum::* count) {
    return [at, count](std::size_t row) { return value_of_count(at(row).sum.*count); };
}

RowValue rating_count(const Weighed& at, std::size_t RatingShift::* count) {
    return [at, count](std::size_t row) {
        const std::optional<RatingShift>& rating = at(row).rating;
        return rating ? value_of_count((*rating).*count) : io::Value{};
    };
}

// What one more building that meets its planned flow comes to; empty where that is not known, or no
// building is.
io::Value for_each_building(const std::optional<double>& money, const NewlyMet& met) {
    return money && met.buildings > 0 ? io::Value{*money / static_cast<double>(met.buildings)}
                                      : io::Value{};
}

std::vector<ColumnOf> name_columns(const Weighed& at) {
    return {
        integer("rank", "Order of what they gain, by weight.",
                [](std::size_t row) { return value_of_count(row + 1); }),
        text("name", "What it is and where.",
             [at](std::size_t row) { return value_of(at(row).improvement.name); }),
        text("kind", "What is bought, agreed or staffed.",
             [at](std::size_t row) { return io::Value{word(at(row).improvement.kind)}; }),
        text("offered_by",
             "district_file: an [[improvement]]; proposals: of [proposals]; program: one more of a "
             "usual thing, for nobody named any.",
             [at](std::size_t row) { return io::Value{word(at(row).improvement.by)}; }),
    };
}

std::vector<ColumnOf> change_columns(const Weighed& at) {
    return {
        real("gained_gpm",
             "Shortfall that it takes away: over all parcels, what more of the needed flow is held "
             "in the worst season and period, less what is lost, gpm. Each by itself: two together "
             "may do more or less than both sums.",
             [at](std::size_t row) { return io::Value{at(row).sum.gpm()}; }),
        real(
            "weighted_gain",
            "What the order goes by: gained_gpm, each parcel's times its weight (--weigh-by); with "
            "weight 1 for each parcel it is gained_gpm.",
            [at](std::size_t row) {
                return io::Value{weighted_gain(at.findings.weights, at(row).sum)};
            }),
        real("lost_gpm", "What some parcels lose by it; gained_gpm is less it.",
             [at](std::size_t row) { return io::Value{at(row).sum.lost_gpm()}; }),
        integer("parcels_gaining", "Parcels that hold more of their need by it.",
                count_of(at, &planning::GainSum::gaining)),
        integer("parcels_losing",
                "Parcels of which the answer is less by it. Those of parcels_judged_earlier apart, "
                "the search for the best tankers and fill sites does not try all of them.",
                count_of(at, &planning::GainSum::losing)),
        integer("parcels_judged_earlier",
                "Of parcels_losing, those whose first engine is there sooner: flow is judged from "
                "an earlier minute, when fewer tankers may have come. No water is lost.",
                count_of(at, &planning::GainSum::losing_earlier)),
        integer("newly_held", "Parcels that come to meet their planned flow.",
                count_of(at, &planning::GainSum::newly_held)),
        integer("no_longer_held", "Parcels that no longer do.",
                count_of(at, &planning::GainSum::no_longer_held)),
        integer("better_state", "Parcels whose supply state is better by it.",
                count_of(at, &planning::GainSum::better_state)),
        integer("worse_state", "Parcels whose supply state is worse by it.",
                count_of(at, &planning::GainSum::worse_state)),
        integer("rating_gained",
                "Parcels that come into a rating category with creditable water; empty: no rating "
                "terms are set.",
                rating_count(at, &RatingShift::gained)),
        integer("rating_lost", "Parcels that fall out of one.",
                rating_count(at, &RatingShift::lost)),
    };
}

std::vector<ColumnOf> covered_columns(const Weighed& at) {
    const auto met = at.met;
    return {
        integer("buildings_newly_held",
                "Buildings on newly held parcels, less those on parcels no longer held.",
                [met](std::size_t row) { return io::Value{(*met)[row].buildings}; }),
        real(
            "area_newly_held_sqft", "Their area, as far as it is known.",
            [met](std::size_t row) { return io::Value{(*met)[row].area_sqft}; }, 0),
        real(
            "value_newly_held", "What those parcels are worth; empty: the data do not tell.",
            [met](std::size_t row) { return value_of((*met)[row].value); }, 0),
    };
}

std::vector<ColumnOf> money_columns(const Weighed& at) {
    const auto met = at.met;
    return {
        real(
            "cost", "The district's own figure; empty: not known.",
            [at](std::size_t row) { return value_of(at.spending(row).cost); }, 0),
        real(
            "life_years", "How long it lasts; empty: not known.",
            [at](std::size_t row) { return value_of(at.spending(row).life_years); }, 1),
        real(
            "upkeep_per_year", "The district's own figure; empty: not known.",
            [at](std::size_t row) { return value_of(at.spending(row).upkeep_per_year); }, 0),
        real(
            "yearly_cost", "cost / life_years + upkeep_per_year; empty where one is not known.",
            [at](std::size_t row) { return value_of(at.spending(row).per_year()); }, 0),
        real(
            "cost_per_building",
            "cost by buildings_newly_held; empty where a cost is not known or none is held.",
            [at, met](std::size_t row) {
                return for_each_building(at.spending(row).cost, (*met)[row]);
            },
            0),
        real(
            "yearly_cost_per_building", "yearly_cost by buildings_newly_held; empty likewise.",
            [at, met](std::size_t row) {
                return for_each_building(at.spending(row).per_year(), (*met)[row]);
            },
            0),
    };
}

ColumnOf to_settle_column(const Weighed& at) {
    return text("what_to_settle", "To ask, to settle and to prove before it helps.",
                [at](std::size_t row) {
                    const Improvement& improvement = at(row).improvement;
                    return io::Value{improvement.to_prove.empty()
                                         ? planning::what_to_settle(improvement.kind)
                                         : std::string_view(improvement.to_prove)};
                });
}

// What a row of improvement_gains is about.
struct ChangedProperty {
    std::size_t rank = 0;
    const planning::Change* change = nullptr;
};

std::shared_ptr<const std::vector<ChangedProperty>> changed_properties(
    const ImprovementFindings& findings) {
    auto rows = std::make_shared<std::vector<ChangedProperty>>();
    for (std::size_t rank = 0; rank < findings.weighed.size(); ++rank) {
        for (const planning::Change& change : findings.weighed[rank].changes) {
            rows->push_back({rank, &change});
        }
    }
    return rows;
}

}  // namespace

NewlyMet newly_met(const District& district, const WeighedImprovement& weighed,
                   const std::vector<double>& building_areas) {
    NewlyMet met;
    for (const planning::Change& change : weighed.changes) {
        const int was = change.before.state == SupplyState::held ? 1 : 0;
        const int is = change.after.state == SupplyState::held ? 1 : 0;
        if (was == is) {
            continue;
        }
        const Parcel& parcel = district.parcels[change.row];
        met.buildings += (is - was) * std::max<std::int64_t>(1, parcel.buildings);
        met.area_sqft += (is - was) * building_areas[change.row];
        if (parcel.value) {
            met.value = met.value.value_or(0.0) + (is - was) * static_cast<double>(*parcel.value);
        }
    }
    return met;
}

io::FeatureTable improvements(const ImprovementFindings& findings) {
    const Weighed at{findings, newly_met_of_all(findings)};
    std::vector<ColumnOf> columns = name_columns(at);
    for (auto* make : {&change_columns, &covered_columns, &money_columns}) {
        for (ColumnOf& column : make(at)) {
            columns.push_back(std::move(column));
        }
    }
    columns.push_back(to_settle_column(at));
    return table({"improvements", "What each improvement would do",
                  "Spending side by side: the district as it is and each improvement by itself, in "
                  "order of what it gains. Planning figures: settle and prove each first."},
                 std::move(columns), findings.weighed.size());
}

io::FeatureTable improvement_gains(const ImprovementFindings& findings) {
    const auto rows = changed_properties(findings);
    const District& district = findings.district;
    const auto change = [rows](std::size_t row) -> const planning::Change& {
        return *(*rows)[row].change;
    };
    std::vector<ColumnOf> columns{
        integer("rank", "Of the improvement.",
                [rows](std::size_t row) { return value_of_count((*rows)[row].rank + 1); }),
        text("improvement", "Its name.",
             [&findings, rows](std::size_t row) {
                 return value_of(findings.weighed[(*rows)[row].rank].improvement.name);
             }),
        text("parcel_id", "The property.",
             [&district, change](std::size_t row) {
                 return value_of(district.parcels[change(row).row].id);
             }),
        real("needed_gpm", "What it needs, gpm.",
             [change](std::size_t row) { return value_of(change(row).after.needed); }),
        real("before_gpm", "The larger of cautious_gpm and runner_up_gpm as it is now, gpm.",
             [change](std::size_t row) {
                 return value_of(supply::flow_from_start(change(row).before));
             }),
        real("after_gpm", "The same with the improvement, gpm.",
             [change](std::size_t row) {
                 return value_of(supply::flow_from_start(change(row).after));
             }),
        real("gained_gpm", "Of what is needed; flow beyond the need is no gain.",
             [change](std::size_t row) {
                 return io::Value{static_cast<double>(change(row).gain()) / 10.0};
             }),
        text("state_before", "Supply state as it is now.",
             [change](std::size_t row) { return io::Value{word(change(row).before.state)}; }),
        text("state_after", "The same with the improvement.",
             [change](std::size_t row) { return io::Value{word(change(row).after.state)}; }),
    };
    return layer({"improvement_gains", "Who gains by the improvements",
                  "A point at the house of each property whose answer an improvement changes, by "
                  "rank of the improvement."},
                 io::ShapeKind::point, std::move(columns), rows->size(),
                 [&district, change](std::size_t row) {
                     return Polyline{district.parcels[change(row).row].house};
                 });
}

}  // namespace farwater::reports
