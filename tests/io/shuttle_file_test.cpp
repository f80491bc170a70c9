// The scenario file of `farwater shuttle`: what is read, and the sentence for what is wrong.
#include "io/shuttle_file.h"

#include <string>

#include <catch2/catch.hpp>

#include "io/error.h"

using namespace farwater;

namespace {

constexpr const char* whole_scenario = R"(start_min = 15
duration_min = 120
needed_gpm = 500
[dump_site]
storage_gal = 4664
flow_cap_gpm = "unlimited"
[[fill_site]]
id = "north pond"
pump_gpm = 1000
usable_gal = 60000
[[tanker]]
id = "T1"
gal = 2500
arrives_min = 8
[tanker.travel."north pond"]
empty_min = 4.5
loaded_min = 5
)";

// The scenario with one text replaced by another.
std::string with(const std::string& old_text, const std::string& new_text) {
    std::string text = whole_scenario;
    const std::size_t at = text.find(old_text);
    REQUIRE(at != std::string::npos);
    return text.replace(at, old_text.size(), new_text);
}

std::string refusal(const std::string& text) {
    try {
        io::parse_shuttle_file(text, "s.toml");
    } catch (const io::SettingsError& error) {
        return error.what();
    }
    return "no refusal";
}

}  // namespace

TEST_CASE("what is given is read, and what is not stays open") {
    const ShuttleScenario read = io::parse_shuttle_file(whole_scenario, "s.toml");
    CHECK(read.start == minutes(15));
    CHECK(read.needed == gpm(500));
    CHECK_FALSE(read.initial_attack);
    CHECK(read.dump_site.storage == Stated<Volume>{false, gallons(4664)});
    CHECK(read.dump_site.flow_cap == Stated<Flow>{true, Flow{}});
    CHECK_FALSE(read.dump_site.offload_slots);
    REQUIRE(read.fill_sites.size() == 1);
    CHECK(read.fill_sites[0].id == "north pond");
    CHECK(read.fill_sites[0].pump == gpm(1000));
    CHECK_FALSE(read.fill_sites[0].flows);
    REQUIRE(read.tankers.size() == 1);
    CHECK(read.tankers[0].tank == gallons(2500));
    CHECK_FALSE(read.tankers[0].fill_site);
    REQUIRE(read.tankers[0].travel.size() == 1);
    CHECK(read.tankers[0].travel[0].fill_site == 0);
    CHECK(read.tankers[0].travel[0].loaded == minutes(5));
}

TEST_CASE("a wrong value has its place, its key and what would be right") {
    struct Case {
        const char* old_text;
        const char* new_text;
        const char* expected;
    };
    constexpr Case cases[] = {
        {"gal = 2500", "gal = 0",
         "s.toml:13:7: [[tanker]] gal must be between 100 and 20000, not 0"},
        {"usable_gal = 60000", "usable_gal = 0",
         "s.toml:10:14: [[fill_site]] usable_gal must be between 1 and 1000000000 gal, not 0"},
        {"pump_gpm = 1000", "pump_gpm = -5",
         "s.toml:9:12: [[fill_site]] pump_gpm must be between 1 and 20000 gpm, not -5"},
        {"arrives_min = 8", "arrives_min = -1",
         "s.toml:14:15: [[tanker]] arrives_min must be between 0 and 1440 min, not -1"},
        {"empty_min = 4.5", "empty_min = nan",
         "s.toml:16:13: [tanker.travel.\"north pond\"] empty_min must be a number, not nan or "
         "infinity"},
        {"start_min = 15", "start_min = \"soon\"",
         "s.toml:1:13: the scenario start_min must be a number, not a text"},
        {"storage_gal = 4664", "storage_gal = \"unlimitted\"",
         "s.toml:5:15: [dump_site] storage_gal must be a number or \"unlimited\", not "
         "\"unlimitted\""},
        {"storage_gal = 4664", "storage_gall = 4664",
         "s.toml:5:1: [dump_site] has no key \"storage_gall\"; did you mean \"storage_gal\"?"},
        {"storage_gal = 4664", "pump_gpm = 1000",
         "s.toml:5:1: [dump_site] has no key \"pump_gpm\"; it belongs in [[fill_site]]"},
        {"[tanker.travel.\"north pond\"]", "[tanker.travel.\"north pont\"]",
         "s.toml:15:16: [tanker.travel.\"north pont\"]: there is no fill site \"north pont\"; did "
         "you mean \"north pond\"?"},
        {"arrives_min = 8", "arrives_min = 8\nfill_site = \"quarry\"",
         "s.toml:15:13: [[tanker]] fill_site: there is no fill site \"quarry\"; there is north "
         "pond"},
        {"usable_gal = 60000", "usable_gal = 2000",
         "s.toml:13:7: [[tanker]] gal: one load takes 2500 gal, more than the 2000 gal that fill "
         "site \"north pond\" holds, and nothing refills it"},
        {"gal = 2500", "gal = 2500\nrefill_fraction = 0.5",
         "s.toml:14:19: [[tanker]] delivered_fraction 0.9 is more than refill_fraction 0.5: a "
         "tanker cannot deliver more than it takes"},
        {"pump_gpm = 1000", "pump_gpm = 1000\nflows = 2",
         "s.toml:10:9: [[fill_site]] flows must be at most its places, 1, not 2"},
        {"empty_min = 4.5\nloaded_min = 5",
         "empty_min = 0\nloaded_min = 0.5\n[[tanker]]\nid = \"T2\"\ngal = 900\narrives_min = 1\n"
         "fill_before_min = 0\nfill_after_min = 0\noffload_before_min = 0\n"
         "offload_after_min = 0\n[tanker.travel.\"north pond\"]\nempty_min = 0\nloaded_min = 0.5",
         "s.toml:19:6: [[tanker]] T2: driving to \"north pond\" and back and handling take 0.5 "
         "min; "
         "less than 1 is no shuttle"},
        {"id = \"T1\"\n", "",
         "s.toml:11:1: [[tanker]] lacks id: a name for it, such as \"Tanker 1\""},
        {"gal = 2500\n", "", "s.toml:11:1: [[tanker]] lacks gal: gallons of its tank"},
        {"[[fill_site]]", "[fill_site]",
         "s.toml:7:2: fill_site must be written [[fill_site]], one for each"},
        {"start_min = 15", "initial_attack_from_min = 9\nstart_min = 15",
         "s.toml:1:27: initial_attack_from_min without initial_attack_gpm: say how much is drawn "
         "from then on"},
        {"start_min = 15\n", "",
         "s.toml:1:1: the scenario lacks a clock: give start_min, or engine_arrives_min in "
         "[dump_site], or both"},
    };
    for (const Case& one : cases) {
        CAPTURE(one.new_text);
        const std::string said = refusal(with(one.old_text, one.new_text));
        CHECK(said.substr(0, said.find('\n')) == one.expected);
    }
}

TEST_CASE("a scenario without fill site, tanker or travel says so") {
    CHECK(refusal("start_min = 15\n") ==
          "s.toml:1:1: the scenario has no fill_site: begin one with [[fill_site]]\n"
          "s.toml:1:1: the scenario has no tanker: begin one with [[tanker]]");
    std::string text = whole_scenario;
    text.erase(text.find("[tanker.travel"));
    CHECK(refusal(text) ==
          "s.toml:11:1: [[tanker]] lacks travel: give [tanker.travel.\"FILL SITE\"] with empty_min "
          "and loaded_min");
    CHECK(refusal(std::string(whole_scenario) + "[[fill_site]]\nid = \"north pond\"\n") ==
          "s.toml:19:6: there are two [[fill_site]] with the id \"north pond\"");
}

TEST_CASE("a source that is refilled may be smaller than a load, and an unused one too") {
    CHECK(refusal(with("usable_gal = 60000", "usable_gal = 2000\ninflow_gpm = 50")) ==
          "no refusal");
    CHECK(refusal(with("usable_gal = 60000", "usable_gal = \"unlimited\"")) == "no refusal");
}

TEST_CASE("portable tanks in line take gallons, and siphons take tanks") {
    const std::string line = std::string("storage_gal = 4664\nportable_tanks = 2\n") +
                             "jet_siphons = 1\nsiphon_gpm = 1200";
    const ShuttleScenario read = io::parse_shuttle_file(with("storage_gal = 4664", line), "s.toml");
    CHECK(read.dump_site.portable_tanks == 2);
    CHECK(read.dump_site.jet_siphons == 1);
    CHECK(read.dump_site.siphon == gpm(1200));
    CHECK(refusal(with("storage_gal = 4664", "storage_gal = 4664\njet_siphons = 1"))
              .ends_with("jet_siphons without portable_tanks: say how many tanks stand in line"));
    CHECK(refusal(with("storage_gal = 4664", "storage_gal = \"unlimited\"\nportable_tanks = 2"))
              .ends_with("portable_tanks with storage_gal = \"unlimited\": give the gallons that "
                         "they hold together"));
}

TEST_CASE("what is no TOML and what is no file are refused") {
    CHECK(refusal("start_min = ").starts_with("s.toml:1:"));
    CHECK_THROWS_AS(io::read_shuttle_file("/nowhere/s.toml"), io::SettingsError);
    CHECK_THROWS_AS(io::read_shuttle_file("/"), io::SettingsError);
}

TEST_CASE("the reference names every key of the scenario") {
    const std::string page = io::shuttle_file_reference();
    for (const char* key : {"start_min", "storage_gal", "usable_gal", "delivered_fraction",
                            "loaded_min", "number or \"unlimited\""}) {
        CHECK(page.find(key) != std::string::npos);
    }
}
