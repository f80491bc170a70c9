// A few lines of SVG, with numbers and text written safely.
#pragma once

#include <string>
#include <string_view>

#include "analyzer/district/plane.h"

namespace farwater::reports {

// Text as XML content or attribute: & < > " ' escaped; bytes that are no UTF-8 and control
// characters become U+FFFD.
std::string escaped(std::string_view text);

// From the working plane to the page: north up, one scale.
class PageFit {
public:
    // The box, with its aspect kept, centred in the rectangle. A box without extent is centred.
    PageFit(const Box& box, double left, double top, double width, double height);
    Point operator()(Point p) const {
        return {left_ + (p.x - box_.low.x) * scale_, bottom_ - (p.y - box_.low.y) * scale_};
    }
    double units_per_metre() const { return scale_; }

private:
    Box box_;
    double scale_ = 1.0;
    double left_ = 0.0;
    double bottom_ = 0.0;
};

// "M12.3 45.6L78.9 10.0": coordinates with one decimal, points that fall on the one before left
// out.
std::string path_data(const Polyline& line, const PageFit& fit);

}  // namespace farwater::reports
