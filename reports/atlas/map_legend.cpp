#include "reports/atlas/map_legend.h"

#include <algorithm>
#include <array>
#include <functional>

#include <fmt/format.h>

#include "reports/atlas/area_marks.h"
#include "reports/cards/card_words.h"
#include "reports/cautions.h"
#include "reports/origin.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

constexpr std::array scales_in_feet{
    300,  400,  500,  600,   800,   1000,  1200,  1400,  1600,  1800,  2000,   2500,   3000,  4000,
    5000, 6000, 8000, 10000, 12000, 15000, 20000, 30000, 40000, 60000, 100000, 200000, 500000};

// Signs below each other, each with what it means.
class LegendRows {
public:
    LegendRows(PageCanvas& canvas, Point top_left, const LegendSize& look)
        : canvas_(canvas), at_(top_left), look_(look) {}

    void title(const std::string& text) {
        at_.y += 5.0 * look_.size;
        at_.y +=
            canvas_.text(at_, text, {.size = 9.0 * look_.size, .bold = true}, look_.width).height;
        at_.y += 1.5 * look_.size;
    }
    void row(const std::function<void(Point middle)>& sign, const std::string& text) {
        const double indent = 24.0 * look_.size;
        const TextLook plain{.size = 8.0 * look_.size};
        const double height =
            canvas_.text({at_.x + indent, at_.y}, text, plain, look_.width - indent).height;
        const double line = canvas_.extent("A", plain).height;
        sign({at_.x + indent / 2.0 - 2.0, at_.y + line / 2.0});
        at_.y += height + 2.5 * look_.size;
    }
    double bottom() const { return at_.y; }

private:
    PageCanvas& canvas_;
    Point at_;
    LegendSize look_;
};

void add_states(LegendRows& rows, PageCanvas& canvas, const CardBook& book, double size) {
    std::array<std::size_t, 8> counts{};
    for (std::size_t row = 0; row < book.findings.parcels(); ++row) {
        ++counts.at(static_cast<std::size_t>(book.findings.supply(row).state));
    }
    rows.title("Properties with a building, worst season and period");
    for (const StateSign& sign : state_signs) {
        const std::size_t count = counts.at(static_cast<std::size_t>(sign.state));
        rows.row([&](Point at) { draw_state(canvas, sign.state, at, 2.8 * size); },
                 fmt::format("{}: {}", sign.legend, in_thousands(static_cast<double>(count))));
    }
}

void add_water(LegendRows& rows, PageCanvas& canvas, double size) {
    rows.title("Water, with its id; bold where tankers fill");
    constexpr std::array<std::pair<SourceKind, std::string_view>, 4> kinds{
        {{SourceKind::hydrant, "hydrant"},
         {SourceKind::dry_hydrant, "dry hydrant"},
         {SourceKind::draft_site, "draft site"},
         {SourceKind::cistern, "cistern"}}};
    for (const auto& [kind, words] : kinds) {
        rows.row([&, which = kind](Point at) { draw_water(canvas, which, true, at, 4.2 * size); },
                 std::string(words));
    }
    rows.row([&](Point at) { draw_water(canvas, SourceKind::draft_site, false, at, 4.2 * size); },
             "does not count: no evidence, or not for operations");
}

void add_places(LegendRows& rows, PageCanvas& canvas, double size) {
    rows.title("Places");
    rows.row([&](Point at) { draw_dump_site(canvas, "27", at, 6.0 * size); },
             "dump site, with the number of its run card");
    rows.row([&](Point at) { draw_dump_site(canvas, "", at, 6.0 * size); },
             "dump site without a card");
    rows.row([&](Point at) { draw_station(canvas, at, 6.0 * size); },
             "station, or where aid comes in");
}

void add_roads(LegendRows& rows, PageCanvas& canvas, double size) {
    rows.title("Roads");
    constexpr std::array<std::pair<RoadClass, std::string_view>, 6> kinds{
        {{RoadClass::state, "state road"},
         {RoadClass::paved, "paved road"},
         {RoadClass::paved_lane, "paved lane"},
         {RoadClass::gravel, "gravel road"},
         {RoadClass::narrow, "narrow road"},
         {RoadClass::drive, "drive"}}};
    const auto stretch = [&](Point at, const Stroke& stroke) {
        canvas.line({{at.x - 9.0 * size, at.y}, {at.x + 9.0 * size, at.y}}, stroke);
    };
    for (const auto& [kind, words] : kinds) {
        rows.row([&, which = kind](Point at) { stretch(at, road_stroke(which, true, size)); },
                 std::string(words));
    }
    rows.row([&](Point at) { stretch(at, road_stroke(RoadClass::narrow, false, size)); },
             "no tanker may use it");
}

struct BarLength {
    double feet;
    std::string_view words;
};

constexpr std::array bar_lengths{BarLength{200, "200 ft"},    BarLength{500, "500 ft"},
                                 BarLength{1000, "1,000 ft"}, BarLength{2640, "1/2 mile"},
                                 BarLength{5280, "1 mile"},   BarLength{10560, "2 miles"},
                                 BarLength{26400, "5 miles"}, BarLength{52800, "10 miles"}};

void draw_north(PageCanvas& canvas, Point top, double size) {
    canvas.area({{top.x, top.y},
                 {top.x + 5.0 * size, top.y + 18.0 * size},
                 {top.x, top.y + 14.0 * size},
                 {top.x - 5.0 * size, top.y + 18.0 * size}},
                0.0);
    canvas.text({top.x, top.y + 18.0 * size}, "N",
                {.size = 9.0 * size, .bold = true, .align = Align::centre});
}

}  // namespace

std::span<const int> map_scales() { return scales_in_feet; }

double draw_legend(PageCanvas& canvas, const CardBook& book, Point top_left,
                   const LegendSize& look) {
    LegendRows rows(canvas, top_left, look);
    add_states(rows, canvas, book, look.size);
    add_places(rows, canvas, look.size);
    add_water(rows, canvas, look.size);
    add_roads(rows, canvas, look.size);
    return rows.bottom();
}

double draw_scale(PageCanvas& canvas, int feet_per_inch, std::string_view grid_side, Point top_left,
                  const LegendSize& look) {
    const double room = look.width - 40.0 * look.size;
    BarLength bar = bar_lengths.front();
    for (const BarLength& longer : bar_lengths) {
        bar = longer.feet * 72.0 / feet_per_inch <= room ? longer : bar;
    }
    const double length = bar.feet * 72.0 / feet_per_inch;
    const TextLook plain{.size = 8.0 * look.size};
    double y = top_left.y + 8.0 * look.size;
    const Rect whole{top_left.x, y, length, 3.5 * look.size};
    canvas.fill({whole.left, whole.top, length / 2.0, whole.height}, 0.0);
    canvas.frame(whole, {.width = 0.8});
    draw_north(canvas, {top_left.x + look.width - 10.0 * look.size, top_left.y}, look.size);
    y += 5.0 * look.size;
    y += canvas.text({top_left.x, y}, std::string(bar.words), plain, room).height;
    y += canvas
             .text({top_left.x, y},
                   fmt::format("1 in = {} ft where it is printed at full size. Squares: {}.",
                               in_thousands(feet_per_inch), grid_side),
                   plain, room)
             .height;
    return std::max(y, top_left.y + 32.0 * look.size);
}

double draw_cautions(PageCanvas& canvas, const CardBook& book, Point top_left,
                     const LegendSize& look) {
    const TextLook plain{.size = 8.0 * look.size};
    std::vector<std::string> lines{"For the department; not for the public."};
    lines.insert(lines.end(), cautions.begin(), cautions.end());
    lines.emplace_back("A name that would cover another thing is left out.");
    const double inner = look.width - 10.0 * look.size;
    double y = top_left.y + 4.0 * look.size;
    for (const std::string& line : lines) {
        y += canvas.text({top_left.x + 5.0 * look.size, y}, line, plain, inner).height + 1.0;
    }
    if (const std::string what_if = what_if_sentence(book.district()); !what_if.empty()) {
        y += canvas
                 .text({top_left.x + 5.0 * look.size, y}, what_if,
                       {.size = 8.0 * look.size, .bold = true}, inner)
                 .height;
    }
    canvas.frame({top_left.x, top_left.y, look.width, y + 3.0 - top_left.y},
                 {.width = 1.2, .ink = Ink::rgb(0xa3123a)});
    return y + 6.0;
}

double draw_map_head(PageCanvas& canvas, const CardBook& book, const std::string& title,
                     const Rect& band, double size) {
    const TextLook small{.size = 7.5 * size, .align = Align::right};
    const double right_width = band.width * 0.36;
    const double right = canvas
                             .text({band.right() - right_width, band.top},
                                   origin_words(book.district(), book.record), small, right_width)
                             .height;
    double y = band.top;
    y += canvas
             .text({band.left, y}, fmt::format("{}: {}", name_words(book.district().name), title),
                   {.size = 15.0 * size, .bold = true}, band.width - right_width - 12.0)
             .height;
    return std::max(y, band.top + right);
}

}  // namespace farwater::reports
