#include "reports/print/drawing.h"

namespace farwater::reports {
namespace {

class DrawingOnPaper {
public:
    DrawingOnPaper(PageCanvas& canvas, const Drawing& drawing, const Rect& rect)
        : canvas_(canvas), rect_(rect), scale_(rect.width / drawing.width) {}

    void operator()(const Drawing::Path& path) const {
        Polyline points;
        for (const Point& point : path.points) {
            points.push_back(placed(point));
        }
        if (path.closed && !points.empty()) {
            points.push_back(points.front());
        }
        if (path.fill) {
            canvas_.area(points, *path.fill);
        }
        if (path.edge) {
            canvas_.line(points, smaller(*path.edge));
        }
    }

    void operator()(const Drawing::Disc& disc) const {
        const Point middle = placed(disc.middle);
        const double radius = disc.radius * scale_;
        if (disc.fill) {
            canvas_.disc(middle, radius, *disc.fill,
                         smaller(disc.edge.value_or(Stroke{.width = 0.0, .ink = *disc.fill})));
        } else if (disc.edge) {
            canvas_.ring(middle, radius, smaller(*disc.edge));
        }
    }

    void operator()(const Drawing::Label& label) const {
        TextLook look = label.look;
        look.size *= scale_;
        const Extent room = canvas_.extent(label.text, look);
        constexpr double ascent = 0.928;  // of DejaVu Sans, in sizes
        Point start = placed(label.start);
        start.y -= ascent * look.size;
        if (!label.edged) {
            canvas_.text(start, label.text, look);
            return;
        }
        const double aside = look.align == Align::left    ? room.width / 2.0
                             : look.align == Align::right ? -room.width / 2.0
                                                          : 0.0;
        canvas_.edged({start.x + aside, start.y + room.height / 2.0}, label.text, look);
    }

private:
    Point placed(Point p) const { return {rect_.left + p.x * scale_, rect_.top + p.y * scale_}; }
    Stroke smaller(const Stroke& stroke) const {
        return {stroke.width * scale_, stroke.ink, stroke.dash * scale_};
    }

    PageCanvas& canvas_;
    const Rect& rect_;
    double scale_;
};

}  // namespace

void draw(PageCanvas& canvas, const Drawing& drawing, const Rect& rect) {
    canvas.fill(rect, drawing.ground);
    canvas.clip(rect);
    const DrawingOnPaper on_paper(canvas, drawing, rect);
    for (const Drawing::Thing& thing : drawing.things) {
        std::visit(on_paper, thing);
    }
    canvas.unclip();
    canvas.frame(rect, {.width = 0.6});
}

}  // namespace farwater::reports
