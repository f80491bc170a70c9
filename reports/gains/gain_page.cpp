#include "reports/gains/gain_page.h"

#include <algorithm>
#include <string_view>

#include <fmt/format.h>

#include "reports/cards/card_words.h"
#include "reports/cautions.h"
#include "reports/print/sheet_page.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

constexpr std::size_t most_shown = 6;

// A page with all that it can say takes one side of paper, so that its worksheet comes on the back.
constexpr std::string_view gain_style = R"(
@page { margin: 0.5in 0.6in 0.6in; }
@media print {
  .new-page .statement { max-width: none; }
  .new-page .facts th { width: 18rem; }
  .new-page svg { width: 84%; margin: 0.3rem auto; }
}
)";

std::vector<const planning::Change*> largest_first(std::span<const planning::Change> changes) {
    std::vector<const planning::Change*> sorted;
    for (const planning::Change& change : changes) {
        if (change.gain() > 0) {
            sorted.push_back(&change);
        }
    }
    std::ranges::stable_sort(sorted, std::greater<>{}, &planning::Change::gain);
    return sorted;
}

// What a document says of a flow: rounded down.
std::string planned(HeldFlow flow) { return in_thousands(planned_gpm(flow)); }

void add_who_gains(SheetBlocks& sheet, const District& district, const GainPage& page) {
    const std::vector<const planning::Change*> sorted = largest_first(page.changes);
    if (sorted.empty()) {
        sheet.paragraph("No property holds more of its need by it.");
        return;
    }
    std::vector<SheetBlocks::Cells> rows;
    for (std::size_t i = 0; i < std::min(most_shown, sorted.size()); ++i) {
        const planning::Change& change = *sorted[i];
        rows.push_back({name_words(district.parcels[change.row].id),
                        in_thousands(in_gpm(flow_of(change.after.needed))),
                        planned(supply::flow_from_start(change.before)),
                        planned(supply::flow_from_start(change.after)),
                        spoken(word(change.before.state)), spoken(word(change.after.state))});
    }
    sheet.subheading(sorted.size() > most_shown
                         ? fmt::format("Who gains most, {} of {}", most_shown, sorted.size())
                         : "Who gains");
    sheet.table({"Property", "#Needs, gpm", "#Plans on now", "#Then", "State now", "Then"},
                std::move(rows));
}

void add_worksheet(SheetBlocks& sheet, const std::string& title,
                   const std::vector<WorkedPart>& parts) {
    for (const WorkedPart& part : parts) {
        std::vector<SheetBlocks::Cells> rows;
        for (const WorkedLine& line : part.lines) {
            const std::string number =
                line.value ? fmt::format("{:.{}f} {}", *line.value, line.decimals, line.unit)
                           : std::string();
            rows.push_back(
                {line.what, line.sum.empty() ? line.words : line.sum, number, line.note});
        }
        sheet.heading(title + ": " + part.title);
        sheet.table({"What", "How", "#Is", "Note"}, std::move(rows));
    }
}

std::string all_cautions() {
    std::string text;
    for (const std::string_view caution : cautions) {
        text += (text.empty() ? "" : " ") + std::string(caution);
    }
    return text;
}

}  // namespace

void add_gain_page(SheetBlocks& sheet, const District& district, const GainPage& page) {
    sheet.begin_section(page.anchor, true)
        .heading(page.title)
        .statement(page.statement)
        .facts(page.facts)
        .drawing(gain_map(district, page));
    add_who_gains(sheet, district, page);
    sheet.subheading("To ask, to settle and to prove before it helps").list(page.to_settle);
    if (!page.to_fill.empty()) {
        sheet.lines_to_fill(page.to_fill);
    }
    sheet.note(all_cautions()).end_section();
    if (!page.worksheet.empty()) {
        sheet.begin_section(page.anchor + "-worksheet", true);
        add_worksheet(sheet, page.title, page.worksheet);
        sheet.note(all_cautions()).end_section();
    }
}

std::string gains_html(const std::string& title, const District& district,
                       const std::string& origin, const SheetBlocks& sheet) {
    return sheet_document({name_words(district.name), title, origin}, sheet, {}, gain_style);
}

}  // namespace farwater::reports
