#include "reports/drive_words.h"

#include <string_view>

#include <fmt/format.h>

namespace farwater::reports {
namespace {

constexpr std::string_view linear_leaves_out =
    "; posted limits, seasons, loads and grades are not considered.";

std::string grades_sentence(const District& district) {
    const ElevationGaps& gaps = district.elevation_gaps;
    return district.elevation.empty() ? "grades not considered (no elevation)."
           : gaps.matter()
               ? fmt::format(
                     "slower up grades, but on {:.1f} % of the roads' length, which the "
                     "elevation leaves out and which counts as level.",
                     100.0 * gaps.road_share)
               : "slower up grades (from the elevation).";
}

}  // namespace

std::string travel_time_sentence(const District& district) {
    switch (district.travel_time) {
        case TravelTime::road_speeds:
            return "Drive times: the roads' planning speeds, " + grades_sentence(district);
        case TravelTime::linear_per_leg:
            return "Drive times: the published rule of 0.65 min + 1.7 min a mile, for each leg" +
                   std::string(linear_leaves_out);
        case TravelTime::linear_per_round_trip:
            return "Drive times: the published rule of 0.65 min + 1.7 min a mile, the 0.65 once a "
                   "round trip" +
                   std::string(linear_leaves_out);
    }
    return {};
}

std::string travel_time_of_drives(const District& district) {
    return district.travel_time == TravelTime::linear_per_round_trip
               ? "Drive times: the published rule of 0.65 min + 1.7 min a mile, the 0.65 in each "
                 "column: each stands alone, as a trip of its own, and the two do not add up to a "
                 "round trip, which counts it once" +
                     std::string(linear_leaves_out)
               : travel_time_sentence(district);
}

std::string drive_note(const District& district) {
    switch (district.travel_time) {
        case TravelTime::road_speeds:
            return district.elevation.empty()         ? " By road speeds without grades."
                   : district.elevation_gaps.matter() ? " By road speeds, and grades where the "
                                                        "elevation has heights."
                                                      : " By road speeds and grades.";
        case TravelTime::linear_per_leg:
            return " By 0.65 + 1.7 x miles for each leg.";
        case TravelTime::linear_per_round_trip:
            return " By 0.65 + 1.7 x miles, the 0.65 once a round trip.";
    }
    return {};
}

}  // namespace farwater::reports
