// Pieces of paper that are not torn: each knows its height and draws itself.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "reports/print/page_canvas.h"

namespace farwater::reports {

struct PaperPiece {
    double height = 0.0;
    bool stays_with_next = false;  // a heading, a table's head
    std::function<void(PageCanvas& canvas, Point top_left)> draw;
    std::shared_ptr<const PaperPiece> repeats;  // of a table's row: the head, on a new page again
    std::string entry;                          // in the document's outline; empty: none
    bool begins_page = false;
};

PaperPiece gap_piece(double height);

// A text that may be longer than a page, as parts of at most `most` bytes, cut between words where
// there are some, else between letters. One part at least.
std::vector<std::string> torn(const std::string& text, std::size_t most = 1200);

// One piece for each part of the text.
std::vector<PaperPiece> text_pieces(const PageCanvas& canvas, const std::string& text,
                                    const TextLook& look, double width);

// Ruled lines beside each other to write on by hand, each behind what belongs there.
PaperPiece lines_piece(const PageCanvas& canvas, const std::vector<std::string>& labels,
                       double size, double width);
inline constexpr double writing_room = 17.5;  // height of such a line

// How many pieces from the first on fit into the height, up to one that begins a page, none parted
// from what it stays with. Where that is none and the page is empty: as many as fit, at least one.
// O(pieces that fit).
std::size_t pieces_that_fit(std::span<const PaperPiece> pieces, double height, bool empty);

// All pieces on pages of that height, in order; the head of a table that goes on stands on each.
using PaperPage = std::vector<PaperPiece>;
std::vector<PaperPage> pages_of(std::span<const PaperPiece> pieces, double height);

}  // namespace farwater::reports
