#include "reports/print/blocks_paper.h"

#include <algorithm>

#include <fmt/format.h>

#include "reports/print/paper_table.h"

namespace farwater::reports {
namespace {

constexpr Ink lacking = Ink::rgb(0xa3123a);

class BlocksOnPaper {
public:
    BlocksOnPaper(const PageCanvas& canvas, double width, double scale)
        : canvas_(canvas), width_(width), letters_(8.5 * scale), table_letters_(8.0 * scale) {}

    void operator()(const TextBlock& block) {
        switch (block.kind) {
            case TextKind::heading:
                take(heading(block.text, {.size = 13.0, .bold = true}, true));
                break;
            case TextKind::subheading:
                take(heading(block.text, {.size = 10.0, .bold = true}, false));
                break;
            case TextKind::paragraph:
                text(block.text, {.size = letters_});
                break;
            case TextKind::statement:
                text(block.text, {.size = 11.0});
                break;
            case TextKind::note:
                text(block.text, {.size = 7.5, .ink = 0.25});
                break;
        }
    }

    void operator()(const ListBlock& block) {
        constexpr double indent = 10.0;
        for (const std::string& item : block.items) {
            auto pieces = text_pieces(canvas_, item, {.size = letters_}, width_ - indent);
            for (std::size_t i = 0; i < pieces.size(); ++i) {
                take({.height = pieces[i].height + 0.8,
                      .draw =
                          [draw = pieces[i].draw, first = i == 0, size = letters_](PageCanvas& on,
                                                                                   Point at) {
                              if (first) {
                                  on.text(at, "•", {.size = size});
                              }
                              draw(on, {at.x + indent, at.y});
                          },
                      .repeats = {}});
            }
        }
        take(gap_piece(3.0));
    }

    void operator()(const SheetTable& block) {
        take(gap_piece(2.0));
        keep_introduction();
        take(whole_if_short(table_pieces(canvas_, block, table_letters_, width_)));
        take(gap_piece(3.0));
    }

    void operator()(const FactsBlock& block) {
        std::vector<PaperPiece> facts;
        double height = 0.0;
        for (const auto& [name, value] : block.rows) {
            const auto parts = torn(value);
            for (std::size_t i = 0; i < parts.size(); ++i) {
                facts.push_back(fact(i == 0 ? name : std::string(), parts[i]));
                height += facts.back().height;
            }
        }
        constexpr double short_enough = 400.0;
        for (PaperPiece& piece : facts) {
            piece.stays_with_next = height < short_enough;
        }
        facts.push_back(gap_piece(4.0));
        keep_introduction();
        take(std::move(facts));
    }

    void operator()(const BlankTableBlock& block) {
        take(gap_piece(4.0));
        keep_introduction();
        take(blank_table_pieces(canvas_, block.headers, block.rows, table_letters_, width_));
    }

    void operator()(const LinesBlock& block) {
        for (std::size_t i = 0; i < block.names.size(); i += 2) {
            std::vector<std::string> two(block.names.begin() + static_cast<std::ptrdiff_t>(i),
                                         block.names.begin() + static_cast<std::ptrdiff_t>(std::min(
                                                                   i + 2, block.names.size())));
            two.resize(2);
            take(pair_of_lines(two));
        }
        take(gap_piece(3.0));
    }

    void operator()(const SignaturesBlock& block) {
        keep_what_is_signed();
        for (std::size_t i = 0; i < block.roles.size(); i += 2) {
            take(signatures(block.roles[i],
                            i + 1 < block.roles.size() ? block.roles[i + 1] : std::string()));
            pieces_.back().stays_with_next = i + 2 < block.roles.size();
        }
    }

    void operator()(const SectionBegin& block) { next_begins_page_ = block.new_page; }
    void operator()(const SectionEnd&) {}

    void operator()(const Drawing& block) {
        const double height = width_ * block.height / block.width;
        take(gap_piece(4.0));
        keep_introduction();
        take({.height = height + 6.0,
              .draw = [this_wide = width_, height, &block](
                          PageCanvas& on,
                          Point at) { reports::draw(on, block, {at.x, at.y, this_wide, height}); },
              .repeats = {}});
    }

    std::vector<PaperPiece> pieces() { return std::move(pieces_); }

private:
    void take(PaperPiece piece) {
        piece.begins_page = piece.begins_page || std::exchange(next_begins_page_, false);
        pieces_.push_back(std::move(piece));
    }
    void take(std::vector<PaperPiece> more) {
        for (PaperPiece& piece : more) {
            take(std::move(piece));
        }
    }

    // Two rows here and two on the next page are harder to read than a page that ends early.
    static std::vector<PaperPiece> whole_if_short(std::vector<PaperPiece> rows) {
        constexpr double short_enough = 150.0;
        double height = 0.0;
        for (const PaperPiece& row : rows) {
            height += row.height;
        }
        for (std::size_t i = 0; i + 1 < rows.size() && height < short_enough; ++i) {
            rows[i].stays_with_next = true;
        }
        return rows;
    }

    // A sentence or two between a heading and a table or drawing stay with that.
    void keep_introduction() {
        constexpr std::size_t most = 5;
        std::size_t begin = pieces_.size();
        while (begin > 0 && pieces_.size() - begin < most && !pieces_[begin - 1].stays_with_next) {
            --begin;
        }
        if (begin > 0 && pieces_[begin - 1].stays_with_next) {
            for (std::size_t i = begin; i < pieces_.size(); ++i) {
                pieces_[i].stays_with_next = true;
            }
        }
    }

    // Nobody signs a page that says nothing: some of what stands last goes with the lines, more
    // than a note or a row.
    void keep_what_is_signed() {
        constexpr double enough = 60.0;
        double height = 0.0;
        for (auto piece = pieces_.rbegin(); piece != pieces_.rend() && height < enough; ++piece) {
            piece->stays_with_next = true;
            height += piece->height;
        }
    }

    void text(const std::string& words, const TextLook& look) {
        take(text_pieces(canvas_, words, look, width_));
        take(gap_piece(2.0));
    }

    PaperPiece heading(const std::string& words, const TextLook& look, bool ruled) const {
        const double above = ruled ? 7.0 : 4.0;
        const double height = canvas_.extent(words, look, width_).height;
        return {.height = above + height + 2.0,
                .stays_with_next = true,
                .draw =
                    [=, width = width_](PageCanvas& on, Point at) {
                        if (ruled) {
                            on.line({{at.x, at.y + 4.0}, {at.x + width, at.y + 4.0}},
                                    {.width = 1.2});
                        }
                        on.text({at.x, at.y + above}, words, look, width);
                    },
                .repeats = {},
                .entry = ruled ? words : std::string()};
    }

    PaperPiece fact(const std::string& name, const std::string& value) const {
        const double names = std::min(212.0, width_ * 0.4);
        const double values = width_ - names - 8.0;
        const bool lacks = value.empty();
        const TextLook bold{.size = table_letters_, .bold = true};
        const TextLook look{.size = table_letters_, .ink = lacks ? lacking : Ink(0.0)};
        const std::string shown = lacks ? std::string(not_recorded) : value;
        const double height = std::max(canvas_.extent(name, bold, names).height,
                                       canvas_.extent(shown, look, values).height);
        return {.height = height + 2.6,
                .draw =
                    [=, width = width_](PageCanvas& on, Point at) {
                        on.text({at.x, at.y + 0.8}, name, bold, names);
                        on.text({at.x + names + 8.0, at.y + 0.8}, shown, look, values);
                        on.line({{at.x, at.y + height + 2.0}, {at.x + width, at.y + height + 2.0}},
                                {.width = 0.35, .ink = 0.55});
                    },
                .repeats = {}};
    }

    // Of an odd number the second one is no line.
    PaperPiece pair_of_lines(const std::vector<std::string>& two) const {
        const bool both = !two[1].empty();
        const double half = (width_ - 14.0) / 2.0;
        const PaperPiece left = lines_piece(canvas_, {two[0]}, letters_, half);
        const PaperPiece right = lines_piece(canvas_, {two[1]}, letters_, half);
        const double height = both ? std::max(left.height, right.height) : left.height;
        return {.height = height + 3.0,
                .draw =
                    [=](PageCanvas& on, Point at) {
                        left.draw(on, {at.x, at.y + height - left.height});
                        if (both) {
                            right.draw(on, {at.x + half + 14.0, at.y + height - right.height});
                        }
                    },
                .repeats = {}};
    }

    PaperPiece signatures(const std::string& left, const std::string& right) const {
        const TextLook look{.size = 7.5, .ink = 0.25};
        const double half = (width_ - 24.0) / 2.0;
        const auto words = [](const std::string& role) {
            return fmt::format("{}, {}", role, signs_with);
        };
        constexpr double room_to_sign = 30.0;
        const double height = std::max(canvas_.extent(words(left), look, half).height,
                                       canvas_.extent(words(right), look, half).height);
        const auto one = [=](PageCanvas& on, Point at, const std::string& role) {
            on.line({{at.x, at.y + room_to_sign}, {at.x + half, at.y + room_to_sign}},
                    {.width = 0.7});
            on.text({at.x, at.y + room_to_sign + 1.5}, words(role), look, half);
        };
        return {.height = room_to_sign + height + 5.0,
                .draw =
                    [=](PageCanvas& on, Point at) {
                        one(on, at, left);
                        if (!right.empty()) {
                            one(on, {at.x + half + 24.0, at.y}, right);
                        }
                    },
                .repeats = {}};
    }

    const PageCanvas& canvas_;
    double width_;
    double letters_, table_letters_;
    std::vector<PaperPiece> pieces_;
    bool next_begins_page_ = false;
};

}  // namespace

std::vector<PaperPiece> pieces_of(const PageCanvas& canvas, const SheetBlocks& sheet, double width,
                                  double scale) {
    BlocksOnPaper paper(canvas, width, scale);
    for (const SheetBlock& block : sheet.all()) {
        std::visit(paper, block);
    }
    return paper.pieces();
}

}  // namespace farwater::reports
