#include "reports/cautions.h"
#include "reports/comparison/comparison_results.h"
#include "reports/comparison/comparison_words.h"
#include "reports/json/json_cells.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

double tenths_in_gpm(std::int64_t tenths) { return static_cast<double>(tenths) / 10.0; }

json gpm_or_null(const std::optional<std::int64_t>& tenths) {
    return tenths ? json(tenths_in_gpm(*tenths)) : json(nullptr);
}

json totals_json(const planning::AnswerTotals& totals) {
    return {{"places", totals.places},
            {"improved", totals.improved},
            {"met", totals.met},
            {"not_known", totals.not_known},
            {"short_gpm", gpm_or_null(totals.short_tenths)}};
}

json parts_json(const std::optional<planning::ShortfallParts>& parts) {
    if (!parts) {
        return nullptr;
    }
    const auto gpm = [](std::int64_t twentieths) { return static_cast<double>(twentieths) / 20.0; };
    return {{"water", gpm(parts->water)},
            {"need", gpm(parts->need)},
            {"came_and_gone", gpm(parts->came_and_gone)},
            {"buildings", gpm(parts->buildings)},
            {"data", gpm(parts->data)}};
}

json changes_json(const planning::AnswerChanges& changes) {
    json happened = json::object();
    for (std::size_t i = 0; i < changes.by_happening.size(); ++i) {
        happened[std::string(planning::word(static_cast<planning::Happened>(i)))] =
            changes.by_happening[i];
    }
    return {{"before", totals_json(changes.before)},
            {"after", totals_json(changes.after)},
            {"compared", changes.compared()},
            {"happened", happened},
            {"newly_met", changes.newly_met},
            {"no_longer_met", changes.no_longer_met},
            {"more_short_gpm", parts_json(changes.parts)}};
}

json result_json(const StoredResult& result) {
    return {{"program", result.recorded("program")},
            {"data_date", result.data_date ? json(day(result.data_date)) : json(nullptr)},
            {"district", result.recorded("district")},
            {"district_file_sha256", result.recorded("district_file_sha256")}};
}

}  // namespace

std::string comparison_json(const ComparedResults& results) {
    const planning::Comparison& found = results.comparison;
    return dumped({{"schema_version", json_schema_version},
                   {"earlier", result_json(results.before)},
                   {"later", result_json(results.after)},
                   {"nothing_changed", found.nothing_changed()},
                   {"headline", comparison_headline(results)},
                   {"to_know_first", comparison_cautions(results)},
                   {"parcels", changes_json(found.parcels)},
                   {"targets", changes_json(found.targets)},
                   {"state_changes", printed_rows(state_changes(results))},
                   {"input_differences", found.inputs.size()},
                   {"cautions", cautions}});
}

}  // namespace farwater::reports
