#include "reports/explain/explanation.h"

#include <fmt/format.h>

#include "reports/cautions.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

// "" where one season and period was asked for.
std::string worst_of_what(const Explained& explained) {
    const AskedFor asked = explained.asked_for;
    if (!asked.season) {
        return asked.period ? " (the worst season in that period)"
                            : " (the worst season and period)";
    }
    return asked.period ? "" : " (the worst period of that season)";
}

std::string heading_of(const Explained& explained) {
    const District& district = explained.district();
    const supply::Variant& variant = explained.working.variant;
    return fmt::format(
        "{}, {}: {} in {}, {}{}\nMinutes count from the alarm. Every line can be worked out again "
        "by hand with the numbers as printed, but for the last digit.\n\n",
        on_one_line(district.name), explained.is_parcel() ? "parcel" : "target",
        on_one_line(explained.id()), on_one_line(season_at(explained).name),
        on_one_line(at(district.periods, variant.period).name), worst_of_what(explained));
}

std::string closing_of(const District& district) {
    std::string text = "Not modelled:\n";
    for (const std::string_view what : not_modelled(district)) {
        text += fmt::format("  {}\n", what);
    }
    text += "\n";
    for (const std::string_view caution : cautions) {
        text += fmt::format("{}\n", caution);
    }
    return text;
}

void explain_shuttle(const Explained& explained, WorkedPage& page) {
    const supply::ShuttleWorking* look = shuttle_of(explained.working);
    if (look == nullptr) {
        return;
    }
    explain_dump_site(explained, *look, page);
    explain_fill_site(explained, *look, page);
    explain_ways(explained, *look, page);
    explain_tankers(explained, *look, page);
    explain_shuttle_flow(explained, *look, page);
}

}  // namespace

std::string Explained::id() const { return id_of(district(), row); }

WorkedPage explanation(const Explained& explained) {
    WorkedPage page;
    explain_answer(explained, page);
    explain_need(explained, page);
    const SupplyState state = explained.supply().state;
    if (state != SupplyState::no_building && state != SupplyState::unknown) {
        explain_first_engine(explained, page);
        explain_shuttle(explained, page);
        explain_hose(explained, page);
    }
    explain_assumptions(explained, page);
    return page;
}

std::string explanation_text(const Explained& explained) {
    return heading_of(explained) + worked_text(explanation(explained).parts()) +
           closing_of(explained.district());
}

}  // namespace farwater::reports
