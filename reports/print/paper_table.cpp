#include "reports/print/paper_table.h"

#include <algorithm>
#include <iterator>
#include <memory>
#include <numeric>

namespace farwater::reports {
namespace {

constexpr double cell_gap = 6.0;
constexpr double least_by_hand = 60.0;

using CellTexts = std::vector<std::string>;

struct TableLook {
    std::vector<double> widths;
    std::vector<bool> numbers;
    double size = 9.0;
    double width = 0.0;

    TextLook of(std::size_t column, bool head) const {
        return {.size = size, .bold = head, .align = numbers[column] ? Align::right : Align::left};
    }
};

// Columns as wide as their longest cell.
std::vector<double> natural_widths(const PageCanvas& canvas, const SheetTable& table,
                                   std::size_t columns, double size, double width) {
    std::vector<double> widths(columns, 0.0);
    const auto take = [&](const CellTexts& cells, bool bold) {
        for (std::size_t i = 0; i < std::min(columns, cells.size()); ++i) {
            const double needs = cells[i] == to_fill
                                     ? least_by_hand
                                     : canvas.extent(cells[i], {.size = size, .bold = bold}).width;
            widths[i] = std::max(widths[i], needs + 0.5);
        }
    };
    CellTexts headers;
    std::ranges::transform(table.headers, std::back_inserter(headers), shown_header);
    take(headers, true);
    for (const CellTexts& row : table.rows) {
        take(row, false);
    }
    for (std::size_t i = 0; i < table.headers.size(); ++i) {
        widths[i] =
            is_column_by_hand(table.headers[i]) ? std::max(widths[i], width * 0.22) : widths[i];
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
    std::vector<double> widths = natural_widths(canvas, table, columns, size, width);
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

PaperPiece row_piece(const PageCanvas& canvas, const CellTexts& cells,
                     const std::shared_ptr<const TableLook>& look, bool head) {
    double height = 0.0;
    bool by_hand = false;
    for (std::size_t i = 0; i < std::min(cells.size(), look->widths.size()); ++i) {
        by_hand = by_hand || cells[i] == to_fill;
        height =
            std::max(height, canvas.extent(cells[i], look->of(i, head), look->widths[i]).height);
    }
    height = std::max(height, by_hand ? writing_room - 3.0 : 0.0);
    const auto draw = [=](PageCanvas& on, Point at) {
        double left = at.x;
        for (std::size_t i = 0; i < std::min(cells.size(), look->widths.size()); ++i) {
            if (cells[i] != to_fill) {
                on.text({left, at.y}, cells[i], look->of(i, head), look->widths[i]);
            }
            left += look->widths[i] + cell_gap;
        }
        on.line({{at.x, at.y + height + 0.6}, {at.x + look->width, at.y + height + 0.6}},
                {.width = head ? 0.9 : 0.35, .ink = head ? 0.0 : 0.45});
    };
    return {.height = height + 1.4, .stays_with_next = head, .draw = draw, .repeats = {}};
}

// A row whose texts would not fit on a page, as rows below each other: about forty lines each.
std::vector<CellTexts> rows_that_fit(const CellTexts& cells, const TableLook& look) {
    std::vector<CellTexts> rows(1, CellTexts(cells.size()));
    for (std::size_t i = 0; i < std::min(cells.size(), look.widths.size()); ++i) {
        const auto letters_a_line = static_cast<std::size_t>(look.widths[i] / look.size) + 1;
        const auto parts = torn(cells[i], letters_a_line * 40);
        rows.resize(std::max(rows.size(), parts.size()), CellTexts(cells.size()));
        for (std::size_t part = 0; part < parts.size(); ++part) {
            rows[part][i] = parts[part];
        }
    }
    return rows;
}

}  // namespace

std::vector<PaperPiece> table_pieces(const PageCanvas& canvas, const SheetTable& table, double size,
                                     double width) {
    const std::size_t columns = !table.headers.empty() ? table.headers.size()
                                : table.rows.empty()   ? 0
                                                       : table.rows.front().size();
    if (columns == 0) {
        return {};
    }
    auto look = std::make_shared<TableLook>();
    look->widths = column_widths(canvas, table, columns, size, width);
    look->size = size;
    look->width = width;
    look->numbers.assign(columns, false);
    CellTexts headers;
    for (std::size_t i = 0; i < table.headers.size(); ++i) {
        look->numbers[i] = is_number_column(table.headers[i]);
        headers.emplace_back(shown_header(table.headers[i]));
    }
    std::vector<PaperPiece> pieces;
    std::shared_ptr<const PaperPiece> head;
    if (!headers.empty()) {
        pieces.push_back(row_piece(canvas, headers, look, true));
        head = std::make_shared<const PaperPiece>(pieces.back());
    }
    for (const CellTexts& row : table.rows) {
        for (const CellTexts& part : rows_that_fit(row, *look)) {
            pieces.push_back(row_piece(canvas, part, look, false));
            pieces.back().repeats = head;
        }
    }
    pieces.push_back(gap_piece(2.0));
    return pieces;
}

std::vector<PaperPiece> blank_table_pieces(const PageCanvas& canvas,
                                           const std::vector<std::string>& headers,
                                           std::size_t rows, double size, double width) {
    const double column = width / static_cast<double>(headers.size());
    const auto row = [&](const CellTexts& cells, bool head, double least) {
        const TextLook look{.size = size, .bold = head};
        double height = least;
        for (const std::string& cell : cells) {
            height = std::max(height, canvas.extent(cell, look, column - 6.0).height + 4.0);
        }
        return PaperPiece{.height = height,
                          .stays_with_next = head,
                          .draw =
                              [=](PageCanvas& on, Point at) {
                                  double left = at.x;
                                  for (const std::string& cell : cells) {
                                      on.text({left + 3.0, at.y + 2.0}, cell, look, column - 6.0);
                                      on.frame({left, at.y, column, height}, {.width = 0.6});
                                      left += column;
                                  }
                              },
                          .repeats = {}};
    };
    CellTexts shown;
    std::ranges::transform(headers, std::back_inserter(shown), shown_header);
    std::vector<PaperPiece> pieces{row(shown, true, 0.0)};
    const auto head = std::make_shared<const PaperPiece>(pieces.front());
    for (std::size_t i = 0; i < rows; ++i) {
        pieces.push_back(row(CellTexts(headers.size()), false, writing_room + 3.0));
        pieces.back().repeats = head;
    }
    pieces.push_back(gap_piece(4.0));
    return pieces;
}

}  // namespace farwater::reports
