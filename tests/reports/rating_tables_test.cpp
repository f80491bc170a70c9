// The rating's tables hold what its sheets show, parcel by parcel too.
#include "reports/rating/rating_tables.h"

#include <algorithm>
#include <map>

#include <catch2/catch.hpp>

#include "reports/rating/rating_totals.h"
#include "reports/text/number_words.h"
#include "reports/workbook_sheets.h"
#include "tests/reports/rated_found.h"
#include "tests/support/sheet_text.h"

using namespace farwater;
using namespace farwater::reports;
using namespace farwater::reports::test;

namespace {

io::Value rated_cell(const io::FeatureTable& table, std::size_t row, std::string_view name) {
    const auto column = std::ranges::find(table.columns, name, &io::Column::name);
    CAPTURE(name);
    REQUIRE(column != table.columns.end());
    REQUIRE(row < table.rows);
    io::Row out;
    out.values.resize(table.columns.size());
    table.fill(row, out);
    return out.values[static_cast<std::size_t>(column - table.columns.begin())];
}

std::string text_in(const io::FeatureTable& table, std::size_t row, std::string_view name) {
    const io::Value value = rated_cell(table, row, name);
    const auto* words = std::get_if<std::string_view>(&value);
    return words == nullptr ? std::string() : std::string(*words);
}

double number_in(const io::FeatureTable& table, std::size_t row, std::string_view name) {
    const io::Value value = rated_cell(table, row, name);
    if (const auto* whole = std::get_if<std::int64_t>(&value)) {
        return static_cast<double>(*whole);
    }
    const auto* number = std::get_if<double>(&value);
    return number == nullptr ? -1.0 : *number;  // -1: empty
}

}  // namespace

TEST_CASE("the rating of every parcel is a table, whose rows add up to the categories") {
    RatedFound found;
    found.rating.places[0].by_hose = held(gpm(250));
    found.rating.places[0].credited = held(gpm(400));
    found.rating.places[0].held = held(gpm(400));
    found.rating.places[0].station_mi = 2.5F;
    found.rating.brought.supplies[0].mode = SupplyMode::shuttle;
    found.rating.brought.supplies[0].fill_source = SourceIndex(1);
    const Findings findings = found.rated();
    const std::vector<std::string> addresses{"1 Mill Road", "", "", "4 Far Road"};
    const io::FeatureTable table =
        rating_parcels(findings, [&](std::size_t row) { return std::string_view(addresses[row]); });
    REQUIRE(table.rows == findings.parcels());
    CHECK(text_in(table, 0, "parcel_id") == "P0");
    CHECK(text_in(table, 0, "address") == "1 Mill Road");
    CHECK(text_in(table, 1, "address").empty());
    CHECK(number_in(table, 0, "credited_gpm") == 400.0);
    CHECK(number_in(table, 0, "by_hose_gpm") == 250.0);
    CHECK(number_in(table, 0, "by_apparatus_gpm") == 400.0);
    CHECK(number_in(table, 0, "rating_station_mi") == 2.5);
    CHECK(text_in(table, 0, "rating_mode") == "shuttle");
    CHECK(text_in(table, 0, "rating_fill_source_id") == "W2");
    CHECK(text_in(table, 0, "rating_season") == "all_year");
    CHECK(text_in(table, 0, "rating_period") == "any_time");
    CHECK(text_in(table, 1, "rating_fails_first") == "start");
    CHECK(number_in(table, 1, "rating_start_min") == Approx(18.1));
    for (const char* empty : {"rating_category", "rating_fails_first", "rating_season"}) {
        CHECK(text_in(table, 2, empty).empty());  // no building
    }
    for (const char* empty : {"credited_gpm", "buildings", "value"}) {
        CHECK(number_in(table, 2, empty) == -1.0);
    }
    const auto totals = totals_by_category(findings);
    for (const rating::Category category : possible_categories(found.rating.terms)) {
        std::size_t parcels = 0;
        double buildings = 0.0;
        double area = 0.0;
        for (std::size_t row = 0; row < table.rows; ++row) {
            if (text_in(table, row, "rating_category") ==
                category_word(found.rating.terms, category)) {
                ++parcels;
                buildings += number_in(table, row, "buildings");
                area += std::max(0.0, number_in(table, row, "building_area_sqft"));
            }
        }
        const RatingTotal& total = totals[static_cast<std::size_t>(category)];
        CHECK(parcels == total.parcels);
        CHECK(buildings == static_cast<double>(total.buildings));
        CHECK(area == Approx(total.area_sqft));
    }
}

TEST_CASE("the table of sources holds what the register shows of a source") {
    RatedFound found;
    WaterSource& source = found.district.sources[0];
    source.kind = SourceKind::dry_hydrant;
    source.cross_street = "Basswood Road";
    source.all_weather = true;
    source.frost_proof = true;
    source.standing = Standing::declared;
    source.standing_by = "Chief";
    source.certified_by = "R. Alder PE";
    source.places = 2;
    source.system = "MILL";
    source.lane = LaneClass::dead_end;
    source.suction.lift = feet(9);
    found.water.counts[0] = true;
    supply::CountedSource counted;
    counted.source = SourceIndex(0);
    counted.rate = gpm(500);
    counted.limit = RateLimit::suction;
    counted.pump_share = 0.8;
    found.water.counted.push_back(counted);
    const io::FeatureTable table = rating_sources(found.rated());
    CHECK(text_in(table, 0, "kind") == "dry_hydrant");  // codes stay codes
    CHECK(text_in(table, 0, "cross_street") == "Basswood Road");
    CHECK(text_in(table, 0, "owner") == hostile);
    CHECK(text_in(table, 0, "standing") == "declared");
    CHECK(text_in(table, 0, "standing_by") == "Chief");
    CHECK(text_in(table, 0, "system") == "MILL");
    CHECK(text_in(table, 0, "lane") == "dead_end");
    CHECK(text_in(table, 0, "rate_limit") == "suction");
    CHECK(std::get<bool>(rated_cell(table, 0, "all_weather")));
    CHECK(std::get<bool>(rated_cell(table, 0, "frost_proof")));
    CHECK(number_in(table, 0, "places") == 2.0);
    CHECK(number_in(table, 0, "static_lift_ft") == Approx(9.0));
    CHECK(number_in(table, 0, "pump_share_pct") == Approx(80.0));
    CHECK(number_in(table, 0, "rate_gpm") == Approx(500.0));
    // The heads of the worksheet: lift and more, rising with the flow.
    const double least = number_in(table, 0, "head_ft_at_minimum");
    CHECK(least > 9.0);
    CHECK(number_in(table, 0, "head_ft_at_1000") > least);
    CHECK(text_in(table, 0, "assumed").find("pipe") != std::string::npos);
    CHECK(text_in(table, 0, "missing").find("certificate") != std::string::npos);
    CHECK(text_in(table, 0, "also_asked") == "date of the certificate (certified_on)");
    CHECK(text_in(table, 1, "also_asked").empty());  // it is not offered
}

TEST_CASE("the table of apparatus holds what the register shows of a unit") {
    RatedFound found;
    found.district.units[0].crew = 3;
    found.district.units[0].hose = HoseLoad{.hose_3in = feet(600), .hose_5in = feet(1000)};
    found.district.units[1].portable_tank_known = false;
    const io::FeatureTable table = rating_fleet(found.rated());
    CHECK(text_in(table, 0, "station_id") == "S1");
    CHECK(number_in(table, 0, "portable_tank_gal") == 0.0);  // none, in so many words
    CHECK(number_in(table, 1, "portable_tank_gal") == -1.0);
    CHECK(text_in(table, 0, "station") == hostile);
    CHECK(number_in(table, 0, "crew") == 3.0);
    CHECK(number_in(table, 1, "crew") == -1.0);
    CHECK(number_in(table, 0, "hose_5in_ft") == Approx(1000.0));
    CHECK(number_in(table, 0, "hose_3in_ft") == Approx(600.0));
    CHECK(number_in(table, 0, "hose_4in_ft") == Approx(0.0).margin(1e-9));
    CHECK(number_in(table, 1, "hose_5in_ft") == -1.0);
    CHECK(number_in(table, 0, "paper_2_mi_gpm") == -1.0);  // no tanker
    // 90 % of 2,000 gal over handling and 0.65 + 1.7 x 4 min.
    const double handling = number_in(table, 1, "handling_min");
    CHECK(handling > 0.0);
    CHECK(number_in(table, 1, "paper_4_mi_gpm") == Approx(1800.0 / (handling + 7.45)));
}

TEST_CASE("when brought water begins, and where it is held in each season, are tables") {
    RatedFound found;
    found.rating.places[0].start = supply::TenthsMinute{50};
    const Findings findings = found.rated();
    const io::FeatureTable starts = rating_starts(findings);
    std::map<double, double> parcels;
    for (std::size_t row = 0; row < starts.rows; ++row) {
        parcels[number_in(starts, row, "within_min")] = number_in(starts, row, "parcels");
    }
    CHECK(parcels == std::map<double, double>{{5, 1}, {10, 1}, {15, 1}, {20, 2}, {30, 2}, {45, 2}});
    CHECK(number_in(starts, 5, "parcels_pct") == Approx(200.0 / 3.0));
    const io::FeatureTable seasons = rating_seasons(findings);
    REQUIRE(seasons.rows == 1);
    CHECK(text_in(seasons, 0, "season") == "all_year");
    CHECK(text_in(seasons, 0, "period") == "any_time");
    CHECK(number_in(seasons, 0, "begun_in_time") == 1.0);
    CHECK(number_in(seasons, 0, "begun_later") == 0.0);
    CHECK(number_in(seasons, 0, "not_held") == 2.0);
}

TEST_CASE("the facts of every calculation sheet are a row of a table, not rounded") {
    RatedFound found;
    const std::size_t row = found.rating.calculations.front().row;
    found.rating.places[row].held = held(gpm(415));
    found.rating.places[row].credited = held(gpm(415));
    supply::ParcelSupply& brought = found.rating.brought.supplies[row];
    brought.mode = SupplyMode::shuttle;
    brought.fill_source = SourceIndex(1);
    brought.handbook = held(gpm(497.4));
    brought.tankers = 3;
    brought.makers = {UnitIndex(0), UnitIndex(), UnitIndex(), UnitIndex()};
    const io::FeatureTable table = rating_calculations(found.rated());
    REQUIRE(table.rows == found.rating.calculations.size());
    CHECK(text_in(table, 0, "parcel_id") == found.district.parcels[row].id);
    CHECK(text_in(table, 0, "chosen_as") == found.rating.calculations.front().why);
    CHECK(number_in(table, 0, "credited_gpm") == Approx(415.0));
    CHECK(number_in(table, 0, "handbook_gpm") == Approx(497.4));
    CHECK(number_in(table, 0, "rating_tankers") == 3.0);
    CHECK(text_in(table, 0, "fill_source_ids") == "W2");
    CHECK(text_in(table, 0, "makers") == "E1");
    CHECK(number_in(table, 0, "minimum_gal") == Approx(30000.0));
    CHECK(number_in(table, 0, "credited_gal") == Approx(48000.0));  // of 400 gpm, as printed
    CHECK(text_in(table, 0, "rating_season") == "all_year");
}

TEST_CASE("every column of the rating's tables has its meaning") {
    const RatedFound found;
    const Findings findings = found.rated();
    std::vector<io::FeatureTable> tables{
        rating_parcels(findings, [](std::size_t) { return std::string_view(); })};
    for (const MakesTable make : rating_csv_tables) {
        tables.push_back(make(findings));
    }
    const io::FeatureTable meanings = column_meanings(tables);
    CHECK(meanings.rows > 150);
    for (std::size_t row = 0; row < meanings.rows; ++row) {
        CAPTURE(text_in(meanings, row, "table"), text_in(meanings, row, "column"));
        CHECK_FALSE(text_in(meanings, row, "meaning").empty());
        if (text_in(meanings, row, "column").starts_with("head_ft_")) {
            CHECK(text_in(meanings, row, "unit") == "feet");
        }
    }
}
