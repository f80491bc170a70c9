#include "reports/drive_words.h"

#include <string_view>

namespace farwater::reports {
namespace {

constexpr std::string_view linear_leaves_out =
    "; posted limits, seasons, loads and grades are not considered.";

}  // namespace

std::string travel_time_sentence(const District& district) {
    switch (district.travel_time) {
        case TravelTime::road_speeds:
            return std::string("Drive times: the roads' planning speeds, ") +
                   (district.elevation.empty() ? "grades not considered (no elevation)."
                                               : "slower up grades (from the elevation).");
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
            return district.elevation.empty() ? " By road speeds without grades."
                                              : " By road speeds and grades.";
        case TravelTime::linear_per_leg:
            return " By 0.65 + 1.7 x miles for each leg.";
        case TravelTime::linear_per_round_trip:
            return " By 0.65 + 1.7 x miles, the 0.65 once a round trip.";
    }
    return {};
}

}  // namespace farwater::reports
