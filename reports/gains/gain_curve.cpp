#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "reports/gains/gain_page.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

constexpr Rect curve_plot{.left = 90.0, .top = 30.0, .width = 870.0, .height = 260.0};
constexpr Ink curve_ink = Ink::rgb(0x542788);
constexpr Ink plot_ink = Ink::rgb(0x222222);
constexpr Ink grid_ink = Ink::rgb(0xd9d4c7);

// A step of 1, 2 or 5 times a power of ten: at most five of them.
double step_for(double most) {
    double step = std::pow(10.0, std::floor(std::log10(std::max(most, 1.0) / 5.0)));
    for (const double times : {2.0, 2.5, 2.0}) {  // 2, 5, 10
        step = most / step > 5.0 ? step * times : step;
    }
    return step;
}

void add_rule(Drawing& chart, Point from, Point to, const Ink& ink, double width) {
    Drawing::Path path;
    path.points = {from, to};
    path.edge = Stroke{.width = width, .ink = ink};
    chart.things.emplace_back(std::move(path));
}

void add_words(Drawing& chart, Point at, std::string text, Align align, double size = 13.0) {
    chart.things.emplace_back(
        Drawing::Label{at, std::move(text), {.size = size, .align = align, .ink = plot_ink}, true});
}

}  // namespace

Drawing gain_curve(const std::vector<double>& total_gpm, const std::vector<std::string>& names) {
    Drawing chart{.title = "Gain by the number of sites",
                  .width = 1000.0,
                  .height = 350.0,
                  .ground = 1.0,
                  .things = {}};
    const double most = total_gpm.empty() ? 1.0 : std::max(1.0, std::ranges::max(total_gpm));
    const double step = step_for(most);
    const double top = step * std::ceil(most / step);
    const auto y_of = [&](double gpm) {
        return curve_plot.bottom() - std::max(0.0, gpm) / top * curve_plot.height;
    };
    const double apart =
        curve_plot.width / static_cast<double>(std::max<std::size_t>(1, names.size()));
    const auto x_of = [&](std::size_t sites) {
        return curve_plot.left + apart * static_cast<double>(sites);
    };
    for (double gpm = 0.0; gpm <= top; gpm += step) {
        add_rule(chart, {curve_plot.left, y_of(gpm)}, {curve_plot.right(), y_of(gpm)}, grid_ink,
                 1.0);
        add_words(chart, {curve_plot.left - 8.0, y_of(gpm) + 4.0}, in_thousands(gpm), Align::right);
    }
    add_words(chart, {curve_plot.left - 8.0, 18.0}, "gpm gained", Align::right);
    Drawing::Path curve;
    curve.points = {{x_of(0), y_of(0.0)}};
    for (std::size_t i = 0; i < total_gpm.size(); ++i) {
        curve.points.push_back({x_of(i + 1), y_of(total_gpm[i])});
    }
    curve.edge = Stroke{.width = 2.6, .ink = curve_ink};
    chart.things.emplace_back(curve);
    // With many sites only some of them are named.
    const std::size_t every = (names.size() + 9) / 10;
    for (std::size_t i = 0; i < total_gpm.size(); ++i) {
        const Point at = curve.points[i + 1];
        chart.things.emplace_back(
            Drawing::Disc{at, 4.5, curve_ink, Stroke{.width = 1.0, .ink = 1.0}});
        if (i % every == 0 || i + 1 == total_gpm.size()) {
            const Align align = i + 1 == total_gpm.size() ? Align::right : Align::centre;
            add_words(chart, {at.x + (align == Align::right ? 6.0 : 0.0), at.y - 10.0},
                      in_thousands(total_gpm[i]), align);
            add_words(chart, {at.x, curve_plot.bottom() + 20.0}, fmt::format("{}", i + 1), align);
            add_words(chart, {at.x, curve_plot.bottom() + 38.0}, names[i], align, 11.0);
        }
    }
    return chart;
}

}  // namespace farwater::reports
