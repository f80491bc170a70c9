#include "reports/rating/title_words.h"

#include <fmt/format.h>

#include "reports/origin.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

std::string beginning_of_hash(const RunRecord& record) {
    return std::string(recorded(record, "district_file_sha256").substr(0, 16));
}

// Of the sources that are not there, those that the sheets count.
std::size_t what_if_counted(const Findings& findings) {
    std::size_t counted = 0;
    for (std::size_t i = 0; i < findings.district.sources.size(); ++i) {
        const bool there = findings.district.is_there(SourceIndex(i));
        counted += !there && findings.rating->sources[i].creditable() ? 1U : 0U;
    }
    return counted;
}

}  // namespace

TitleWords title_words(const Findings& findings, const RunRecord& record, std::string_view title,
                       std::size_t number, std::size_t sheets) {
    const std::string date = day(findings.district.data_date);
    return {.district = findings.district.name,
            .title = std::string(title),
            .evidence = fmt::format("Evidence for the insurance rating, sheet {} of {}. Terms: {}.",
                                    number, sheets, findings.district.rating->standard.name),
            .facts = {
                "Data of " + (date.empty() ? "a date that the district file does not give" : date),
                fmt::format("Made by {}", recorded(record, "program")),
                fmt::format("District file {}", recorded(record, "district_file")),
                fmt::format("sha256 {}...", beginning_of_hash(record))}};
}

std::string what_if_words(const Findings& findings) {
    const std::size_t all = findings.district.what_if_sources;
    const std::size_t counted = what_if_counted(findings);
    if (all == 0) {
        return "";
    }
    if (counted == 0) {
        return fmt::format("No source of [what_if_sources] counts on these sheets ({} in all).",
                           all);
    }
    return fmt::format(
        "These sheets count {} of {} source{} of [what_if_sources] as if {} there: not the "
        "district as it is.",
        counted, all, all == 1 ? "" : "s", counted == 1 ? "it were" : "they were");
}

std::string foot_words(const Findings& findings) {
    return what_if_counted(findings) > 0
               ? what_if_words(findings) +
                     " Not to be signed. Planning figures: prove them by a timed drill."
               : "Planning figures: prove them by a timed drill. The rating organisation decides. "
                 "Local code and licensed practice go first.";
}

std::string closing_words(const RunRecord& record) {
    return fmt::format(
        "Worked out from the district's own data; what the data do not tell never helps. "
        "Coordinates: {}. The run record in supply.gpkg holds the hash of every input. District "
        "file sha256: {}.",
        recorded(record, "crs"), recorded(record, "district_file_sha256"));
}

}  // namespace farwater::reports
