// The rating's documents on paper: a title block and the cautions on each sheet's first page, head
// and foot on all.
#include <algorithm>
#include <iterator>
#include <utility>

#include <fmt/format.h>

#include "reports/cautions.h"
#include "reports/origin.h"
#include "reports/print/blocks_paper.h"
#include "reports/rating/rating_documents.h"
#include "reports/rating/title_words.h"
#include "reports/text/number_words.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

constexpr Rect rating_area{.left = 38.0, .top = 44.0, .width = 536.0, .height = 694.0};
constexpr Ink caution_ink = Ink::rgb(0xa3123a);

DocumentFacts facts_of_rating(const Findings& findings, const RunRecord& record) {
    const std::string date = day(findings.district.data_date);
    return {.title = "Evidence for the insurance rating, " + on_one_line(findings.district.name),
            .author = std::string(recorded(record, "program")),
            .subject = "District file " + std::string(recorded(record, "district_file_sha256")),
            .creator = std::string(recorded(record, "program")),
            .date = (date.empty() ? "2000-01-01" : date) + "T00:00:00Z"};
}

// Texts below each other, with the room that they take.
struct TextStack {
    std::vector<std::pair<std::string, TextLook>> lines;
    double width = 0.0;

    double height(const PageCanvas& canvas) const {
        double sum = 0.0;
        for (const auto& [text, look] : lines) {
            sum += canvas.extent(text, look, width).height + 1.5;
        }
        return sum;
    }
    void draw(PageCanvas& canvas, Point at) const {
        for (const auto& [text, look] : lines) {
            at.y += canvas.text(at, text, look, width).height + 1.5;
        }
    }
};

PaperPiece title_piece(const PageCanvas& canvas, const TitleWords& words) {
    constexpr double right_width = 172.0;
    const TextLook small{.size = 7.5};
    TextStack left{.lines = {{words.district, {.size = 9.0}},
                             {words.title, {.size = 17.0, .bold = true}},
                             {words.evidence, {.size = 8.5}}},
                   .width = rating_area.width - right_width - 16.0};
    TextStack right{.lines = {}, .width = right_width - 16.0};
    for (const std::string& fact : words.facts) {
        right.lines.emplace_back(fact, small);
    }
    const double height = std::max(left.height(canvas), right.height(canvas)) + 9.0;
    return {.height = height + 6.0,
            .stays_with_next = true,
            .draw =
                [=](PageCanvas& on, Point at) {
                    on.frame({at.x, at.y, rating_area.width, height}, {.width = 1.5});
                    const double middle = at.x + rating_area.width - right_width;
                    on.line({{middle, at.y}, {middle, at.y + height}}, {.width = 0.8});
                    left.draw(on, {at.x + 8.0, at.y + 5.0});
                    right.draw(on, {middle + 8.0, at.y + 5.0});
                },
            .repeats = {},
            .begins_page = true};
}

PaperPiece cautions_piece(const PageCanvas& canvas, const std::string& what_if) {
    TextStack list{.lines = {}, .width = rating_area.width - 16.0};
    if (!what_if.empty()) {
        list.lines.emplace_back("• " + what_if, TextLook{.size = 8.0, .bold = true});
    }
    for (const std::string_view caution : cautions) {
        list.lines.emplace_back("• " + std::string(caution), TextLook{.size = 8.0});
    }
    const double height = list.height(canvas) + 7.0;
    return {.height = height + 5.0,
            .draw =
                [=](PageCanvas& on, Point at) {
                    on.frame({at.x, at.y, rating_area.width, height},
                             {.width = 1.4, .ink = caution_ink});
                    list.draw(on, {at.x + 8.0, at.y + 4.0});
                },
            .repeats = {}};
}

class RatingPdf {
public:
    RatingPdf(const Findings& findings, const RunRecord& record,
              const std::vector<RatingSheet>& sheets, const PageCanvas::Sink& sink)
        : findings_(findings),
          record_(record),
          sheets_(sheets),
          canvas_(PageCanvas::pdf({}, facts_of_rating(findings, record), sink)) {}

    bool write() {
        std::vector<std::vector<PaperPage>> all;
        for (std::size_t i = 0; i < sheets_.size(); ++i) {
            all.push_back(pages_of_sheet(i));
            of_pages_ += all.back().size();
        }
        for (std::size_t i = 0; i < sheets_.size(); ++i) {
            draw_pages(i, all[i]);
        }
        return canvas_.finish();
    }

private:
    std::vector<PaperPiece> pieces_of_sheet(std::size_t i, double scale) const {
        std::vector<PaperPiece> pieces{
            title_piece(canvas_,
                        title_words(findings_, record_, sheets_[i].title, i + 1, sheets_.size())),
            cautions_piece(canvas_, what_if_words(findings_))};
        const auto take = [&](std::vector<PaperPiece> more) {
            std::ranges::move(more, std::back_inserter(pieces));
        };
        take(text_pieces(canvas_, closing_words(record_), {.size = 7.0, .ink = 0.25},
                         rating_area.width));
        take(pieces_of(canvas_, sheets_[i].blocks, rating_area.width, scale));
        return pieces;
    }

    // In slightly smaller letters where the last page would be all but empty otherwise.
    std::vector<PaperPage> pages_of_sheet(std::size_t i) const {
        auto pages = pages_of(pieces_of_sheet(i, 1.0), rating_area.height);
        double last = 0.0;
        for (const PaperPiece& piece : pages.back()) {
            last += piece.height;
        }
        if (pages.size() > 1 && last < rating_area.height * 0.12) {
            auto fewer = pages_of(pieces_of_sheet(i, 0.92), rating_area.height);
            if (fewer.size() < pages.size()) {
                return fewer;
            }
        }
        return pages;
    }

    void draw_pages(std::size_t sheet, const std::vector<PaperPage>& pages) {
        const std::string name = fmt::format("sheet-{}", sheet + 1);
        canvas_.destination(name);
        const int under =
            canvas_.outline(0, fmt::format("{}. {}", sheet + 1, sheets_[sheet].title), name);
        for (std::size_t i = 0; i < pages.size(); ++i) {
            if (i > 0) {
                draw_head(sheet);
            }
            double top = rating_area.top;
            for (const PaperPiece& piece : pages[i]) {
                add_entry(piece, under);
                piece.draw(canvas_, {rating_area.left, top});
                top += piece.height;
            }
            draw_foot();
            canvas_.end_page();
        }
    }

    void add_entry(const PaperPiece& piece, int under) {
        if (!piece.entry.empty()) {
            const std::string name = fmt::format("part-{}", ++entries_);
            canvas_.destination(name);
            canvas_.outline(under, piece.entry, name);
        }
    }

    // A name that is too long for the line stands in full on the sheet's first page.
    void draw_head(std::size_t sheet) {
        const TextLook look{.size = 7.0, .ink = 0.2};
        const double top = rating_area.top - 14.0;
        const std::string what = fmt::format("Sheet {} of {}: {}, continued", sheet + 1,
                                             sheets_.size(), sheets_[sheet].title);
        std::string district = on_one_line(findings_.district.name);
        constexpr std::size_t most = 60;
        if (district.size() > most) {
            district = torn(district, most).front() + "...";
        }
        canvas_.text({rating_area.left, top}, district, look);
        TextLook right = look;
        right.align = Align::right;
        canvas_.text({rating_area.right(), top}, what, right);
        canvas_.line({{rating_area.left, top + 10.0}, {rating_area.right(), top + 10.0}},
                     {.width = 0.5});
    }

    void draw_foot() {
        const TextLook look{.size = 6.5, .ink = 0.2};
        const double top = rating_area.bottom() + 8.0;
        canvas_.line({{rating_area.left, top - 2.0}, {rating_area.right(), top - 2.0}},
                     {.width = 0.5});
        canvas_.text({rating_area.left, top}, foot_words(findings_), look);
        canvas_.text({rating_area.left, top + 9.0}, origin_words(findings_.district, record_), look,
                     rating_area.width - 70.0);
        TextLook right = look;
        right.align = Align::right;
        canvas_.text({rating_area.right(), top + 9.0},
                     fmt::format("page {} of {}", ++page_, of_pages_), right);
    }

    const Findings& findings_;
    const RunRecord& record_;
    const std::vector<RatingSheet>& sheets_;
    PageCanvas canvas_;
    std::size_t page_ = 0;
    std::size_t of_pages_ = 0;
    std::size_t entries_ = 0;
};

}  // namespace

bool write_rating_pdf(const Findings& findings, const RunRecord& record,
                      const std::vector<RatingSheet>& sheets,
                      const std::function<void(std::string_view)>& sink) {
    return RatingPdf(findings, record, sheets, sink).write();
}

}  // namespace farwater::reports
