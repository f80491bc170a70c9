// The whole program on the sample region, compared with what is stored beside this file. When a
// change is meant, renew everything, the README's picture too, and review the difference like code:
//   FARWATER_BLESS=1 ctest --preset release -L golden
#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <map>
#include <sstream>

#include <catch2/catch.hpp>
#include <cpl_conv.h>
#include <cpl_minixml.h>
#include <ogrsf_frmts.h>

#include "tests/support/pdf_text.h"
#include "tests/support/program.h"
#include "tests/support/region_run.h"
#include "tests/support/sheet_text.h"
#include "tests/support/temporary_folder.h"
#include "tests/support/xml_schema.h"

using namespace farwater::support;

namespace {

const std::filesystem::path stored = "tests/golden/sample_region";

bool blessing() { return std::getenv("FARWATER_BLESS") != nullptr; }

std::filesystem::path result() { return region_result(FARWATER_PROGRAM); }

std::string first_difference(const std::string& was, const std::string& is) {
    std::istringstream old_lines(was);
    std::istringstream new_lines(is);
    std::string old_line;
    std::string new_line;
    for (int number = 1;; ++number) {
        const bool old_has = static_cast<bool>(std::getline(old_lines, old_line));
        const bool new_has = static_cast<bool>(std::getline(new_lines, new_line));
        if (!old_has && !new_has) {
            return "none";
        }
        if (!old_has || !new_has || old_line != new_line) {
            return "line " + std::to_string(number) + "\n  was: " + (old_has ? old_line : "(end)") +
                   "\n  is:  " + (new_has ? new_line : "(end)");
        }
    }
}

void check_golden(const std::filesystem::path& golden, const std::string& is) {
    if (blessing()) {
        put(golden, is);
    }
    const std::string was = bytes_of(golden);
    INFO(golden.string() << " differs, first in " << first_difference(was, is));
    CHECK(was == is);
}

// Every cell of a layer as text, shapes left out: what other machines' last bits cannot change.
std::string dump_of(const std::string& layer_name, const std::vector<std::string>& columns) {
    GDALAllRegister();
    const GDALDatasetUniquePtr dataset(
        GDALDataset::Open((result() / "supply.gpkg").c_str(), GDAL_OF_VECTOR));
    REQUIRE(dataset);
    OGRLayer* layer = dataset->GetLayerByName(layer_name.c_str());
    REQUIRE(layer != nullptr);
    std::string dump;
    for (const auto& feature : layer) {
        for (const std::string& column : columns) {
            const int index = feature->GetFieldIndex(column.c_str());
            REQUIRE(index >= 0);
            dump +=
                (dump.empty() || dump.back() == '\n' ? "" : "|") +
                std::string(feature->IsFieldSetAndNotNull(index) ? feature->GetFieldAsString(index)
                                                                 : "");
        }
        dump += "\n";
    }
    return dump;
}

}  // namespace

TEST_CASE("tables of the sample region are as stored", "[golden]") {
    for (const char* table : {"by_state",           "by_station",     "by_tanker",
                              "shortfall_zones",    "flow_zones",     "fill_sites",
                              "dump_sites",         "shuttle_routes", "fleet",
                              "assumptions",        "need_standard",  "data_problems",
                              "worklist",           "input_records",  "rating_terms",
                              "rating_categories",  "rating_reasons", "rating_sources",
                              "rating_fleet",       "rating_claims",  "rating_missing",
                              "rating_tankers",     "rating_starts",  "rating_seasons",
                              "rating_calculations"}) {
        const std::string name = std::string(table) + ".csv";
        check_golden(stored / name, bytes_of(result() / "tables" / name));
    }
}

TEST_CASE("the supply of every parcel of the sample region is as stored", "[golden]") {
    check_golden(stored / "parcel_supply.txt", dump_of("parcel_supply", {"parcel_id",
                                                                         "state",
                                                                         "margin",
                                                                         "evidence",
                                                                         "binding_limit",
                                                                         "reason",
                                                                         "need_from",
                                                                         "need_defaults",
                                                                         "dwelling_gpm",
                                                                         "method_total_gal",
                                                                         "separation_ft",
                                                                         "needed_gpm",
                                                                         "sustained_gpm",
                                                                         "cautious_gpm",
                                                                         "one_tanker_out_gpm",
                                                                         "later_gpm",
                                                                         "first_engine_min",
                                                                         "continuous_min",
                                                                         "gap_min",
                                                                         "earliest_start_min",
                                                                         "dump_site_id",
                                                                         "fill_source_id",
                                                                         "fill_site_count",
                                                                         "fill_tankers",
                                                                         "second_fill_source_id",
                                                                         "second_fill_tankers",
                                                                         "third_fill_source_id",
                                                                         "third_fill_tankers",
                                                                         "one_fill_site_gpm",
                                                                         "round_trip_min",
                                                                         "round_trip_mi",
                                                                         "default_speed_pct",
                                                                         "tankers",
                                                                         "worst_season",
                                                                         "worst_period"}));
    check_golden(
        stored / "parcel_rating.txt",
        dump_of("parcel_supply",
                {"parcel_id", "rating_category", "rating_fails_first", "credited_gpm",
                 "creditable_source_id", "creditable_hose_ft", "rating_start_min", "rating_gap_min",
                 "rating_mode", "rating_fill_source_id", "rating_second_fill_source_id",
                 "rating_tankers", "rating_nursing", "station_mi"}));
    check_golden(stored / "target_supply.txt",
                 dump_of("target_supply", {"target_id", "name", "state", "needed_gpm",
                                           "cautious_gpm", "binding_limit"}));
}

TEST_CASE("the rating's documents of the sample region read as stored, in HTML and on paper",
          "[golden]") {
    const std::string paper = farwater::support::text_of_pdf(
        bytes_of(result() / "rating" / "rating.pdf"), farwater::support::PdfOrder::as_written);
    for (const char* sheet :
         {"coverage", "sources", "fleet", "claims", "calculations", "forms", "missing"}) {
        const std::string html = bytes_of(result() / "rating" / (std::string(sheet) + ".html"));
        check_golden(stored / ("rating_" + std::string(sheet) + ".txt"), seen_text(html));
        CHECK(farwater::support::missing_on_paper(html.substr(html.find("<main>")), paper) ==
              std::vector<std::string>{});
        CPLXMLNode* const tree = CPLParseXMLString(html.c_str());
        CHECK(tree != nullptr);
        CPLDestroyXMLNode(tree);
    }
}

namespace {

// Rounded down as the sheets do.
std::string shown(double gpm) {
    const int whole = static_cast<int>(gpm);
    return std::to_string(whole < 500 ? whole / 25 * 25 : whole / 50 * 50) + " gpm";
}

}  // namespace

TEST_CASE("the tankers of a calculation sheet add up to its sum of undisturbed cycles",
          "[golden]") {
    std::istringstream rows(bytes_of(result() / "tables" / "rating_tankers.csv"));
    std::map<std::string, double> sums;
    std::string row;
    std::getline(rows, row);
    while (std::getline(rows, row)) {
        sums[row.substr(0, row.find(','))] += std::stod(row.substr(row.rfind(',') + 1));
    }
    CHECK(sums.size() > 2);
    const std::string sheet = seen_text(bytes_of(result() / "rating" / "calculations.html"));
    for (const auto& [parcel, sum] : sums) {
        const std::string label = "Sum of undisturbed cycles\n";
        const std::size_t at = sheet.find(label, sheet.find("Parcel " + parcel)) + label.size();
        CAPTURE(parcel, sum);
        CHECK(sheet.substr(at, sheet.find('\n', at) - at) ==
              shown(sum) + ", rounded down from the sum of the table below");
    }
}

// Cells of a CSV of the result by the names in its head; no cell that is looked at has a comma.
namespace {

std::vector<std::map<std::string, std::string>> rows_of_csv(const std::string& table) {
    const auto cells = [](const std::string& line) {
        std::vector<std::string> list{""};
        bool quoted = false;
        for (const char c : line) {
            quoted = c == '"' ? !quoted : quoted;
            if (c == ',' && !quoted) {
                list.emplace_back();
            } else if (c != '"' && c != '\r') {
                list.back() += c;
            }
        }
        return list;
    };
    std::istringstream lines(bytes_of(result() / "tables" / (table + ".csv")).substr(3));  // BOM
    std::string line;
    std::getline(lines, line);
    const std::vector<std::string> head = cells(line);
    std::vector<std::map<std::string, std::string>> rows;
    while (std::getline(lines, line)) {
        const std::vector<std::string> row = cells(line);
        REQUIRE(row.size() == head.size());
        auto& by_name = rows.emplace_back();
        for (std::size_t i = 0; i < row.size(); ++i) {
            by_name[head[i]] = row[i];
        }
    }
    return rows;
}

}  // namespace

TEST_CASE("the CSV of every parcel's rating says what the layer says and adds up to the categories",
          "[golden]") {
    const auto parcels = rows_of_csv("rating_parcels");
    const std::vector<std::string> shared{
        "parcel_id",   "rating_category",       "rating_fails_first", "creditable_source_id",
        "rating_mode", "rating_fill_source_id", "rating_nursing"};
    std::string as_layer;
    std::map<std::string, int> by_category;
    std::size_t addresses = 0;
    for (const auto& parcel : parcels) {
        for (const std::string& column : shared) {
            as_layer += (column == shared.front() ? "" : "|") + parcel.at(column);
        }
        as_layer += "\n";
        ++by_category[parcel.at("rating_category")];
        addresses += parcel.at("address").empty() ? 0U : 1U;
    }
    CHECK(as_layer == dump_of("parcel_supply", shared));
    CHECK(addresses > 1000);
    for (const auto& category : rows_of_csv("rating_categories")) {
        CHECK(by_category[category.at("rating_category")] == std::stoi(category.at("parcels")));
    }
}

TEST_CASE("the summary of the sample region is as stored", "[golden]") {
    check_golden(stored / "summary.txt", region_summary(FARWATER_PROGRAM));
}

TEST_CASE("drives from the stations to the water of the sample region are as stored", "[golden]") {
    const Ended ended =
        run_program(FARWATER_PROGRAM, {"drive-times", "sample_region/district.toml", "--from",
                                       "stations", "--to", "water_sources", "--vehicle", "E1"});
    REQUIRE(ended.exit_code == 0);
    check_golden(stored / "drive_times.txt", ended.out);
}

TEST_CASE("the page of the example shuttle is as stored", "[golden]") {
    const Ended ended = run_program(FARWATER_PROGRAM, {"shuttle", "sample_region/shuttle.toml"});
    REQUIRE(ended.exit_code == 0);
    check_golden(stored / "shuttle.txt", ended.out);
}

TEST_CASE("the calculations of a shuttle and of a relay of the sample region are as stored",
          "[golden]") {
    const auto page = [](const char* parcel) {
        const Ended ended =
            run_program(FARWATER_PROGRAM, {"explain", "sample_region/district.toml", parcel});
        REQUIRE(ended.exit_code == 0);
        return ended.out;
    };
    check_golden(stored / "explain.txt", page("AN-000158"));
    check_golden(stored / "explain_relay.txt", page("AN-000911"));
}

TEST_CASE("the lines of a calculation that the README shows are those of the stored page",
          "[golden]") {
    const std::string page = bytes_of(stored / "explain.txt");
    const std::string readme = bytes_of("README.md");
    const std::size_t begin = readme.find("```\n", readme.find("parcel AN-000158")) + 4;
    std::istringstream lines(readme.substr(begin, readme.find("```", begin) - begin));
    std::size_t shown = 0;
    for (std::string line; std::getline(lines, line); ++shown) {
        INFO("copy it from " << (stored / "explain.txt").string() << ": " << line);
        CHECK(contains(page, line + "\n"));
    }
    CHECK(shown > 5);
}

TEST_CASE("the sample region's places for phones are valid by the schemas of GPX and KML",
          "[golden]") {
    std::size_t files = 0;
    for (const auto& entry : std::filesystem::directory_iterator(result() / "places")) {
        const bool gpx = entry.path().extension() == ".gpx";
        const auto held = held_against(
            gpx ? "tests/io/data/gpx_1_1_places.xsd" : "tests/io/data/kml_2_2_places.xsd",
            entry.path());
        if (!held) {
            return;
        }
        INFO(entry.path() << held->err);
        CHECK(held->exit_code == 0);
        ++files;
    }
    CHECK(files >= 2);
}

// Of some parcels all over the region, for the time that it takes, and without its proposals.
TEST_CASE("what money could do in the sample region is as stored", "[golden]") {
    const TemporaryFolder folder;
    std::filesystem::copy("sample_region", folder / "region",
                          std::filesystem::copy_options::recursive);
    std::string text = bytes_of(folder / "region" / "district.toml");
    const auto replace = [&text](const std::string& from, const std::string& to) {
        const std::size_t at = text.find(from);
        REQUIRE(at != std::string::npos);
        text.replace(at, from.size(), to);
    };
    replace("layer = \"parcels\"\n",
            "layer = \"parcels\"\nwhere = \"PARCEL_ID LIKE '%7' OR PARCEL_ID LIKE '%19'\"\n");
    replace("file = \"data/proposals.csv\"", "file = \"data/proposals.csv\"\nwhere = \"ID = ''\"");
    put(folder / "region" / "district.toml", text);
    const Ended ended =
        run_program(FARWATER_PROGRAM, {"improvements", (folder / "region/district.toml").string()});
    INFO(ended.err);
    REQUIRE(ended.exit_code == 0);
    check_golden(stored / "improvements.txt", ended.out.substr(0, ended.out.find("\nResults: ")));
    check_golden(stored / "improvements.csv",
                 bytes_of(folder / "region" / "improvements" / "improvements.csv"));
}

TEST_CASE("the picture in the README is the one that the program draws", "[golden]") {
    check_golden("sample_region/overview.svg", bytes_of(result() / "maps" / "overview.svg"));
}

namespace {

GDALDatasetUniquePtr opened(const std::filesystem::path& file) {
    GDALAllRegister();
    GDALDatasetUniquePtr dataset(GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR));
    REQUIRE(dataset);
    return dataset;
}

// Half of the last decimal that the CSV prints.
double half_a_digit(const std::string& number) {
    const std::size_t point = number.find('.');
    const std::size_t decimals = point == std::string::npos ? 0 : number.size() - point - 1;
    return 0.501 * std::pow(10.0, -static_cast<double>(decimals));
}

bool same_cell(const std::string& csv, const std::string& sheet) {
    double number = 0.0;
    const auto [end, error] = std::from_chars(csv.data(), csv.data() + csv.size(), number);
    if (error != std::errc{} || end != csv.data() + csv.size() || csv == sheet) {
        return csv == sheet;
    }
    return !sheet.empty() && std::abs(std::stod(sheet) - number) <= half_a_digit(csv);
}

}  // namespace

TEST_CASE("sheets of the workbook have the cells of the CSV tables", "[golden]") {
    const std::filesystem::path tables = result() / "tables";
    // Else a sheet that has only text has no heading for GDAL.
    const CPLConfigOptionSetter headings("OGR_XLSX_HEADERS", "FORCE", false);
    const auto book = opened(tables / "coverage.xlsx");
    const std::pair<const char*, const char*> pairs[] = {{"By state", "by_state"},
                                                         {"By station", "by_station"},
                                                         {"By fill site", "fill_sites"},
                                                         {"By tanker", "by_tanker"},
                                                         {"Shortfalls ranked", "shortfalls"},
                                                         {"Shortfall zones", "shortfall_zones"},
                                                         {"Data problems", "data_problems"},
                                                         {"To find out", "worklist"},
                                                         {"Assumptions", "assumptions"},
                                                         {"What columns mean", "columns"}};
    for (const auto& [sheet_name, table] : pairs) {
        CAPTURE(sheet_name);
        const auto csv = opened(tables / (std::string(table) + ".csv"));
        OGRLayer* rows = csv->GetLayer(0);
        OGRLayer* sheet = book->GetLayerByName(sheet_name);
        REQUIRE(sheet != nullptr);
        const int columns = rows->GetLayerDefn()->GetFieldCount();
        REQUIRE(sheet->GetLayerDefn()->GetFieldCount() == columns);
        REQUIRE(sheet->GetFeatureCount() == rows->GetFeatureCount());
        REQUIRE(rows->GetFeatureCount() > 0);
        std::size_t wrong = 0;
        sheet->ResetReading();
        for (const auto& row : *rows) {
            const OGRFeatureUniquePtr of_sheet(sheet->GetNextFeature());
            for (int i = 0; i < columns; ++i) {
                wrong +=
                    same_cell(row->GetFieldAsString(i), of_sheet->GetFieldAsString(i)) ? 0U : 1U;
            }
        }
        CHECK(wrong == 0);
    }
    CHECK(book->GetLayerByName("Summary") != nullptr);
    CHECK(book->GetLayerByName("Cautions") != nullptr);
}

TEST_CASE("columns.csv says what every column of every CSV table means", "[golden]") {
    const std::string dictionary = bytes_of(result() / "tables" / "columns.csv");
    std::size_t columns = 0;
    for (const auto& file : std::filesystem::directory_iterator(result() / "tables")) {
        if (file.path().extension() != ".csv" || file.path().stem() == "columns") {
            continue;
        }
        const auto csv = opened(file.path());
        const OGRFeatureDefn* row = csv->GetLayer(0)->GetLayerDefn();
        for (int i = 0; i < row->GetFieldCount(); ++i, ++columns) {
            const std::string line = "\r\n" + file.path().stem().string() + "," +
                                     row->GetFieldDefn(i)->GetNameRef() + ",";
            CAPTURE(line);
            CHECK(contains(dictionary, line));
        }
    }
    CHECK(columns > 150);
}

TEST_CASE("zones hold every parcel that is short, once, and no ground twice", "[golden]") {
    const auto package = opened(result() / "supply.gpkg");
    const auto number = [&](const char* sql) {
        OGRLayer* answer = package->ExecuteSQL(sql, nullptr, nullptr);
        REQUIRE(answer != nullptr);
        const OGRFeatureUniquePtr row(answer->GetNextFeature());
        const double found = row->GetFieldAsDouble(0);
        package->ReleaseResultSet(answer);
        return found;
    };
    CHECK(number("SELECT sum(parcels) FROM shortfall_zones") ==
          number("SELECT count(*) FROM parcel_supply WHERE shortfall_gpm > 0"));
    CHECK(number("SELECT sum(parcels) FROM flow_zones") ==
          number("SELECT count(*) FROM parcel_supply WHERE state <> 'no_building'"));
    CHECK(number("SELECT sum(shortfall_gpm_total) FROM shortfall_zones") ==
          Approx(number("SELECT sum(shortfall_gpm) FROM parcel_supply")));
    CHECK(number("SELECT sum(ST_Area(geom)) FROM shortfall_zones") ==
          Approx(number("SELECT sum(ST_Area(geom)) FROM parcel_supply WHERE shortfall_gpm > 0"))
              .epsilon(1e-4));
    CHECK(
        number("SELECT sum(ST_Area(geom)) FROM flow_zones") ==
        Approx(number("SELECT sum(ST_Area(geom)) FROM parcel_supply WHERE state <> 'no_building'"))
            .epsilon(1e-4));
    for (const char* zones : {"flow_zones", "shortfall_zones"}) {
        OGRLayer* layer = package->GetLayerByName(zones);
        REQUIRE(layer != nullptr);
        for (const auto& zone : *layer) {
            CHECK(zone->GetGeometryRef()->IsValid());
        }
    }
}

TEST_CASE("every parcel has one state, and states follow from the numbers beside them",
          "[golden]") {
    const std::string dump =
        dump_of("parcel_supply", {"state", "needed_gpm", "cautious_gpm", "shortfall_gpm",
                                  "earliest_start_min", "runner_up_gpm"});
    std::istringstream lines(dump);
    std::size_t rows = 0;
    for (std::string line; std::getline(lines, line); ++rows) {
        std::vector<std::string> cells;
        std::istringstream row(line + "|");
        for (std::string cell; std::getline(row, cell, '|');) {
            cells.push_back(cell);
        }
        CAPTURE(line);
        REQUIRE(cells.size() == 6);
        const bool answered = cells[0] != "no_building" && cells[0] != "unknown";
        CHECK((cells[0] == "held" || cells[0] == "late" || cells[0] == "short" ||
               cells[0] == "tank_only" || cells[0] == "unreached" || !answered));
        if (answered) {
            const double needed = std::stod(cells[1]);
            const double cautious = std::stod(cells[2]);
            CHECK((cells[0] == "held") == (cautious >= needed));
            const double other = cells[5].empty() ? 0.0 : std::stod(cells[5]);
            CHECK(std::stod(cells[3]) == Approx(std::max(0.0, needed - std::max(cautious, other))));
            CHECK((cells[0] == "late") == (cautious < needed && !cells[4].empty()));
        }
    }
    CHECK(rows > 2000);
}
