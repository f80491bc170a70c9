#include "reports/print/paper_pieces.h"

#include <algorithm>

namespace farwater::reports {

PaperPiece gap_piece(double height) {
    return {.height = height, .draw = [](PageCanvas&, Point) {}, .repeats = {}};
}

std::vector<std::string> torn(const std::string& text, std::size_t most) {
    std::vector<std::string> parts;
    std::size_t begin = 0;
    while (text.size() - begin > most) {
        std::size_t end = text.find_last_of(' ', begin + most);
        if (end == std::string::npos || end <= begin) {
            end = begin + most;
            while (end > begin + 1 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) {
                --end;
            }
        }
        parts.push_back(text.substr(begin, end - begin));
        begin = text[end] == ' ' ? end + 1 : end;
    }
    parts.push_back(text.substr(begin));
    return parts;
}

std::vector<PaperPiece> text_pieces(const PageCanvas& canvas, const std::string& text,
                                    const TextLook& look, double width) {
    std::vector<PaperPiece> pieces;
    for (std::string& part : torn(text)) {
        const double height = canvas.extent(part, look, width).height;
        pieces.push_back(
            {.height = height + 1.5,
             .draw = [=, words = std::move(part)](PageCanvas& on,
                                                  Point at) { on.text(at, words, look, width); },
             .repeats = {}});
    }
    return pieces;
}

PaperPiece lines_piece(const PageCanvas& canvas, const std::vector<std::string>& labels,
                       double size, double width) {
    const TextLook look{.size = size};
    const double part = (width - 10.0 * static_cast<double>(labels.size() - 1)) /
                        static_cast<double>(labels.size());
    double height = writing_room;
    for (const std::string& label : labels) {
        height = std::max(height, canvas.extent(label, look, part * 0.62).height + 3.0);
    }
    return {.height = height,
            .draw =
                [=](PageCanvas& on, Point at) {
                    double left = at.x;
                    for (const std::string& label : labels) {
                        const Extent room = on.extent(label, look, part * 0.62);
                        on.text({left, at.y + height - room.height - 1.0}, label, look,
                                part * 0.62);
                        on.line({{left + room.width + 3.0, at.y + height - 2.5},
                                 {left + part, at.y + height - 2.5}},
                                {.width = 0.7});
                        left += part + 10.0;
                    }
                },
            .repeats = {}};
}

std::size_t pieces_that_fit(std::span<const PaperPiece> pieces, double height, bool empty) {
    std::size_t end = 0;
    std::size_t safe = 0;  // up to here nothing is left that stays with the next
    double taken = 0.0;
    while (end < pieces.size() && taken + pieces[end].height <= height &&
           (end == 0 || !pieces[end].begins_page)) {
        taken += pieces[end].height;
        ++end;
        safe = pieces[end - 1].stays_with_next ? safe : end;
    }
    if (end > 0 && end < pieces.size() && pieces[end].begins_page) {
        safe = end;
    }
    return safe == 0 && empty ? std::min(std::max<std::size_t>(end, 1), pieces.size()) : safe;
}

std::vector<PaperPage> pages_of(std::span<const PaperPiece> pieces, double height) {
    std::vector<PaperPage> pages;
    while (!pieces.empty()) {
        PaperPage& page = pages.emplace_back();
        if (pieces.front().repeats) {
            page.push_back(*pieces.front().repeats);
        }
        const double taken = page.empty() ? 0.0 : page.front().height;
        const std::size_t count = pieces_that_fit(pieces, height - taken, true);
        page.insert(page.end(), pieces.begin(),
                    pieces.begin() + static_cast<std::ptrdiff_t>(count));
        pieces = pieces.subspan(count);
    }
    return pages;
}

}  // namespace farwater::reports
