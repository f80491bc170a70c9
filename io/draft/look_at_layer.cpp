#include "io/draft/look_at_layer.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include <ogrsf_frmts.h>

#include "analyzer/district/units.h"
#include "io/files/letters.h"
#include "io/records/dataset.h"
#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

constexpr double metres_per_degree = 111'320.0;  // of a great circle; good to a hundredth
constexpr GIntBig few_records = 100'000;

LookShape look_shape_of(OGRwkbGeometryType type) {
    const OGRwkbGeometryType flat = wkbFlatten(type);
    if (flat == wkbNone) {
        return LookShape::none;
    }
    if (flat == wkbPoint || flat == wkbMultiPoint) {
        return LookShape::point;
    }
    if (OGR_GT_IsSubClassOf(flat, wkbCurve) != 0 || OGR_GT_IsSubClassOf(flat, wkbMultiCurve) != 0) {
        return LookShape::line;
    }
    const bool area =
        OGR_GT_IsSurface(flat) != 0 || OGR_GT_IsSubClassOf(flat, wkbMultiSurface) != 0;
    return area ? LookShape::area : LookShape::unknown;
}

double area_of(const OGRGeometry& shape) {
    const OGRwkbGeometryType flat = wkbFlatten(shape.getGeometryType());
    if (OGR_GT_IsSurface(flat) != 0) {
        return shape.toSurface()->get_Area();
    }
    return OGR_GT_IsSubClassOf(flat, wkbMultiSurface) != 0 ? shape.toMultiSurface()->get_Area()
                                                           : 0.0;
}

// Square feet of one square unit of the layer near `latitude`.
double sqft_of_square_unit(const OGRSpatialReference* crs, double latitude) {
    if (crs == nullptr) {
        return 0.0;
    }
    if (crs->IsGeographic() != 0) {
        return metres_per_degree * metres_per_degree *
               std::cos(latitude * std::numbers::pi / 180.0) / square_metres_per_square_foot;
    }
    const double metres = crs->GetLinearUnits();
    return metres * metres / square_metres_per_square_foot;
}

// The sample of one column.
class ColumnSample {
public:
    void add(const char* raw) {
        ++records_;
        const std::string text(trimmed(seen_letters(as_utf8(raw)).text));
        if (text.empty()) {
            return;
        }
        ++filled_;
        if (different_.insert(text).second) {
            order_.push_back(text);
        }
        const std::optional<double> number = parse_number(text);
        all_numbers_ = all_numbers_ && number;
        low_ = filled_ == 1 ? number.value_or(0.0) : std::min(low_, number.value_or(low_));
        high_ = filled_ == 1 ? number.value_or(0.0) : std::max(high_, number.value_or(high_));
    }
    ColumnLook look(std::string name) const {
        ColumnLook look;
        look.name = std::move(name);
        look.values = order_;
        look.filled = filled_;
        look.all_differ = records_ > 0 && order_.size() == records_;
        look.numbers = all_numbers_ && filled_ > 0;
        look.low = look.numbers ? low_ : 0.0;
        look.high = look.numbers ? high_ : 0.0;
        return look;
    }

private:
    std::size_t records_ = 0, filled_ = 0;
    std::set<std::string, std::less<>> different_;
    std::vector<std::string> order_;
    bool all_numbers_ = true;
    double low_ = 0.0, high_ = 0.0;
};

// What the first records show.
class LayerSample {
public:
    explicit LayerSample(OGRLayer& layer)
        : layer_(&layer),
          columns_(static_cast<std::size_t>(layer.GetLayerDefn()->GetFieldCount())) {}

    void take(std::size_t most) {
        layer_->ResetReading();
        while (records_ < most) {
            const OGRFeatureUniquePtr feature(layer_->GetNextFeature());
            if (!feature) {
                ended_ = true;
                break;
            }
            ++records_;
            add(*feature);
        }
        layer_->ResetReading();
    }

    std::size_t records() const { return records_; }
    bool ended() const { return ended_; }  // the layer holds no more
    ColumnLook column(std::size_t i, std::string name) const {
        return columns_[i].look(std::move(name));
    }
    // The shape that most records have.
    LookShape shape() const {
        const auto most = std::ranges::max_element(
            shapes_, {}, [](const auto& counted) { return counted.second; });
        return most == shapes_.end() ? LookShape::none : most->first;
    }
    // In square units of the layer.
    double middle_area() const {
        std::vector<double> sorted = areas_;
        std::ranges::sort(sorted);
        return sorted.empty() ? 0.0 : sorted[sorted.size() / 2];
    }
    double mean_area() const {
        double sum = 0.0;
        for (const double area : areas_) {
            sum += area;
        }
        return areas_.empty() ? 0.0 : sum / static_cast<double>(areas_.size());
    }
    const OGREnvelope& box() const { return box_; }

private:
    void add(const OGRFeature& feature) {
        for (std::size_t i = 0; i < columns_.size(); ++i) {
            const int field = static_cast<int>(i);
            columns_[i].add(
                feature.IsFieldSetAndNotNull(field) != 0 ? feature.GetFieldAsString(field) : "");
        }
        const OGRGeometry* shape = feature.GetGeometryRef();
        if (shape == nullptr || shape->IsEmpty() != 0) {
            return;
        }
        const LookShape kind = look_shape_of(shape->getGeometryType());
        ++shapes_[kind];
        if (kind == LookShape::area) {
            areas_.push_back(area_of(*shape));
        }
        OGREnvelope one;
        shape->getEnvelope(&one);
        box_.Merge(one);
    }

    OGRLayer* layer_;
    std::vector<ColumnSample> columns_;
    std::size_t records_ = 0;
    bool ended_ = false;
    std::map<LookShape, std::size_t> shapes_;
    std::vector<double> areas_;
    OGREnvelope box_;
};

std::optional<std::size_t> count_of_records(OGRLayer& layer, const LookRules& rules,
                                            const LayerSample& sample) {
    if (sample.ended()) {
        return sample.records();
    }
    const bool quick = layer.TestCapability(OLCFastFeatureCount) != 0;
    if (!quick && !rules.counts) {
        return std::nullopt;
    }
    const GIntBig count = layer.GetFeatureCount(TRUE);
    return count < 0 ? std::nullopt : std::optional(static_cast<std::size_t>(count));
}

// In the layer's own coordinates; not where telling it would read a large layer.
std::optional<CrsExtent> box_of_layer(OGRLayer& layer, const LayerLook& look,
                                      const LayerSample& sample) {
    OGREnvelope box;
    const bool may_read = look.records && *look.records <= few_records;
    if (sample.ended()) {
        box = sample.box();
    } else if (layer.GetExtent(&box, may_read ? TRUE : FALSE) != OGRERR_NONE) {
        return std::nullopt;
    }
    if (box.IsInit() == 0) {
        return std::nullopt;
    }
    return CrsExtent{box.MinX, box.MinY, box.MaxX, box.MaxY};
}

void measure_areas(LayerLook& look, const LayerSample& sample, const std::optional<CrsExtent>& box,
                   const OGRSpatialReference* crs) {
    const OGREnvelope& around = sample.box();
    const double latitude = around.IsInit() != 0 ? (around.MinY + around.MaxY) / 2.0 : 0.0;
    look.middle_sqft = sample.middle_area() * sqft_of_square_unit(crs, latitude);
    const double of_box = box ? (box->east - box->west) * (box->north - box->south) : 0.0;
    if (of_box > 0.0 && look.records) {
        look.covered = sample.mean_area() * static_cast<double>(*look.records) / of_box;
    }
}

}  // namespace

std::vector<std::string> names_of_columns(const LayerLook& look) {
    std::vector<std::string> names;
    for (const ColumnLook& column : look.columns) {
        names.push_back(column.name);
    }
    return names;
}

std::optional<CrsExtent> in_degrees(const CrsExtent& box, const Crs& crs) {
    const Crs world = crs_from_text("EPSG:4326");
    const CrsTransformation way = crs && world ? transformation(crs, world) : nullptr;
    if (!way) {
        return std::nullopt;
    }
    const GdalMessages messages;
    OGREnvelope round;
    for (const Point corner : spread_over(box)) {
        double x = corner.x;
        double y = corner.y;
        if (way->Transform(1, &x, &y) != 0 && std::isfinite(x) && std::isfinite(y)) {
            round.Merge(x, y);
        }
    }
    if (round.IsInit() == 0) {
        return std::nullopt;
    }
    return CrsExtent{round.MinX, round.MinY, round.MaxX, round.MaxY};
}

LayerLook look_at_layer(OGRLayer& layer, const LookRules& rules) {
    LayerLook look;
    LayerSample sample(layer);
    sample.take(rules.samples ? records_sampled : 0);
    look.sampled = sample.records();
    look.records = count_of_records(layer, rules, sample);
    OGRFeatureDefn& columns = *layer.GetLayerDefn();
    for (int i = 0; i < columns.GetFieldCount(); ++i) {
        look.columns.push_back(
            sample.column(static_cast<std::size_t>(i),
                          seen_letters(as_utf8(columns.GetFieldDefn(i)->GetNameRef())).text));
    }
    look.shape = look_shape_of(layer.GetGeomType());
    const bool told_by_sample = look.shape == LookShape::unknown && look.sampled > 0;
    look.shape = told_by_sample ? sample.shape() : look.shape;
    const Crs crs = crs_from_layer(layer.GetSpatialRef());
    look.has_crs = crs != nullptr;
    const std::optional<CrsExtent> box = look.shape == LookShape::none || !rules.samples
                                             ? std::nullopt
                                             : box_of_layer(layer, look, sample);
    look.degrees = box ? in_degrees(*box, crs) : std::nullopt;
    measure_areas(look, sample, box, layer.GetSpatialRef());
    return look;
}

}  // namespace farwater::io
