#include <cmath>
#include <string>

#include <fmt/format.h>

#include "analyzer/demand/building_facts.h"
#include "analyzer/demand/method.h"
#include "reports/explain/explanation.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

// The worst building as the method looked at it.
struct JudgedBuilding {
    demand::BuildingFacts facts;
    demand::BuildingNeed need;
};

void building_lines(const JudgedBuilding& judged, const Need& need, WorkedPage& page) {
    const demand::BuildingFacts& facts = judged.facts;
    page.number("footprint of the worst building", facts.area_sqft, Digits::one, "sq ft");
    page.number("storeys", facts.storeys, Digits::one, "",
                need.defaulted.has(NeedInput::storeys) ? "not known: the default" : "");
    page.words("use", std::string(word(facts.use)),
               need.defaulted.has(NeedInput::use) ? "not known: the default" : "");
    page.words("construction", std::string(word(facts.construction)),
               need.defaulted.has(NeedInput::construction) ? "not known: the default" : "");
    if (need.defaulted.has(NeedInput::storeys)) {
        page.rests_on({"default_storeys"});
    }
}

void rural_lines(const JudgedBuilding& judged, WorkedPage& page) {
    const demand::NeedFactors& by = judged.need.by;
    const double volume = judged.facts.volume_cuft;
    page.rests_on({"storey_height_ft", "roof_rise_ft"});
    page.sum("volume, half of the roof counted",
             fmt::format("{} sq ft x {} ft", plain(judged.facts.area_sqft, 1),
                         plain(volume / judged.facts.area_sqft, 3)),
             volume, Digits::none, "cu ft");
    page.sum("total water of the rural standard",
             fmt::format("most({}, {} / {} x {} x {})", plain(by.least_gal), plain(volume, 0),
                         plain(by.hazard), plain(by.construction, 3), plain(by.exposed)),
             judged.need.total_gal, Digits::none, "gal",
             by.exposed > 1.0 ? "cu ft over hazard class, times construction class, times "
                                "exposure: another building is near"
                              : "cu ft over hazard class, times construction class; no exposure");
    page.number("delivery rate for that total", in_gpm(judged.need.flow), Digits::one, "gpm",
                "table of the standard; see need_standard");
}

void rating_lines(const JudgedBuilding& judged, WorkedPage& page) {
    const demand::NeedFactors& by = judged.need.by;
    if (by.gap_ft) {
        page.words("gap to the next building", std::isinf(*by.gap_ft)
                                                   ? "none within the reach"
                                                   : plain(*by.gap_ft, 0) + " ft, whole feet");
        page.number("needed flow of a dwelling by its gap", in_gpm(judged.need.flow), Digits::one,
                    "gpm", "table of the schedule; see need_standard");
        return;
    }
    const double exact = by.factor * by.coefficient * std::sqrt(by.effective_sqft);
    page.sum("construction, before rounding",
             fmt::format("{} x {} x sqrt({})", plain(by.factor), plain(by.coefficient, 3),
                         plain(by.effective_sqft, 1)),
             exact, Digits::one, "gpm", "of the effective area, sq ft");
    page.number("construction, C", by.construction_gpm, Digits::one, "gpm",
                "rounded, and held between the schedule's least and most");
    page.sum("needed flow, before rounding",
             fmt::format("{} x {} x (1 + {})", plain(by.construction_gpm, 1),
                         plain(by.occupancy, 3), plain(by.exposures, 3)),
             by.construction_gpm * by.occupancy * (1.0 + by.exposures), Digits::one, "gpm",
             "C x occupancy x exposures");
    page.number("needed flow of the schedule", in_gpm(judged.need.flow), Digits::one, "gpm",
                "rounded, and held between the schedule's least and most");
}

void code_lines(const JudgedBuilding& judged, WorkedPage& page) {
    const demand::NeedFactors& by = judged.need.by;
    if (by.table_gpm > 0.0) {
        page.number("fire area", by.floor_sqft, Digits::none, "sq ft", "all floors that count");
        page.number("flow of the table", by.table_gpm, Digits::one, "gpm",
                    "by construction; see need_standard");
    }
    if (judged.facts.sprinklers != Sprinklers::none) {
        page.words("sprinklers", std::string(word(judged.facts.sprinklers)),
                   "lower the flow as the code says");
    }
    page.number("needed flow of the code", in_gpm(judged.need.flow), Digits::one, "gpm",
                by.table_gpm > 0.0 ? "" : "one flow for all small dwellings");
}

void method_lines(const District& district, const Need& need, WorkedPage& page) {
    const Building& building = at(district.buildings, need.worst);
    const demand::Method method = demand::method_of(district.need);
    if (!method || building.area_m2 <= 0.0F) {
        return;
    }
    JudgedBuilding judged{demand::facts_of(building, district.need, district.assumptions), {}};
    judged.need = method(judged.facts);
    building_lines(judged, need, page);
    switch (district.need.method) {
        case NeedMethod::rural_supply:
            return rural_lines(judged, page);
        case NeedMethod::rating_schedule:
            return rating_lines(judged, page);
        case NeedMethod::fire_code:
            return code_lines(judged, page);
        case NeedMethod::column:
        case NeedMethod::fixed:
            return;
    }
}

std::string from_words(const Explained& explained, const Need& need) {
    switch (need.from) {
        case NeedFrom::own_column:
            return "the property's own figure";
        case NeedFrom::method:
            return fmt::format("{}, for the worst building",
                               on_one_line(explained.district().need.standard.name));
        case NeedFrom::default_flow:
            break;
    }
    return "the default flow: nothing tells what this property needs";
}

}  // namespace

void explain_need(const Explained& explained, WorkedPage& page) {
    if (!explained.working.need) {
        return;
    }
    const Need& need = *explained.working.need;
    page.part("What is needed");
    page.words("told by", from_words(explained, need));
    if (need.worst.valid()) {
        method_lines(explained.district(), need, page);
    }
    if (need.from == NeedFrom::default_flow) {
        page.rests_on({"default_needed_gpm"});
    }
    page.rests_on({"duration_min"});
    page.number("needed flow", in_gpm(flow_of(need.flow)), Digits::one, "gpm");
    page.number("for", in_minutes(need.duration), Digits::one, "min");
    page.sum("that is in all",
             fmt::format("{} gpm x {} min", plain(flow_of(need.flow)), plain(need.duration)),
             in_gallons(flow_of(need.flow) * need.duration), Digits::none, "gal");
}

}  // namespace farwater::reports
