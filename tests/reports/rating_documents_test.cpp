// The rating's documents: what stands on every sheet, hostile names, and lists of what is missing.
#include "reports/rating/rating_documents.h"

#include <algorithm>

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "reports/cautions.h"
#include "reports/rating/missing_evidence.h"
#include "reports/rating/rating_sheets.h"
#include "reports/rating/rating_totals.h"
#include "reports/summary.h"
#include "reports/text/number_words.h"
#include "tests/reports/rated_found.h"
#include "tests/support/sheet_text.h"

using namespace farwater;
using namespace farwater::reports;
using namespace farwater::reports::test;

TEST_CASE("the summary counts the rating's categories, in words and in JSON") {
    const RatedFound found;
    const Findings findings = found.rated();
    const auto totals = totals_by_category(findings);
    const auto document = nlohmann::json::parse(summary_json(findings, "out"));
    const auto& categories = document["rating"]["categories"];
    REQUIRE(categories.size() + 1 == totals.size());
    const std::string text = summary_text(findings);
    for (std::size_t i = 1; i < totals.size(); ++i) {
        const auto category = static_cast<rating::Category>(i);
        const auto word = category_word(findings.rating->terms, category);
        CHECK(categories[i - 1]["rating_category"] == word);
        CHECK(categories[i - 1]["parcels"] == totals[i].parcels);
        CHECK(text.find(fmt::format("  {:<14} {:>9}   {}\n", word, totals[i].parcels,
                                    meaning_of(category))) != std::string::npos);
    }
    CHECK(summary_text(found.findings()).find("Insurance rating") == std::string::npos);
}

TEST_CASE(
    "every sheet has its cautions, the data's date, the program and the district file's hash") {
    RatedFound found;
    found.district.data_date = Date{std::chrono::year{2026} / 5 / 31};
    const auto documents = documents_of(found.rated());
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

// Nobody shall sign for a source that is not there.
TEST_CASE(
    "sources that are not there are told before the cautions, on each page and on their own "
    "sheet") {
    RatedFound found;
    for (const RatingDocument& document : documents_of(found.rated())) {
        CHECK(document.html.find("not the district as it is") == std::string::npos);
    }
    found.rating.sources[0].lacks.clear();
    found.rating.sources[1].is_candidate = true;
    found.rating.sources[1].lacks.clear();
    found.district.what_if_sources = 1;
    const auto documents = documents_of(found.rated());
    for (const RatingDocument& document : documents) {
        CAPTURE(document.file);
        const std::string sentence =
            "These sheets count 1 of 1 source of [what_if_sources] as if it were there: not the "
            "district as it is.";
        const std::size_t at = document.html.find("<li><b>" + sentence);
        CHECK(at < document.html.find(std::string("<li>") + std::string(cautions[0])));
        CHECK(document.html.find("content: \"" + sentence + " Not to be signed.") !=
              std::string::npos);
    }
    const std::string register_text = support::seen_text(html_in(documents, "sources.html"));
    const auto lines_with = [&](std::string_view words) {
        std::size_t count = 0;
        for (std::size_t at = register_text.find(words); at != std::string::npos;
             at = register_text.find(words, at + 1)) {
            ++count;
        }
        return count;
    };
    CHECK(lines_with("Counts for rating under these terms") == 1);
    CHECK(lines_with("Is not there yet") == 1);
    CHECK(lines_with("counts; not there yet") == 1);
    const auto missing = missing_evidence(found.rated());
    CHECK(std::ranges::count(missing, "the source itself: it is not there yet",
                             &MissingEvidence::what) == 1);
}

TEST_CASE("a source that is not there and not offered counts on no sheet, and none says it does") {
    RatedFound found;
    found.district.what_if_sources = 1;  // W2, for operations
    const auto documents = documents_of(found.rated());
    for (const RatingDocument& document : documents) {
        CAPTURE(document.file);
        CHECK(document.html.find("<b>No source of [what_if_sources] counts on these sheets (1 in "
                                 "all).</b>") != std::string::npos);
        CHECK(document.html.find("as if it were") == std::string::npos);
        CHECK(document.html.find("Not to be signed") == std::string::npos);
    }
    const std::string register_text = support::seen_text(html_in(documents, "sources.html"));
    CHECK(register_text.find("operations; not there yet") != std::string::npos);
    found.rating.sources[1].is_candidate = true;  // offered, but without its evidence
    CHECK(support::seen_text(html_in(documents_of(found.rated()), "sources.html"))
              .find("Is not there yet, and does not count for rating") != std::string::npos);
}

TEST_CASE("no text of the data is ever HTML, and nothing comes from outside") {
    const RatedFound found;
    for (const RatingDocument& document : documents_of(found.rated())) {
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
    RatedFound found;
    const auto missing = missing_evidence(found.rated());
    const auto lists = [&](const std::string& record, std::string_view what) {
        return std::ranges::any_of(missing, [&](const MissingEvidence& each) {
            return each.record == record && each.what.find(what) != std::string::npos;
        });
    };
    CHECK(lists("W<1>", "certificate"));
    CHECK(lists("W<1>", "permission"));
    CHECK(lists("W<1>", "freeze provision"));
    CHECK_FALSE(lists("W2", "permission"));
    CHECK(lists(hostile, "timed fill"));
    CHECK(lists(hostile, "timed offload"));
    CHECK(lists("E1", "rated pump"));
    CHECK(lists("", "run cards"));
    CHECK(lists("", "data_date"));
    const auto stops = [&](std::string_view what) {
        return std::ranges::any_of(missing, [&](const MissingEvidence& each) {
            return each.stops && each.what.find(what) != std::string::npos;
        });
    };
    CHECK(stops("permission"));
    CHECK_FALSE(stops("freeze provision"));  // the verdict does not hold it against the source
    CHECK_FALSE(stops("cross street"));
    found.district.sources[0].certified_by = "R. Alder PE";
    const auto certified = missing_evidence(found.rated());
    CHECK(std::ranges::count(certified, "date of the certificate (certified_on)",
                             &MissingEvidence::what) == 1);
    const auto documents = documents_of(found.rated());
    CHECK(html_in(documents, "sources.html").find("not recorded") != std::string::npos);
    CHECK(support::seen_text(html_in(documents, "sources.html")).find("Does not count") !=
          std::string::npos);
}

TEST_CASE("where no source is offered for rating the sheets say so, not that nothing is missing") {
    RatedFound found;
    const auto missing_of_district = [&] {
        const auto list = missing_evidence(found.rated());
        return std::ranges::count_if(list, [](const MissingEvidence& each) {
            return each.subject == "district" && each.stops && each.what == no_source_offered;
        });
    };
    const auto sheet = [&](const std::string& file) {
        return support::seen_text(html_in(documents_of(found.rated()), file));
    };
    CHECK(missing_of_district() == 0);
    CHECK(sheet("missing.html").find(no_source_offered) == std::string::npos);
    CHECK(sheet("sources.html").find(no_source_offered) == std::string::npos);
    found.rating.sources[0].is_candidate = false;
    CHECK(missing_of_district() == 1);
    const std::string missing = sheet("missing.html");
    const std::size_t said = missing.find(no_source_offered);
    REQUIRE(said != std::string::npos);
    CHECK(missing.find(no_source_offered, said + 1) == std::string::npos);  // not among the papers
    CHECK(missing.find("Sources offered for rating\nNothing is missing") == std::string::npos);
    const std::string sources = sheet("sources.html");
    CHECK(sources.find(no_source_offered) != std::string::npos);
    CHECK(sources.find("Verdict") == std::string::npos);  // no table of nothing
}

TEST_CASE("owner and readings of a hydrant's flow test that are blank are listed as missing") {
    RatedFound found;
    WaterSource& source = found.district.sources[0];
    source.kind = SourceKind::hydrant;
    source.owner.clear();
    const auto lists = [&](std::string_view what) {
        const auto missing = missing_evidence(found.rated());
        return std::ranges::any_of(missing, [&](const MissingEvidence& each) {
            return each.record == "W<1>" && each.what.starts_with(what) && !each.stops;
        });
    };
    CHECK(lists("owner"));
    CHECK(lists("static pressure"));
    CHECK(lists("residual pressure"));
    CHECK(lists("flow during its test"));
    source.owner = "Alder Notch";
    source.hydrant.static_psi = 60.0;
    source.hydrant.residual_psi = 40.0;
    source.hydrant.pitot_psi = 12.0;
    CHECK(lists("flow during its test"));  // no outlet
    source.hydrant.outlet = inches(2.5);
    CHECK_FALSE(lists("owner"));
    CHECK_FALSE(lists("static pressure"));
    CHECK_FALSE(lists("residual pressure"));
    CHECK_FALSE(lists("flow during its test"));
    source.hydrant = {};
    source.kind = SourceKind::dry_hydrant;
    CHECK_FALSE(lists("static pressure"));
}

// Rating schedule, "Class 8B and Class 9 Protection": 85 % of the area, 6 responders, 24 hours of
// training, 5 points for alarms and 20 for the department.
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
    CHECK(planned_gpm(tenths_of_gpm(2499)) == 225);
    CHECK(planned_gpm(tenths_of_gpm(2500)) == 250);
    CHECK(planned_gpm(tenths_of_gpm(4999)) == 475);
    CHECK(planned_gpm(tenths_of_gpm(5000)) == 500);
    CHECK(planned_gpm(tenths_of_gpm(5499)) == 500);
    CHECK(planned_gpm(tenths_of_gpm(5500)) == 550);
    CHECK(planned_gpm(tenths_of_gpm(6843), tenths_of_gpm(6750)) == 675);
    CHECK(planned_gpm(tenths_of_gpm(6843), tenths_of_gpm(6850)) == 650);
    CHECK(planned_gpm(tenths_of_gpm(6843), tenths_of_gpm(2500)) == 650);
}

TEST_CASE("a map of very many properties draws no category away, and says what it leaves out") {
    RatedFound found;
    const auto marks = [&](std::size_t most) {
        return coverage_map(found.rated(), most).drawing.things.size();
    };
    const std::size_t all = marks(50000);
    CHECK(marks(0) == all);  // all categories stand in one square, each is seen
    CHECK(coverage_map(found.rated(), 50000).note.find("One mark for each") == 0);
    CHECK(coverage_map(found.rated(), 0).note.find("Of 4 properties") == 0);

    found.rating.places[3].category = rating::Category::near_with_water;
    found.district.parcels[3].house = found.district.parcels[0].house;
    CHECK(marks(0) + 1 == marks(50000));
    found.district.parcels[3].house.x += 5000.0;  // elsewhere: both are drawn
    CHECK(marks(0) == marks(50000));
}
