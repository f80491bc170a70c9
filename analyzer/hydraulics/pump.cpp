#include "analyzer/hydraulics/pump.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <span>

#include "analyzer/hydraulics/suction_head.h"

namespace farwater::hydraulics {
namespace {

struct SharePoint {
    double at, share;
};
constexpr double rated_up_to_ft = 2000.0;  // above the sea
constexpr std::array by_pressure{SharePoint{150, 1.0}, SharePoint{200, 0.7}, SharePoint{250, 0.5}};
constexpr std::array by_lift{SharePoint{10, 1.0}, SharePoint{15, 0.7}, SharePoint{20, 0.6}};

double on_line(const SharePoint& a, const SharePoint& b, double at) {
    return a.share + (at - a.at) / (b.at - a.at) * (b.share - a.share);
}

// Full before the first point, the last line drawn on beyond the last one. Precondition: two
// points.
double share_at(std::span<const SharePoint> points, double at) {
    if (at <= points.front().at) {
        return points.front().share;
    }
    std::size_t i = 1;
    while (i + 1 < points.size() && at > points[i].at) {
        ++i;
    }
    return std::max(0.0, on_line(points[i - 1], points[i], at));
}

}  // namespace

double pump_share_at_pressure(double net_psi) { return share_at(by_pressure, net_psi); }

double pump_share_at_lift(Length lift, Length altitude) {
    const Length thinner = atmospheric_head(feet(rated_up_to_ft)) - atmospheric_head(altitude);
    return share_at(by_lift, in_feet(lift + std::max(thinner, feet(0))));
}

}  // namespace farwater::hydraulics
