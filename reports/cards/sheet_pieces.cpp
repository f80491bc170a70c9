#include "reports/cards/sheet_pieces.h"

#include <algorithm>
#include <iterator>
#include <string>

#include "reports/print/paper_table.h"

namespace farwater::reports {
namespace {

// White on a black band.
PaperPiece heading_piece(const PageCanvas& canvas, const std::string& text, double size,
                         double width) {
    const TextLook look{.size = size + 0.5, .bold = true, .ink = 1.0};
    const double height = canvas.extent(text, look, width - 8.0).height;
    return {.height = height + 3.0,
            .stays_with_next = true,
            .draw =
                [=](PageCanvas& on, Point at) {
                    on.fill({at.x, at.y, width, height + 1.0}, 0.0);
                    on.text({at.x + 4.0, at.y + 0.5}, text, look, width - 8.0);
                },
            .repeats = {}};
}

}  // namespace

std::vector<PaperPiece> pieces_of(const PageCanvas& canvas, const SheetPart& part, double size,
                                  double width) {
    std::vector<PaperPiece> pieces;
    const auto take = [&](std::vector<PaperPiece> more) {
        std::ranges::move(more, std::back_inserter(pieces));
    };
    pieces.push_back(heading_piece(canvas, part.heading, size, width));
    for (const SheetItem& item : part.items) {
        if (const auto* text = std::get_if<SheetText>(&item)) {
            take(text_pieces(canvas, text->text, {.size = size, .bold = text->bold}, width));
        } else if (const auto* table = std::get_if<SheetTable>(&item)) {
            take(table_pieces(canvas, *table, size, width));
        } else if (const auto* lines = std::get_if<LinesToFill>(&item)) {
            pieces.push_back(lines_piece(canvas, lines->labels, size, width));
        }
    }
    pieces.push_back(gap_piece(3.5));
    return pieces;
}

}  // namespace farwater::reports
