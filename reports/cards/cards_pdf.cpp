
#include <fmt/format.h>

#include "reports/cards/address_index.h"
#include "reports/cards/book_words.h"
#include "reports/cards/card_view.h"
#include "reports/cards/card_words.h"
#include "reports/cards/draw_sheet.h"
#include "reports/cards/index_columns.h"
#include "reports/origin.h"
#include "reports/print/page_canvas.h"

namespace farwater::reports {
namespace {

class CardsPdf {
public:
    CardsPdf(const CardBook& book, const ByteSink& sink)
        : book_(book),
          foot_(name_words(book.district().name) + ". " +
                origin_words(book.district(), book.record)),
          roads_(book.district()),
          canvas_(PageCanvas::pdf({}, facts_of_book(book, "Run cards"), sink)) {}

    bool write(const Work& work) {
        const EndsPage ends_page = [this] { end_page(); };
        canvas_.outline(0, "Address index", "index");
        draw_index_pages(canvas_, book_, address_index(book_), ends_page);
        const int cards = book_.sites.empty() ? 0 : canvas_.outline(0, "Cards", card_anchor(0));
        for (std::size_t card = 0; card < book_.sites.size() && !work.stopped(); ++card) {
            work.step("cards", card, book_.sites.size());
            add(card_sheet({book_, roads_, card}), cards, ends_page);
        }
        const auto counted = sources_with_page(book_);
        const int sources =
            counted.empty() ? 0
                            : canvas_.outline(0, "Sources", source_anchor(counted.front()->source));
        for (std::size_t i = 0; i < counted.size() && !work.stopped(); ++i) {
            work.step("source pages", i, counted.size());
            add(source_sheet(book_, roads_, *counted[i]), sources, ends_page);
        }
        return canvas_.finish();
    }

private:
    void add(const PrintedSheet& sheet, int under, const EndsPage& ends_page) {
        canvas_.outline(under, sheet.outline, sheet.anchor);
        draw_sheet(canvas_, sheet, ends_page);
    }

    void end_page() {
        ++page_;
        const double top = printed_area.bottom() + 6.0;
        const TextLook small{.size = 6.5, .ink = 0.2};
        canvas_.line({{printed_area.left, top - 2.0}, {printed_area.right(), top - 2.0}},
                     {.width = 0.5});
        canvas_.text({printed_area.left, top}, foot_, small, printed_area.width - 60.0);
        canvas_.text({printed_area.right(), top}, fmt::format("page {}", page_),
                     {.size = 6.5, .align = Align::right, .ink = 0.2});
        canvas_.end_page();
    }

    const CardBook& book_;
    std::string foot_;
    RoadsAround roads_;
    PageCanvas canvas_;
    int page_ = 0;
};

}  // namespace

bool write_cards_pdf(const CardBook& book, const Work& work, const ByteSink& sink) {
    return CardsPdf(book, sink).write(work);
}

}  // namespace farwater::reports
