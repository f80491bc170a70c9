// The whole program on the sample region, compared with what is stored beside this file. When a
// change is meant, renew everything, the README's picture too, and review the difference like code:
//   FARWATER_BLESS=1 ctest --preset release -L golden
#include <algorithm>
#include <cstdlib>
#include <sstream>

#include <catch2/catch.hpp>
#include <cpl_minixml.h>
#include <ogrsf_frmts.h>

#include "tests/support/program.h"
#include "tests/support/sheet_text.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;

namespace {

const std::filesystem::path stored = "tests/golden/sample_region";

bool blessing() { return std::getenv("FARWATER_BLESS") != nullptr; }

// One run for all tests of this program.
const std::filesystem::path& result() {
    static const TemporaryFolder folder;
    static const std::filesystem::path out = [] {
        const Ended ended = run_program(
            FARWATER_PROGRAM,
            {"run", "sample_region/district.toml", "--out", (folder.path() / "out").string()});
        REQUIRE(ended.exit_code == 0);
        put(folder.path() / "summary.txt", ended.out.substr(0, ended.out.find("\nResults: ")));
        return folder.path() / "out";
    }();
    return out;
}

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
    for (const char* table :
         {"by_state", "fill_sites", "dump_sites", "shuttle_routes", "fleet", "assumptions",
          "need_standard", "data_problems", "worklist", "input_records", "rating_terms",
          "rating_categories", "rating_reasons", "rating_sources", "rating_fleet", "rating_claims",
          "rating_missing"}) {
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
                 "creditable_source_id", "creditable_hose_ft", "rating_start_min", "station_mi"}));
    check_golden(stored / "target_supply.txt",
                 dump_of("target_supply", {"target_id", "name", "state", "needed_gpm",
                                           "cautious_gpm", "binding_limit"}));
}

TEST_CASE("the rating's documents of the sample region read as stored, and are well-formed XML",
          "[golden]") {
    for (const char* sheet :
         {"coverage", "sources", "fleet", "claims", "calculations", "forms", "missing"}) {
        const std::string html = bytes_of(result() / "rating" / (std::string(sheet) + ".html"));
        check_golden(stored / ("rating_" + std::string(sheet) + ".txt"), seen_text(html));
        CPLXMLNode* const tree = CPLParseXMLString(html.c_str());
        CHECK(tree != nullptr);
        CPLDestroyXMLNode(tree);
    }
}

TEST_CASE("the summary of the sample region is as stored", "[golden]") {
    result();
    check_golden(stored / "summary.txt", bytes_of(result().parent_path() / "summary.txt"));
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

TEST_CASE("the picture in the README is the one that the program draws", "[golden]") {
    check_golden("sample_region/overview.svg", bytes_of(result() / "maps" / "overview.svg"));
}

TEST_CASE("every parcel has one state, and states follow from the numbers beside them",
          "[golden]") {
    const std::string dump =
        dump_of("parcel_supply", {"state", "needed_gpm", "cautious_gpm", "shortfall_gpm",
                                  "earliest_start_min", "later_gpm"});
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
            CHECK(std::stod(cells[3]) == Approx(std::max(0.0, needed - cautious)));
            CHECK((cells[0] == "late") == (cautious < needed && !cells[4].empty()));
        }
    }
    CHECK(rows > 2000);
}
