#include "reports/build_years.h"

#include <memory>
#include <utility>

#include <fmt/format.h>

#include "reports/layers/table_builder.h"
#include "reports/proposals.h"

namespace farwater::reports {
namespace {

io::Value gpm_of_tenths(planning::Gain tenths) {
    return io::Value{static_cast<double>(tenths) / 10.0};
}

using KeptYears = std::shared_ptr<const std::vector<BuildYear>>;

ColumnOf year_number(const KeptYears& years, const char* name, const char* about, int decimals,
                     double BuildYear::* member) {
    return real(
        name, about, [years, member](std::size_t row) { return io::Value{(*years)[row].*member}; },
        decimals);
}

ColumnOf year_count(const KeptYears& years, const char* name, const char* about,
                    std::int64_t BuildYear::* member) {
    return integer(name, about,
                   [years, member](std::size_t row) { return io::Value{(*years)[row].*member}; });
}

ColumnOf year_gpm(const KeptYears& years, const char* name, const char* about,
                  planning::Gain BuildYear::* member) {
    return real(name, about,
                [years, member](std::size_t row) { return gpm_of_tenths((*years)[row].*member); });
}

}  // namespace

void BuildYear::add_gain(const planning::Weights& weights, const planning::GainSum& added,
                         const planning::GainSum& together) {
    tenths += added.tenths;
    newly_held += added.more_held();
    weighted += weighted_gain(weights, added);
    tenths_together = together.tenths;
    newly_held_together = together.more_held();
    weighted_together = weighted_gain(weights, together);
}

io::FeatureTable year_table(const YearTable& called, std::vector<BuildYear> list) {
    const auto years = std::make_shared<const std::vector<BuildYear>>(std::move(list));
    return table(
        {called.name, "What each year builds", called.description},
        {
            year_count(years, "build_year", "From 1; years that only put money by have no row.",
                       &BuildYear::year),
            text(called.column, called.about_column,
                 [years](std::size_t row) { return value_of((*years)[row].what); }),
            year_number(years, "cost", "Of what that year buys.", 0, &BuildYear::cost),
            year_number(years, "upkeep_per_year",
                        "Of all that was bought by then, paid from that year on; 0: none, or not "
                        "known.",
                        0, &BuildYear::upkeep),
            year_number(years, "put_by", "Left at the end of the year for the next.", 0,
                        &BuildYear::put_by),
            year_gpm(years, "gained_gpm", "Added to the years before.", &BuildYear::tenths),
            year_count(years, "newly_held", "Parcels that newly meet their planned flow, likewise.",
                       &BuildYear::newly_held),
            year_number(years, "weighted_gain", "Likewise, as the choice weighs it.", 1,
                        &BuildYear::weighted),
            year_gpm(years, "gained_together_gpm", "With all years before, and what is planned.",
                     &BuildYear::tenths_together),
            year_count(years, "newly_held_together", "With all years before, and what is planned.",
                       &BuildYear::newly_held_together),
        },
        years->size());
}

std::string years_text(double yearly_budget, const std::vector<BuildYear>& years) {
    std::string text =
        fmt::format("\n  With {:.0f} a year, what is left being put by:\n", yearly_budget);
    for (const BuildYear& year : years) {
        text += fmt::format(
            "  year {:>2}: {} for {:.0f}, {:.0f} put by; {:.0f} gpm and {} newly met, {:.0f} gpm "
            "and {} together\n",
            year.year, year.what, year.cost, year.put_by, static_cast<double>(year.tenths) / 10.0,
            year.newly_held, static_cast<double>(year.tenths_together) / 10.0,
            year.newly_held_together);
    }
    return text;
}

}  // namespace farwater::reports
