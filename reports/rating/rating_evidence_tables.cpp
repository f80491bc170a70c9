// The tables of claims and of what is missing.
#include <memory>
#include <utility>

#include "reports/rating/claims.h"
#include "reports/rating/missing_evidence.h"
#include "reports/rating/rating_tables.h"

namespace farwater::reports {
namespace {

template <class Item, class Make>
ColumnOf text_of(std::string name, std::string description,
                 const std::shared_ptr<const std::vector<Item>>& list, Make make) {
    return text(std::move(name), std::move(description),
                [list, make](std::size_t row) { return value_of(make((*list)[row])); });
}

}  // namespace

io::FeatureTable rating_claims(const Findings& findings) {
    const auto list = std::make_shared<const std::vector<Claim>>(claims(findings));
    std::vector<ColumnOf> columns{
        text_of("department_says", "The claim.", list,
                [](const Claim& claim) { return std::string_view(claim.says); }),
        text_of("data_show", "What the data show.", list,
                [](const Claim& claim) { return std::string_view(claim.shows); }),
        text("shown", "met, in_part, not_met, not_counted or not_in_data.",
             [list](std::size_t row) { return io::Value{word((*list)[row].shown)}; }),
        text_of("signed_by", "Who stands for it.", list,
                [](const Claim& claim) { return std::string_view(claim.signs); }),
    };
    return table({"rating_claims", "What the department says and what the data show",
                  "Automatic aid stands apart from mutual."},
                 std::move(columns), list->size());
}

io::FeatureTable rating_missing(const Findings& findings) {
    const auto list =
        std::make_shared<const std::vector<MissingEvidence>>(missing_evidence(findings));
    std::vector<ColumnOf> columns{
        text_of("subject", "source, apparatus or district.", list,
                [](const MissingEvidence& missing) { return std::string_view(missing.subject); }),
        text_of("record", "Its id; empty: the district as a whole.", list,
                [](const MissingEvidence& missing) { return std::string_view(missing.record); }),
        text_of("missing", "What the assessor will ask for.", list,
                [](const MissingEvidence& missing) { return std::string_view(missing.what); }),
        yes_no("stops_credit",
               "yes: without it the source, the unit, or of the district no source at all, counts.",
               [list](std::size_t row) { return io::Value{(*list)[row].stops}; }),
    };
    return table({"rating_missing", "What the assessor will ask for and the data lack",
                  "Missing evidence is listed, never filled in."},
                 std::move(columns), list->size());
}

}  // namespace farwater::reports
