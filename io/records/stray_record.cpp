#include "io/records/stray_record.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>
#include <ogrsf_frmts.h>

#include "io/records/record.h"

namespace farwater::io {
namespace {

constexpr double far_out = 20.0;  // times the usual distance

struct Centre {
    Point place;
    std::string name;
};

std::vector<Centre> centres_of(const LayerSource& source, std::string_view id) {
    std::vector<Centre> centres;
    OGRLayer& layer = *source.open.layer;
    layer.ResetReading();
    for (std::uint32_t row = 0;; ++row) {
        const OGRFeatureUniquePtr feature(layer.GetNextFeature());
        if (!feature) {
            return centres;
        }
        const OGRGeometry* shape = feature->GetGeometryRef();
        OGREnvelope box;
        if (shape != nullptr && shape->IsEmpty() == 0) {
            shape->getEnvelope(&box);
            Record record(source, *feature, row);
            record.call(record.text(id));
            centres.push_back(
                {{box.MinX / 2 + box.MaxX / 2, box.MinY / 2 + box.MaxY / 2}, record.name()});
        }
    }
}

double median(std::vector<double> numbers) {
    const auto middle = numbers.begin() + static_cast<std::ptrdiff_t>(numbers.size() / 2);
    std::ranges::nth_element(numbers, middle);
    return *middle;
}

template <class Of>
double median_of(const std::vector<Centre>& centres, Of of) {
    std::vector<double> numbers;
    std::ranges::transform(centres, std::back_inserter(numbers), of);
    return median(std::move(numbers));
}

}  // namespace

std::string stray_record(const LayerSource& source, std::string_view id) {
    const GdalMessages messages;
    const std::vector<Centre> centres = centres_of(source, id);
    if (centres.empty()) {
        return {};
    }
    const Point middle{median_of(centres, [](const Centre& c) { return c.place.x; }),
                       median_of(centres, [](const Centre& c) { return c.place.y; })};
    const auto out = [&](const Centre& c) {
        return std::hypot(c.place.x - middle.x, c.place.y - middle.y);
    };
    const auto farthest = std::ranges::max_element(centres, {}, out);
    if (!(out(*farthest) > far_out * median_of(centres, out))) {
        return {};
    }
    return fmt::format("; {}{} lies far from the others, at x {:.6g} y {:.6g}: look at it first",
                       farthest->name.starts_with("row ") ? "" : "record ", farthest->name,
                       farthest->place.x, farthest->place.y);
}

}  // namespace farwater::io
