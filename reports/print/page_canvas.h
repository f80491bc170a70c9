// A page to write and draw on, in points (1/72 in) from its top left corner. What is drawn leaves
// as PDF or PNG through a sink, piece by piece: nothing here touches a disk. The one place that
// knows cairo and pango.
//
// Letters are DejaVu Sans, embedded; the same calls give the same bytes. Text is mended first
// (plain_text.h) and never cut: it wraps, inside a word where a word is too long. All canvases are
// used from one thread.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "analyzer/district/plane.h"

namespace farwater::reports {

struct PageSize {
    double width = 612.0;  // US letter
    double height = 792.0;
};

struct Rect {
    double left = 0.0, top = 0.0, width = 0.0, height = 0.0;
    double right() const { return left + width; }
    double bottom() const { return top + height; }
};

enum class Align : std::uint8_t { left, centre, right };

// A colour, each part from 0 to 1; of a grey one number is enough: 0 black, 1 white.
struct Ink {
    double red = 0.0, green = 0.0, blue = 0.0;

    constexpr Ink() = default;
    // NOLINTNEXTLINE(google-explicit-constructor): a grey is written as its number
    constexpr Ink(double grey) : red(grey), green(grey), blue(grey) {}
    // 0x1f78b4
    static constexpr Ink rgb(unsigned colour) {
        Ink ink;
        ink.red = ((colour >> 16U) & 0xFFU) / 255.0;
        ink.green = ((colour >> 8U) & 0xFFU) / 255.0;
        ink.blue = (colour & 0xFFU) / 255.0;
        return ink;
    }
    friend constexpr bool operator==(const Ink&, const Ink&) = default;
};

struct TextLook {
    double size = 9.0;
    bool bold = false;
    Align align = Align::left;
    Ink ink = 0.0;
};

struct Extent {
    double width = 0.0, height = 0.0;
};

struct Stroke {
    double width = 1.0;
    Ink ink = 0.0;
    double dash = 0.0;  // length of dashes and gaps; 0 = a full line
};

struct DocumentFacts {
    std::string title, author, subject, creator;
    std::string date;  // "2026-05-31T00:00:00Z"
};

class PageCanvas {
public:
    using Sink = std::function<void(std::string_view)>;

    static PageCanvas pdf(PageSize size, const DocumentFacts& facts, Sink sink);
    // One page as a picture in greys, `dots` to the point; colours become the grey as bright.
    static PageCanvas picture(PageSize size, double dots, Sink sink);
    PageCanvas(PageCanvas&&) noexcept;
    PageCanvas& operator=(PageCanvas&&) noexcept;
    PageCanvas(const PageCanvas&) = delete;
    PageCanvas& operator=(const PageCanvas&) = delete;
    ~PageCanvas();

    // The rest of the document goes to the sink; nothing may be drawn afterwards. False: the
    // document could not be made. What the sink threw comes out of here or of end_page, and the
    // sink is not asked again.
    bool finish();
    void end_page();

    // Room of a text that wraps at `width`; width 0: it does not wrap.
    Extent extent(std::string_view text, const TextLook& look, double width = 0.0) const;
    // Draws it with its box's top left corner there; of aligned text without a width, that point is
    // the middle or the right end. Returns the room that it took.
    Extent text(Point top_left, std::string_view text, const TextLook& look, double width = 0.0);
    // On a white plate, its middle there, turned by `angle` (radians, clockwise).
    void label(Point middle, std::string_view text, const TextLook& look, double angle = 0.0);
    // With a white edge round its letters instead, which hides less of a map.
    void edged(Point middle, std::string_view text, const TextLook& look, double angle = 0.0);

    void line(const Polyline& points, const Stroke& stroke);
    void area(const Polyline& ring, const Ink& ink);
    void fill(const Rect& rect, const Ink& ink);
    void frame(const Rect& rect, const Stroke& stroke);
    void disc(Point middle, double radius, const Ink& ink, const Stroke& edge);
    void ring(Point middle, double radius, const Stroke& stroke);
    void clip(const Rect& rect);  // until unclip
    void unclip();

    // Of a PDF: a place that links lead to, a link on a rectangle, an entry of the outline below
    // another (0 = at the top; returns its number). Names are ours: letters, digits and hyphens.
    void destination(const std::string& name);
    void link(const Rect& rect, const std::string& destination);
    int outline(int parent, std::string_view title, const std::string& destination);

private:
    struct State;
    explicit PageCanvas(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

}  // namespace farwater::reports
