#include "reports/print/page_canvas.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <exception>
#include <utility>

#include <cairo-pdf.h>
#include <fmt/format.h>
#include <pango/pangocairo.h>

#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace cairo_things {

// Not without a name: PageCanvas::State holds them.
struct Freed {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
    void operator()(cairo_t* context) const { cairo_destroy(context); }
    void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
    void operator()(PangoFontMap* fonts) const { g_object_unref(fonts); }
    void operator()(PangoContext* context) const { g_object_unref(context); }
    void operator()(PangoLayout* layout) const { g_object_unref(layout); }
    void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
};
template <class Thing>
using Owned = std::unique_ptr<Thing, Freed>;

// Where cairo's bytes go. What the sink throws must not go through cairo, which would be left in
// the middle of a stream and end the program when it is given back: it waits here for the canvas.
struct Outlet {
    PageCanvas::Sink sink;
    std::exception_ptr thrown;

    void throw_what_waits() {
        if (thrown) {
            std::rethrow_exception(std::exchange(thrown, nullptr));
        }
    }
};

}  // namespace cairo_things

namespace {

using cairo_things::Owned;

constexpr const char* letters_of_pages = "DejaVu Sans";

cairo_status_t to_sink(void* closure, const unsigned char* bytes, unsigned int count) {
    auto& outlet = *static_cast<cairo_things::Outlet*>(closure);
    if (!outlet.sink) {
        return CAIRO_STATUS_WRITE_ERROR;
    }
    try {
        // NOLINTNEXTLINE(cppcoreguidelines-pro-type-reinterpret-cast): cairo's bytes are unsigned
        outlet.sink(std::string_view(reinterpret_cast<const char*>(bytes), count));
    } catch (...) {
        outlet.thrown = std::current_exception();
        outlet.sink = nullptr;
        return CAIRO_STATUS_WRITE_ERROR;
    }
    return CAIRO_STATUS_SUCCESS;
}

// Found once for all pages, and given back at the end, which pango's own is not. Pages are drawn
// from one thread.
PangoFontMap* shared_fonts() {
    static const Owned<PangoFontMap> fonts(pango_cairo_font_map_new());
    return fonts.get();
}

PangoAlignment pango_align(Align align) {
    switch (align) {
        case Align::centre:
            return PANGO_ALIGN_CENTER;
        case Align::right:
            return PANGO_ALIGN_RIGHT;
        case Align::left:
            break;
    }
    return PANGO_ALIGN_LEFT;
}

// No hints of a screen's: letters keep their widths at every size.
void set_plain_fonts(PangoLayout* layout) {
    PangoContext* context = pango_layout_get_context(layout);
    const Owned<cairo_font_options_t> options(cairo_font_options_create());
    cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context, options.get());
    pango_cairo_context_set_resolution(context, 72.0);
    pango_context_set_language(context, pango_language_from_string("en-us"));
    pango_layout_context_changed(layout);
}

// Luma of ITU-R BT.601; a grey keeps its own number.
double brightness(const Ink& ink) {
    return ink == Ink(ink.red) ? ink.red : 0.299 * ink.red + 0.587 * ink.green + 0.114 * ink.blue;
}

std::string rect_attributes(const Rect& rect) {
    return fmt::format("rect=[{:.2f} {:.2f} {:.2f} {:.2f}]", rect.left, rect.top, rect.width,
                       rect.height);
}

}  // namespace

struct PageCanvas::State {
    cairo_things::Outlet outlet;
    Owned<cairo_surface_t> surface;
    Owned<cairo_t> cairo;
    Owned<PangoContext> context;
    Owned<PangoLayout> layout;
    bool is_pdf = false;

    // A picture has greys only: its one channel is set, not painted over.
    void dip(const Ink& ink) const {
        if (is_pdf) {
            cairo_set_source_rgb(cairo.get(), ink.red, ink.green, ink.blue);
        } else {
            cairo_set_source_rgba(cairo.get(), 0.0, 0.0, 0.0, brightness(ink));
        }
    }

    void trace(const Polyline& points) const {
        cairo_new_path(cairo.get());
        for (const Point& point : points) {
            cairo_line_to(cairo.get(), point.x, point.y);
        }
    }

    void trace_circle(Point middle, double radius) const {
        constexpr double whole_turn = 6.283185307179586;
        cairo_new_path(cairo.get());
        cairo_arc(cairo.get(), middle.x, middle.y, radius, 0.0, whole_turn);
    }

    void stroke(const Stroke& stroke) const {
        dip(stroke.ink);
        cairo_set_line_width(cairo.get(), stroke.width);
        cairo_set_line_join(cairo.get(), CAIRO_LINE_JOIN_ROUND);
        const std::array dashes{stroke.dash, stroke.dash};
        cairo_set_dash(cairo.get(), dashes.data(), stroke.dash > 0.0 ? 2 : 0, 0.0);
        cairo_stroke(cairo.get());
    }

    void set(std::string_view text, const TextLook& look, double width) const {
        const Owned<PangoFontDescription> font(pango_font_description_new());
        pango_font_description_set_family(font.get(), letters_of_pages);
        pango_font_description_set_weight(font.get(),
                                          look.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
        pango_font_description_set_absolute_size(font.get(), look.size * PANGO_SCALE);
        pango_layout_set_font_description(layout.get(), font.get());
        pango_layout_set_alignment(layout.get(), pango_align(look.align));
        pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
        pango_layout_set_width(layout.get(),
                               width > 0.0 ? static_cast<int>(width * PANGO_SCALE) : -1);
        const std::string safe = mended(text);
        pango_layout_set_text(layout.get(), safe.data(), static_cast<int>(safe.size()));
    }

    Extent size() const {
        int width = 0;
        int height = 0;
        pango_layout_get_size(layout.get(), &width, &height);
        return {static_cast<double>(width) / PANGO_SCALE,
                static_cast<double>(height) / PANGO_SCALE};
    }
};

PageCanvas::PageCanvas(std::unique_ptr<State> state) : state_(std::move(state)) {
    state_->cairo.reset(cairo_create(state_->surface.get()));
    state_->context.reset(pango_font_map_create_context(shared_fonts()));
    pango_cairo_update_context(state_->cairo.get(), state_->context.get());
    state_->layout.reset(pango_layout_new(state_->context.get()));
    set_plain_fonts(state_->layout.get());
}
PageCanvas::PageCanvas(PageCanvas&&) noexcept = default;
PageCanvas& PageCanvas::operator=(PageCanvas&&) noexcept = default;
PageCanvas::~PageCanvas() = default;

PageCanvas PageCanvas::pdf(PageSize size, const DocumentFacts& facts, Sink sink) {
    auto state = std::make_unique<State>();
    state->outlet.sink = std::move(sink);
    state->is_pdf = true;
    state->surface.reset(
        cairo_pdf_surface_create_for_stream(to_sink, &state->outlet, size.width, size.height));
    cairo_surface_t* surface = state->surface.get();
    const auto say = [&](cairo_pdf_metadata_t key, const std::string& text) {
        cairo_pdf_surface_set_metadata(surface, key, mended(text).c_str());
    };
    say(CAIRO_PDF_METADATA_TITLE, facts.title);
    say(CAIRO_PDF_METADATA_AUTHOR, facts.author);
    say(CAIRO_PDF_METADATA_SUBJECT, facts.subject);
    say(CAIRO_PDF_METADATA_CREATOR, facts.creator);
    say(CAIRO_PDF_METADATA_CREATE_DATE, facts.date);
    say(CAIRO_PDF_METADATA_MOD_DATE, facts.date);
    return PageCanvas(std::move(state));
}

PageCanvas PageCanvas::picture(PageSize size, double dots, Sink sink) {
    auto state = std::make_unique<State>();
    state->outlet.sink = std::move(sink);
    state->surface.reset(
        cairo_image_surface_create(CAIRO_FORMAT_A8, static_cast<int>(std::ceil(size.width * dots)),
                                   static_cast<int>(std::ceil(size.height * dots))));
    PageCanvas canvas(std::move(state));
    cairo_t* cairo = canvas.state_->cairo.get();
    cairo_set_operator(cairo, CAIRO_OPERATOR_SOURCE);
    cairo_set_source_rgba(cairo, 0.0, 0.0, 0.0, 1.0);
    cairo_paint(cairo);
    cairo_scale(cairo, dots, dots);
    pango_cairo_update_layout(cairo, canvas.state_->layout.get());
    return canvas;
}

bool PageCanvas::finish() {
    if (!state_->is_pdf) {
        const cairo_status_t status =
            cairo_surface_write_to_png_stream(state_->surface.get(), to_sink, &state_->outlet);
        state_->outlet.throw_what_waits();
        return status == CAIRO_STATUS_SUCCESS;
    }
    cairo_surface_finish(state_->surface.get());
    state_->outlet.throw_what_waits();
    return cairo_status(state_->cairo.get()) == CAIRO_STATUS_SUCCESS &&
           cairo_surface_status(state_->surface.get()) == CAIRO_STATUS_SUCCESS;
}

void PageCanvas::end_page() {
    cairo_show_page(state_->cairo.get());
    state_->outlet.throw_what_waits();
}

Extent PageCanvas::extent(std::string_view text, const TextLook& look, double width) const {
    state_->set(text, look, width);
    return state_->size();
}

Extent PageCanvas::text(Point top_left, std::string_view text, const TextLook& look, double width) {
    state_->set(text, look, width);
    const Extent room = state_->size();
    double left = top_left.x;
    if (width <= 0.0) {
        left -= look.align == Align::centre  ? room.width / 2.0
                : look.align == Align::right ? room.width
                                             : 0.0;
    }
    state_->dip(look.ink);
    cairo_move_to(state_->cairo.get(), left, top_left.y);
    pango_cairo_show_layout(state_->cairo.get(), state_->layout.get());
    return room;
}

void PageCanvas::label(Point middle, std::string_view text, const TextLook& look, double angle) {
    cairo_t* cairo = state_->cairo.get();
    state_->set(text, look, 0.0);
    const Extent room = state_->size();
    cairo_save(cairo);
    cairo_translate(cairo, middle.x, middle.y);
    cairo_rotate(cairo, angle);
    cairo_rectangle(cairo, -room.width / 2.0 - 0.8, -room.height * 0.36, room.width + 1.6,
                    room.height * 0.74);
    state_->dip(1.0);
    cairo_fill(cairo);
    state_->dip(look.ink);
    cairo_move_to(cairo, -room.width / 2.0, -room.height / 2.0);
    pango_cairo_show_layout(cairo, state_->layout.get());
    cairo_restore(cairo);
}

void PageCanvas::edged(Point middle, std::string_view text, const TextLook& look, double angle) {
    cairo_t* cairo = state_->cairo.get();
    state_->set(text, look, 0.0);
    const Extent room = state_->size();
    cairo_save(cairo);
    cairo_translate(cairo, middle.x, middle.y);
    cairo_rotate(cairo, angle);
    cairo_move_to(cairo, -room.width / 2.0, -room.height / 2.0);
    pango_cairo_layout_path(cairo, state_->layout.get());
    state_->stroke({.width = 1.8, .ink = 1.0});
    state_->dip(look.ink);
    cairo_move_to(cairo, -room.width / 2.0, -room.height / 2.0);
    pango_cairo_show_layout(cairo, state_->layout.get());
    cairo_restore(cairo);
}

void PageCanvas::line(const Polyline& points, const Stroke& stroke) {
    state_->trace(points);
    state_->stroke(stroke);
}

void PageCanvas::area(const Polyline& ring, const Ink& ink) {
    state_->trace(ring);
    cairo_close_path(state_->cairo.get());
    state_->dip(ink);
    cairo_fill(state_->cairo.get());
}

void PageCanvas::fill(const Rect& rect, const Ink& ink) {
    cairo_rectangle(state_->cairo.get(), rect.left, rect.top, rect.width, rect.height);
    state_->dip(ink);
    cairo_fill(state_->cairo.get());
}

void PageCanvas::frame(const Rect& rect, const Stroke& stroke) {
    cairo_rectangle(state_->cairo.get(), rect.left, rect.top, rect.width, rect.height);
    state_->stroke(stroke);
}

void PageCanvas::disc(Point middle, double radius, const Ink& ink, const Stroke& edge) {
    state_->trace_circle(middle, radius);
    state_->dip(ink);
    if (edge.width > 0.0) {
        cairo_fill_preserve(state_->cairo.get());
        state_->stroke(edge);
    } else {
        cairo_fill(state_->cairo.get());
    }
}

void PageCanvas::ring(Point middle, double radius, const Stroke& stroke) {
    state_->trace_circle(middle, radius);
    state_->stroke(stroke);
}

void PageCanvas::clip(const Rect& rect) {
    cairo_save(state_->cairo.get());
    cairo_rectangle(state_->cairo.get(), rect.left, rect.top, rect.width, rect.height);
    cairo_clip(state_->cairo.get());
}

void PageCanvas::unclip() { cairo_restore(state_->cairo.get()); }

void PageCanvas::destination(const std::string& name) {
    if (state_->is_pdf) {
        cairo_tag_begin(state_->cairo.get(), CAIRO_TAG_DEST,
                        fmt::format("name='{}' x=0 y=0", name).c_str());
        cairo_tag_end(state_->cairo.get(), CAIRO_TAG_DEST);
    }
}

void PageCanvas::link(const Rect& rect, const std::string& destination) {
    if (state_->is_pdf) {
        cairo_tag_begin(state_->cairo.get(), CAIRO_TAG_LINK,
                        fmt::format("{} dest='{}'", rect_attributes(rect), destination).c_str());
        cairo_tag_end(state_->cairo.get(), CAIRO_TAG_LINK);
    }
}

int PageCanvas::outline(int parent, std::string_view title, const std::string& destination) {
    if (!state_->is_pdf) {
        return 0;
    }
    return cairo_pdf_surface_add_outline(
        state_->surface.get(), parent == 0 ? CAIRO_PDF_OUTLINE_ROOT : parent,
        on_one_line(title).c_str(), fmt::format("dest='{}'", destination).c_str(),
        CAIRO_PDF_OUTLINE_FLAG_OPEN);
}

}  // namespace farwater::reports
