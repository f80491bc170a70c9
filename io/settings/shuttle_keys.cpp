#include "io/settings/shuttle_keys.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

namespace farwater::io {
namespace {

constexpr double longest = 1440;     // minutes
constexpr double most_flow = 20000;  // gpm

constexpr KeyRow number(std::string_view name, double low, double high, std::string_view standard,
                        std::string_view what) {
    return {name, KeyKind::number, false, low, high, nullptr, standard, what};
}
constexpr KeyRow limit(std::string_view name, double low, double high, std::string_view standard,
                       std::string_view what) {
    return {name, KeyKind::limit, false, low, high, nullptr, standard, what};
}
constexpr KeyRow whole(std::string_view name, double low, double high, std::string_view standard,
                       std::string_view what) {
    return {name, KeyKind::whole, false, low, high, nullptr, standard, what};
}
constexpr KeyRow text(std::string_view name, std::string_view standard, std::string_view what) {
    return {name, KeyKind::text, false, 0, 0, nullptr, standard, what};
}

constexpr std::array scenario{
    number("start_min", 0, longest, "15 after engine_arrives_min",
           "the flow must hold from here on, counted from the alarm"),
    number("duration_min", 1, longest, "120", "how long the flow must hold"),
    number("needed_gpm", 1, most_flow, "none", "then also the earliest start, and how long"),
    number("initial_attack_gpm", 0, most_flow, "none",
           "drawn from the same water before the start"),
    number("initial_attack_from_min", 0, longest, "1.5 after engine_arrives_min",
           "when that begins"),
};

constexpr std::array dump_site{
    whole("offload_slots", 1, 8, "1", "tankers that offload at the same time"),
    limit("storage_gal", 0, 1e6, "0", "usable gallons in portable tanks"),
    whole("portable_tanks", 1, 8, "storage_gal is one pool",
          "equal tanks in line that hold storage_gal together"),
    whole("jet_siphons", 0, 20, "0", "between them; without one only the first tank counts"),
    number("siphon_gpm", 100, 3000, "800", "what one of them moves; one runs at a time"),
    number("engine_tank_gal", 0, 20000, "0", "the drafting engine's own tank"),
    number("engine_arrives_min", 0, longest, "15 before start_min, not before 7.5",
           "first engine at the fire"),
    number("tanks_ready_min", 0, longest, "3 after the first tanker and the engine",
           "portable tanks are up"),
    number("draft_ready_min", 0, longest, "5 after the tanks and the engine",
           "the engine can draft from them"),
    whole("nursing_tankers", 0, 32, "0", "tankers that feed the engine before the draft is up"),
    number("nurse_hookup_min", 0, 60, "1", "coupling a nursing tanker"),
    number("nurse_gpm", 1, 5000, "400", "what a nursing tanker's pump gives, where it has no own"),
    limit("flow_cap_gpm", 1, most_flow, "1,500",
          "strainer, pump at lift, supply line: the least of them"),
};

constexpr std::array fill_site{
    required(text("id", "", "a name for it, such as \"north pond\"")),
    whole("places", 1, 8, "1", "tankers connected at the same time"),
    whole("flows", 1, 8, "the best of 1..places", "tankers filled at the same time"),
    number("pump_gpm", 1, most_flow, "250", "what the site gives in all"),
    number("ready_min", 0, longest, "8 after the first tanker and the engine",
           "the fill engine is set up"),
    limit("usable_gal", 1, 1e9, "0: not known does not count", "gallons that can be drawn"),
    number("inflow_gpm", 0, most_flow, "0", "what refills it meanwhile"),
};

constexpr std::array tanker_keys{
    required(text("id", "", "a name for it, such as \"Tanker 1\"")),
    required(number("gal", 100, 20000, "", "gallons of its tank")),
    number("delivered_fraction", 0.1, 1, "0.9", "share of the tank put into the portable tanks"),
    number("refill_fraction", 0.1, 1.2, "1.0", "share of the tank that a source gives per load"),
    number("fill_limit_gpm", 50, 5000, "500", "what its inlet takes"),
    number("offload_gpm", 50, 5000, "500", "what its dump valve gives"),
    number("fill_before_min", 0, 60, "1.0", "placing and coupling at the fill site"),
    number("fill_after_min", 0, 60, "1.0", "uncoupling and pulling out"),
    number("offload_before_min", 0, 60, "1.0", "placing at the portable tanks"),
    number("offload_after_min", 0, 60, "0.5", "closing the valve and pulling out"),
    required(number("arrives_min", 0, longest, "",
                    "minutes from the alarm, full, at the dump "
                    "site")),
    KeyRow{"can_nurse", KeyKind::yes_no, false, 0, 0, nullptr, "false", "it has a pump"},
    number("nurse_gpm", 1, 5000, "the dump site's", "what that pump gives the engine"),
    text("fill_site", "the best allocation is searched", "the id of the site where it fills"),
};

constexpr std::array travel{
    required(number("empty_min", 0, 240, "", "dump site to fill site, empty")),
    required(number("loaded_min", 0, 240, "", "fill site to dump site, loaded")),
};

}  // namespace

std::span<const KeyRow> scenario_keys() { return scenario; }
std::span<const KeyRow> typed_dump_site_keys() { return dump_site; }
std::span<const KeyRow> typed_fill_site_keys() { return fill_site; }
std::span<const KeyRow> typed_tanker_keys() { return tanker_keys; }
std::span<const KeyRow> typed_travel_keys() { return travel; }

std::string right_table_of_scenario(std::string_view key) {
    const std::array<std::pair<std::string_view, std::span<const KeyRow>>, 5> tables{{
        {"at the top of the file, before every table", scenario},
        {"in [dump_site]", dump_site},
        {"in [[fill_site]]", fill_site},
        {"in [[tanker]]", tanker_keys},
        {"in [tanker.travel.\"FILL SITE\"]", travel},
    }};
    for (const auto& [where, keys] : tables) {
        if (std::ranges::find(keys, key, &KeyRow::name) != keys.end()) {
            return fmt::format("; it belongs {}", where);
        }
    }
    return {};
}

}  // namespace farwater::io
