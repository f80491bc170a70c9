#include "analyzer/rating/rating_terms.h"

#include <algorithm>

namespace farwater::rating {
namespace {

template <class Enum>
Enum word_at(const Standard& standard, std::string_view key, Enum otherwise) {
    return parse_word<Enum>(standard.text(key)).value_or(otherwise);
}

bool asked(const Standard& standard, std::string_view key) {
    return word_at(standard, key, Asked::needed) == Asked::needed;
}

std::vector<HoseStep> steps_of(const Standard& standard) {
    const std::vector<double> up_to = standard.list("hose_credit.up_to_ft");
    const std::vector<double> worth = standard.list("hose_credit.gpm");
    std::vector<HoseStep> steps;
    for (std::size_t i = 0; i < std::min(up_to.size(), worth.size()); ++i) {
        steps.push_back({feet(up_to[i]), gpm(worth[i])});
    }
    return steps;
}

OfDepartment department_of(const Standard& standard) {
    const auto number = [&](std::string_view key) { return standard.number(key); };
    return {.share = number("department.least_share_pct") / 100.0,
            .responders = number("department.responders_people"),
            .training_hours = number("department.training_h"),
            .alarm_points = number("department.alarm_points"),
            .department_points = number("department.department_points"),
            .points_in_all = number("department.points_in_all"),
            .people_at_flow = number("department.at_flow_people")};
}

}  // namespace

Terms terms_of(const Standard& standard) {
    const auto number = [&](std::string_view key) { return standard.number(key); };
    Terms terms;
    terms.minimum = gpm(number("flow.minimum_gpm"));
    terms.duration = minutes(number("flow.duration_min"));
    terms.clock = word_at(standard, "clock.from", ClockStart::first_arrival);
    terms.start_within = minutes(number("clock.start_min"));
    terms.full_within = minutes(number("clock.full_flow_min"));
    terms.near = miles(number("reach.near_mi"));
    terms.far = miles(number("reach.far_mi"));
    terms.hose = feet(number("reach.hose_ft"));
    terms.hose_credit = steps_of(standard);
    terms.delivered_share = number("hauling.delivered_share");
    terms.drive_fixed = minutes(number("hauling.drive_fixed_min"));
    terms.drive_per_mile = minutes(number("hauling.drive_min_per_mi"));
    terms.drive_rule = word_at(standard, "hauling.drive_rule", DriveRule::round_trip);
    terms.farthest_aid = word_at(standard, "hauling.apparatus", Aid::own);
    terms.least_pump = gpm(number("engine.least_pump_gpm"));
    terms.department = department_of(standard);
    terms.least_standing = word_at(standard, "source.least_standing", Standing::tested);
    terms.certificate = asked(standard, "source.drought_certificate");
    terms.all_weather = asked(standard, "source.all_weather");
    terms.all_year = asked(standard, "source.all_year");
    terms.freeze_provision = asked(standard, "source.freeze_provision");
    terms.owner_permission = asked(standard, "source.owner_permission");
    terms.most_lift = feet(number("source.most_lift_ft"));
    terms.most_head = feet(number("source.most_head_ft"));
    terms.least_cistern = gallons(number("source.least_cistern_gal"));
    terms.near_with_water = standard.text("category.near_with_water");
    terms.near_without_water = standard.text("category.near_without_water");
    terms.far_with_water = standard.text("category.far_with_water");
    terms.otherwise = standard.text("category.otherwise");
    return terms;
}

Flow worth_of_hose(const Terms& terms, Length hose) {
    if (hose > terms.hose) {
        return gpm(0);
    }
    const auto step = std::ranges::find_if(
        terms.hose_credit, [&](const HoseStep& each) { return hose <= each.up_to; });
    return step == terms.hose_credit.end() ? gpm(0) : step->worth;
}

Duration drive_on_paper(const Terms& terms, Length out, Length back) {
    const double legs = terms.drive_rule == DriveRule::each_leg ? 2.0 : 1.0;
    return terms.drive_fixed * legs + terms.drive_per_mile * in_miles(out + back);
}

Flow tanker_on_paper(const Terms& terms, Volume tank, Duration drive, Duration handling) {
    const Duration cycle = drive + handling;
    return cycle > Duration{} ? tank * terms.delivered_share / cycle : gpm(0);
}

}  // namespace farwater::rating
