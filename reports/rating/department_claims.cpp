// What the terms ask of the department as a whole, beside its water.
#include <algorithm>
#include <span>
#include <utility>

#include <fmt/format.h>

#include "reports/cards/card_words.h"
#include "reports/rating/claims.h"
#include "reports/rating/rating_totals.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

bool is_own_engine(const District& district, const Unit& unit) {
    return unit.kind == UnitKind::engine && aid_of(district, unit) == Aid::own;
}

struct OwnPumps {
    const Unit* largest = nullptr;  // rated; null: none is
    std::string unrated;            // ids
};

OwnPumps own_pumps(const District& district) {
    OwnPumps pumps;
    for (const Unit& unit : district.units) {
        if (!is_own_engine(district, unit)) {
            continue;
        }
        if (!unit.pump) {
            pumps.unrated += (pumps.unrated.empty() ? "" : ", ") + unit.id;
        } else if (pumps.largest == nullptr || *unit.pump > *pumps.largest->pump) {
            pumps.largest = &unit;
        }
    }
    return pumps;
}

std::string largest_in_words(const OwnPumps& pumps) {
    return pumps.largest == nullptr
               ? std::string("no own engine has a rated pump")
               : fmt::format("largest rated pump of own engines: {} ({})",
                             gpm_in_words(*pumps.largest->pump), pumps.largest->id);
}

// A pump that nobody rated may be the one: then it is not known.
Claim claim_of_pump(const Findings& findings) {
    const Flow least = findings.rating->terms.least_pump;
    const OwnPumps pumps = own_pumps(findings.district);
    Claim claim{.says = fmt::format("An engine pumps {} at 150 psi", gpm_in_words(least)),
                .shows = largest_in_words(pumps),
                .signs = "Pump test, by whoever did it",
                .shown = Shown::met};
    if (pumps.largest == nullptr || *pumps.largest->pump < least) {
        claim.shown = pumps.unrated.empty() ? Shown::not_met : Shown::not_in_data;
        claim.shows += pumps.unrated.empty() ? "" : "; not recorded of " + pumps.unrated;
    }
    return claim;
}

template <class Things>
std::string names_of(const Things& things) {
    std::string names;
    for (const auto& thing : things) {
        names += (names.empty() ? "" : ", ") + spoken(thing.name);
    }
    return names;
}

std::string held_in_words(const Findings& findings) {
    std::string words;
    for (const HeldIn& each : held_by_variant(findings)) {
        words += fmt::format("{}{}, {}: {}", words.empty() ? "" : "; ",
                             spoken(at(findings.district.seasons, each.variant.season).name),
                             spoken(at(findings.district.periods, each.variant.period).name),
                             in_thousands(static_cast<double>(each.in_time + each.later)));
    }
    return words;
}

// Which of the terms most parcels fail first; "" where none fails any.
std::string failed_by_most(const Findings& findings) {
    const std::vector<RatingTotal> totals = totals_by_reason(findings);
    const auto most =
        std::ranges::max_element(totals.begin() + 1, totals.end(), {}, &RatingTotal::parcels);
    return most->parcels == 0
               ? ""
               : fmt::format("; failed first by most parcels ({} of {}): {}",
                             in_thousands(static_cast<double>(most->parcels)),
                             in_thousands(static_cast<double>(parcels_with_buildings(totals))),
                             sentence_of(static_cast<rating::Fails>(most - totals.begin())));
}

std::string no_water_in_words(const Findings& findings) {
    return "; no property has water that counts in its worst one; parcels at which apparatus holds "
           "the minimum flow, whenever it begins: " +
           held_in_words(findings) + failed_by_most(findings);
}

// Not where no parcel has water on its worst day. Without seasons of its own a district is judged
// as if every day were like the other.
Claim claim_of_every_day(const Findings& findings) {
    const District& district = findings.district;
    const bool told = district.seasons.size() > 1;
    const auto parcels = std::span(findings.rating->places).first(findings.parcels());
    const bool any_water = std::ranges::any_of(parcels, &rating::PlaceRating::has_water);
    return {"It is so on every day of the year, in frost and in mud",
            (told ? fmt::format("each property is judged in its worst of: {}; {}",
                                names_of(district.seasons), names_of(district.periods))
                  : std::string("the district file tells no seasons: all days are judged alike")) +
                (any_water ? "" : no_water_in_words(findings)),
            "Chief",
            !any_water ? Shown::not_met
            : told     ? Shown::met
                       : Shown::not_in_data};
}

// Of what no data of ours hold.
Claim claim_beyond_data(std::string says, std::string_view who_knows) {
    return {std::move(says), fmt::format("not in the data: {}", who_knows), "Chief",
            Shown::not_in_data};
}

}  // namespace

std::vector<Claim> claims_of_department(const Findings& findings) {
    const rating::OfDepartment& asked = findings.rating->terms.department;
    std::vector<Claim> list;
    if (findings.rating->terms.least_pump > gpm(0)) {
        list.push_back(claim_of_pump(findings));
    }
    if (findings.rating->terms.all_year) {
        list.push_back(claim_of_every_day(findings));
    }
    const auto add_if = [&](double least, std::string_view what, std::string_view who_knows) {
        if (least > 0.0) {
            list.push_back(claim_beyond_data(fmt::format(fmt::runtime(what), least), who_knows));
        }
    };
    add_if(asked.responders, "{:.3g} people or more answer an alarm, on average",
           "the incident records, without mutual aid");
    add_if(asked.people_at_flow, "{:.3g} firefighters or more are at the fire when water flows",
           "a timed drill shows how many are there and not at the water");
    add_if(asked.training_hours, "Every member trains {:.3g} hours a year or more",
           "the training records");
    add_if(asked.alarm_points, "The schedule gives {:.3g} points or more for receiving alarms",
           "the rating organisation's grading");
    add_if(asked.department_points, "The schedule gives {:.3g} points or more for the department",
           "the rating organisation's grading");
    add_if(asked.points_in_all, "The schedule gives {:.3g} points or more in all",
           "the rating organisation's grading");
    const std::string& besides = findings.district.rating->standard.not_looked_at;
    if (!besides.empty()) {
        list.push_back(claim_beyond_data(besides, "not looked at for the properties told here"));
    }
    return list;
}

}  // namespace farwater::reports
