// A drawing as a value, in units from its top left corner: HTML shows it as SVG, paper by strokes.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "reports/print/page_canvas.h"

namespace farwater::reports {

struct Drawing {
    struct Path {
        Polyline points;
        bool closed = false;
        std::optional<Ink> fill;
        std::optional<Stroke> edge;
    };
    struct Disc {
        Point middle;
        double radius = 1.0;
        std::optional<Ink> fill;
        std::optional<Stroke> edge;
    };
    struct Label {
        Point start;  // of its baseline; of aligned text the middle or the end
        std::string text;
        TextLook look;
        bool edged = false;  // with white round its letters
    };
    using Thing = std::variant<Path, Disc, Label>;

    std::string title;
    double width = 1000.0, height = 700.0;
    Ink ground = 1.0;
    std::vector<Thing> things;  // later ones over earlier ones
};

// An <svg> element, well-formed as XML, coordinates with one decimal.
std::string svg_of(const Drawing& drawing);

// As large as the rectangle is wide.
void draw(PageCanvas& canvas, const Drawing& drawing, const Rect& rect);

}  // namespace farwater::reports
