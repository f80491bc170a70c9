#include "reports/layers/source_cells.h"

#include <memory>
#include <string>

namespace farwater::reports {
namespace {

using SourceAt = std::function<const WaterSource&(std::size_t row)>;

// One column: its name, and the value of a source.
template <class Get>
RowValue from(const SourceAt& source, Get get) {
    return [source, get](std::size_t row) -> io::Value { return get(source(row)); };
}

template <class Quantity>
io::Value cell(const std::optional<Quantity>& quantity, double (*in)(Quantity)) {
    return quantity ? io::Value{in(*quantity)} : io::Value{};
}
io::Value cell(const std::optional<int>& count) {
    return count ? io::Value{static_cast<std::int64_t>(*count)} : io::Value{};
}
io::Value cell(const std::optional<bool>& yes) { return yes ? io::Value{*yes} : io::Value{}; }
template <class Word>
io::Value cell_of_word(const std::optional<Word>& value) {
    return value ? io::Value{word(*value)} : io::Value{};
}

double in_feet_of(Length length) { return in_feet(length); }
double in_inches_of(Length length) { return in_inches(length); }
double in_gpm_of(Flow flow) { return in_gpm(flow); }
double in_acres_of(Area area) { return in_acres(area); }

std::string usable_text(const WaterSource& source) {
    if (!source.usable) {
        return {};
    }
    const std::optional<Volume> volume = source.usable->volume();
    if (!volume) {
        return "unlimited";
    }
    std::string text = std::to_string(in_gallons(*volume));
    text.erase(text.find_last_not_of('0') + 1);
    return text.ends_with('.') ? text.substr(0, text.size() - 1) : text;
}

// Text that is made for a row has to live until the next one.
template <class Make>
RowValue made_text(const SourceAt& source, Make make) {
    const auto kept = std::make_shared<std::string>();
    return [source, make, kept](std::size_t row) {
        *kept = make(source(row));
        return value_of(*kept);
    };
}

using S = WaterSource;

void add_strength(std::vector<ColumnOf>& columns, const SourceAt& source) {
    columns.insert(
        columns.end(),
        {text("kind", "What is built.", from(source, [](const S& s) { return word(s.kind); })),
         text("system", "Sources that share volume and rate.",
              from(source, [](const S& s) { return value_of(s.system); })),
         text("open_months", "When it can be used.",
              made_text(source, [](const S& s) { return months_text(s.open_months); })),
         yes_no("frost_proof", "Open water that can be used under ice.",
                from(source, [](const S& s) { return s.frost_proof; })),
         real("rate_gpm", "What it is built for, gpm; lift and pipe may give less.",
              from(source, [](const S& s) { return cell(s.rate, in_gpm_of); })),
         text("usable_gal", "Gallons it counts with at drought level, or unlimited.",
              made_text(source, usable_text)),
         real("inflow_gpm", "What refills it meanwhile, gpm.",
              from(source, [](const S& s) { return cell(s.inflow, in_gpm_of); })),
         integer("places", "Tankers that can be connected at once; empty: 1.",
                 from(source, [](const S& s) { return cell(s.places); })),
         text("reach", "What can get to it.",
              from(source, [](const S& s) { return word(s.reach); })),
         yes_no("fills_without_engine", "Gives its flow with no engine between.",
                from(source, [](const S& s) { return cell(s.fills_without_engine); })),
         real("system_rate_gpm", "What the whole system gives at once, gpm.",
              from(source, [](const S& s) { return cell(s.system_rate, in_gpm_of); }))});
}

void add_hydrant(std::vector<ColumnOf>& columns, const SourceAt& source) {
    columns.insert(
        columns.end(),
        {real("static_psi", "Flow test: nothing flowing, psi.",
              from(source, [](const S& s) { return value_of(s.hydrant.static_psi); })),
         real("residual_psi", "Flow test: while the flow ran, psi.",
              from(source, [](const S& s) { return value_of(s.hydrant.residual_psi); })),
         real("test_flow_gpm", "Flow test: what flowed, gpm.",
              from(source, [](const S& s) { return cell(s.hydrant.test_flow, in_gpm_of); })),
         real("pitot_psi", "Flow test: pitot reading, psi.",
              from(source, [](const S& s) { return value_of(s.hydrant.pitot_psi); })),
         real("outlet_in", "Bore of the outlet that flowed, inches.",
              from(source, [](const S& s) { return cell(s.hydrant.outlet, in_inches_of); })),
         real("outlet_coefficient", "Of that outlet.",
              from(source, [](const S& s) { return value_of(s.hydrant.outlet_coefficient); }), 2),
         text("colour_class", "Of the bonnet.",
              from(source, [](const S& s) { return cell_of_word(s.hydrant.colour); })),
         real("main_in", "Bore of the main, inches.",
              from(source, [](const S& s) { return cell(s.hydrant.main, in_inches_of); })),
         yes_no("dead_end_main", "The main is fed from one side only.",
                from(source, [](const S& s) { return cell(s.hydrant.dead_end_main); }))});
}

void add_suction(std::vector<ColumnOf>& columns, const SourceAt& source) {
    columns.insert(
        columns.end(),
        {real("static_lift_ft", "From the drought level up to the pump, ft; empty: most_lift_ft.",
              from(source, [](const S& s) { return cell(s.suction.lift, in_feet_of); })),
         real("pipe_ft", "Suction pipe, ft.",
              from(source, [](const S& s) { return cell(s.suction.pipe, in_feet_of); })),
         real("pipe_diameter_in", "Bore of that pipe, inches.",
              from(source, [](const S& s) { return cell(s.suction.pipe_diameter, in_inches_of); })),
         text("pipe_material", "What it is made of.",
              from(source, [](const S& s) { return cell_of_word(s.suction.material); })),
         integer("elbows_90", "90-degree elbows in it; empty: unknown_elbows_90.",
                 from(source, [](const S& s) { return cell(s.suction.elbows_90); })),
         integer("elbows_45", "45-degree elbows in it; empty: unknown_elbows_45.",
                 from(source, [](const S& s) { return cell(s.suction.elbows_45); })),
         real("strainer_loss_ft", "Lost in the strainer at 500 gpm, ft.",
              from(source, [](const S& s) { return cell(s.suction.strainer_loss, in_feet_of); })),
         real("suction_hose_ft", "Hard suction that it takes, ft.",
              from(source, [](const S& s) { return cell(s.suction.hose, in_feet_of); })),
         real("drought_area_acre", "Surface at drought level, acres.",
              from(source, [](const S& s) { return cell(s.still.area, in_acres_of); })),
         real("intake_depth_ft", "Water over the intake, ft.",
              from(source, [](const S& s) { return cell(s.still.over_intake, in_feet_of); })),
         yes_no("sounded", "That depth holds over the whole area.",
                from(source, [](const S& s) { return s.still.sounded; })),
         real("ice_ft", "Thickest ice, ft.",
              from(source, [](const S& s) { return cell(s.still.ice, in_feet_of); }))});
}

void add_access(std::vector<ColumnOf>& columns, const SourceAt& source) {
    columns.insert(columns.end(),
                   {yes_no("all_weather", "Can be got to in all weather.",
                           from(source, [](const S& s) { return cell(s.all_weather); })),
                    text("lane", "Of the road it stands on; empty: as the roads say.",
                         from(source, [](const S& s) { return cell_of_word(s.lane); })),
                    yes_no("turnaround", "A tanker can turn there.",
                           from(source, [](const S& s) { return s.turnaround; })),
                    text("owner", "Who would have to allow it.",
                         from(source, [](const S& s) { return value_of(s.owner); })),
                    text("note", "Anything else.",
                         from(source, [](const S& s) { return value_of(s.note); }))});
}

}  // namespace

std::vector<ColumnOf> source_cells(const SourceAt& source) {
    std::vector<ColumnOf> columns;
    add_strength(columns, source);
    add_hydrant(columns, source);
    add_suction(columns, source);
    add_access(columns, source);
    return columns;
}

std::string months_text(MonthSet months) {
    if (months == MonthSet::all()) {
        return "all";
    }
    std::string text;
    for (unsigned month = 1; month <= 12; ++month) {
        if (months.contains(std::chrono::month(month))) {
            text += (text.empty() ? "" : ",") + std::to_string(month);
        }
    }
    return text;
}

}  // namespace farwater::reports
