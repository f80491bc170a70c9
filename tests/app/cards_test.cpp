// `farwater cards`, as its users meet it: the printed pages against the layer of `run`.
#include <algorithm>
#include <cmath>
#include <map>
#include <regex>

#include <catch2/catch.hpp>

#include "tests/app/small_district.h"
#include "tests/open_data/open_data.h"
#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;
using farwater::open_data::Package;

namespace {

namespace fs = std::filesystem;

const std::string printing = FARWATER_PROGRAM;

Ended cards_of(const fs::path& district, const fs::path& out, std::vector<std::string> more = {}) {
    more.insert(more.begin(), {"cards", district.string(), "--out", out.string()});
    return run_program(printing, more);
}

// The text of each page.
std::vector<std::string> pages_of(const fs::path& pdf) {
    const Ended text = run_program("/usr/bin/pdftotext", {"-raw", pdf.string(), "-"});
    REQUIRE(text.exit_code == 0);
    std::vector<std::string> pages;
    std::istringstream whole(text.out);
    for (std::string page; std::getline(whole, page, '\f');) {
        pages.push_back(page);
    }
    return pages;
}

std::string on_one_blank(const std::string& text) {
    return std::regex_replace(text, std::regex("\\s+"), " ");
}

std::string first_match(const std::string& text, const std::string& pattern) {
    std::smatch match;
    return std::regex_search(text, match, std::regex(pattern)) ? match[1].str() : "";
}

// Rounded down as documents are: common practice, no source.
long planned(double gpm) {
    const auto whole = static_cast<long>(std::floor(gpm + 1e-6));
    return whole < 500 ? whole / 25 * 25 : whole / 50 * 50;
}

std::string in_tenths(const std::string& number) {
    if (number == "-") {
        return "-";
    }
    char text[32];
    std::snprintf(text, sizeof text, "%.1f", std::stod(number));
    return text;
}

bool is_card(const std::string& page) {
    return contains(page, "RUN CARD\n") && !contains(page, ", continued: ");
}

// The numbers of one card against the layer.
void check_card(const std::string& page, const Package& supply) {
    std::string place = first_match(page, "Figures: the worst, .* \\(([^()]*)\\), ");
    const bool is_parcel = !place.empty();
    place =
        is_parcel ? place : first_match(page, "Figures: the worst, (.*), [^,]*, [^,]*\\. Minutes");
    CAPTURE(place);
    const auto row =
        supply
            .rows(
                "SELECT cautious_gpm, needed_gpm, tank_water_min, continuous_min, "
                "one_tanker_out_gpm, round_trip_min, dump_site_id, worst_season FROM " +
                std::string(is_parcel ? "parcel_supply WHERE parcel_id = '"
                                      : "target_supply WHERE name = '") +
                std::regex_replace(place, std::regex("'"), "''") + "'")
            .at(0);
    const std::string plan = first_match(page, "PLAN ON\n([0-9]+) ?gpm");
    CHECK(plan == std::to_string(planned(std::stod(row[0]))));
    CHECK(first_match(page, "NEEDED\n([0-9]+) ?gpm") ==
          std::to_string(std::lround(std::stod(row[1]))));
    CHECK(first_match(page, "TANK WATER\n([0-9.-]+) ?min") == in_tenths(row[2]));
    CHECK(first_match(page, "STEADY WATER\n([0-9.-]+) ?min") == in_tenths(row[3]));
    CHECK(first_match(page, "ONE OUT\n([0-9]+) ?gpm") ==
          std::to_string(planned(std::stod(row[4]))));
    CHECK(first_match(page, "ROUND TRIP\n([0-9.-]+) ?min") == in_tenths(row[5]));
    CHECK(contains(page, row[6] + ". Serves "));
    CHECK(contains(page, ", " + std::regex_replace(row[7], std::regex("_"), " ") + ", "));
    // What stands at the start of the flow by minute is worked out on a second way of the data.
    const std::string by_minute = first_match(
        page, "Gpm from then, [0-9]+ min [0-9]+ [0-9]+ [0-9]+ ([0-9]+) [0-9]+ [0-9]+ [0-9]+\n");
    CHECK((by_minute == plan || (by_minute.empty() && plan == "0")));
    CHECK(contains(page, "Planning figures: prove them by a timed drill."));
    CHECK(contains(on_one_blank(page), "Never pull a main below 20 psi."));
}

struct IndexEntry {
    std::string road, houses, card;
};

std::vector<IndexEntry> index_of(const std::string& html) {
    const std::string nav = html.substr(html.find("<nav"), html.find("</nav>") - html.find("<nav"));
    std::vector<IndexEntry> entries;
    std::string road;
    const std::regex line(
        "<h3>([^<]*)</h3>|<p><span>([^<]*)</span>(?:<b>(?:<a [^>]*>)?([0-9]+)|<em>)");
    for (std::sregex_iterator at(nav.begin(), nav.end(), line), end; at != end; ++at) {
        if ((*at)[1].matched) {
            road = (*at)[1];
        } else {
            entries.push_back({road, (*at)[2], (*at)[3]});
        }
    }
    return entries;
}

}  // namespace

TEST_CASE("a small district's cards say what its layer says", "[unit]") {
    const TemporaryFolder folder;
    const fs::path district = write_small_district(folder.path() / "d");
    const Ended ended = cards_of(district, folder / "cards");
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    REQUIRE(run_program(printing, {"run", district.string(), "--out", (folder / "result").string(),
                                   "--quiet"})
                .exit_code == 0);
    const Ended json = cards_of(district, folder / "cards", {"--json"});
    CHECK(json.out.starts_with("{\n  \"cards\": "));
    CHECK(json.out.find("\"schema_version\": 1") != std::string::npos);
    const Package supply(folder / "result" / "supply.gpkg");
    int cards = 0;
    for (const std::string& page : pages_of(folder / "cards" / "cards.pdf")) {
        if (is_card(page)) {
            ++cards;
            check_card(page, supply);
        }
    }
    CHECK(cards == supply.number("SELECT count(DISTINCT dump_site_id) FROM parcel_supply "
                                 "WHERE state != 'no_building'"));
    CHECK(cards > 0);
    const std::string dispatch = bytes_of(folder / "cards" / "dispatch.csv");
    CHECK(contains(dispatch, "007"));
    CHECK(contains(dispatch, "D1"));
    CHECK_FALSE(contains(dispatch, "009"));  // no building
    const auto fonts =
        run_program("/usr/bin/pdffonts", {(folder / "cards" / "cards.pdf").string()});
    CHECK(contains(fonts.out, "DejaVuSans"));
    CHECK_FALSE(contains(fonts.out, " no  yes"));  // all are embedded
}

TEST_CASE("a card says who of those that come carries hard suction", "[unit]") {
    const TemporaryFolder folder;
    const fs::path district = write_small_district(folder.path() / "d");
    std::istringstream as_it_was(bytes_of(folder.path() / "d" / "apparatus.csv"));
    std::string apparatus;
    for (std::string line; std::getline(as_it_was, line);) {
        apparatus += line + (line.starts_with("unit_id") ? ",hard_suction_ft\n"
                             : line.starts_with("E2")    ? ",20\n"
                             : line.starts_with("T3")    ? ",15.5\n"
                                                         : ",\n");
    }
    put(folder.path() / "d" / "apparatus.csv", apparatus);
    REQUIRE(cards_of(district, folder / "cards").exit_code == 0);
    const auto pages = pages_of(folder / "cards" / "cards.pdf");
    const auto card = std::ranges::find_if(pages, is_card);
    REQUIRE(card != pages.end());
    CHECK(contains(on_one_blank(*card), "Hard suction: 20 ft (E2), 15 ft (T3)."));
}

TEST_CASE("cards are the same bytes, whatever the threads, zone and locale", "[unit]") {
    const TemporaryFolder folder;
    const fs::path district = write_small_district(folder.path() / "d");
    REQUIRE(cards_of(district, folder / "one", {"--threads", "1"}).exit_code == 0);
    ::setenv("TZ", "America/New_York", 1);
    ::setenv("LC_ALL", "de_DE.UTF-8", 1);
    REQUIRE(cards_of(district, folder / "two", {"--threads", "2"}).exit_code == 0);
    ::unsetenv("TZ");
    ::unsetenv("LC_ALL");
    for (const char* file :
         {"cards.pdf", "cards.html", "dispatch.csv", "wall_sheet.pdf", "atlas.pdf"}) {
        CAPTURE(file);
        CHECK(bytes_of(folder / "one" / file) == bytes_of(folder / "two" / file));
    }
}

TEST_CASE("a district without a building gets an index and no card", "[unit]") {
    const TemporaryFolder folder;
    const fs::path district = write_small_district(folder.path() / "d");
    put(folder.path() / "d" / "parcels.csv",
        "WKT,parcel_id,buildings\n\"POLYGON((502300 4500020,502400 4500020,502400 "
        "4500120,502300 4500120,502300 4500020))\",007,0\n");
    const Ended ended = cards_of(district, folder / "cards");
    INFO(ended.err);
    CHECK(ended.exit_code == 0);
    CHECK(contains(ended.out, "0 run cards"));
    CHECK(contains(pages_of(folder / "cards" / "cards.pdf").at(0), "ADDRESS INDEX"));
}

TEST_CASE("every card of the sample region says what the layer says, every house is in the index",
          "[golden]") {
    const TemporaryFolder folder;
    fs::copy("sample_region", folder / "region", fs::copy_options::recursive);
    const fs::path district = folder / "region" / "district.toml";
    std::string toml = bytes_of(district);  // a part of its parcels, for the time it takes
    const std::string parcels = "layer = \"parcels\"\n";
    REQUIRE(contains(toml, parcels));
    toml.insert(toml.find(parcels) + parcels.size(), "where = \"PARCEL_ID < 'AN-000500'\"\n");
    put(district, toml);
    const Ended ended = cards_of(district, folder / "cards");
    INFO(ended.err);
    REQUIRE(ended.exit_code == 0);
    REQUIRE(run_program(printing, {"run", district.string(), "--out", (folder / "result").string(),
                                   "--quiet"})
                .exit_code == 0);
    const Package supply(folder / "result" / "supply.gpkg");
    std::string before_cards;
    long cards = 0;
    for (const std::string& page : pages_of(folder / "cards" / "cards.pdf")) {
        before_cards += cards == 0 && !is_card(page) ? page : "";
        if (is_card(page)) {
            ++cards;
            check_card(page, supply);
        }
    }
    CHECK(cards ==
          supply.number("SELECT count(DISTINCT dump_site_id) FROM (SELECT dump_site_id FROM "
                        "parcel_supply WHERE state != 'no_building' UNION SELECT dump_site_id "
                        "FROM target_supply)"));

    std::map<std::string, int> in_layer;
    for (const auto& row :
         supply.rows("SELECT ADDRESS FROM parcel_supply WHERE state != 'no_building'")) {
        ++in_layer[row[0]];
    }
    std::map<std::string, int> in_index;
    long targets = 0;
    const std::string printed = on_one_blank(before_cards);
    for (const IndexEntry& entry : index_of(bytes_of(folder / "cards" / "cards.html"))) {
        if (entry.road == "Other places") {  // names, with commas in them
            ++targets;
            continue;
        }
        std::istringstream houses(entry.houses);
        for (std::string house; std::getline(houses, house, ',');) {
            house = house.substr(house.find_first_not_of(' '));
            ++in_index[house + " " + entry.road];
        }
        CAPTURE(entry.road, entry.houses, entry.card);
        CHECK(contains(printed, entry.houses + " " + entry.card));
    }
    for (const auto& [address, count] : in_layer) {
        CAPTURE(address);
        if (count == 1 && address != "-") {
            CHECK(in_index[address] == 1);
        }
    }
    long layer_count = 0;
    long index_count = 0;
    for (const auto& [address, count] : in_layer) {
        layer_count += count;
    }
    for (const auto& [address, count] : in_index) {
        index_count += count;
    }
    CHECK(index_count == layer_count);
    CHECK(targets > 0);
}
