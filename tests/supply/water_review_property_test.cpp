// What is not known never helps: every cell of a source, blanked, on random sources.
#include <algorithm>
#include <functional>

#include <catch2/catch.hpp>

#include "analyzer/supply/water_review.h"
#include "tests/supply/drawn_source.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

// What tankers could get there, with some engine; nothing where the source does not count.
struct Got {
    double gpm = 0.0;
    double gallons = 0.0;
    double inflow = 0.0;
    int places = 0;
    Evidence evidence = Evidence::assumed;
};

Got got_from(const WaterSource& source) {
    const WaterReview review = review_water(district_of(source));
    if (review.counted.empty()) {
        return {};
    }
    const CountedSource& found = review.counted[0];
    return {in_gpm(found.with_pump(gpm(1000))), found.usable ? in_gallons(*found.usable) : 1e30,
            in_gpm(found.inflow), found.places, found.evidence};
}

struct Cell {
    const char* name;
    std::function<void(WaterSource&)> blank;
    std::function<void(WaterSource&)> stated;  // the value that stands for a blank, written out
};

void nothing(WaterSource&) {}

// Cells that a source has more than once over, in other words, are left out below: a rate beside a
// flow test or a colour, gallons beside area and depth. Blanking one of two that disagree leaves
// the other, and that is no blank.
WaterSource without_contradictions(WaterSource source, Draw& draw) {
    HydrantData& h = source.hydrant;
    if (chance(draw, 0.5)) {
        h.static_psi.reset();
        h.residual_psi.reset();
        h.test_flow.reset();
        h.pitot_psi.reset();
        if (chance(draw, 0.5)) {
            h.colour.reset();
        } else {
            source.rate.reset();
        }
    } else {
        source.rate.reset();
        h.colour.reset();
        (chance(draw, 0.5) ? h.pitot_psi : h.static_psi).reset();
    }
    if (source.usable) {
        source.still = {};
    }
    return source;
}

const Assumptions standard{};

std::vector<Cell> volume_cells() {
    return {
        {"usable_gal", [](WaterSource& s) { s.usable.reset(); },
         [](WaterSource& s) {
             if (s.kind == SourceKind::hydrant) {
                 s.usable = UsableWater::of(standard.hydrant_system_storage);
             }
         }},
        {"inflow_gpm", [](WaterSource& s) { s.inflow.reset(); }, nothing},
        {"places", [](WaterSource& s) { s.places.reset(); }, nothing},
        {"drought_area_acre", [](WaterSource& s) { s.still.area.reset(); }, nothing},
        {"intake_depth_ft", [](WaterSource& s) { s.still.over_intake.reset(); }, nothing},
        {"sounded", [](WaterSource& s) { s.still.sounded = false; }, nothing},
        {"ice_ft", [](WaterSource& s) { s.still.ice.reset(); },
         [](WaterSource& s) { s.still.ice = standard.surface_loss; }},
        {"frost_proof", [](WaterSource& s) { s.frost_proof = false; }, nothing},
    };
}

std::vector<Cell> suction_cells() {
    return {
        {"static_lift_ft", [](WaterSource& s) { s.suction.lift.reset(); },
         [](WaterSource& s) { s.suction.lift = standard.most_lift; }},
        {"pipe_diameter_in", [](WaterSource& s) { s.suction.pipe_diameter.reset(); },
         [](WaterSource& s) { s.suction.pipe_diameter = standard.unknown_pipe_bore; }},
        {"pipe_material", [](WaterSource& s) { s.suction.material.reset(); }, nothing},
        {"elbows_90", [](WaterSource& s) { s.suction.elbows_90.reset(); },
         [](WaterSource& s) { s.suction.elbows_90 = standard.unknown_elbows_90; }},
        {"elbows_45", [](WaterSource& s) { s.suction.elbows_45.reset(); },
         [](WaterSource& s) { s.suction.elbows_45 = standard.unknown_elbows_45; }},
        {"strainer_loss_ft", [](WaterSource& s) { s.suction.strainer_loss.reset(); },
         [](WaterSource& s) {
             s.suction.strainer_loss = s.kind == SourceKind::draft_site && !s.suction.pipe
                                           ? standard.hose_strainer_loss
                                           : standard.pipe_strainer_loss;
         }},
        {"suction_hose_ft", [](WaterSource& s) { s.suction.hose.reset(); },
         [](WaterSource& s) { s.suction.hose = standard.suction_hose; }},
        {"pipe_ft",
         [](WaterSource& s) {
             if (s.kind != SourceKind::draft_site) {  // which has none unless it says so
                 s.suction.pipe.reset();
             }
         },
         [](WaterSource& s) {
             if (s.kind != SourceKind::draft_site) {
                 s.suction.pipe = standard.unknown_pipe;
             }
         }},
    };
}

// The most that stands for a hydrant without test, rate or colour.
void untested(WaterSource& s) {
    if (s.kind == SourceKind::hydrant) {
        s.hydrant = {};
        s.rate = standard.hydrant_rate;
    }
}

std::vector<Cell> rate_cells() {
    return {
        {"static_psi", [](WaterSource& s) { s.hydrant.static_psi.reset(); }, untested},
        {"residual_psi", [](WaterSource& s) { s.hydrant.residual_psi.reset(); }, untested},
        {"test_flow_gpm", [](WaterSource& s) { s.hydrant.test_flow.reset(); }, untested},
        {"pitot_psi", [](WaterSource& s) { s.hydrant.pitot_psi.reset(); }, untested},
        {"outlet_in", [](WaterSource& s) { s.hydrant.outlet.reset(); }, untested},
        {"outlet_coefficient", [](WaterSource& s) { s.hydrant.outlet_coefficient.reset(); },
         nothing},
        {"colour_class", [](WaterSource& s) { s.hydrant.colour.reset(); }, untested},
        {"main_in", [](WaterSource& s) { s.hydrant.main.reset(); }, nothing},
        {"dead_end_main", [](WaterSource& s) { s.hydrant.dead_end_main.reset(); }, nothing},
        {"standing", [](WaterSource& s) { s.standing = Standing::mapped; }, nothing},
        {"tested_on", [](WaterSource& s) { s.tested_on.reset(); }, nothing},
    };
}

bool at_most(const Got& blank, const Got& one, const Got& other) {
    const double room = 1e-6;
    return blank.gpm <= std::max(one.gpm, other.gpm) + room &&
           blank.gallons <= std::max(one.gallons, other.gallons) + room &&
           blank.inflow <= std::max(one.inflow, other.inflow) + room &&
           blank.places <= std::max(one.places, other.places) &&
           blank.evidence <= std::max(one.evidence, other.evidence);
}

// A blank gives no more than the cell gave, or than the stated value gives when it is written out.
void check_cells(const std::vector<Cell>& cells, std::size_t rounds) {
    Draw draw(20260531);
    std::size_t counted = 0;
    for (std::size_t i = 0; i < rounds; ++i) {
        const WaterSource source = without_contradictions(drawn_source(draw), draw);
        const Cell& cell = cells[i % cells.size()];
        WaterSource blanked = source;
        cell.blank(blanked);
        WaterSource written = source;
        cell.stated(written);
        const Got before = got_from(source);
        CAPTURE(i, cell.name, word(source.kind), before.gpm, got_from(blanked).gpm,
                got_from(written).gpm, before.gallons, got_from(blanked).gallons);
        REQUIRE(at_most(got_from(blanked), before, got_from(written)));
        counted += before.gpm > 0.0 ? 1 : 0;
    }
    CHECK(counted > rounds / 10);
}

}  // namespace

TEST_CASE("blanking a cell of a volume never raises anything", "[property]") {
    check_cells(volume_cells(), 4000);
}

TEST_CASE("blanking a cell of a suction line gives no more than its stated value", "[property]") {
    check_cells(suction_cells(), 4000);
}

TEST_CASE("blanking a cell of a rate gives no more than the stated default", "[property]") {
    check_cells(rate_cells(), 4000);
}

TEST_CASE("a source with no cell but its gallons is the weakest of its kind", "[property]") {
    Draw draw(20260531);
    for (int i = 0; i < 1000; ++i) {
        WaterSource source = drawn_source(draw);
        source.standing = Standing::declared;
        source.usable = UsableWater::of(gallons(50000));
        source.still = {};
        // Built no worse than what stands for a blank.
        source.suction.lift = feet(between(draw, 0, 15));
        source.suction.pipe = feet(between(draw, 0, 100));
        source.suction.pipe_diameter = inches(between(draw, 6, 12));
        source.suction.elbows_90 = whole(draw, 0, 2);
        source.suction.elbows_45 = whole(draw, 0, 2);
        source.suction.strainer_loss.reset();
        source.suction.hose = feet(between(draw, 0, 20));
        WaterSource blank = source;
        blank.suction = {};
        if (source.kind == SourceKind::hydrant || source.kind == SourceKind::draft_site) {
            continue;
        }
        CAPTURE(i);
        REQUIRE(got_from(blank).gpm <= got_from(source).gpm + 1e-6);
    }
}
