// Forms to fill in by hand: tests of sources and apparatus, and the timed drill.
#include <fmt/format.h>

#include "reports/print/sheet_blocks.h"
#include "reports/rating/claims.h"
#include "reports/rating/rating_sheets.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

void add_hydrant_form(SheetBlocks& sheet) {
    sheet.begin_section("hydrant-test", false)
        .heading("Flow test of a hydrant")
        .lines_to_fill({"Hydrant", "Date and time", "Residual hydrant", "Tested by", "Main, inches",
                        "Water system"})
        .blank_table({"Reading", "Outlet, in", "Coefficient", "Pitot, psi", "Flow, gpm",
                      "Static, psi", "Residual, psi"},
                     4)
        .note(
            "Never pull the main below 20 psi. Columns of the district file: static_psi, "
            "residual_psi, test_flow_gpm or pitot_psi with outlet_in, tested_on.")
        .signatures({"Tester", "Water system"})
        .end_section();
}

void add_suction_form(SheetBlocks& sheet) {
    sheet.begin_section("suction-test", true)
        .heading("Flow test of a suction point")
        .lines_to_fill({"Source", "Date and time", "Engine and its rated pump", "Tested by",
                        "Water level against drought level, ft", "Lift on that day, ft",
                        "Hard suction, ft and inches", "Ice or debris found"})
        .blank_table({"Minute", "Engine speed", "Intake vacuum, inHg", "Discharge, psi",
                      "Pitot, psi", "Flow, gpm", "Prime held"},
                     8)
        .note(
            "Hold each flow until the vacuum stands still. Columns: static_lift_ft, rate_gpm, "
            "tested_on, standing.")
        .signatures({"Tester", "Witness"})
        .end_section();
}

void add_tanker_form(SheetBlocks& sheet) {
    sheet.begin_section("tanker-timing", true)
        .heading("Timing of fill and offload")
        .lines_to_fill({"Unit", "Date", "Tank, gal, and how it is known", "Fill site and its flow",
                        "Outlet used to offload", "Timed by"})
        .blank_table({"Run", "Fill: coupled", "Flow on", "Full", "Uncoupled", "Offload: in place",
                      "Flow on", "Empty", "Away"},
                     6)
        .note(
            "Write clock times with seconds. Fill and offload flow are gallons over the minutes "
            "between flow on and full or empty. Columns: fill_limit_gpm, offload_gpm, tested_on.")
        .signatures({"Driver", "Timekeeper"})
        .end_section();
}

void add_drill_form(SheetBlocks& sheet, const rating::Terms& terms) {
    sheet.begin_section("timed-drill", true)
        .heading("Timed drill")
        .paragraph(fmt::format(
            "To show: {} begun within {:.0f} min of {}, the largest flow within {:.0f} min, and no "
            "break over {:.0f} min.",
            gpm_in_words(terms.minimum), in_minutes(terms.start_within),
            clock_in_words(terms.clock), in_minutes(terms.full_within), in_minutes(terms.duration)))
        .lines_to_fill({"Place of the fire", "Date and weather", "Dump site", "Fill sites",
                        "Water supply officer", "Timekeeper"})
        .blank_table({"Event", "Clock time", "Minutes", "Unit"}, 14)
        .note(
            "Events: alarm; first apparatus arrives, brake set; first water; drop tank ready; "
            "draft ready; each engine at its source ready; largest flow reached; end.")
        .end_section();
    sheet.begin_section("drill-log", true)
        .heading("Flow log of the drill")
        .blank_table(
            {"Minute", "Flow, gpm", "Drop tanks, share full", "Break: from, to", "What happened"},
            26)
        .end_section();
    sheet.begin_section("drill-trips", true)
        .heading("Round trips of the drill")
        .blank_table({"Unit", "Crew", "Left dump", "At fill", "Left fill", "At dump", "Offloaded",
                      "Gallons"},
                     22)
        .signatures({"Water supply officer", "Timekeeper", "Assessor or witness", "Chief"})
        .end_section();
}

}  // namespace

SheetBlocks form_sheets(const Findings& findings) {
    SheetBlocks sheet;
    add_hydrant_form(sheet);
    add_suction_form(sheet);
    add_tanker_form(sheet);
    add_drill_form(sheet, findings.rating->terms);
    return sheet;
}

}  // namespace farwater::reports
