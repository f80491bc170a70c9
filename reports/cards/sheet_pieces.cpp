#include "reports/cards/sheet_pieces.h"

#include <algorithm>
#include <memory>
#include <numeric>
#include <string>
#include <utility>

namespace farwater::reports {
namespace {

constexpr double cell_gap = 6.0;
constexpr double writing_room = 17.5;  // height of a line to write on by hand

using CellTexts = std::vector<std::string>;

std::string shown(const std::string& header) {
    return is_number_column(header) ? header.substr(1) : header;
}

SheetPiece gap_piece(double height) {
    return {height, false, [](PageCanvas&, Point) {}};
}

SheetPiece heading_piece(const PageCanvas& canvas, const std::string& text, double size,
                         double width) {
    const TextLook look{.size = size + 0.5, .bold = true, .grey = 1.0};
    const double height = canvas.extent(text, look, width - 8.0).height;
    return {height + 3.0, true, [=](PageCanvas& on, Point at) {
                on.fill({at.x, at.y, width, height + 1.0}, 0.0);
                on.text({at.x + 4.0, at.y + 0.5}, text, look, width - 8.0);
            }};
}

SheetPiece text_piece(const PageCanvas& canvas, const SheetText& text, double size, double width) {
    const TextLook look{.size = size, .bold = text.bold};
    const double height = canvas.extent(text.text, look, width).height;
    return {height + 1.5, false,
            [=, words = text.text](PageCanvas& on, Point at) { on.text(at, words, look, width); }};
}

// A text that is longer than a page is torn between words, so that every piece fits on one.
std::vector<std::string> torn(const std::string& text) {
    constexpr std::size_t most = 1200;  // bytes
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

SheetPiece fill_piece(const PageCanvas& canvas, const LinesToFill& lines, double size,
                      double width) {
    const TextLook look{.size = size};
    const double part = (width - 10.0 * static_cast<double>(lines.labels.size() - 1)) /
                        static_cast<double>(lines.labels.size());
    double height = writing_room;
    for (const std::string& label : lines.labels) {
        height = std::max(height, canvas.extent(label, look, part * 0.62).height + 3.0);
    }
    return {height, false, [=, labels = lines.labels](PageCanvas& on, Point at) {
                double left = at.x;
                for (const std::string& label : labels) {
                    const Extent room = on.extent(label, look, part * 0.62);
                    on.text({left, at.y + height - room.height - 1.0}, label, look, part * 0.62);
                    on.line({{left + room.width + 3.0, at.y + height - 2.5},
                             {left + part, at.y + height - 2.5}},
                            {.width = 0.7});
                    left += part + 10.0;
                }
            }};
}

// Columns as wide as their longest cell.
std::vector<double> natural_widths(const PageCanvas& canvas, const SheetTable& table,
                                   std::size_t columns, double size) {
    std::vector<double> widths(columns, 0.0);
    const auto take = [&](const CellTexts& cells, bool bold) {
        for (std::size_t i = 0; i < std::min(columns, cells.size()); ++i) {
            constexpr double room_for_hand = 60.0;
            const double needs = cells[i] == to_fill
                                     ? room_for_hand
                                     : canvas.extent(cells[i], {.size = size, .bold = bold}).width;
            widths[i] = std::max(widths[i], needs + 0.5);
        }
    };
    CellTexts headers;
    std::ranges::transform(table.headers, std::back_inserter(headers), shown);
    take(headers, true);
    for (const CellTexts& row : table.rows) {
        take(row, false);
    }
    return widths;
}

// What is left over goes to the last column where it is text, else to all.
void share_out(std::vector<double>& widths, double rest, bool text_at_end) {
    for (double& one : widths) {
        one += text_at_end ? 0.0 : rest / static_cast<double>(widths.size());
    }
    widths.back() += text_at_end ? rest : 0.0;
}

// The largest limit under which all fit.
void cut_to(std::vector<double>& widths, double room) {
    double low = 0.0;
    double high = room;
    for (int round = 0; round < 40; ++round) {
        const double limit = (low + high) / 2.0;
        double whole = 0.0;
        for (const double one : widths) {
            whole += std::min(one, limit);
        }
        (whole <= room ? low : high) = limit;
    }
    for (double& one : widths) {
        one = std::min(one, low);
    }
}

std::vector<double> column_widths(const PageCanvas& canvas, const SheetTable& table,
                                  std::size_t columns, double size, double width) {
    std::vector<double> widths = natural_widths(canvas, table, columns, size);
    const double room = width - cell_gap * static_cast<double>(columns - 1);
    const double whole = std::accumulate(widths.begin(), widths.end(), 0.0);
    if (whole <= room) {
        share_out(widths, room - whole,
                  table.headers.empty() || !is_number_column(table.headers.back()));
    } else {
        cut_to(widths, room);
    }
    return widths;
}

struct TableLook {
    std::vector<double> widths;
    std::vector<bool> numbers;
    double size = 9.0;
    double width = 0.0;
};

SheetPiece row_piece(const PageCanvas& canvas, const CellTexts& cells,
                     const std::shared_ptr<const TableLook>& look, bool head) {
    const auto look_of = [look, head](std::size_t column) {
        return TextLook{.size = look->size,
                        .bold = head,
                        .align = look->numbers[column] ? Align::right : Align::left};
    };
    double height = 0.0;
    bool by_hand = false;
    for (std::size_t i = 0; i < std::min(cells.size(), look->widths.size()); ++i) {
        by_hand = by_hand || cells[i] == to_fill;
        height = std::max(height, canvas.extent(cells[i], look_of(i), look->widths[i]).height);
    }
    height = std::max(height, by_hand ? writing_room - 3.0 : 0.0);
    return {height + 1.4, head, [=](PageCanvas& on, Point at) {
                double left = at.x;
                for (std::size_t i = 0; i < std::min(cells.size(), look->widths.size()); ++i) {
                    if (cells[i] != to_fill) {
                        on.text({left, at.y}, cells[i], look_of(i), look->widths[i]);
                    }
                    left += look->widths[i] + cell_gap;
                }
                on.line({{at.x, at.y + height + 0.6}, {at.x + look->width, at.y + height + 0.6}},
                        {.width = head ? 0.9 : 0.35, .grey = head ? 0.0 : 0.45});
            }};
}

void add_table(std::vector<SheetPiece>& pieces, const PageCanvas& canvas, const SheetTable& table,
               double size, double width) {
    const std::size_t columns = !table.headers.empty() ? table.headers.size()
                                : table.rows.empty()   ? 0
                                                       : table.rows.front().size();
    if (columns == 0) {
        return;
    }
    auto look = std::make_shared<TableLook>();
    look->widths = column_widths(canvas, table, columns, size, width);
    look->size = size;
    look->width = width;
    look->numbers.assign(columns, false);
    CellTexts headers;
    for (std::size_t i = 0; i < table.headers.size(); ++i) {
        look->numbers[i] = is_number_column(table.headers[i]);
        headers.push_back(shown(table.headers[i]));
    }
    if (!headers.empty()) {
        pieces.push_back(row_piece(canvas, headers, look, true));
    }
    for (const CellTexts& row : table.rows) {
        pieces.push_back(row_piece(canvas, row, look, false));
    }
    pieces.push_back(gap_piece(2.0));
}

}  // namespace

std::vector<SheetPiece> pieces_of(const PageCanvas& canvas, const SheetPart& part, double size,
                                  double width) {
    std::vector<SheetPiece> pieces;
    pieces.push_back(heading_piece(canvas, part.heading, size, width));
    for (const SheetItem& item : part.items) {
        if (const auto* text = std::get_if<SheetText>(&item)) {
            for (std::string& words : torn(text->text)) {
                pieces.push_back(text_piece(canvas, {std::move(words), text->bold}, size, width));
            }
        } else if (const auto* table = std::get_if<SheetTable>(&item)) {
            add_table(pieces, canvas, *table, size, width);
        } else if (const auto* lines = std::get_if<LinesToFill>(&item)) {
            pieces.push_back(fill_piece(canvas, *lines, size, width));
        }
    }
    pieces.push_back(gap_piece(3.5));
    return pieces;
}

}  // namespace farwater::reports
