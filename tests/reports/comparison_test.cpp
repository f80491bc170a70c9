// The documents of a comparison: their numbers are those of the tables, and no text is ever HTML.
#include <algorithm>
#include <map>

#include <catch2/catch.hpp>
#include <cpl_minixml.h>
#include <fmt/format.h>

#include "reports/comparison/comparison_page.h"
#include "reports/comparison/comparison_results.h"
#include "reports/comparison/comparison_words.h"
#include "reports/layer_styles.h"
#include "reports/text/svg.h"
#include "tests/planning/stored_answers.h"
#include "tests/support/program.h"
#include "tests/support/sheet_text.h"

using namespace farwater;
using namespace farwater::reports;
using farwater::support::contains;
using farwater::test::stored;
using farwater::test::told;

namespace {

const std::string breaking_out = "</td><script>alert(1)</script>&\"'<img src=x>";

StoredResult result_with(std::vector<StoredAnswer> places, const std::string& program) {
    StoredResult result;
    result.record = {{"program", program},
                     {"district", "Alder <Notch>"},
                     {"district_file_sha256", std::string(64, 'a')}};
    result.data_date = Date{std::chrono::year(2026), std::chrono::May, std::chrono::day(31)};
    result.parcels = told(std::move(places));
    result.targets = told({});
    return result;
}

struct Compared {
    StoredResult before = result_with({stored("lost", SupplyState::held, 5000, 6000),
                                       stored(breaking_out, SupplyState::held, 5000, 6000),
                                       stored("won", SupplyState::short_flow, 5000, 2000),
                                       stored("same", SupplyState::held, 1000, 1000),
                                       stored("gone", SupplyState::held, 1000, 1000),
                                       stored("split", SupplyState::held, 1000, 1000)},
                                      "farwater 1");
    StoredResult after = result_with({stored("lost", SupplyState::short_flow, 5000, 4000),
                                      stored(breaking_out, SupplyState::tank_only, 5000, 0),
                                      stored("won", SupplyState::held, 5000, 5123),
                                      stored("same", SupplyState::held, 1000, 1000),
                                      stored("split-1", SupplyState::held, 1000, 1000),
                                      stored("split-2", SupplyState::no_building, {}, {})},
                                     "farwater 1");
    planning::Comparison comparison = planning::compare(before, after);

    ComparedResults results() const { return {before, after, comparison}; }
    void compare_again() { comparison = planning::compare(before, after); }
};

ComparisonGround somewhere() {
    ComparisonGround ground;
    ground.roads = {{{0.0, 0.0}, {2000.0, 0.0}}};
    ground.fill_sites = {{breaking_out, {100.0, 100.0}}};
    ground.place_of_parcel = [](const planning::AnswerChange& change) {
        return std::optional(Point{100.0 * change.before.value_or(7), 50.0});
    };
    return ground;
}

using TextRow = std::map<std::string, std::string>;

std::vector<TextRow> rows_of(const io::FeatureTable& table) {
    std::vector<TextRow> rows;
    for (std::size_t index = 0; index < table.rows; ++index) {
        io::Row row;
        row.values.assign(table.columns.size(), io::Value{});
        table.fill(index, row);
        TextRow& cells = rows.emplace_back();
        for (std::size_t i = 0; i < table.columns.size(); ++i) {
            const io::Value& value = row.values[i];
            std::string& cell = cells[table.columns[i].name];
            if (const auto* text = std::get_if<std::string_view>(&value)) {
                cell = *text;
            } else if (const auto* real = std::get_if<double>(&value)) {
                cell = fmt::format("{:.1f}", *real);
            } else if (const auto* count = std::get_if<std::int64_t>(&value)) {
                cell = fmt::format("{}", *count);
            } else if (const auto* yes = std::get_if<bool>(&value)) {
                cell = *yes ? "yes" : "no";
            }
        }
    }
    return rows;
}

}  // namespace

TEST_CASE("parcel_changes has those that changed, came or went, the losses first") {
    const Compared compared;
    const auto rows = rows_of(parcel_changes(compared.results()));
    REQUIRE(rows.size() == 7);
    CHECK(rows[0].at("parcel_id") == breaking_out);
    CHECK(rows[0].at("outcome") == "no_longer_met");
    CHECK(rows[0].at("cause") == "water");
    CHECK(rows[0].at("met_before") == "yes");
    CHECK(rows[0].at("met_after") == "no");
    CHECK(rows[0].at("shortfall_gpm_after") == "500.0");
    CHECK(rows[1].at("parcel_id") == "lost");
    CHECK(rows[1].at("what_changed") == "state, cautious_gpm, later_gpm");
    CHECK(rows[1].at("new_flow_old_need_short_gpm") == "100.0");
    const auto is = [&](const char* id) {
        return *std::ranges::find_if(rows,
                                     [&](const TextRow& row) { return row.at("parcel_id") == id; });
    };
    CHECK(is("gone").at("outcome") == "gone");
    CHECK(is("gone").at("state_after").empty());
    CHECK(is("gone").at("met_after").empty());
    CHECK(is("split-2").at("outcome") == "came");
    CHECK(is("won").at("cautious_gpm_after") == "512.3");
}

TEST_CASE("a row of state_changes for every pair of states, and all rows are all parcels") {
    const Compared compared;
    std::map<std::pair<std::string, std::string>, int> counts;
    int before = 0;
    int after = 0;
    for (const TextRow& row : rows_of(state_changes(compared.results()))) {
        const int parcels = std::stoi(row.at("parcels"));
        counts[{row.at("state_before"), row.at("state_after")}] = parcels;
        before += row.at("state_before") == "not_there" ? 0 : parcels;
        after += row.at("state_after") == "not_there" ? 0 : parcels;
    }
    CHECK(before == 6);
    CHECK(after == 6);
    CHECK(counts[{"held", "held"}] == 1);
    CHECK(counts[{"held", "not_there"}] == 2);
    CHECK(counts[{"not_there", "no_building"}] == 1);
}

TEST_CASE("the page says the numbers of the tables, and is well-formed with hostile names") {
    const Compared compared;
    const std::string html = comparison_page(compared.results(), somewhere());
    CPLXMLNode* const tree = CPLParseXMLString(html.c_str());
    CHECK(tree != nullptr);
    CPLDestroyXMLNode(tree);
    CHECK_FALSE(contains(html, "<script"));
    CHECK_FALSE(contains(html, "<img"));
    CHECK_FALSE(contains(html, "Alder <Notch>"));
    CHECK(contains(html, "&lt;script&gt;"));
    CHECK(contains(html, "For the department; not for the public"));
    CHECK(contains(html, "Planning figures"));
    const std::string text = support::seen_text(html);
    CHECK(contains(text,
                   "Of those in both, 1 newly meets the planned flow (1 by the water); 2 no "
                   "longer do (2 by the water)."));
    CHECK(contains(text, "5 of 6 improved parcels met their planned flow, 3 of 5 do now."));
    CHECK(contains(html,
                   "farwater 1. Data of 2026-05-31. District file sha256 aaaaaaaaaaaaaaaa. Later: "
                   "farwater 1. Data of"));
    for (const TextRow& row : rows_of(parcel_changes(compared.results()))) {
        CHECK(contains(html, "<td>" + escaped(row.at("parcel_id")) + "</td>"));
        for (const char* column :
             {"needed_gpm_after", "cautious_gpm_before", "cautious_gpm_after"}) {
            CHECK(contains(text, row.at(column)));
        }
    }
    CHECK(html == comparison_page(compared.results(), somewhere()));
}

TEST_CASE("of a hash a document shows the first 16 digits") {
    CHECK(value_words("data/roads.csv roads sha256 " + std::string(64, 'b') + " records 3") ==
          "data/roads.csv roads sha256 bbbbbbbbbbbbbbbb records 3");
    CHECK(value_words("deadbeef and 2026") == "deadbeef and 2026");
    CHECK(value_words("").empty());
}

TEST_CASE("the sentence of what is missing adds up") {
    const Compared compared;
    const auto sentences = comparison_headline(compared.results());
    // 300 gpm of `won`; then 100 of `lost` and 500.
    CHECK(std::ranges::count(sentences,
                             "Missing of all needs together, as far as it is known: 300 gpm then, "
                             "600 gpm now. Of parcels that both results know: 300 gpm more (+300 "
                             "gpm by the water).") == 1);
    CHECK(contains(comparison_json(compared.results()), "\"water\": 300.0"));
}

TEST_CASE("what is no longer known is no gain") {
    Compared compared;
    compared.after.parcels.places[0] = stored("lost", SupplyState::unknown, 5000, {});
    compared.before.parcels.places[0] = stored("lost", SupplyState::short_flow, 5000, 1000);
    compared.compare_again();
    // 400 gpm of `lost` were missing, and nobody knows what is now.
    CHECK(
        std::ranges::count(comparison_headline(compared.results()),
                           "Missing of all needs together, as far as it is known: 700 gpm then, "
                           "500 gpm now (1 not known). Of parcels that both results know: 200 gpm "
                           "more (+200 gpm by the water).") == 1);
    const auto rows = rows_of(parcel_changes(compared.results()));
    CHECK(std::ranges::count_if(rows, [](const TextRow& row) {
              return row.at("cause") == "data" && row.at("outcome") == "worse";
          }) == 1);
}

TEST_CASE("nothing changed is said in so many words") {
    Compared compared;
    compared.after = compared.before;
    compared.compare_again();
    CHECK(
        comparison_headline(compared.results()) ==
        std::vector<std::string>{"Nothing changed: 6 parcels and 0 targets have the same answers, "
                                 "and the results tell of the same inputs."});
    CHECK(parcel_changes(compared.results()).rows == 0);
    const std::string html = comparison_page(compared.results(), somewhere());
    CHECK(contains(html, "Nothing changed"));
    CHECK_FALSE(contains(html, "<svg"));
    compared.after.record.emplace_back("input_roads", "other roads");
    compared.compare_again();
    CHECK(contains(comparison_headline(compared.results()).front(),
                   "No answer changed: 6 parcels and 0 targets are as they were. One thing that "
                   "the answers rest on is another."));
}

TEST_CASE("another program, a what-if, untold columns and doubled ids are said first") {
    Compared compared;
    CHECK(comparison_cautions(compared.results()).empty());
    compared.after.record[0].second = "farwater 2";
    compared.after.record.emplace_back("schema_version", "2");
    compared.before.record.emplace_back("what_if", "Counts 1 source <of> it.");
    compared.before.parcels.numbers_told[static_cast<std::size_t>(AnswerNumber::later)] = false;
    compared.after.parcels.places.push_back(compared.after.parcels.places.front());
    compared.compare_again();
    const auto cautions = comparison_cautions(compared.results());
    REQUIRE(cautions.size() == 5);
    CHECK(contains(cautions[0], "ANOTHER PROGRAM VERSION made the earlier result (farwater 1)"));
    CHECK(cautions[1] ==
          "ANOTHER FORM of the results, schema_version not told in the earlier and 2 in the later "
          "one: a column of the same name may mean something else.");
    CHECK(cautions[2] == "The earlier result: Counts 1 source <of> it.");
    CHECK(contains(cautions[3], "The earlier result does not tell later_gpm of its parcels"));
    CHECK(contains(cautions[4], "3 records of the parcels have an id"));
    const std::string html = comparison_page(compared.results(), somewhere());
    CHECK(contains(html, "Counts 1 source &lt;of&gt; it."));
    CHECK(contains(comparison_text(compared.results()), "ANOTHER PROGRAM VERSION"));
}

TEST_CASE("every outcome has its look on the map of a desktop GIS") {
    const auto look = std::ranges::find(layer_looks(), "parcel_changes", &LayerLook::layer);
    REQUIRE(look != layer_looks().end());
    for (std::size_t i = 1; i < 10; ++i) {
        const auto outcome = planning::word(static_cast<planning::Happened>(i));
        CAPTURE(outcome);
        CHECK(std::ranges::find(look->rows, outcome, &RowLook::value) != look->rows.end());
    }
    for (const char* outcome : {"no_longer_met", "newly_met"}) {
        CHECK(std::ranges::find(look->rows, outcome, &RowLook::value) != look->rows.end());
    }
}
