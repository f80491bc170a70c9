// Random scenarios, lawful and not: no crash, no hang, no NaN, no negative flow. The seed of a
// failure is printed.
#include <chrono>
#include <cmath>

#include <catch2/catch.hpp>

#include "io/error.h"
#include "reports/shuttle_page.h"
#include "tests/app/typed_scenarios.h"
#include "tests/supply/random_incidents.h"

using namespace farwater;
using supply::Dice;

namespace {

constexpr std::uint64_t lawful_scenarios = 150;
constexpr std::uint64_t torn_scenarios = 1500;

// A number of the range, or one of its ends; sometimes nothing, so that the default is taken.
std::string line(Dice& dice, const char* key, double low, double high) {
    if (dice.chance(0.2)) {
        return {};
    }
    const double value = dice.chance(0.2)   ? low
                         : dice.chance(0.2) ? high
                                            : dice.between(low, std::min(high, low + 40.0));
    return std::string(key) + " = " + std::to_string(value) + "\n";
}

std::string whole_line(Dice& dice, const char* key, int low, int high) {
    return dice.chance(0.3)
               ? std::string()
               : std::string(key) + " = " + std::to_string(dice.whole(low, high)) + "\n";
}

std::string random_site(Dice& dice, int number) {
    std::string text = "[[fill_site]]\nid = \"s" + std::to_string(number) + "\"\n";
    const int places = dice.whole(1, 8);
    text += "places = " + std::to_string(places) + "\n" + whole_line(dice, "flows", 1, places) +
            line(dice, "pump_gpm", 1, 20000) + line(dice, "ready_min", 0, 1440);
    text +=
        dice.chance(0.3) ? "usable_gal = \"unlimited\"\n" : line(dice, "usable_gal", 30000, 1e9);
    return text + line(dice, "inflow_gpm", 0, 20000);
}

std::string random_tanker_text(Dice& dice, int number, int sites) {
    std::string text =
        "[[tanker]]\nid = \"t" + std::to_string(number) +
        "\"\ngal = " + std::to_string(dice.chance(0.2) ? 100 : dice.whole(100, 20000)) +
        "\narrives_min = " + std::to_string(dice.whole(0, dice.chance(0.1) ? 1440 : 40)) + "\n";
    text += line(dice, "fill_limit_gpm", 50, 5000) + line(dice, "offload_gpm", 50, 5000) +
            line(dice, "fill_before_min", 0, 60) + line(dice, "fill_after_min", 0, 60) +
            line(dice, "offload_before_min", 0, 60) + line(dice, "offload_after_min", 0, 60);
    text += dice.chance(0.5) ? "can_nurse = true\n" : "";
    text += line(dice, "nurse_gpm", 1, 5000);
    for (int site = 0; site < sites; ++site) {
        if (site == 0 || dice.chance(0.7)) {
            text += "[tanker.travel.s" + std::to_string(site) +
                    "]\nempty_min = " + std::to_string(dice.between(0, 20)) + "\nloaded_min = " +
                    std::to_string(dice.chance(0.1) ? 0.0 : dice.between(0, 20)) + "\n";
        }
    }
    return text;
}

std::string random_scenario(Dice& dice) {
    std::string text = "start_min = " + std::to_string(dice.whole(0, 60)) + "\n" +
                       line(dice, "duration_min", 1, dice.chance(0.1) ? 1440 : 240) +
                       line(dice, "needed_gpm", 1, 20000);
    text += dice.chance(0.5) ? "initial_attack_gpm = 200\n" : "";
    text += "[dump_site]\n" + whole_line(dice, "offload_slots", 1, 8) +
            line(dice, "storage_gal", 0, 1e6) + line(dice, "engine_tank_gal", 0, 20000) +
            line(dice, "engine_arrives_min", 0, 60) + line(dice, "tanks_ready_min", 0, 1440) +
            line(dice, "draft_ready_min", 0, 60) + whole_line(dice, "nursing_tankers", 0, 3) +
            line(dice, "nurse_gpm", 1, 5000) +
            (dice.chance(0.5)
                 ? "portable_tanks = " + std::to_string(dice.whole(1, 8)) + "\n" +
                       whole_line(dice, "jet_siphons", 0, 3) + line(dice, "siphon_gpm", 100, 3000)
                 : "") +
            (dice.chance(0.5) ? "flow_cap_gpm = \"unlimited\"\n"
                              : line(dice, "flow_cap_gpm", 1, 20000));
    const int sites = dice.whole(1, 4);
    for (int site = 0; site < sites; ++site) {
        text += random_site(dice, site);
    }
    for (int tanker = dice.whole(1, 9); tanker > 0; --tanker) {
        text += random_tanker_text(dice, tanker, sites);
    }
    return text;
}

bool sound(HeldFlow flow) { return in_tenths(flow) >= 0; }
bool sound(Flow flow) { return std::isfinite(in_gpm(flow)) && in_gpm(flow) >= 0.0; }

void check_sound(const AnsweredScenario& scenario) {
    const supply::ShuttleAnswer& answer = scenario.answer;
    CHECK(sound(answer.sustained));
    CHECK(sound(answer.cautious));
    CHECK(sound(answer.handbook));
    CHECK(sound(answer.disorder));
    CHECK(sound(answer.long_run));
    CHECK(sound(answer.bound));
    CHECK(in_gpm(flow_of(answer.sustained)) <= in_gpm(answer.bound) * (1 + 1e-6) + 1e-6);
    for (const reports::GainWords& gain : reports::gain_words(answer)) {
        CHECK(sound(gain.gain));
    }
    for (const supply::HeldFrom& from : answer.build_up) {
        CHECK((sound(from.sustained) && sound(from.cautious)));
    }
}

// Names are plain here, so that what looks like a number is one.
void check_texts(const AnsweredScenario& scenario) {
    for (const std::string& text :
         {reports::shuttle_text({"s", scenario.typed, scenario.answer}),
          reports::shuttle_json({"s", scenario.typed, scenario.answer})}) {
        CHECK(text.find("nan") == std::string::npos);
        CHECK(text.find("inf,") == std::string::npos);
        CHECK(text.find(" -") == std::string::npos);
    }
}

// Some bytes of a lawful scenario lost, doubled or changed.
std::string torn(std::string text, Dice& dice) {
    constexpr std::string_view letters = "0123456789.-\"[]=\n#etnainf_ \xc3\x00";
    for (int changes = dice.whole(1, 4); changes > 0 && !text.empty(); --changes) {
        const auto at = static_cast<std::size_t>(dice.whole(0, static_cast<int>(text.size()) - 1));
        const auto length = static_cast<std::size_t>(dice.whole(1, 30));
        switch (dice.whole(0, 3)) {
            case 0:
                text.erase(at, length);
                break;
            case 1:
                text.insert(at, text.substr(at, length));
                break;
            default:
                text[at] = letters[static_cast<std::size_t>(
                    dice.whole(0, static_cast<int>(letters.size()) - 1))];
        }
    }
    return text;
}

}  // namespace

TEST_CASE("random lawful scenarios have sound answers, soon", "[property]") {
    int refused = 0;
    for (std::uint64_t seed = 1; seed <= lawful_scenarios; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const std::string text = random_scenario(dice);
        CAPTURE(text);
        const auto begun = std::chrono::steady_clock::now();
        try {
            const AnsweredScenario scenario = answered(text);
            check_sound(scenario);
            check_texts(scenario);
        } catch (const io::SettingsError&) {
            ++refused;
        }
        CHECK(std::chrono::steady_clock::now() - begun < std::chrono::seconds(20));
    }
    CHECK(refused < static_cast<int>(lawful_scenarios) / 4);
}

TEST_CASE("torn scenarios are answered soundly or refused in words", "[property]") {
    int refused = 0;
    for (std::uint64_t seed = 1; seed <= torn_scenarios; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const std::string text = torn(hollow_road(), dice);
        CAPTURE(text);
        try {
            check_sound(answered(text));
        } catch (const io::SettingsError& error) {
            ++refused;
            CHECK(std::string(error.what()).starts_with("scenario.toml:"));
        }
    }
    CHECK(refused > static_cast<int>(torn_scenarios) / 4);
}
