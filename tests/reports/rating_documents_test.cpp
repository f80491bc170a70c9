// The rating's documents: what stands on every sheet, hostile names, and lists of what is missing.
#include "reports/rating/rating_documents.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "io/read_standard.h"
#include "reports/cautions.h"
#include "reports/rating/rating_evidence.h"
#include "reports/rating/rating_totals.h"
#include "tests/reports/found.h"
#include "tests/support/sheet_text.h"

using namespace farwater;
using namespace farwater::reports;

namespace {

constexpr const char* hostile = "<script>alert('x')</script> & \"Co\"";

// Four parcels: with water, without, no building, too far; two sources, one of them offered.
struct RatedFound : reports::test::Found {
    rating::Rating rating;

    RatedFound() {
        district.name = hostile;
        district.rating =
            RatingRules{RatingTerms::schedule, io::built_in_terms(RatingTerms::schedule)};
        rating.terms = rating::terms_of(district.rating->standard);
        add_source("W<1>", SourceUse::rating);
        add_source("W2", SourceUse::operations);
        rating.sources[0].lacks = {rating::SourceLack::certificate};
        rating.sources[1].lacks = {rating::SourceLack::use};
        district.stations.push_back({.id = "S1", .name = hostile});
        district.units.push_back(
            {.id = "E1", .station = StationIndex(0), .kind = UnitKind::engine});
        district.units.push_back({.id = hostile,
                                  .station = StationIndex(0),
                                  .kind = UnitKind::tanker,
                                  .tank = gallons(2000)});
        district.parcels[0].buildings = 2;
        district.parcels[0].building_area_m2 = 100.0F;
        district.parcels[0].value = 250000.0F;
        rating.brought = assessment;
        rating.brought.supplies[1].first_at_site = UnitIndex(0);
        rating.brought.supplies[1].mode = SupplyMode::shuttle;
        for (const auto category :
             {rating::Category::near_with_water, rating::Category::near_without_water,
              rating::Category::no_building, rating::Category::otherwise}) {
            rating::PlaceRating place;
            place.category = category;
            rating.places.push_back(place);
        }
        rating.places[1].fails = rating::Fails::start;
        rating.places[1].start = supply::TenthsMinute{181};
        rating.places[3].fails = rating::Fails::station;
    }

    void add_source(const std::string& id, SourceUse use) {
        WaterSource source;
        source.id = id;
        source.name = hostile;
        source.use = use;
        source.owner = hostile;
        district.sources.push_back(source);
        water.counts.push_back(false);
        rating::SourceVerdict verdict;
        verdict.is_candidate = use == SourceUse::rating;
        rating.sources.push_back(verdict);
    }

    Findings rated() const {
        Findings all = findings();
        all.rating = &rating;
        return all;
    }
};

RunRecord record() {
    return {{"program", "farwater 9.9.9"},
            {"district_file", "<b>.toml"},
            {"district_file_sha256", std::string(64, 'a')},
            {"crs", "EPSG:32618"}};
}

const std::string& html_of(const std::vector<RatingDocument>& documents, const std::string& file) {
    return std::ranges::find(documents, file, &RatingDocument::file)->html;
}

}  // namespace

TEST_CASE(
    "every sheet has its cautions, the data's date, the program and the district file's hash") {
    RatedFound found;
    found.district.data_date = Date{std::chrono::year{2026} / 5 / 31};
    const auto documents = rating_documents(found.rated(), record());
    CHECK(documents.size() == 7);
    for (const RatingDocument& document : documents) {
        CAPTURE(document.file);
        for (const std::string_view caution : cautions) {
            CHECK(document.html.find(caution) != std::string::npos);
        }
        CHECK(document.html.find("2026-05-31") != std::string::npos);
        CHECK(document.html.find("farwater 9.9.9") != std::string::npos);
        CHECK(document.html.find(std::string(64, 'a')) != std::string::npos);
        CHECK(support::ill_formed(document.html).empty());
    }
}

TEST_CASE("no text of the data is ever HTML, and nothing comes from outside") {
    const RatedFound found;
    for (const RatingDocument& document : rating_documents(found.rated(), record())) {
        CAPTURE(document.file);
        CHECK(document.html.find("<script") == std::string::npos);
        CHECK(document.html.find("<b>") == std::string::npos);
        CHECK(document.html.find("W<1>") == std::string::npos);
        CHECK(document.html.find("http://") == document.html.find("http://www.w3.org"));
        CHECK(document.html.find("src=") == std::string::npos);
        CHECK(document.html.find("&lt;script&gt;") != std::string::npos);
        CHECK(document.html.find("default-src 'none'") != std::string::npos);
    }
}

TEST_CASE("evidence that is missing is listed as missing") {
    const RatedFound found;
    const auto missing = missing_evidence(found.rated());
    const auto lists = [&](const std::string& record, std::string_view what) {
        return std::ranges::any_of(missing, [&](const MissingEvidence& each) {
            return each.record == record && each.what.find(what) != std::string::npos;
        });
    };
    CHECK(lists("W<1>", "certificate"));
    CHECK(lists("W<1>", "permission"));
    CHECK_FALSE(lists("W2", "permission"));
    CHECK(lists(hostile, "timed fill"));
    CHECK(lists(hostile, "timed offload"));
    CHECK(lists("E1", "rated pump"));
    CHECK(lists("", "run cards"));
    CHECK(lists("", "data_date"));
    const auto documents = rating_documents(found.rated(), record());
    CHECK(html_of(documents, "sources.html").find("not recorded") != std::string::npos);
    CHECK(support::seen_text(html_of(documents, "sources.html")).find("Does not count") !=
          std::string::npos);
}

TEST_CASE("a unit that makes water is named beside the claim that it is not credited twice") {
    const RatedFound found;
    CHECK(makes_water_for(found.rated()) == std::vector<std::size_t>{1, 0});
    const auto list = claims(found.rated());
    CHECK(list.back().shows.find("E1 (1 parcel)") != std::string::npos);
    CHECK(list.size() == 7);
}

TEST_CASE("totals leave out parcels without a building and say where there is no value") {
    const RatedFound found;
    const auto totals = totals_by_category(found.rated());
    const auto of = [&](rating::Category category) {
        return totals[static_cast<std::size_t>(category)];
    };
    CHECK(of(rating::Category::no_building).parcels == 0);
    CHECK(of(rating::Category::near_with_water).parcels == 1);
    CHECK(of(rating::Category::near_with_water).buildings == 2);
    CHECK(of(rating::Category::near_with_water).area_sqft == Approx(1076.39).margin(0.01));
    CHECK(*of(rating::Category::near_with_water).value == 250000.0);
    CHECK_FALSE(of(rating::Category::otherwise).value.has_value());
    CHECK(of(rating::Category::otherwise).without_value == 1);
    const auto reasons = totals_by_reason(found.rated());
    CHECK(reasons[static_cast<std::size_t>(rating::Fails::start)].parcels == 1);
    CHECK(reasons[static_cast<std::size_t>(rating::Fails::station)].parcels == 1);
}

TEST_CASE("documents show flows rounded down") {
    CHECK(shown_gpm(tenths_of_gpm(2499)) == 225);
    CHECK(shown_gpm(tenths_of_gpm(2500)) == 250);
    CHECK(shown_gpm(tenths_of_gpm(4999)) == 475);
    CHECK(shown_gpm(tenths_of_gpm(5000)) == 500);
    CHECK(shown_gpm(tenths_of_gpm(5499)) == 500);
    CHECK(shown_gpm(tenths_of_gpm(5500)) == 550);
}
