#include <array>
#include <cmath>

#include <fmt/format.h>

#include "reports/print/drawing.h"
#include "reports/text/svg.h"

namespace farwater::reports {
namespace {

std::string hex(const Ink& ink) {
    const auto part = [](double share) { return static_cast<int>(std::lround(share * 255.0)); };
    return fmt::format("#{:02x}{:02x}{:02x}", part(ink.red), part(ink.green), part(ink.blue));
}

std::string paint(const std::optional<Ink>& fill, const std::optional<Stroke>& edge) {
    std::string text = fill ? fmt::format(" fill=\"{}\"", hex(*fill)) : " fill=\"none\"";
    if (edge) {
        text += fmt::format(" stroke=\"{}\" stroke-width=\"{:.3g}\"", hex(edge->ink), edge->width);
        text += edge->dash > 0.0 ? fmt::format(" stroke-dasharray=\"{:.3g}\"", edge->dash) : "";
    }
    return text;
}

std::string svg_of_thing(const Drawing::Path& path) {
    std::string data;
    std::string last;
    for (const Point& point : path.points) {
        std::string here = fmt::format("{:.1f} {:.1f}", point.x, point.y);
        if (here != last) {
            data += (data.empty() ? "M" : "L") + here;
            last = std::move(here);
        }
    }
    return fmt::format("<path d=\"{}{}\"{}/>\n", data, path.closed ? "Z" : "",
                       paint(path.fill, path.edge));
}

std::string svg_of_thing(const Drawing::Disc& disc) {
    return fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{:.1f}\"{}/>\n", disc.middle.x,
                       disc.middle.y, disc.radius, paint(disc.fill, disc.edge));
}

std::string svg_of_thing(const Drawing::Label& label) {
    constexpr std::array<std::string_view, 3> anchors{"", " text-anchor=\"middle\"",
                                                      " text-anchor=\"end\""};
    return fmt::format(
        "<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"{:.3g}\" fill=\"{}\"{}{}{}>{}</text>\n",
        label.start.x, label.start.y, label.look.size, hex(label.look.ink),
        anchors.at(static_cast<std::size_t>(label.look.align)),
        label.look.bold ? " font-weight=\"bold\"" : "",
        label.edged ? " stroke=\"#fff\" stroke-width=\"2.5\" paint-order=\"stroke\"" : "",
        escaped(label.text));
}

}  // namespace

std::string svg_of(const Drawing& drawing) {
    std::string svg = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.0f} {:.0f}\" "
        "font-family=\"sans-serif\" role=\"img\" stroke-linejoin=\"round\">\n<title>{}</title>\n"
        "<rect width=\"100%\" height=\"100%\" fill=\"{}\"/>\n",
        drawing.width, drawing.height, escaped(drawing.title), hex(drawing.ground));
    for (const Drawing::Thing& thing : drawing.things) {
        svg += std::visit([](const auto& one) { return svg_of_thing(one); }, thing);
    }
    return svg + "</svg>\n";
}

}  // namespace farwater::reports
