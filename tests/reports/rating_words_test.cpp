// The rating's documents speak plainly: no codes, which number is which, and why something is not.
#include <algorithm>

#include <catch2/catch.hpp>

#include "reports/rating/claims.h"
#include "reports/rating/makes_water.h"
#include "reports/rating/rating_tables.h"
#include "reports/rating/rating_totals.h"
#include "reports/summary.h"
#include "tests/reports/rated_found.h"
#include "tests/support/sheet_text.h"

using namespace farwater;
using namespace farwater::reports;
using namespace farwater::reports::test;

namespace {

std::string sheet_of(const RatedFound& found, const std::string& file) {
    return support::seen_text(html_in(documents_of(found.rated()), file));
}

bool says(const std::string& text, std::string_view words) {
    return text.find(words) != std::string::npos;
}

Claim claim_that_says(const RatedFound& found, std::string_view words) {
    const auto list = claims(found.rated());
    const auto one =
        std::ranges::find_if(list, [&](const Claim& claim) { return says(claim.says, words); });
    REQUIRE(one != list.end());
    return *one;
}

void take_terms(RatedFound& found, RatingTerms which) {
    found.district.rating = RatingRules{which, io::built_in_terms(which)};
    found.rating.terms = rating::terms_of(found.district.rating->standard);
}

}  // namespace

TEST_CASE("the source register says in words what a source is, what it is for, and its rate") {
    RatedFound found;
    found.district.sources[0].kind = SourceKind::dry_hydrant;
    found.district.sources[0].suction.material = PipeMaterial::cement_lined;
    found.district.sources[1].use = SourceUse::own_parcel;
    found.water.counts[0] = true;
    supply::CountedSource counted;
    counted.source = SourceIndex(0);
    counted.rate = gpm(500);
    counted.limit = RateLimit::portable_pump;
    found.water.counted.push_back(counted);
    const std::string sheet = sheet_of(found, "sources.html");
    CHECK(says(sheet, "500 gpm: only a portable pump gets there"));
    CHECK(says(sheet, "own parcel"));
    for (const char* code :
         {"dry_hydrant", "draft_site", "own_parcel", "portable_pump", "cement_lined"}) {
        CAPTURE(code);
        CHECK_FALSE(says(sheet, code));
    }
}

TEST_CASE("a calculation says that nothing was worked out, or that no engine gets there") {
    RatedFound found;
    supply::ParcelSupply& brought =
        found.rating.brought.supplies[found.rating.calculations.front().row];
    brought.first_engine.reset();
    brought.state = SupplyState::unknown;
    CHECK(says(sheet_of(found, "calculations.html"), "from the alarm\nnot worked out\n"));
    CHECK(says(sheet_of(found, "calculations.html"), "Limiting element\nnot worked out\n"));
    brought.state = SupplyState::unreached;
    CHECK(says(sheet_of(found, "calculations.html"), "from the alarm\nno engine gets there\n"));
    brought.limit = Limit::no_route;
    CHECK_FALSE(says(sheet_of(found, "calculations.html"), "no_route"));
}

TEST_CASE("a calculation says which gallons are for the minimum and which for what is credited") {
    RatedFound found;
    rating::PlaceRating& place = found.rating.places[found.rating.calculations.front().row];
    CHECK(says(sheet_of(found, "calculations.html"), "Volume\n30,000 gal for the minimum flow\n"));
    place.held = held(gpm(415));  // printed as 400
    CHECK(says(sheet_of(found, "calculations.html"),
               "30,000 gal for the minimum flow, 48,000 gal for the 400 gpm that are credited"));
}

TEST_CASE("apparatus that meets the terms at no parcel is no claim that is met") {
    RatedFound found;
    found.district.units[1].tank = gallons(13600);
    const Claim none = claim_that_says(found, "Own apparatus");
    CHECK(none.shown == Shown::not_met);
    CHECK(says(none.shows, "1 tanker with 13,600 gal"));
    CHECK(says(none.shows, "at no parcel"));
    CHECK(claim_that_says(found, "Automatic aid").shown == Shown::not_in_data);  // there is none
    found.rating.places[1].held = held(gpm(250));
    const Claim some = claim_that_says(found, "Own apparatus");
    CHECK(some.shown == Shown::met);
    CHECK_FALSE(says(some.shows, "at no parcel"));
}

TEST_CASE("a claim of every day that is not met says where the flow is held and what is failed") {
    RatedFound found;
    found.district.seasons = {Season{.name = "summer"}, Season{.name = "late_winter"}};
    CHECK_FALSE(says(claim_that_says(found, "every day of the year").shows, "no property"));
    found.rating.places[0].category = rating::Category::near_without_water;
    found.rating.places[0].fails = rating::Fails::start;
    const Claim claim = claim_that_says(found, "every day of the year");
    CHECK(claim.shown == Shown::not_met);
    CHECK(says(claim.shows, "worst of: summer, late winter; any time"));
    CHECK(says(claim.shows, "summer, any time: 1"));  // one of the answers is held
    CHECK(says(claim.shows,
               "most parcels (2 of 3): " + std::string(sentence_of(rating::Fails::start))));
}

TEST_CASE("a tanker that is left out for its tank stands among what is missing, with the reason") {
    RatedFound found;
    found.problems.push_back({.id = ProblemId::unit_tank_unknown, .record = "T9"});
    CHECK(says(sheet_of(found, "missing.html"), "T9\nsize of its tank"));
}

// Muskoka Lakes, "Water Tanker Shuttle Accreditation"; Washington, "Tender Credit".
TEST_CASE("what terms ask for besides and nobody looks at is for somebody else to show") {
    RatedFound found;
    take_terms(found, RatingTerms::shuttle_accreditation);
    CHECK(claim_that_says(found, "within 5 km of the building").shown == Shown::not_in_data);
    CHECK(says(sheet_of(found, "coverage.html"), "within 5 km of the building by road"));
    take_terms(found, RatingTerms::tender_credit);
    CHECK(claim_that_says(found, "is a dwelling").shown == Shown::not_in_data);
    take_terms(found, RatingTerms::schedule);
    CHECK_FALSE(says(sheet_of(found, "coverage.html"), "is a dwelling"));
}

TEST_CASE("numbers of a thousand and more have their separators") {
    RatedFound found;
    CHECK(engines_in_words(found.district, {{UnitIndex(0), 1049}}) == "E1 (1,049 parcels)");
    found.district.units[0].pump = gpm(1500);
    CHECK(says(claim_that_says(found, "at 150 psi").shows, "1,500 gpm (E1)"));
    CHECK(says(sheet_of(found, "coverage.html"), "up to 1,000 ft it counts"));
}

TEST_CASE("terms without a far distance have no row for what is beyond near with water") {
    RatedFound found;
    CHECK(possible_categories(found.rating.terms).size() == 4);
    CHECK(rating_categories(found.rated()).rows == 4);
    for (const auto which : {RatingTerms::schedule_8b, RatingTerms::tender_credit,
                             RatingTerms::shuttle_accreditation}) {
        take_terms(found, which);
        CAPTURE(word(which));
        CHECK(possible_categories(found.rating.terms) ==
              std::vector{rating::Category::near_with_water, rating::Category::near_without_water,
                          rating::Category::otherwise});
        const io::FeatureTable table = rating_categories(found.rated());
        REQUIRE(table.rows == 3);
        io::Row row;
        row.values.resize(table.columns.size());
        table.fill(2, row);
        CHECK(std::get<std::string_view>(row.values[0]) == found.rating.terms.otherwise);
        CHECK(std::get<std::int64_t>(row.values[2]) == 1);  // the parcel that is too far
        CHECK_FALSE(says(sheet_of(found, "coverage.html"), "beyond, with water"));
        CHECK_FALSE(says(summary_text(found.rated()), "beyond, with water"));
    }
}

TEST_CASE("the coverage statement says how many buildings are in none of its totals") {
    RatedFound found;
    CHECK_FALSE(says(sheet_of(found, "coverage.html"), "in no parcel"));
    found.problems.push_back({.id = ProblemId::building_outside_parcels});
    CHECK(says(sheet_of(found, "coverage.html"), "1 building lies in no parcel, and is in none"));
    found.problems.push_back({.id = ProblemId::building_across_parcels});
    found.problems.push_back({.id = ProblemId::building_outside_parcels});
    CHECK(says(sheet_of(found, "coverage.html"), "2 buildings lie in no parcel, and are in none"));
}
