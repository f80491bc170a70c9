// Scenarios of `farwater shuttle` that several tests begin from, and the way to their answer.
#pragma once

#include <string>

#include "analyzer/supply/shuttle_answer.h"
#include "analyzer/supply/typed_shuttle.h"
#include "io/shuttle_file.h"

namespace farwater {

struct AnsweredScenario {
    supply::TypedShuttle typed;
    supply::ShuttleQuestion question;
    supply::ShuttleAnswer answer;
};

inline AnsweredScenario answered(const std::string& text) {
    const ShuttleScenario scenario = io::parse_shuttle_file(text, "scenario.toml");
    const Assumptions assumptions;
    AnsweredScenario result;
    result.typed = supply::complete(scenario, assumptions);
    result.question = {
        .incident = result.typed.incident,
        .line = result.typed.line,
        .legs = result.typed.legs,
        .window = result.typed.window,
        .needed = scenario.needed ? std::optional(held(*scenario.needed)) : std::nullopt};
    result.answer = supply::answer(result.question);
    return result;
}

inline std::string replaced(std::string text, const std::string& old_text,
                            const std::string& new_text) {
    const std::size_t at = text.find(old_text);
    return at == std::string::npos ? "no such text: " + old_text
                                   : text.replace(at, old_text.size(), new_text);
}

// A [[tanker]] of 1,000 gpm in and out.
inline std::string typed_tanker(const std::string& id, int tank, double arrives, double empty = 4.2,
                                double loaded = 4.6, const std::string& more = {}) {
    return "[[tanker]]\nid = \"" + id + "\"\ngal = " + std::to_string(tank) +
           "\narrives_min = " + std::to_string(arrives) +
           "\nfill_limit_gpm = 1000\noffload_gpm = 1000\ncan_nurse = true\n" + more +
           "[tanker.travel.pond]\nempty_min = " + std::to_string(empty) +
           "\nloaded_min = " + std::to_string(loaded) + "\n";
}

// An ordinary house on Hollow Road, 2.1 road miles from the water.
inline const std::string hollow_road_places = R"(start_min = 27.5
duration_min = 120
needed_gpm = 500
[dump_site]
storage_gal = 4664
engine_tank_gal = 1000
engine_arrives_min = 12.5
tanks_ready_min = 17
draft_ready_min = 20
flow_cap_gpm = 1500
[[fill_site]]
id = "pond"
places = 2
pump_gpm = 1000
ready_min = 22
usable_gal = "unlimited"
)";

inline std::string hollow_road() {
    return hollow_road_places + typed_tanker("T1", 2500, 13.5) + typed_tanker("T2", 2000, 16) +
           typed_tanker("T3", 3000, 19) + typed_tanker("T4", 1800, 24);
}

}  // namespace farwater
