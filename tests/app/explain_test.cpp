// farwater explain: the numbers of a run, and sums that can be worked out again.
#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <ogrsf_frmts.h>

#include "tests/app/small_district.h"
#include "tests/support/pocket_calculator.h"
#include "tests/support/program.h"
#include "tests/support/region_run.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;

namespace {

using nlohmann::json;

constexpr const char* region = "sample_region/district.toml";

Ended explain(const std::string& district, std::vector<std::string> more) {
    more.insert(more.begin(), {"explain", district});
    return run_program(FARWATER_PROGRAM, more);
}

json explained(const std::string& district, std::vector<std::string> more) {
    more.emplace_back("--json");
    const Ended ended = explain(district, std::move(more));
    INFO(ended.err);
    REQUIRE(ended.exit_code == 0);
    return json::parse(ended.out);
}

using RowOf = std::map<std::string, json>;  // by column

json cell(const OGRFeature& feature, int index) {
    if (!feature.IsFieldSetAndNotNull(index)) {
        return nullptr;
    }
    const OGRFieldDefn& field = *feature.GetDefnRef()->GetFieldDefn(index);
    if (field.GetType() == OFTString) {
        return feature.GetFieldAsString(index);
    }
    if (field.GetSubType() == OFSTBoolean) {
        return feature.GetFieldAsInteger(index) != 0;
    }
    return feature.GetFieldAsDouble(index);
}

bool in_single_file(const RowOf& row) {
    const json& way = row.at("single_file_min");
    return way.is_number() && way.get<double>() > 0.0;
}

// One row of each kind of answer: state, mode, runner-up, what limits it, and whether tankers come
// one at a time.
std::map<std::string, RowOf> one_of_each(const std::filesystem::path& result, const char* layer,
                                         const std::string& id) {
    GDALAllRegister();
    const GDALDatasetUniquePtr dataset(
        GDALDataset::Open((result / "supply.gpkg").c_str(), GDAL_OF_VECTOR));
    REQUIRE(dataset);
    std::set<std::string> kinds;
    std::map<std::string, RowOf> rows;
    for (const auto& feature : dataset->GetLayerByName(layer)) {
        RowOf row;
        for (int i = 0; i < feature->GetFieldCount(); ++i) {
            row[feature->GetDefnRef()->GetFieldDefn(i)->GetNameRef()] = cell(*feature, i);
        }
        const std::string kind = row["state"].dump() + row["supply_mode"].dump() +
                                 row["runner_up_mode"].dump() +
                                 (row["state"] == "tank_only" ? row["binding_limit"].dump() : "") +
                                 (in_single_file(row) ? "single file" : "");
        if (kinds.insert(kind).second) {
            rows[row[id].get<std::string>()] = row;
        }
    }
    return rows;
}

void check_same(const json& answer, const RowOf& row) {
    for (const auto& [column, value] : answer.items()) {
        CAPTURE(column, value.dump());
        const auto there = row.find(column);
        REQUIRE(there != row.end());
        if (value.is_number()) {
            CHECK(there->second.is_number());
            CHECK(value.get<double>() == there->second.get<double>());
        } else {
            CHECK(value == there->second);
        }
    }
}

// Its numbers are rounded as they are printed, so half of a last digit may be lost in each, and a
// difference may be as small as they are.
void check_sum(const json& line) {
    const std::string sum = line["sum"];
    const double value = line["value"];
    CAPTURE(line["what"].dump(), sum, value);
    const auto again = worked_out(sum);
    CHECK(again.has_value());
    CHECK(std::abs(again.value_or(-1e9) - value) <=
          0.004 * std::abs(value) + (line["unit"] == "%" ? 1.0 : 0.06));
}

std::size_t check_sums(const json& page) {
    std::size_t sums = 0;
    for (const json& part : page["parts"]) {
        for (const json& line : part["lines"]) {
            if (line.contains("sum")) {
                check_sum(line);
                ++sums;
            }
        }
    }
    return sums;
}

// The number of a line, by the beginning of its part's title and its name; none where there is
// none.
std::optional<double> number(const json& page, const std::string& part_title,
                             const std::string& what) {
    for (const json& part : page["parts"]) {
        const std::string title = part["title"];
        for (const json& line : part["lines"]) {
            if (title.rfind(part_title, 0) == 0 && line["what"] == what && line.contains("value")) {
                return line["value"].get<double>();
            }
        }
    }
    return std::nullopt;
}

std::vector<double> numbers(const json& page, const std::string& what) {
    std::vector<double> found;
    for (const json& part : page["parts"]) {
        for (const json& line : part["lines"]) {
            if (line["what"] == what) {
                found.push_back(line["value"].get<double>());
            }
        }
    }
    return found;
}

// What stands in different places of the page fits together.
void check_fits(const json& page) {
    const json& answer = page["answer"];
    const auto flow = number(page, "The answer", "cautious flow");
    if (answer["cautious_gpm"].is_number()) {
        REQUIRE(flow);
        CHECK(*flow == answer["cautious_gpm"].get<double>());
        CHECK(number(page, "The answer", "needed") == answer["needed_gpm"].get<double>());
    }
    if (answer["supply_mode"] == "shuttle") {
        CHECK(number(page, "The flow", "cautious, through the line") == *flow);
        CHECK(number(page, "The flow", "sustained, through the line") ==
              answer["sustained_gpm"].get<double>());
        const std::vector<double> own = numbers(page, "  its own gpm");
        CHECK(own.size() == answer["tankers"].get<std::size_t>());
        double sum = 0.0;
        for (const double one : own) {
            sum += one;
        }
        CHECK(sum == Approx(answer["handbook_gpm"].get<double>())
                         .margin(0.1 * static_cast<double>(own.size()) + 0.1));
        const std::vector<double> without = numbers(page, "  cautious flow without it");
        REQUIRE(without.size() >= own.size());  // also those that stand by and bring a tank
        const double least = std::min(*flow, *std::min_element(without.begin(), without.end()));
        CHECK(answer["one_tanker_out_gpm"].get<double>() >= least);
        CHECK(number(page, "The way", "round trip, driving") ==
              Approx(answer["round_trip_min"].get<double>()).margin(0.11));
        CHECK(number(page, "The way", "round trip, road miles") ==
              Approx(answer["round_trip_mi"].get<double>()).margin(0.011));
        CHECK(number(page, "The first minutes", "gap without water") ==
              Approx(answer["gap_min"].get<double>()).margin(0.11));
    }
    if (answer["supply_mode"] == "direct" || answer["supply_mode"] == "relay") {
        CHECK(number(page, "By hose", "cautious flow by hose") == *flow);
    }
}

}  // namespace

TEST_CASE("the pocket calculator of the tests works out sums with units in them") {
    CHECK(worked_out("1.5 handling + 6 turnout + 4.84 drive") == Approx(12.34));
    CHECK(worked_out("1 + 2500 gal / least(900, 1000) + 1") == Approx(4.7778).epsilon(1e-4));
    CHECK(worked_out("2 x (1 - 3 / 4) ^ 2 - most(0, 5 - 7)") == Approx(0.125));
    CHECK(worked_out("100 x sqrt((185 - 20) / (0.08 x 500 / 100))") == Approx(2031).epsilon(1e-3));
    CHECK_FALSE(worked_out("2 +"));
    CHECK_FALSE(worked_out("(2"));
    CHECK_FALSE(worked_out("two"));
}

TEST_CASE("explain has the numbers of run for every kind of answer of the sample region",
          "[golden]") {
    const auto result = region_result(FARWATER_PROGRAM);
    std::map<std::string, RowOf> rows = one_of_each(result, "parcel_supply", "parcel_id");
    CHECK(rows.size() >= 12);
    rows.merge(one_of_each(result, "target_supply", "target_id"));
    std::set<json> states, modes;
    int one_at_a_time = 0;
    for (const auto& [id, row] : rows) {
        CAPTURE(id);
        const json page = explained(region, {id});
        states.insert(page["answer"]["state"]);
        modes.insert(page["answer"]["supply_mode"]);
        check_same(page["answer"], row);
        check_fits(page);
        const bool driven_to = row.at("first_engine_min").is_number();
        CHECK(check_sums(page) >= (driven_to ? 7U : 0U));
        const bool by_shuttle = row.at("supply_mode") == "shuttle";
        CHECK((!by_shuttle ||
               contains(page.dump(), "alone on the narrow way") == in_single_file(row)));
        one_at_a_time += by_shuttle && in_single_file(row) ? 1 : 0;
    }
    CHECK(one_at_a_time > 0);
    CHECK(states.size() == 7);
    CHECK(modes.size() == 5);  // direct, relay, shuttle, none, and null where nothing is known
}

TEST_CASE("the page of a parcel names each thing that its answer rests on") {
    const Ended ended = explain(region, {"AN-000360"});
    CAPTURE(ended.out);
    CHECK(ended.exit_code == 0);
    CHECK(ended.err.empty());
    for (const char* part :
         {"Alder Notch, parcel: AN-000360 in winter", "The answer\n", "What is needed\n",
          "The house and the first engine\n", "The dump site, D3\n", "The fill site, W12",
          "The way of the first tanker", "The tankers of the shuttle\n", "handbook sum",
          "The supply line from the dump site to the house\n", "taken off for caution",
          "one more tanker like the largest", "Assumptions used\n", "common practice, no source",
          "given by the district", "Not modelled:", "prove them by a timed drill",
          "authority having jurisdiction"}) {
        CAPTURE(part);
        CHECK(contains(ended.out, part));
    }
}

TEST_CASE("a season and a period that are asked for are the ones that are explained") {
    const json winter =
        explained(region, {"AN-002363", "--season", "winter", "--period", "weekday_day"});
    CHECK(winter["answer"]["worst_season"] == "winter");
    CHECK(winter["answer"]["worst_period"] == "weekday_day");
    const json summer = explained(region, {"AN-002363", "--season", "summer"});
    CHECK(summer["answer"]["worst_season"] == "summer");
    const json worst = explained(region, {"AN-002363"});
    CHECK(worst["answer"]["cautious_gpm"].get<double>() <=
          summer["answer"]["cautious_gpm"].get<double>());
    check_fits(summer);
    check_sums(summer);
    for (const json& assumption : worst["assumptions"]) {
        CAPTURE(assumption.dump());
        CHECK(assumption["value"].is_number());
        CHECK((assumption["source"] == "district file") == assumption["given"].get<bool>());
        CHECK_FALSE(assumption["source"].get<std::string>().empty());
    }
    CHECK(worst["assumptions"].size() > 20);
}

TEST_CASE("explain works out a need by each published method", "[unit]") {
    const TemporaryFolder folder;
    std::filesystem::copy("sample_region/data", folder.path() / "data");
    const auto [method, first, last] = GENERATE(table<std::string, std::string, std::string>(
        {{"rating_schedule", "construction, before rounding", "needed flow of the schedule"},
         {"fire_code", "fire area", "needed flow of the code"},
         {"rural_supply", "total water of the rural standard", "delivery rate for that total"}}));
    std::string text = bytes_of(region);
    const std::string was = "method = \"rural_supply\"";
    text.replace(text.find(was), was.size(), "method = \"" + method + "\"");
    put(folder.path() / "district.toml", text);
    const json page = explained((folder.path() / "district.toml").string(), {"AN-000512"});
    CAPTURE(method);
    check_sums(page);
    CHECK(number(page, "What is needed", first).has_value());
    CHECK(number(page, "What is needed", last) == page["answer"]["needed_gpm"].get<double>());
    CHECK(number(page, "What is needed", "needed flow") ==
          page["answer"]["needed_gpm"].get<double>());
}

TEST_CASE("an unknown parcel, season or period is one sentence, with the nearest known") {
    const TemporaryFolder folder;
    const std::string district = write_small_district(folder.path() / "d").string();
    const Ended parcel = explain(district, {"0007"});
    CHECK(parcel.exit_code == 2);
    CHECK(parcel.out.empty());
    CHECK(parcel.err ==
          "farwater: there is no parcel and no target \"0007\"; did you mean \"007\"?\n");
    const Ended season = explain(district, {"007", "--season", "winter"});
    CHECK(season.exit_code == 2);
    CHECK(contains(season.err, "there is no season \"winter\""));
    CHECK(contains(season.err, "all_year"));
    const Ended period = explain(district, {"007", "--period", "never"});
    CHECK(period.exit_code == 2);
    CHECK(contains(period.err, "there is no period \"never\""));
    CHECK(explain(district, {}).exit_code == 2);
    CHECK_FALSE(std::filesystem::exists(folder.path() / "d" / "result"));
}

TEST_CASE("the head says what the worst is of: all, or what was left open", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    put(district, bytes_of(district) +
                      "[season.summer]\nmonths = \"4-11\"\n[season.winter]\nmonths = \"12-3\"\n"
                      "[period.night]\n[period.day]\n");
    const auto head = [&](std::vector<std::string> more) {
        more.insert(more.begin(), "007");
        const std::string out = explain(district, more).out;
        return out.substr(0, out.find('\n'));
    };
    CHECK(head({}).ends_with(" (the worst season and period)"));
    CHECK(head({"--season", "winter"}).ends_with(" (the worst period of that season)"));
    CHECK(head({"--period", "day"}).ends_with(" in summer, day (the worst season in that period)"));
    CHECK(head({"--season", "winter", "--period", "day"}).ends_with(" in winter, day"));
}

TEST_CASE("explain works by the linear rule of travel time, writes nothing and has help") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    put(district, "travel_time = \"linear_per_leg\"\n" + std::string(small_district_toml()));
    const json page = explained(district.string(), {"007"});
    CHECK(check_sums(page) > 0);
    check_fits(page);
    CHECK_FALSE(std::filesystem::exists(folder.path() / "d" / "result"));
    const Ended help = run_program(FARWATER_PROGRAM, {"explain", "--help"});
    CHECK(help.exit_code == 0);
    CHECK(contains(help.out, "farwater explain district.toml 042-017 --season winter"));
}
