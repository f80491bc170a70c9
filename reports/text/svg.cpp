#include "reports/text/svg.h"

#include <algorithm>

#include <fmt/format.h>

#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

std::string_view as_entity(char c) {
    switch (c) {
        case '&':
            return "&amp;";
        case '<':
            return "&lt;";
        case '>':
            return "&gt;";
        case '"':
            return "&quot;";
        case '\'':
            return "&#39;";
        default:
            return {};
    }
}

}  // namespace

std::string escaped(std::string_view text) {
    std::string safe;
    for (const char c : mended(text)) {
        const std::string_view entity = as_entity(c);
        if (entity.empty()) {
            safe.push_back(c);
        } else {
            safe += entity;
        }
    }
    return safe;
}

PageFit::PageFit(const Box& box, double left, double top, double width, double height) : box_(box) {
    const double across = box.empty() ? 0.0 : box.high.x - box.low.x;
    const double up = box.empty() ? 0.0 : box.high.y - box.low.y;
    if (box.empty()) {
        box_ = {{0, 0}, {0, 0}};
    }
    const double by_width = across > 0.0 ? width / across : 1e300;
    const double by_height = up > 0.0 ? height / up : 1e300;
    scale_ = std::min(by_width, by_height) < 1e300 ? std::min(by_width, by_height) : 1.0;
    left_ = left + (width - across * scale_) / 2.0;
    bottom_ = top + height - (height - up * scale_) / 2.0;
}

std::string path_data(const Polyline& line, const PageFit& fit) {
    std::string data;
    std::string last;
    for (const Point p : line) {
        const Point on_page = fit(p);
        std::string here = fmt::format("{:.1f} {:.1f}", on_page.x, on_page.y);
        if (here != last) {
            data += (data.empty() ? "M" : "L") + here;
            last = std::move(here);
        }
    }
    return data;
}

}  // namespace farwater::reports
