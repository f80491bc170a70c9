// Standards of needed flow: the program's own, and a district's copy over it.
#include "io/settings/read_standard.h"

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

TEST_CASE("every value of the terms of a rating says where it stands and how sure it is") {
    const Standard first = built_in_terms(RatingTerms::schedule);
    for (const std::string_view name : words_of(RatingTerms{})) {
        const Standard terms = built_in_terms(*parse_word<RatingTerms>(name));
        CAPTURE(terms.name);
        CHECK_FALSE(terms.name.empty());
        CHECK_FALSE(terms.edition.empty());
        CHECK(terms.values.size() == first.values.size());
        for (const StandardValue& value : terms.values) {
            CAPTURE(value.key);
            CHECK(first.find(value.key) != nullptr);
            CHECK_FALSE(value.source.empty());
            CHECK(value.numbers.empty() != value.text.empty());
            const bool ours = value.certainty == Certainty::derived;
            CHECK((ours || !value.section.empty()));
        }
    }
}

TEST_CASE("a district's own terms replace words and numbers, and what cannot be is refused") {
    const auto own_terms = [](const std::string& text) {
        try {
            const Standard terms =
                terms_with_own(RatingTerms::schedule, text, "own.toml", "own.toml");
            return std::string(terms.text("clock.from")) + " " +
                   std::to_string(static_cast<int>(terms.number("flow.minimum_gpm")));
        } catch (const SettingsError& error) {
            return std::string(error.what());
        }
    };
    CHECK(own_terms("[clock]\nfrom = \"alarm\"\n[flow]\nminimum_gpm = 350\n") == "alarm 350");
    CHECK(own_terms("[clock]\nfrom = \"noon\"\n") ==
          "own.toml:2:1: clock.from must be alarm, first_arrival or parking_brake");
    CHECK(own_terms("[clock]\nfrom = 5\n") == "own.toml:2:1: clock.from must be a word");
    CHECK(own_terms("[flow]\nminimum_gpm = \"much\"\n") ==
          "own.toml:2:1: flow.minimum_gpm must be a number of 0 or more, or a list of them");
    CHECK(own_terms("[flow]\nminimum_gpm = 0\n") == "own.toml:2:1: flow.minimum_gpm cannot be 0");
    CHECK(own_terms("[source]\nleast_standing = \"mapped\"\n") ==
          "own.toml:2:1: source.least_standing must be declared or tested");
    CHECK(own_terms("[category]\nnear_with_water = \"\"\n") ==
          "own.toml:2:1: category.near_with_water must be a word");
    CHECK(own_terms("[hose_credit]\nup_to_ft = [300, 600]\n").find("shrink together") !=
          std::string::npos);
    CHECK(own_terms("[hose_credit]\nup_to_ft = [300, 600]\ngpm = [1000, 500]\n") ==
          "first_arrival 250");
}
