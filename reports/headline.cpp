#include "reports/headline.h"

#include <fmt/format.h>

namespace farwater::reports {
namespace {

bool has_a_gap(const supply::ParcelSupply& supply) {
    return supply.state == SupplyState::held && supply.gap && supply::in_tenths(*supply.gap) > 0;
}

// And would still hold the need.
bool nursing_closes_it(const supply::ParcelSupply& supply) {
    return supply.gap_nursing && supply::in_tenths(*supply.gap_nursing) == 0 &&
           supply.nursing_flow >= supply::rounded_down(supply.needed);
}

void count(Headline& headline, const supply::ParcelSupply& supply) {
    const bool held = supply.state == SupplyState::held;
    headline.improved += supply.state != SupplyState::no_building ? 1U : 0U;
    headline.held += held ? 1U : 0U;
    headline.tank_only += supply.state == SupplyState::tank_only ? 1U : 0U;
    headline.unknown += supply.state == SupplyState::unknown ? 1U : 0U;
    headline.late += supply.state == SupplyState::late ? 1U : 0U;
    headline.short_flow += supply.state == SupplyState::short_flow ? 1U : 0U;
    headline.unreached += supply.state == SupplyState::unreached ? 1U : 0U;
    headline.no_building += supply.state == SupplyState::no_building ? 1U : 0U;
    headline.held_with_a_gap += has_a_gap(supply) ? 1U : 0U;
    headline.gap_left_by_nursing += has_a_gap(supply) && !nursing_closes_it(supply) ? 1U : 0U;
    headline.held_on_assumed += held && supply.evidence == Evidence::assumed ? 1U : 0U;
    headline.held_but_for_one += held && supply.one_tanker_out < supply.needed ? 1U : 0U;
}

}  // namespace

Headline headline_of(const Findings& findings) {
    Headline headline;
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        count(headline, findings.supply(row));
    }
    return headline;
}

std::string percent(std::size_t part, std::size_t whole) {
    return whole == 0 ? "-"
                      : fmt::format("{:.1f} %",
                                    100.0 * static_cast<double>(part) / static_cast<double>(whole));
}

std::string gap_sentence(const Headline& h, std::string_view tanker_word) {
    if (h.held_with_a_gap == 0) {
        return "";
    }
    const std::string gap =
        fmt::format("{} of those that meet it have minutes without water before supply begins",
                    h.held_with_a_gap);
    return h.gap_left_by_nursing == h.held_with_a_gap
               ? gap
               : fmt::format("{}, {} if a {} fed the engine first", gap,
                             h.gap_left_by_nursing == 0 ? std::string("none")
                                                        : fmt::format("{}", h.gap_left_by_nursing),
                             tanker_word);
}

std::string months_sentence(const District& district) {
    const MonthSet covered = months_covered(district.seasons).once;
    return covered == MonthSet::all()
               ? ""
               : fmt::format("Holds for {} only: no season of the district file covers {}.",
                             month_words(covered), month_words(MonthSet::all().without(covered)));
}

std::vector<std::string> headline_sentences(const Headline& h, std::string_view tanker_word) {
    return {
        fmt::format("{} of {} improved parcels meet their planned flow ({})", h.held, h.improved,
                    percent(h.held, h.improved)),
        fmt::format("{} have the water on wheels only ({})", h.tank_only,
                    percent(h.tank_only, h.improved)),
        fmt::format("{} {} not known: something that the answer rests on is missing ({})",
                    h.unknown, h.unknown == 1 ? "is" : "are", percent(h.unknown, h.improved)),
        fmt::format("{} of those that meet it rest on an assumed value ({})", h.held_on_assumed,
                    percent(h.held_on_assumed, h.held)),
        fmt::format("{} of those that meet it are lost when one {} is out ({})", h.held_but_for_one,
                    tanker_word, percent(h.held_but_for_one, h.held)),
    };
}

}  // namespace farwater::reports
