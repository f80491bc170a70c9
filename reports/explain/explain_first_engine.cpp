#include <string>

#include <fmt/format.h>

#include "reports/drive_words.h"
#include "reports/explain/explanation.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

std::string_view house_words(HousePlace from) {
    switch (from) {
        case HousePlace::address_point:
            return "the address point";
        case HousePlace::building:
            return "the building that the need goes by, or the largest";
        case HousePlace::inside_point:
            break;
    }
    return "a point inside the parcel: no building or address is known";
}

void house_lines(const Explained& explained, WorkedPage& page) {
    const District& district = explained.district();
    page.words("the house is",
               explained.is_parcel()
                   ? std::string(house_words(district.parcels[explained.row].house_from))
                   : std::string("the target's point"));
    const AccessPoint& access = explained.findings.access[explained.row];
    page.rests_on({"access_reach_ft", "frontage_slack_ft"});
    if (!access.road.valid()) {
        page.words("road", "none in reach");
        return;
    }
    const Road& road = at(district.roads, access.road);
    page.words(
        "served from", road.name.empty() ? "a road without a name" : on_one_line(road.name),
        fmt::format(
            "class {}{}", word(road.kind),
            access.doubtful ? "; doubtful: far from the house, or closed to every tanker" : ""));
    page.number("from there straight to the house", in_feet(access.off_road), Digits::none, "ft");
    const Length most = district.assumptions.off_road_hose;
    if (access.off_road > most) {
        page.rests_on({"off_road_hose_ft"});
        page.words("hose from the road to the house", "none: too far to lay it over open ground",
                   fmt::format("at most {:.0f} ft; where there is a drive, draw it or give the "
                               "parcel's setback",
                               in_feet(most)));
    }
}

// What follows "Drive times: ".
std::string drive_rule(const District& district) {
    const std::string sentence = travel_time_sentence(district);
    return sentence.substr(sentence.find(':') + 2);
}

void engine_line(const Explained& explained, const EngineToHouse& engine, WorkedPage& page) {
    const Duration there = duration_of(engine.there);
    page.sum(unit_words(explained.district(), engine.unit),
             fmt::format("{} + {} drive", rolling_sum(explained, engine.unit, engine.rolls),
                         plain(there - engine.rolls)),
             in_minutes(there), Digits::two, "min");
    rest_on_turnout(explained, engine.unit, page);
}

}  // namespace

void explain_first_engine(const Explained& explained, WorkedPage& page) {
    page.part("The house and the first engine");
    house_lines(explained, page);
    const Assumptions& assumptions = explained.district().assumptions;
    page.rests_on(
        {"alarm_handling_min", "turnout_staffed_min", "turnout_volunteer_min", "trip_limit_min"});
    for (const EngineToHouse& engine : explained.engines) {
        engine_line(explained, engine, page);
    }
    if (!reachable(explained.working.first_arrival)) {
        page.words("first engine", "none gets there within the trip limit");
        return;
    }
    const Duration first = duration_of(explained.working.first_arrival);
    page.number("first engine at the house", in_minutes(first), Digits::two, "min",
                "the earliest of them");
    page.words("minutes of driving by", drive_rule(explained.district()));
    const supply::ShuttleWorking* look = shuttle_of(explained.working);
    if (look == nullptr) {
        return;
    }
    page.rests_on({"start_after_arrival_min", "initial_attack_after_arrival_min"});
    page.number("counted as", in_minutes(look->scene.first_arrival), Digits::one, "min",
                "down to half a minute, so that no more time is given than there is");
    page.sum("the flow has to hold from",
             fmt::format("{} + {}", plain(look->scene.first_arrival),
                         plain(assumptions.start_after_arrival)),
             in_minutes(look->shuttle.window.start), Digits::two, "min");
}

}  // namespace farwater::reports
