// Result tables: every column has a description, values follow the findings, names are lawful.
#include <algorithm>
#include <map>
#include <set>

#include <catch2/catch.hpp>

#include "reports/as_it_is.h"
#include "reports/cab_places.h"
#include "reports/headline.h"
#include "reports/layers.h"
#include "reports/overview.h"
#include "reports/summary.h"
#include "reports/workbook_sheets.h"
#include "reports/zones.h"
#include "tests/reports/found.h"

using namespace farwater;
using namespace farwater::reports;
using farwater::reports::test::Found;

namespace {

std::size_t column_of(const io::FeatureTable& table, std::string_view name) {
    const auto found = std::find_if(table.columns.begin(), table.columns.end(),
                                    [&](const io::Column& column) { return column.name == name; });
    REQUIRE(found != table.columns.end());
    return static_cast<std::size_t>(found - table.columns.begin());
}

io::Value cell(const io::FeatureTable& table, std::size_t row, std::string_view column) {
    io::Row out;
    out.values.resize(table.columns.size());
    table.fill(row, out);
    return out.values[column_of(table, column)];
}

bool is_null(const io::Value& value) { return std::holds_alternative<std::monostate>(value); }

}  // namespace

TEST_CASE("every column of every table is described and named in snake case once", "[unit]") {
    const Found found;
    const Findings findings = found.findings();
    for (const io::FeatureTable& table : {parcel_supply(findings).results,
                                          road_times(findings).results,
                                          target_supply(findings),
                                          fill_sites(findings),
                                          dump_sites(findings),
                                          shuttle_routes(findings),
                                          response_times(findings),
                                          fleet(findings),
                                          assumptions(findings),
                                          need_standard(findings),
                                          data_problems(findings),
                                          worklist(findings),
                                          input_records(findings),
                                          by_state(findings),
                                          shortfalls(findings),
                                          flow_zones(findings),
                                          shortfall_zones(findings),
                                          by_station(findings),
                                          by_tanker(findings),
                                          column_meanings({}),
                                          summary_lines(findings, {}),
                                          caution_lines(findings),
                                          cab_places(findings),
                                          run_record_table({})}) {
        std::set<std::string> names;
        for (const io::Column& column : table.columns) {
            CAPTURE(table.name, column.name);
            CHECK(column.description.size() > 4);
            CHECK(column.description.back() == '.');
            CHECK(column.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") ==
                  std::string::npos);
            CHECK(names.insert(column.name).second);
        }
        CHECK_FALSE(table.title.empty());
        CHECK_FALSE(table.description.empty());
    }
}

TEST_CASE("the need's columns say where it comes from and what took a default", "[unit]") {
    Found found;
    found.needs[1]->from = NeedFrom::method;
    found.needs[1]->defaulted = {NeedInput::use, NeedInput::storeys};
    found.needs[1]->dwelling = tenths_of_gpm(2500);
    found.needs[1]->total_gal = 54000;
    const io::FeatureTable table = parcel_supply(found.findings()).results;
    CHECK(std::get<std::string_view>(cell(table, 0, "need_from")) == "default");
    CHECK(is_null(cell(table, 0, "need_defaults")));
    CHECK(is_null(cell(table, 0, "dwelling_gpm")));
    CHECK(std::get<std::string_view>(cell(table, 1, "need_from")) == "method");
    CHECK(std::get<std::string_view>(cell(table, 1, "need_defaults")) == "use,storeys");
    CHECK(std::get<double>(cell(table, 1, "dwelling_gpm")) == 250.0);
    CHECK(std::get<double>(cell(table, 1, "method_total_gal")) == 54000.0);
    CHECK(is_null(cell(table, 1, "separation_ft")));
    CHECK(is_null(cell(table, 3, "need_from")));
}

TEST_CASE("the worklist begins with the drills that would settle most answers", "[unit]") {
    Found found;
    found.district.sources.resize(2);
    found.district.sources[0].id = "W1";
    found.district.sources[1].id = "W2";
    found.seasons[0].trips.dump_sites.resize(2);
    const auto served = [&](std::size_t parcel, std::size_t source, std::size_t dump_site,
                            Evidence evidence) {
        supply::ParcelSupply& supply = found.assessment.supplies[parcel];
        supply.fill_source = SourceIndex(source);
        supply.dump_site = DumpSiteIndex(dump_site);
        supply.evidence = evidence;
    };
    served(0, 0, 0, Evidence::tested);  // nothing to settle
    served(1, 1, 1, Evidence::assumed);
    served(2, 1, 0, Evidence::assumed);
    served(3, 1, 1, Evidence::assumed);
    const io::FeatureTable table = worklist(found.findings());
    CHECK(std::get<std::string_view>(cell(table, 0, "record")) == "W2");
    CHECK(std::get<std::string_view>(cell(table, 0, "task")) ==
          "timed drill: fill here, dump at D0002, for an hour; the answers of 3 parcels that fill "
          "here rest on an assumed value");
    CHECK(std::get<std::string_view>(cell(table, 1, "task")).starts_with("timed") == false);
}

TEST_CASE("the summary counts parcels by needed flow", "[unit]") {
    const Found found;
    CHECK(summary_text(found.findings())
              .find("column, else the default flow                       0      3      0") !=
          std::string::npos);
}

TEST_CASE("a parcel's row is found by its record, and a record set aside has none", "[unit]") {
    const Found found;
    const io::PassThroughTable table = parcel_supply(found.findings());
    CHECK(table.keeps(1));
    CHECK_FALSE(table.keeps(2));
    CHECK(table.keeps(3));
    CHECK_FALSE(table.keeps(5));
    CHECK(std::get<std::string_view>(cell(table.results, 4, "parcel_id")) == "P3");
}

TEST_CASE("shortfall is need minus cautious flow and never below zero", "[unit]") {
    const Found found;
    const io::FeatureTable table = parcel_supply(found.findings()).results;
    CHECK(std::get<double>(cell(table, 0, "shortfall_gpm")) == 0.0);
    CHECK(std::get<double>(cell(table, 1, "shortfall_gpm")) == 600.0);
}

TEST_CASE("what is not known is empty, never zero", "[unit]") {
    const Found found;
    const io::FeatureTable table = parcel_supply(found.findings()).results;
    CHECK(std::get<std::string_view>(cell(table, 4, "state")) == "unknown");
    CHECK(std::get<std::string_view>(cell(table, 4, "reason")) == "parcel_no_road_in_reach");
    for (const char* column : {"sustained_gpm", "cautious_gpm", "shortfall_gpm", "margin",
                               "first_engine_min", "hose_ft"}) {
        CAPTURE(column);
        CHECK(is_null(cell(table, 4, column)));
    }
    CHECK(is_null(cell(table, 3, "needed_gpm")));
    CHECK(std::get<double>(cell(table, 4, "needed_gpm")) == 500.0);
}

TEST_CASE("the headline counts improved parcels only", "[unit]") {
    const Found found;
    const Headline headline = headline_of(found.findings());
    CHECK(headline.improved == 3);
    CHECK(headline.held == 1);
    CHECK(headline.unknown == 1);
    CHECK(headline.no_building == 1);
    CHECK(headline.held_but_for_one == 1);  // 480 of 500 gpm with one tanker out
    CHECK(headline.held_on_assumed == 0);
    CHECK(percent(1, 3) == "33.3 %");
    CHECK(percent(0, 0) == "-");
}

// As a run and a comparison count it.
TEST_CASE("what properties lack leaves out those whose answer is not known", "[unit]") {
    const Found found;
    const AsItIs now = as_it_is(found.assessment.supplies);
    CHECK(now.improved == 3);
    CHECK(now.held == 1);
    CHECK(now.short_of_gpm == 600.0);
}

TEST_CASE("no column's unit is told from the beginning of its name", "[unit]") {
    const Found found;
    const std::array tables{fleet(found.findings())};
    const io::FeatureTable columns = column_meanings(tables);
    std::map<std::string_view, io::Value> units;
    for (std::size_t row = 0; row < columns.rows; ++row) {
        units[std::get<std::string_view>(cell(columns, row, "column"))] =
            cell(columns, row, "unit");
    }
    CHECK(is_null(units.at("min_crew")));
    CHECK(units.at("tank_gal") == io::Value{std::string_view("gallons")});
}

TEST_CASE("shortfalls are ranked and leave out what is not known", "[unit]") {
    const Found found;
    const io::FeatureTable table = shortfalls(found.findings());
    REQUIRE(table.rows == 1);
    CHECK(std::get<std::string_view>(cell(table, 0, "parcel_id")) == "P1");
}

TEST_CASE("the assumptions table prints every value that the run used", "[unit]") {
    Found found;
    found.district.assumptions.fill_limit = gpm(720);
    found.district.assumptions.given = {"fill_limit_gpm"};
    const io::FeatureTable table = assumptions(found.findings());
    REQUIRE(table.rows == assumption_rows().size());
    for (std::size_t row = 0; row < table.rows; ++row) {
        if (std::get<std::string_view>(cell(table, row, "key")) == "fill_limit_gpm") {
            CHECK(std::get<double>(cell(table, row, "value")) == 720.0);
            CHECK(std::get<double>(cell(table, row, "default_value")) == 500.0);
            CHECK(std::get<bool>(cell(table, row, "given")));
        }
    }
}

TEST_CASE("the overview escapes names and says that it is a plan", "[unit]") {
    const Found found;
    const RunRecord record{{"program", "farwater 1"},
                           {"district_file_sha256", "0123456789abcdef01"}};
    const std::string svg = overview_svg(found.findings(), record);
    CHECK(svg.find("Alder &lt;Notch&gt;") != std::string::npos);
    CHECK(svg.find("<Notch>") == std::string::npos);
    CHECK(svg.find("timed drill") != std::string::npos);
    CHECK(svg.find("farwater 1. Data of") != std::string::npos);
    CHECK(svg.find("sha256 0123456789abcdef<") != std::string::npos);
    CHECK(svg == overview_svg(found.findings(), record));
}

TEST_CASE("the rule of the drive times stands in the summary and beside the minutes", "[unit]") {
    Found found;
    const auto said = [&] {
        const Findings findings = found.findings();
        const io::FeatureTable parcels = parcel_supply(findings).results;
        return summary_text(findings) + summary_json(findings, "out") +
               parcels.columns[column_of(parcels, "round_trip_min")].description +
               parcels.columns[column_of(parcels, "first_engine_min")].description;
    };
    const auto holds = [](const std::string& text, std::string_view words) {
        return text.find(words) != std::string::npos;
    };
    CHECK(holds(said(), "grades not considered (no elevation)"));
    CHECK(holds(said(), "By road speeds without grades."));
    CHECK(holds(said(), "\"grade of roads\""));
    found.district.elevation.metres.push_back(0.0F);
    CHECK(holds(said(), "By road speeds and grades."));
    CHECK_FALSE(holds(said(), "\"grade of roads\""));
    CHECK(holds(said(), "no result rests on more than the posted speed"));
    found.district.travel_time = TravelTime::linear_per_round_trip;
    CHECK(holds(said(), "the 0.65 once a round trip"));
    CHECK(holds(said(), "\"travel_time\": \"linear_per_round_trip\""));
    CHECK(holds(said(), "\"grade of roads\""));
    CHECK_FALSE(holds(said(), "no result rests on more than the posted speed"));
}

// A winter that nobody wrote down must not look like a year.
TEST_CASE("numbers that hold for some months say for which", "[unit]") {
    Found found;
    CHECK(summary_text(found.findings()).find("Holds for") == std::string::npos);
    CHECK(summary_json(found.findings(), "out").find("\"months\": \"all year\"") !=
          std::string::npos);
    MonthSet& months = found.district.seasons.front().months;
    months = {};
    for (const auto month : {std::chrono::April, std::chrono::May, std::chrono::June}) {
        months.include(month);
    }
    CHECK(months_sentence(found.district) ==
          "Holds for Apr to Jun only: no season of the district file covers Jul to Mar.");
    CHECK(summary_text(found.findings()).find("Holds for Apr to Jun only") < 200);
    CHECK(summary_json(found.findings(), "out").find("\"months\": \"Apr to Jun\"") !=
          std::string::npos);
}

TEST_CASE("the list of problems has an example of each kind for each layer", "[unit]") {
    const std::vector<Problem> problems{
        {ProblemId::id_missing, "parcels", "p.gpkg", "row 3", "", ""},
        {ProblemId::id_missing, "parcels", "p.gpkg", "row 4", "", ""},
        {ProblemId::id_missing, "apparatus", "a.csv", "row 2", "", ""}};
    const std::string text = problems_text(problems);
    CHECK(text.find("1  id_missing                 e.g. apparatus (a.csv), row 2") !=
          std::string::npos);
    CHECK(text.find("2  id_missing                 e.g. parcels (p.gpkg), row 3") !=
          std::string::npos);
}

TEST_CASE("the summary says cautions and counts in words and in JSON", "[unit]") {
    const Found found;
    const std::string text = summary_text(found.findings());
    CHECK(text.find("1 of 3 improved parcels meet their planned flow (33.3 %)") !=
          std::string::npos);
    CHECK(text.find("authority having jurisdiction") != std::string::npos);
    CHECK(text.find('\r') == std::string::npos);
    CHECK(summary_json(found.findings(), "out").find("\"held\": 1") != std::string::npos);
}
