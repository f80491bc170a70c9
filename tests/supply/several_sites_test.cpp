// More than one fill site at the same time, on a district of one dump site.
#include <catch2/catch.hpp>

#include "tests/supply/one_dump_site.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

// A dry hydrant that gives 250 gpm to an engine, or a weak hydrant.
WaterSource weak_source(std::string id, SourceKind kind, std::string system, double miles_east) {
    WaterSource source;
    source.id = std::move(id);
    source.kind = kind;
    source.standing = Standing::declared;
    source.rate = gpm(250);
    source.places = 1;
    source.usable = UsableWater::unlimited();
    source.system = std::move(system);
    source.place = {in_metres(feet(5280)) * miles_east, 0.0};
    return source;
}

OneDumpSite with_sources(std::vector<WaterSource> sources, std::size_t fill_engines = 3) {
    OneDumpSite scene;
    for (std::size_t i = 0; i < fill_engines; ++i) {
        scene.district.units.push_back(
            unit_of("F" + std::to_string(i + 1), UnitKind::engine, 1000));
    }
    scene.district.sources = std::move(sources);
    scene.refresh();
    return scene;
}

ParcelSupply with_both(const WaterSource& one, const WaterSource& other,
                       std::size_t fill_engines = 3) {
    return with_sources({one, other}, fill_engines).supply();
}

// The best of either by itself, and nothing lost beside it.
HeldFlow best_of_either(const WaterSource& one, const WaterSource& other) {
    return std::max(with_sources({one}).supply().cautious, with_sources({other}).supply().cautious);
}

const WaterSource west_pond = weak_source("P1", SourceKind::dry_hydrant, "WEST", 0.0);
const WaterSource east_pond = weak_source("P2", SourceKind::dry_hydrant, "EAST", 3.0);

}  // namespace

TEST_CASE("a district with two weak ponds holds more with both than with either") {
    const ParcelSupply both = with_both(west_pond, east_pond);
    CHECK(in_tenths(both.cautious) > 1.5 * in_tenths(best_of_either(west_pond, east_pond)));
    CHECK(both.one_site == best_of_either(west_pond, east_pond));
    CHECK(both.fill_sites() == 2);
    CHECK(both.fills_at(SourceIndex(0)));
    CHECK(both.fills_at(SourceIndex(1)));
    CHECK(both.tankers_at_fill + both.further_fills[0].tankers == both.tankers);
    CHECK(both.tankers_at_fill >= 1);
    CHECK(both.further_fills[0].tankers >= 1);
    CHECK(both.one_tanker_out <= both.cautious);
    CHECK(both.sustained >= both.cautious);
}

TEST_CASE("three weak ponds hold more than two") {
    const WaterSource north_pond = weak_source("P3", SourceKind::dry_hydrant, "NORTH", 6.0);
    const ParcelSupply two = with_both(west_pond, east_pond);
    const ParcelSupply three = with_sources({west_pond, east_pond, north_pond}).supply();
    CHECK(three.cautious > two.cautious);
    CHECK(three.fill_sites() == 3);
}

TEST_CASE("two hydrants of one weak main hold no more than one") {
    const WaterSource one = weak_source("H1", SourceKind::hydrant, "MAIN", 0.0);
    const WaterSource other = weak_source("H2", SourceKind::hydrant, "MAIN", 3.0);
    const ParcelSupply both = with_both(one, other);
    CHECK(both.cautious == best_of_either(one, other));
    CHECK(both.fill_sites() == 1);
}

TEST_CASE("two places of one system share what it is said to give") {
    WaterSource one = weak_source("H1", SourceKind::hydrant, "MAIN", 0.0);
    WaterSource other = weak_source("H2", SourceKind::hydrant, "MAIN", 3.0);
    one.rate = other.rate = gpm(400);
    one.system_rate = other.system_rate = gpm(600);
    const ParcelSupply shared = with_both(one, other);
    CHECK(shared.fill_sites() == 2);
    CHECK(shared.cautious > best_of_either(one, other));
    other.system = "ANOTHER";
    CHECK(with_both(one, other).cautious > shared.cautious);
    SECTION("and its storage, when it has little") {
        one.system = other.system = "MAIN";
        one.usable = other.usable = UsableWater::of(gallons(20'000));
        // First loads, the engine's tank and 20,000 gal: nothing else over two hours.
        const double most = (0.9 * 9'300.0 + 1'000.0 + 20'000.0) / 120.0;
        CHECK(in_gpm(flow_of(with_both(one, other).sustained)) <= most);
    }
}

TEST_CASE("where nobody says which water it is, a second place of it adds nothing") {
    SECTION("two hydrants, however far apart") {
        const WaterSource one = weak_source("H1", SourceKind::hydrant, "", 0.0);
        const WaterSource other = weak_source("H2", SourceKind::hydrant, "MAIN", 9.0);
        CHECK(with_both(one, other).cautious == best_of_either(one, other));
    }
    SECTION("two places on open water within half a mile") {
        const WaterSource near_pond = weak_source("P2", SourceKind::draft_site, "", 0.49);
        CHECK(with_both(west_pond, near_pond).cautious == best_of_either(west_pond, near_pond));
        const WaterSource far_pond = weak_source("P2", SourceKind::draft_site, "", 0.51);
        CHECK(with_both(west_pond, far_pond).cautious > best_of_either(west_pond, far_pond));
    }
    SECTION("a cistern and a hydrant are two waters") {
        WaterSource cistern = weak_source("C1", SourceKind::cistern, "", 0.0);
        cistern.usable = UsableWater::of(gallons(60'000));
        const WaterSource hydrant = weak_source("H1", SourceKind::hydrant, "", 0.1);
        CHECK(with_both(cistern, hydrant).cautious > best_of_either(cistern, hydrant));
    }
}

TEST_CASE("each suction point takes an engine of its own, and a hydrant none") {
    CHECK(with_both(west_pond, east_pond, 1).fill_sites() == 1);
    CHECK(with_both(west_pond, east_pond, 2).fill_sites() == 2);
    const WaterSource hydrant = weak_source("H1", SourceKind::hydrant, "", 3.0);
    CHECK(with_both(west_pond, hydrant, 1).fill_sites() == 2);
    CHECK(with_both(west_pond, hydrant, 0).fill_sites() == 1);
}

TEST_CASE("a hydrant beside a pond is open only once a tanker that is sent there has opened it") {
    const WaterSource hydrant = weak_source("H1", SourceKind::hydrant, "", 3.0);
    const ParcelSupply both = with_both(west_pond, hydrant, 1);
    CHECK(both.cautious > best_of_either(west_pond, hydrant));
    CHECK(both.continuous);
}

TEST_CASE("evidence is of the plan that is told, and of two that meet the need of the better one") {
    WaterSource stronger = weak_source("H1", SourceKind::hydrant, "MAIN", 0.0);
    stronger.rate = gpm(350);
    WaterSource guessed = east_pond;
    guessed.kind = SourceKind::draft_site;  // 250 gpm where nobody says a rate
    guessed.rate.reset();
    CHECK(with_sources({guessed}).supply().evidence == Evidence::assumed);
    REQUIRE(with_sources({stronger}).supply().evidence == Evidence::declared);
    const ParcelSupply both = with_both(stronger, guessed);
    REQUIRE(both.fill_sites() == 2);
    REQUIRE(both.state == SupplyState::short_flow);
    CHECK(both.evidence == Evidence::assumed);

    OneDumpSite modest = with_sources({stronger, guessed});
    modest.needs[0]->flow = tenths_of_gpm(1000);
    const ParcelSupply met = modest.supply();
    REQUIRE(met.state == SupplyState::held);
    CHECK(met.fill_sites() == 1);
    CHECK(met.evidence == Evidence::declared);
}

TEST_CASE("blanking a cell of one of two sources never raises the flow of both", "[property]") {
    const HeldFlow full = with_both(west_pond, east_pond).cautious;
    WaterSource blank = east_pond;
    SECTION("its standing") { blank.standing = Standing::mapped; }
    SECTION("its places") { blank.places.reset(); }
    SECTION("its volume") {
        blank.kind = SourceKind::cistern;
        blank.usable.reset();
    }
    SECTION("its system") { blank.system.clear(); }
    CHECK(with_both(west_pond, blank).cautious <= full);
}
