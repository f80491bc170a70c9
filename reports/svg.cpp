#include "reports/svg.h"

#include <algorithm>

#include <fmt/format.h>

namespace farwater::reports {
namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";

// Length of the valid UTF-8 sequence at the start of `text`; 0 where there is none (RFC 3629).
// NOLINTNEXTLINE(readability-function-cognitive-complexity): the standard's table of ranges
std::size_t sequence_length(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(0);
    if (lead < 0x80) {
        return 1;
    }
    const std::size_t length = lead >= 0xC2 && lead <= 0xDF   ? 2
                               : lead >= 0xE0 && lead <= 0xEF ? 3
                               : lead >= 0xF0 && lead <= 0xF4 ? 4
                                                              : 0;
    if (length == 0 || text.size() < length) {
        return 0;
    }
    const bool continues =
        std::all_of(text.begin() + 1, text.begin() + static_cast<std::ptrdiff_t>(length),
                    [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; });
    const bool overlong = (lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xF0 && byte(1) < 0x90);
    const bool outside = (lead == 0xED && byte(1) >= 0xA0) || (lead == 0xF4 && byte(1) >= 0x90);
    return continues && !overlong && !outside ? length : 0;
}

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
    while (!text.empty()) {
        const std::size_t length = sequence_length(text);
        const bool control = length == 1 && static_cast<unsigned char>(text[0]) < 0x20 &&
                             text[0] != '\t' && text[0] != '\n';
        const std::string_view entity = as_entity(text[0]);
        if (length == 0 || control) {
            safe += replacement;
        } else {
            safe += entity.empty() ? text.substr(0, length) : entity;
        }
        text.remove_prefix(std::max<std::size_t>(1, length));
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
