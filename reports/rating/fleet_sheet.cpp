// The fleet register, and what the terms' own formula gives each tanker.
#include <algorithm>

#include <fmt/format.h>

#include "reports/print/sheet_blocks.h"
#include "reports/rating/makes_water.h"
#include "reports/rating/paper_flow.h"
#include "reports/rating/rating_sheets.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

std::string gpm_or_not(std::optional<Flow> flow) {
    return flow ? in_thousands(in_gpm(*flow)) : std::string("not recorded");
}

std::string gallons_or_not(bool known, Volume volume) {
    return known ? in_thousands(in_gallons(volume)) : std::string("not recorded");
}

std::string drop_tanks(const Unit& unit) {
    return gallons_or_not(unit.portable_tank_known, unit.portable_tank);
}

SheetBlocks::Cells tanker_cells(const Findings& findings, const Unit& unit) {
    return {unit.id,
            at(findings.district.stations, unit.station).name,
            std::string(word(aid_of(findings.district, unit))),
            rating::unit_counts(findings.district, unit, findings.rating->terms) ? "yes" : "no",
            gallons_or_not(unit.tank_known, unit.tank),
            gpm_or_not(unit.pump),
            gpm_or_not(unit.fill_limit),
            gpm_or_not(unit.offload),
            unit.tested_on ? day(unit.tested_on) : "not recorded",
            drop_tanks(unit),
            unit.crew ? fmt::format("{}", *unit.crew) : "not recorded"};
}

std::string hose_in_words(const Unit& unit) {
    if (!unit.hose) {
        return "not recorded";
    }
    std::string words;
    const auto add = [&](Length length, std::string_view size) {
        if (length > Length{}) {
            words += fmt::format("{}{} ft of {}", words.empty() ? "" : ", ",
                                 in_thousands(in_feet(length)), size);
        }
    };
    add(unit.hose->hose_5in, "5 in");
    add(unit.hose->hose_4in, "4 in");
    add(unit.hose->hose_3in, "3 in");
    add(unit.hose->hose_2_5in, "2.5 in");
    return words.empty() ? "none" : words;
}

SheetBlocks::Cells engine_cells(const Findings& findings, const Unit& unit,
                                std::size_t makes_water) {
    return {unit.id,
            at(findings.district.stations, unit.station).name,
            std::string(word(aid_of(findings.district, unit))),
            rating::unit_counts(findings.district, unit, findings.rating->terms) ? "yes" : "no",
            gpm_or_not(unit.pump),
            gallons_or_not(unit.tank_known, unit.tank),
            drop_tanks(unit),
            hose_in_words(unit),
            unit.crew ? fmt::format("{}", *unit.crew) : "not recorded",
            in_thousands(static_cast<double>(makes_water))};
}

void add_paper(SheetBlocks& sheet, const Findings& findings) {
    const rating::Terms& terms = findings.rating->terms;
    std::vector<SheetBlocks::Cells> rows;
    std::array<double, 4> sums{};
    for (const Unit& unit : findings.district.units) {
        if (!is_on_paper(findings, unit)) {
            continue;
        }
        const Duration handling = handling_on_paper(findings, unit);
        const bool timed = unit.fill_limit && unit.offload;
        SheetBlocks::Cells cells{unit.id, in_thousands(in_gallons(unit.tank)),
                                 fmt::format("{:.1f}{}", in_minutes(handling), timed ? "" : " *")};
        for (std::size_t i = 0; i < round_trips_on_paper.size(); ++i) {
            const double flow =
                in_gpm(flow_on_paper(findings, unit, miles(round_trips_on_paper.at(i))));
            sums[i] += flow;
            cells.push_back(in_thousands(flow));
        }
        rows.push_back(std::move(cells));
    }
    SheetBlocks::Cells total{"All together", "", ""};
    for (const double sum : sums) {
        total.push_back(in_thousands(sum));
    }
    rows.push_back(std::move(total));
    sheet.heading("On paper: gpm by road miles of the round trip")
        .paragraph(fmt::format(
            "By the terms' own formula: {:.0f} % of the tank over fill, drive and offload, with a "
            "drive of {:.3g} min + {:.3g} min a mile {}. It knows no waiting, no start and no "
            "limit of the source, so it is an upper bound. Handling has the time to fill {:.0f} % "
            "of the tank and to offload {:.0f} %, and the minutes to come, couple and go.",
            terms.delivered_share * 100.0, in_minutes(terms.drive_fixed),
            in_minutes(terms.drive_per_mile),
            terms.drive_rule == DriveRule::round_trip ? "counted once for both ways"
                                                      : "counted once for each way",
            findings.district.assumptions.refill_fraction * 100.0, terms.delivered_share * 100.0))
        .table({"Unit", "#Tank, gal", "#Handling, min", "#2 mi", "#4 mi", "#6 mi", "#8 mi"}, rows)
        .note("* Not timed: the planning default stands for its fill or offload.");
}

}  // namespace

SheetBlocks fleet_sheet(const Findings& findings) {
    const std::vector<std::size_t> makers = makes_water_for(findings);
    std::vector<SheetBlocks::Cells> tankers;
    std::vector<SheetBlocks::Cells> engines;
    for (std::size_t i = 0; i < findings.district.units.size(); ++i) {
        const Unit& unit = findings.district.units[i];
        if (unit.kind == UnitKind::tanker) {
            tankers.push_back(tanker_cells(findings, unit));
        } else if (unit.kind == UnitKind::engine) {
            engines.push_back(engine_cells(findings, unit, makers[i]));
        }
    }
    SheetBlocks sheet;
    sheet.heading(findings.district.tanker_word == "tender" ? "Tenders" : "Tankers")
        .table({"Unit", "Station", "Aid", "Counts", "#Tank, gal", "#Pump, gpm", "#Fill, gpm",
                "#Offload, gpm", "Timed on", "#Drop tanks, gal", "#Crew"},
               tankers)
        .heading("Engines")
        .table({"Unit", "Station", "Aid", "Counts", "#Pump, gpm", "#Tank, gal", "#Drop tanks, gal",
                "Supply hose", "#Crew", "#Makes water for, parcels"},
               engines)
        .note(
            "Where an engine makes water, at the dump site, at a source or in line, it and its "
            "crew are not credited as fire suppression too.");
    add_paper(sheet, findings);
    sheet.signatures({"Chief", "Whoever timed fill and offload"});
    return sheet;
}

}  // namespace farwater::reports
