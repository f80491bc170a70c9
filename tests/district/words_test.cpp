#include "analyzer/district/words.h"

#include <set>

#include <catch2/catch.hpp>

using namespace farwater;

namespace {

// Every word of the list reads back to its own value, and no two values share a word.
template <class Enum>
void check_words(std::size_t count) {
    const auto words = words_of(Enum{});
    REQUIRE(words.size() == count);
    CHECK(std::set<std::string_view>(words.begin(), words.end()).size() == count);
    for (std::size_t i = 0; i < count; ++i) {
        CAPTURE(words[i]);
        CHECK(parse_word<Enum>(words[i]) == static_cast<Enum>(i));
        CHECK(word(static_cast<Enum>(i)) == words[i]);
    }
}

}  // namespace

TEST_CASE("every word reads back to its value") {
    check_words<RoadClass>(static_cast<std::size_t>(RoadClass::drive) + 1);
    check_words<RoadAccess>(static_cast<std::size_t>(RoadAccess::closed) + 1);
    check_words<OneWay>(static_cast<std::size_t>(OneWay::backward) + 1);
    check_words<LaneClass>(static_cast<std::size_t>(LaneClass::dead_end) + 1);
    check_words<SourceKind>(static_cast<std::size_t>(SourceKind::cistern) + 1);
    check_words<HydrantColour>(static_cast<std::size_t>(HydrantColour::red) + 1);
    check_words<PipeMaterial>(static_cast<std::size_t>(PipeMaterial::old_iron) + 1);
    check_words<SuctionFriction>(static_cast<std::size_t>(SuctionFriction::hazen_williams) + 1);
    check_words<RateLimit>(static_cast<std::size_t>(RateLimit::system) + 1);
    check_words<Standing>(static_cast<std::size_t>(Standing::tested) + 1);
    check_words<SourceUse>(static_cast<std::size_t>(SourceUse::own_parcel) + 1);
    check_words<Reach>(static_cast<std::size_t>(Reach::portable_pump) + 1);
    check_words<WeighBy>(static_cast<std::size_t>(WeighBy::people) + 1);
    check_words<Evidence>(static_cast<std::size_t>(Evidence::tested) + 1);
    check_words<UnitKind>(static_cast<std::size_t>(UnitKind::other) + 1);
    check_words<Aid>(static_cast<std::size_t>(Aid::mutual) + 1);
    check_words<SupplyState>(static_cast<std::size_t>(SupplyState::tank_only) + 1);
    check_words<SupplyMode>(static_cast<std::size_t>(SupplyMode::shuttle) + 1);
    check_words<Margin>(static_cast<std::size_t>(Margin::firm) + 1);
    check_words<Limit>(static_cast<std::size_t>(Limit::no_source) + 1);
}

TEST_CASE("words are spelled as the result shows them") {
    CHECK(word(SupplyState::short_flow) == "short");
    CHECK(word(RoadAccess::private_road) == "private");
    CHECK(word(Limit::source_hydraulics) == "source_hydraulics");
}

TEST_CASE("a word that is not in the list is no value") {
    CHECK_FALSE(parse_word<RoadClass>("State"));
    CHECK_FALSE(parse_word<RoadClass>(""));
    CHECK_FALSE(parse_word<RoadClass>("state "));
}

TEST_CASE("trust ascends in standing and evidence") {
    CHECK(Standing::mapped < Standing::declared);
    CHECK(Standing::declared < Standing::tested);
    CHECK(Evidence::assumed < Evidence::declared);
    CHECK(Evidence::declared < Evidence::tested);
}
