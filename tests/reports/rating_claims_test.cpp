// What the rating's documents say of apparatus and department: claims, who makes water, tankers.
#include <algorithm>

#include <catch2/catch.hpp>

#include "reports/rating/claims.h"
#include "reports/rating/makes_water.h"
#include "reports/rating/rating_tables.h"
#include "tests/reports/rated_found.h"
#include "tests/support/sheet_text.h"

using namespace farwater;
using namespace farwater::reports;
using namespace farwater::reports::test;

TEST_CASE("a unit that makes water is named beside the claim that it is not credited twice") {
    RatedFound found;
    CHECK(makes_water_for(found.rated()) == std::vector<std::size_t>{0, 0});  // nothing is credited
    found.rating.places[1].held = held(gpm(250));
    CHECK(makes_water_for(found.rated()) == std::vector<std::size_t>{1, 0});
    const auto list = claims(found.rated());
    CHECK(std::ranges::any_of(list, [](const Claim& claim) {
        return claim.shows.find("E1 (1 parcel)") != std::string::npos;
    }));
}

TEST_CASE("every engine that makes water is named, at the source that it pumps from") {
    RatedFound found;
    for (const char* id : {"E2", "E3"}) {
        found.district.units.push_back(
            {.id = id, .station = StationIndex(0), .kind = UnitKind::engine});
    }
    const UnitIndex e2(2);
    const UnitIndex e3(3);
    supply::ParcelSupply& shuttle = found.rating.brought.supplies[1];
    shuttle.first_at_site = e3;  // it attacks
    shuttle.fill_source = SourceIndex(1);
    shuttle.further_fills[0].source = SourceIndex(0);
    shuttle.makers = {UnitIndex(0), UnitIndex(), e2, UnitIndex()};
    supply::ParcelSupply& relay = found.rating.brought.supplies[0];
    relay.mode = SupplyMode::relay;
    relay.fill_source = SourceIndex(0);
    relay.makers = {e2, e3, UnitIndex(), UnitIndex()};
    CHECK(engines_at_sources(found.rated())[0].empty());  // nothing is credited
    found.rating.places[0].held = held(gpm(250));
    found.rating.places[1].held = held(gpm(250));
    CHECK(makes_water_for(found.rated()) == std::vector<std::size_t>{1, 0, 2, 1});
    const auto engines = engines_at_sources(found.rated());
    CHECK(engines_in_words(found.district, engines[0]) == "E2 (2 parcels)");
    CHECK(engines[1].empty());
    found.district.sources[0].degrees = Degrees{.latitude = 39.4359834, .longitude = -72.551234};
    const std::string sheet =
        support::seen_text(html_in(documents_of(found.rated()), "sources.html"));
    CHECK(sheet.find("E2 (2 parcels)") != std::string::npos);
    CHECK(sheet.find("39.43598, -72.55123 (WGS 84)") != std::string::npos);
}

TEST_CASE("a calculation says how many engines stand in line beyond those that it names") {
    RatedFound found;
    supply::ParcelSupply& relay = found.rating.brought.supplies[0];
    relay.mode = SupplyMode::relay;
    relay.makers.fill(UnitIndex(0));
    const auto says_more = [&](std::uint8_t engines, const std::string& more) {
        relay.engines_needed = engines;
        const std::string sheet =
            support::seen_text(html_in(documents_of(found.rated()), "calculations.html"));
        CHECK(sheet.find("E1, E1, E1, E1") != std::string::npos);
        return sheet.find("E1, E1, E1, E1" + more) != std::string::npos;
    };
    CHECK_FALSE(says_more(5, " and"));
    CHECK(says_more(7, " and 2 more in line"));
}

TEST_CASE("the claim sheet says whether an own engine pumps what the terms ask for") {
    RatedFound found;
    const auto pump = [&] {
        const auto list = claims_of_department(found.rated());
        return *std::ranges::find(list, "An engine pumps 750 gpm at 150 psi", &Claim::says);
    };
    CHECK(pump().shown == Shown::not_in_data);  // E1 has no rated pump
    CHECK(pump().shows == "no own engine has a rated pump; not recorded of E1");
    found.district.units[0].pump = gpm(749);
    CHECK(pump().shown == Shown::not_met);
    const std::string sheet =
        support::seen_text(html_in(documents_of(found.rated()), "claims.html"));
    CHECK(sheet.find("largest rated pump of own engines: 749 gpm (E1)\nnot met\n") !=
          std::string::npos);
    const std::string coverage =
        support::seen_text(html_in(documents_of(found.rated()), "coverage.html"));
    CHECK(coverage.find("Not met, and these terms ask for it: An engine pumps 750 gpm") !=
          std::string::npos);
    found.district.units[0].pump = gpm(750);
    CHECK(pump().shown == Shown::met);
    found.district.stations[0].aid = Aid::automatic;  // no engine of its own
    CHECK(pump().shown == Shown::not_met);
}

TEST_CASE("what the terms ask of the department is on the claim sheet, met or not or not in data") {
    RatedFound found;
    found.district.rating =
        RatingRules{RatingTerms::schedule_8b, io::built_in_terms(RatingTerms::schedule_8b)};
    found.rating.terms = rating::terms_of(found.district.rating->standard);
    const auto shown = [&](std::string_view begins) {
        for (const Claim& claim : claims(found.rated())) {
            if (claim.says.find(begins) != std::string::npos) {
                return std::string(shown_in_words(claim.shown));
            }
        }
        return std::string("not asked");
    };
    CHECK(shown("at 85 % of the properties") == "not met");  // 1 of 3
    CHECK(shown("5 road miles") == "met in part");           // 2 of 3
    CHECK(shown("6 people or more") == "not in the data");
    CHECK(shown("24 hours a year") == "not in the data");
    CHECK(shown("5 points or more for receiving") == "not in the data");
    CHECK(shown("20 points or more for the department") == "not in the data");
    CHECK(shown("points or more in all") == "not asked");
    found.rating.terms.least_pump = gpm(0);
    CHECK(shown("at 150 psi") == "not asked");
    CHECK(shown("every day of the year") == "not in the data");
    found.district.seasons = {Season{.name = "summer"}, Season{.name = "winter"}};
    CHECK(shown("every day of the year") == "met");
    found.rating.places[0].category = rating::Category::near_without_water;
    CHECK(shown("every day of the year") == "not met");
    found.rating.places.emplace_back().category = rating::Category::near_with_water;  // a target
    CHECK(shown("every day of the year") == "not met");
    found.rating.places[0].category = rating::Category::near_with_water;
    found.rating.terms.department.share = 0.33;
    CHECK(shown("at 33 % of the properties") == "met");
    found.rating.terms.department.share = 0.0;
    CHECK(shown("200 gpm for 20 min") == "met in part");
}

TEST_CASE("a calculation sheet divides each tanker's usable gallons by its own round trip") {
    RatedFound found;
    rating::PlaceCalculation& calculation = found.rating.calculations.front();
    supply::ShuttleWorking look;
    supply::Tanker tanker;
    tanker.delivered = gallons(2250);
    tanker.refilled = gallons(2500);
    tanker.fill_limit = gpm(1000);
    tanker.offload = gpm(2250);
    tanker.fill_before = minutes(1);
    tanker.fill_after = minutes(1);
    tanker.offload_before = minutes(1);
    tanker.offload_after = minutes(0.5);
    tanker.leg = {.empty = minutes(6), .loaded = minutes(2)};
    tanker.unit = UnitIndex(1);
    look.shuttle.incident.fill_sites.push_back({.pump = gpm(1500)});
    look.shuttle.incident.tankers.push_back(tanker);
    look.shuttle.fills.push_back({.source = SourceIndex(1)});
    look.supply.mode = SupplyMode::shuttle;
    calculation.working.supply = look.supply;
    calculation.working.looked.push_back(look);
    const std::string sheet =
        support::seen_text(html_in(documents_of(found.rated()), "calculations.html"));
    // 1 + 2.5 + 1, 2, 1 + 1 + 0.5 and 6 min: 15 min.
    CHECK(sheet.find("W2\n2,250\n4.50\n2.00\n2.50\n6.00\n15.00\n150.0\nAll together\n") !=
          std::string::npos);
    const io::FeatureTable tankers = rating_tankers(found.rated());
    CHECK(tankers.rows == 1);
    calculation.working.supply.mode = SupplyMode::relay;
    CHECK(rating_tankers(found.rated()).rows == 0);
}
