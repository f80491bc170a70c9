// Zones: ground by flow, and neighbours that miss theirs.
#include "reports/zones.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "reports/summary.h"
#include "tests/reports/found.h"
#include "tests/support/temporary_folder.h"

using namespace farwater;
using namespace farwater::reports;
using farwater::reports::test::answer;
using farwater::reports::test::Found;

namespace {

// Parcels of 100 m in a row, each with an answer; a road of `gap_m` behind the second.
struct Street : Found {
    ParcelOutlines outlines;

    Street(const std::vector<supply::ParcelSupply>& answers, double gap_m) {
        district.parcels.clear();
        for (std::size_t i = 0; i < answers.size(); ++i) {
            const double west = 100.0 * static_cast<double>(i) + (i >= 2 ? gap_m : 0.0);
            const Polyline ring{
                {west, 0}, {west + 100, 0}, {west + 100, 100}, {west, 100}, {west, 0}};
            district.parcels.push_back({.id = "P" + std::to_string(i),
                                        .row = static_cast<std::uint32_t>(i),
                                        .house = {west + 50, 50},
                                        .buildings = 2});
            outlines.add(std::vector<Polyline>{ring});
        }
        assessment = {};
        assessment.keep({SeasonIndex(0), PeriodIndex(0)}, answers, answers.size());
    }
    Zones zones() const { return find_zones(findings(), outlines, {}); }
};

const auto well_held = answer(SupplyState::held, 500, 760);
const auto a_little_short = answer(SupplyState::short_flow, 1000, 900);
const auto far_short = answer(SupplyState::tank_only, 1000, 0);

io::Value cell_of(const io::FeatureTable& table, std::size_t row, const std::string& name) {
    io::Row out;
    out.values.resize(table.columns.size());
    table.fill(row, out);
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        if (table.columns[i].name == name) {
            return out.values[i];
        }
    }
    FAIL("no column " << name);
    return {};
}

}  // namespace

TEST_CASE("bands of flow are those of the map page's key") {
    const std::string script = support::bytes_of("reports/page/questions.js");
    for (const FlowBand& band : flow_bands) {
        std::string label(band.legend);
        if (const auto unit = label.find(" gpm"); unit != std::string::npos) {
            label.erase(unit, 4);
        }
        CAPTURE(label);
        CHECK(script.find("\"" + label + "\"") != std::string::npos);
    }
    std::string bounds;
    for (const FlowBand& band : flow_bands) {
        if (band.to_gpm && *band.to_gpm > 0) {
            bounds += (bounds.empty() ? "" : ", ") + std::to_string(*band.to_gpm);
        }
    }
    CHECK(script.find("[" + bounds + "]") != std::string::npos);
}

TEST_CASE("a parcel's band follows the flow as documents show it") {
    const auto band = [](int gpm) {
        return flow_bands.at(*flow_band_of(answer(SupplyState::short_flow, 9000, gpm))).word;
    };
    CHECK(band(0) == "none");
    CHECK(band(24) == "none");
    CHECK(band(25) == "25_to_225");
    CHECK(band(249) == "25_to_225");
    CHECK(band(250) == "250_to_475");
    CHECK(band(499) == "250_to_475");
    CHECK(band(749) == "500_to_700");
    CHECK(band(999) == "750_to_950");
    CHECK(band(1499) == "1000_to_1450");
    CHECK(band(1500) == "1500_and_more");
    CHECK_FALSE(flow_band_of(answer(SupplyState::no_building, 0, 0)));
    CHECK(flow_bands.at(*flow_band_of(answer(SupplyState::unknown, 0, 0))).word == "unknown");
}

TEST_CASE("parcels that miss their flow are one zone over a road, and two over a field") {
    const std::vector answers{a_little_short, far_short, far_short, well_held};
    CHECK(Street(answers, 20.0).zones().shortfall.size() == 1);
    CHECK(Street(answers, 31.0).zones().shortfall.size() == 2);
}

TEST_CASE("zones are numbered by what they miss in all, and say what an officer asks") {
    const Street street({a_little_short, well_held, far_short, a_little_short}, 0.0);
    const Zones zones = street.zones();
    REQUIRE(zones.shortfall.size() == 2);
    Findings findings = street.findings();
    findings.zones = &zones;
    const io::FeatureTable table = shortfall_zones(findings);
    CHECK(std::get<std::int64_t>(cell_of(table, 0, "parcels")) == 2);
    CHECK(std::get<std::int64_t>(cell_of(table, 0, "unserved")) == 1);
    CHECK(std::get<double>(cell_of(table, 0, "shortfall_gpm_worst")) == 1000.0);
    CHECK(std::get<double>(cell_of(table, 0, "shortfall_gpm_total")) == 1100.0);
    CHECK(std::get<std::string_view>(cell_of(table, 0, "worst_parcel_id")) == "P2");
    CHECK(std::get<std::string_view>(cell_of(table, 1, "short_by")) == "up_to_100");
    CHECK(std::get<double>(cell_of(table, 0, "acres")) == Approx(2 * 2.471).epsilon(0.001));
    CHECK(zone_sentences(findings, 1).at(0) ==
          "zone 1: 2 parcels, worst short by 1000 gpm, most limited by no single thing");
    CHECK(zone_sentences(findings, 1).at(1) == "and 1 more with less missing in all");
}

TEST_CASE("zones of flow hold every improved parcel once, and their ground") {
    auto no_building = answer(SupplyState::no_building, 0, 0);
    const Street street({well_held, well_held, far_short, no_building}, 0.0);
    const Zones zones = street.zones();
    REQUIRE(zones.flow.size() == 2);
    CHECK(flow_bands.at(zones.flow[0].band).word == "none");
    CHECK(zones.flow[1].parcels == 2);
    CHECK(zones.flow[1].held == 2);
    CHECK(zones.flow[1].buildings == 4);
    REQUIRE(zones.flow[1].shape.size() == 1);
    CHECK(area_m2(zones.flow[1].shape) == Approx(20000.0));
}

TEST_CASE("the summary says when zones are left out") {
    const Found found;
    Findings findings = found.findings();
    CHECK(zone_sentences(findings, 5).empty());
    const Zones left_out{.left_out = true};
    findings.zones = &left_out;
    CHECK(zone_sentences(findings, 5).at(0) == "left out: more than 150000 parcels");
    CHECK(summary_json(findings, "out").find("_zones\"") == std::string::npos);
}

TEST_CASE("a program reads the zones in the JSON, with the numbers of the tables") {
    const Street street({well_held, far_short, well_held, far_short, far_short}, 50.0);
    const Zones zones = street.zones();
    Findings findings = street.findings();
    findings.zones = &zones;
    const auto document = nlohmann::json::parse(summary_json(findings, "out"));
    REQUIRE(document["flow_zones"].size() == zones.flow.size());
    CHECK(document["flow_zones"][0]["band"] == "none");
    REQUIRE(document["shortfall_zones"].size() == zones.shortfall.size());
    CHECK(document["shortfall_zones"][0]["parcels"] == zones.shortfall[0].parcels.size());
}
