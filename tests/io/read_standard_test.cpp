// Standards of needed flow: the program's own, and a district's copy over it.
#include "io/read_standard.h"

#include <catch2/catch.hpp>

#include "io/error.h"

using namespace farwater;
using namespace farwater::io;

namespace {

Standard own(NeedMethod method, const std::string& text) {
    return standard_with_own(method, text, "own.toml", "own.toml");
}

std::string refusal(NeedMethod method, const std::string& text) {
    try {
        own(method, text);
    } catch (const SettingsError& error) {
        return error.what();
    }
    return "accepted";
}

}  // namespace

TEST_CASE("every number of a standard says where it stands and how sure it is") {
    for (const NeedMethod method :
         {NeedMethod::rural_supply, NeedMethod::rating_schedule, NeedMethod::fire_code}) {
        const Standard standard = built_in_standard(method);
        CAPTURE(standard.name);
        CHECK_FALSE(standard.name.empty());
        CHECK_FALSE(standard.edition.empty());
        CHECK(standard.values.size() > 20);
        for (const StandardValue& value : standard.values) {
            CAPTURE(value.key);
            CHECK_FALSE(value.source.empty());
            CHECK_FALSE(value.numbers.empty());
            CHECK(value.certainty != Certainty::own_copy);
            const bool ours = value.certainty == Certainty::derived;
            CHECK((ours || !value.section.empty()));
        }
    }
    CHECK(built_in_standard(NeedMethod::column).values.empty());
    CHECK(built_in_standard(NeedMethod::fixed).values.empty());
}

TEST_CASE("marks at the head of a table hold for its values, and a value's own go before") {
    const Standard rural = built_in_standard(NeedMethod::rural_supply);
    CHECK(rural.find("supply.least_gal")->certainty == Certainty::second_hand);
    CHECK(rural.find("supply.least_gal")->section == "4.2");
    CHECK(rural.find("supply.least_exposed_gal")->certainty == Certainty::seen);
    CHECK(rural.find("hazard.office")->certainty == Certainty::memory_medium);
    CHECK(rural.list("delivery_rate.rate_gpm") == std::vector<double>{250, 500, 750, 1000});
}

TEST_CASE("a district's copy replaces what it names, and says so") {
    const Standard standard = own(NeedMethod::rural_supply,
                                  "edition = \"2022\"\n[supply]\nleast_gal = 2500\n"
                                  "[construction]\ntype_4 = { value = 0.8, section = \"6.2\" }\n"
                                  "[delivery_rate]\nbelow_gal = [3000, 12000]\n"
                                  "rate_gpm = [250, 500, 750]\n");
    CHECK(standard.edition == "2022");
    CHECK(standard.own_file == "own.toml");
    CHECK(standard.number("supply.least_gal") == 2500.0);
    CHECK(standard.find("supply.least_gal")->certainty == Certainty::own_copy);
    CHECK(standard.number("construction.type_4") == 0.8);
    CHECK(standard.list("delivery_rate.rate_gpm").size() == 3);
    CHECK(standard.number("supply.least_exposed_gal") == 3000.0);
    CHECK(standard.find("supply.least_exposed_gal")->certainty == Certainty::seen);
}

TEST_CASE("a copy with what the standard cannot be is refused, place by place") {
    const auto rural = NeedMethod::rural_supply;
    CHECK(refusal(rural, "[supply]\nleest_gal = 1\n") ==
          "own.toml:2:1: the standard has no supply.leest_gal; did you mean "
          "\"supply.least_gal\"?");
    CHECK(refusal(rural, "[hazard]\ndwelling = 0\n") ==
          "own.toml:2:1: hazard.dwelling cannot be 0");
    CHECK(refusal(rural, "[supply]\nleast_gal = -5\n") ==
          "own.toml:2:13: supply.least_gal must be a number of 0 or more, or a list of them");
    CHECK(refusal(rural, "[supply]\nleast_gal = [1, 2]\n") ==
          "own.toml:2:1: supply.least_gal must be one number");
    CHECK(refusal(rural, "[delivery_rate]\nbelow_gal = [3000, 2000, 9000]\n") ==
          "own.toml:2:1: delivery_rate.below_gal must go up from number to number");
    CHECK(
        refusal(rural, "[delivery_rate]\nbelow_gal = [3000]\n").find("grow and shrink together") !=
        std::string::npos);
    CHECK(refusal(NeedMethod::rating_schedule, "[dwelling]\nnewer_gpm = [1500, 500]\n")
              .find("grow and shrink together") != std::string::npos);
    CHECK(refusal(NeedMethod::fire_code, "[table_5b]\nup_to_sqft = [50000]\n")
              .find("one goes on where another ends") != std::string::npos);
    CHECK(refusal(rural, "[supply]\nleast_gal = { value = 1, certainty = \"sure\" }\n")
              .find("certainty must be seen") != std::string::npos);
    CHECK(refusal(rural, "least_gal = 3\n").find("is no table") != std::string::npos);
    CHECK(refusal(rural, "[supply\n").starts_with("own.toml:1:"));
}
