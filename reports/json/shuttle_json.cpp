#include <cmath>

#include "reports/cautions.h"
#include "reports/json/json_cells.h"
#include "reports/shuttle_page.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

json json_of(HeldFlow flow) { return in_tenths(flow) / 10.0; }
// Figures that are not whole tenths are rounded down to them.
json json_of(Flow flow) { return std::floor(in_gpm(flow) * 10.0 + 1e-6) / 10.0; }
json json_of(Duration time) { return std::round(in_minutes(time) * 100.0) / 100.0; }
json json_of(Volume volume) { return std::floor(in_gallons(volume) * 10.0 + 1e-6) / 10.0; }
json json_of(double number) { return number; }
template <class Value>
json json_of(const std::optional<Value>& value) {
    return value ? json_of(*value) : json();
}

json gains_of(const supply::ShuttleAnswer& answer) {
    json gains = json::object();
    for (const GainWords& gain : gain_words(answer)) {
        gains[std::string(gain.key)] = json_of(gain.gain);
    }
    return gains;
}

json tankers_of(const ShuttlePage& page) {
    json list = json::array();
    for (std::size_t t = 0; t < page.typed.tankers.size(); ++t) {
        const std::size_t site = page.answer.incident.tankers[t].fill_site;
        list.push_back({{"tanker", page.typed.tankers[t]},
                        {"fill_site", page.typed.fill_sites[site]},
                        {"without_it_gpm", json_of(page.answer.without[t])}});
    }
    return list;
}

json out_of(const ShuttlePage& page, std::optional<std::size_t> tanker) {
    return tanker ? json{{"id", page.typed.tankers[*tanker]},
                         {"gpm", json_of(page.answer.without[*tanker])}}
                  : json();
}

json build_up_of(const supply::ShuttleAnswer& answer) {
    json list = json::array();
    for (const supply::HeldFrom& from : answer.build_up) {
        list.push_back({{"from_min", json_of(from.start)},
                        {"sustained_gpm", json_of(from.sustained)},
                        {"cautious_gpm", json_of(from.cautious)}});
    }
    return list;
}

json assumed_of(const supply::TypedShuttle& typed) {
    json list = json::array();
    for (const supply::Assumed& one : typed.assumed) {
        list.push_back(
            {{"key", one.key},
             {"of", one.of},
             {"value", std::visit([](const auto& value) { return json_of(value); }, one.value)},
             {"why", one.why}});
    }
    return list;
}

void add_need(json& document, const supply::NeedAnswer& need) {
    document["needed_gpm"] = json_of(need.needed);
    document["state"] = word(need.state);
    document["margin"] = word(need.margin);
    document["earliest_start_min"] = json_of(need.earliest_start);
    document["holds_for_min"] = json_of(need.holds_for);
    document["holds_for_min_is_a_least"] = need.holds_beyond;
}

}  // namespace

std::string shuttle_json(const ShuttlePage& page) {
    const supply::ShuttleAnswer& answer = page.answer;
    json document = {
        {"schema_version", json_schema_version},
        {"scenario", page.file},
        {"start_min", json_of(page.typed.window.start)},
        {"duration_min", json_of(page.typed.window.duration)},
        {"sustained_gpm", json_of(answer.sustained)},
        {"cautious_gpm", json_of(answer.cautious)},
        {"planned_gpm", planned_gpm(answer.cautious)},
        {"binding_limit", word(answer.limit)},
        {"gains", gains_of(answer)},
        {"handbook_gpm", json_of(answer.handbook)},
        {"upper_bound_gpm", json_of(answer.bound)},
        {"long_run_bound_gpm", json_of(answer.long_run)},
        {"disorder_gpm", json_of(answer.disorder)},
        {"worst_tanker_out", out_of(page, supply::worst_out(answer))},
        {"better_without", out_of(page, supply::better_without(answer))},
        {"allocation", tankers_of(page)},
        {"allocation_searched", answer.allocated},
        {"allocation_proved", answer.allocation_proved},
        {"build_up", build_up_of(answer)},
        {"tank_water_min", json_of(answer.first_minutes.tank_water)},
        {"continuous_min", json_of(answer.first_minutes.continuous)},
        {"gap_min", json_of(answer.first_minutes.dry)},
        {"wheels_gal", json_of(answer.on_wheels)},
        {"assumed", assumed_of(page.typed)},
        {"cautions", cautions},
        {"not_modelled", shuttle_not_modelled()},
    };
    if (answer.need) {
        add_need(document, *answer.need);
    }
    return dumped(document);
}

}  // namespace farwater::reports
