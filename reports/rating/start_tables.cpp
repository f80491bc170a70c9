// The tables of when brought water begins, and of seasons and periods.
#include <memory>
#include <utility>

#include "reports/rating/rating_tables.h"
#include "reports/rating/rating_totals.h"

namespace farwater::reports {

io::FeatureTable rating_starts(const Findings& findings) {
    const auto list = std::make_shared<const std::vector<StartsWithin>>(starts_within(findings));
    const std::size_t all = parcels_with_buildings(totals_by_category(findings));
    std::vector<ColumnOf> columns{
        real(
            "within_min", "Minutes by the terms' clock.",
            [list](std::size_t row) { return io::Value{in_minutes((*list)[row].within)}; }, 0),
        integer("parcels",
                "Parcels at which apparatus that counts begins the minimum flow by then and holds "
                "it.",
                [list](std::size_t row) { return value_of_count((*list)[row].parcels); }),
        real("parcels_pct", "Per cent of the parcels with a building.",
             [list, all](std::size_t row) {
                 return all == 0 ? io::Value{}
                                 : io::Value{100.0 * static_cast<double>((*list)[row].parcels) /
                                             static_cast<double>(all)};
             }),
    };
    return table({"rating_starts", "When brought water begins",
                  "Worst season and period of each parcel; hose to a source is not in it."},
                 std::move(columns), list->size());
}

io::FeatureTable rating_seasons(const Findings& findings) {
    const auto list = std::make_shared<const std::vector<HeldIn>>(held_by_variant(findings));
    const District& district = findings.district;
    const auto count = [list](std::size_t HeldIn::* member) {
        return [list, member](std::size_t row) { return value_of_count((*list)[row].*member); };
    };
    std::vector<ColumnOf> columns{
        text("season", "Season.",
             [list, &district](std::size_t row) {
                 return value_of(at(district.seasons, (*list)[row].variant.season).name);
             }),
        text("period", "Period of the week.",
             [list, &district](std::size_t row) {
                 return value_of(at(district.periods, (*list)[row].variant.period).name);
             }),
        integer("begun_in_time",
                "Parcels at which apparatus that counts has begun the minimum flow by the terms' "
                "full_flow_min and holds it.",
                count(&HeldIn::in_time)),
        integer("begun_later", "Parcels at which it begins later.", count(&HeldIn::later)),
        integer("not_held", "Parcels at which it is not held.", count(&HeldIn::not_held)),
    };
    return table({"rating_seasons", "Brought water by season and period",
                  "With the apparatus and sources that count; hose to a source is not in it."},
                 std::move(columns), list->size());
}

}  // namespace farwater::reports
