#include "reports/rating/title_words.h"

#include <fmt/format.h>

#include "reports/cautions.h"
#include "reports/origin.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

std::string beginning_of_hash(const RunRecord& record) {
    return std::string(recorded(record, "district_file_sha256").substr(0, 16));
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

std::string foot_words(const District& district) {
    const std::string what_if = what_if_sentence(district);
    return what_if.empty()
               ? "Planning figures: prove them by a timed drill. The rating organisation decides. "
                 "Local code and licensed practice go first."
               : what_if + " Not to be signed. Planning figures: prove them by a timed drill.";
}

std::string closing_words(const RunRecord& record) {
    return fmt::format(
        "Worked out from the district's own data; what the data do not tell never helps. "
        "Coordinates: {}. The run record in supply.gpkg holds the hash of every input. District "
        "file sha256: {}.",
        recorded(record, "crs"), recorded(record, "district_file_sha256"));
}

}  // namespace farwater::reports
