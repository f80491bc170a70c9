#include "analyzer/supply/suction_point.h"

#include <algorithm>

#include "analyzer/hydraulics/suction_head.h"

namespace farwater::supply {
namespace {

// Takes cells, and remembers which were blank.
class Cells {
public:
    template <class Value>
    Value take(const std::optional<Value>& cell, Value stated, std::string_view column) {
        if (!cell) {
            blank_.push_back(column);
        }
        return cell.value_or(stated);
    }
    std::vector<std::string_view> blank() && { return std::move(blank_); }

private:
    std::vector<std::string_view> blank_;
};

hydraulics::SuctionPipe pipe_of(const SuctionData& data, const Assumptions& assumptions,
                                Cells& cells) {
    const int square = cells.take(data.elbows_90, assumptions.unknown_elbows_90, "elbows_90");
    const int slight = cells.take(data.elbows_45, assumptions.unknown_elbows_45, "elbows_45");
    const Length bends = assumptions.elbow_90 * square + assumptions.elbow_45 * slight;
    return {cells.take(data.pipe, assumptions.unknown_pipe, "pipe_ft") + bends,
            cells.take(data.pipe_diameter, assumptions.unknown_pipe_bore, "pipe_diameter_in"),
            hydraulics::roughness_of(
                cells.take(data.material, PipeMaterial::old_iron, "pipe_material"))};
}

// As much more than at 6 in as the water is quicker; a wider one is not credited.
Length strainer_loss_of(Length bore, const Assumptions& assumptions) {
    const double narrower = std::max(1.0, inches(6) / bore);
    return assumptions.pipe_strainer_loss * (narrower * narrower * narrower * narrower);
}

}  // namespace

std::optional<Flow> SuctionPoint::most() const {
    return hydraulics::suction_flow(line, lift, head_limit, formula);
}

Length SuctionPoint::head_at(Flow flow) const {
    return lift + hydraulics::suction_loss(line, flow, formula);
}

std::string SuctionPoint::assumed_in_words() const {
    std::string text = "blank:";
    for (const std::string_view column : assumed) {
        text += " ";
        text += column;
    }
    return text;
}

SuctionPoint suction_point(const WaterSource& source, const District& district) {
    const Assumptions& assumptions = district.assumptions;
    const SuctionData& data = source.suction;
    Cells cells;
    SuctionPoint point;
    point.formula = district.suction_friction;
    point.lift = cells.take(data.lift, assumptions.most_lift, "static_lift_ft");
    const bool has_pipe = source.kind != SourceKind::draft_site || data.pipe.has_value();
    point.line.pipe.diameter = assumptions.suction_hose_bore;  // of no length: no pipe
    if (has_pipe) {
        point.line.pipe = pipe_of(data, assumptions, cells);
    }
    point.line.hose = {data.hose.value_or(assumptions.suction_hose), assumptions.suction_hose_bore,
                       hydraulics::roughness_of(PipeMaterial::plastic)};
    point.line.entrance_at_500 =
        has_pipe ? cells.take(data.strainer_loss,
                              strainer_loss_of(point.line.pipe.diameter, assumptions),
                              "strainer_loss_ft")
                 : data.strainer_loss.value_or(assumptions.hose_strainer_loss);  // the engine's own
    point.altitude = district.elevation.at(source.place).value_or(assumptions.altitude);
    point.head_limit = hydraulics::suction_head_limit(assumptions.most_suction_head, point.altitude,
                                                      assumptions.water_temperature_f);
    point.assumed = std::move(cells).blank();
    return point;
}

}  // namespace farwater::supply
