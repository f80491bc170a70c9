// Statement, map, what is failed, when water begins, seasons and periods, method and terms.

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "reports/cards/card_words.h"
#include "reports/cautions.h"
#include "reports/drive_words.h"
#include "reports/headline.h"
#include "reports/need_columns.h"
#include "reports/print/sheet_blocks.h"
#include "reports/rating/claims.h"
#include "reports/rating/rating_sheets.h"
#include "reports/rating/rating_totals.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

SheetBlocks::Cells total_cells(SheetBlocks::Cells begin, const RatingTotal& total,
                               std::size_t all) {
    begin.push_back(in_thousands(static_cast<double>(total.parcels)));
    begin.push_back(percent(total.parcels, all));
    begin.push_back(in_thousands(static_cast<double>(total.buildings)));
    begin.push_back(in_thousands(total.area_sqft));
    begin.push_back(total.value ? in_thousands(*total.value) : "-");
    return begin;
}

const SheetBlocks::Cells total_headers{"#Parcels", "#Share", "#Buildings", "#Footprints, sq ft",
                                       "#Value"};

SheetBlocks::Cells headers_of(SheetBlocks::Cells begin) {
    begin.insert(begin.end(), total_headers.begin(), total_headers.end());
    return begin;
}

void add_statement(SheetBlocks& sheet, const Findings& findings,
                   const std::vector<RatingTotal>& totals) {
    const rating::Terms& terms = findings.rating->terms;
    const std::size_t all = parcels_with_buildings(totals);
    const auto of = [&](rating::Category category) {
        return totals[static_cast<std::size_t>(category)].parcels;
    };
    const std::size_t near = of(rating::Category::near_with_water);
    sheet.statement(fmt::format(
        "{} are within {:.3g} road miles of a station and have "
        "water that these terms credit: {} for {:.0f} min, from hose to a source or brought by "
        "apparatus within {:.0f} min of {}.",
        share_in_words(near, all), in_miles(terms.near), gpm_in_words(terms.minimum),
        in_minutes(terms.duration), in_minutes(terms.start_within), clock_in_words(terms.clock)));
    sheet.paragraph(fmt::format(
        "Each parcel is judged in the worst of {} and {}. Only sources that the department offers "
        "for rating and that have all their evidence count, and only {}.",
        findings.district.seasons.size() == 1
            ? std::string("one season")
            : fmt::format("{} seasons", findings.district.seasons.size()),
        findings.district.periods.size() == 1
            ? std::string("one period of the week")
            : fmt::format("{} periods of the week", findings.district.periods.size()),
        terms.farthest_aid == Aid::own         ? "the department's own apparatus"
        : terms.farthest_aid == Aid::automatic ? "own apparatus and automatic aid"
                                               : "own apparatus, automatic and mutual aid"));
}

// Water is not all that the terms ask for: what else is not met, or somebody else has to show.
void add_department(SheetBlocks& sheet, const Findings& findings) {
    std::string beyond;
    for (const Claim& claim : claims_of_department(findings)) {
        if (claim.shown == Shown::not_met) {
            sheet.statement("Not met, and these terms ask for it: " + claim.says +
                            ". The data show: " + claim.shows + ".");
        } else if (claim.shown == Shown::not_in_data) {
            beyond += (beyond.empty() ? "" : "; ") + claim.says;
        }
    }
    if (!beyond.empty()) {
        sheet.paragraph("These terms also ask for what the data do not show: " + beyond + ".");
    }
}

void add_categories(SheetBlocks& sheet, const Findings& findings,
                    const std::vector<RatingTotal>& totals) {
    const std::size_t all = parcels_with_buildings(totals);
    std::vector<SheetBlocks::Cells> rows;
    for (const rating::Category category : possible_categories(findings.rating->terms)) {
        rows.push_back(total_cells({std::string(category_word(findings.rating->terms, category)),
                                    std::string(meaning_of(category))},
                                   totals[static_cast<std::size_t>(category)], all));
    }
    sheet.heading("Categories").table(headers_of({"Category", "Meaning"}), rows);
    sheet.note(
        "Categories in the terms' own words; the rating organisation gives the class. Value: where "
        "the parcels give one.");
    if (const std::size_t outside = buildings_in_no_parcel(findings); outside > 0) {
        sheet.paragraph(fmt::format(
            "{} in no parcel, and {} in none of these totals: tables/data_problems.csv has each.",
            outside == 1 ? "1 building lies"
                         : in_thousands(static_cast<double>(outside)) + " buildings lie",
            outside == 1 ? "is" : "are"));
    }
}

void add_reasons(SheetBlocks& sheet, const Findings& findings) {
    const std::vector<RatingTotal> totals = totals_by_reason(findings);
    const std::size_t all = parcels_with_buildings(totals);
    std::vector<SheetBlocks::Cells> rows;
    for (std::size_t i = 0; i < totals.size(); ++i) {
        if (totals[i].parcels > 0) {
            rows.push_back(total_cells({std::string(sentence_of(static_cast<rating::Fails>(i)))},
                                       totals[i], all));
        }
    }
    sheet.heading("Which of the terms is failed first").table(headers_of({"Term"}), rows);
}

// How many begin within so many minutes: what a faster set-up would bring.
void add_starts(SheetBlocks& sheet, const Findings& findings) {
    const rating::Terms& terms = findings.rating->terms;
    const std::size_t all = parcels_with_buildings(totals_by_category(findings));
    std::vector<SheetBlocks::Cells> rows;
    for (const StartsWithin& each : starts_within(findings)) {
        rows.push_back({fmt::format("within {:.0f} min", in_minutes(each.within)),
                        in_thousands(static_cast<double>(each.parcels)),
                        percent(each.parcels, all)});
    }
    sheet.heading("When brought water begins")
        .paragraph(fmt::format(
            "Parcels at which apparatus that counts begins {} and holds it for {:.0f} min, counted "
            "from {}. Set-up and drive times are planning values: a timed drill may prove "
            "better ones, which then belong in the district file's [assumptions].",
            gpm_in_words(terms.minimum), in_minutes(terms.duration), clock_in_words(terms.clock)))
        .table({"Begins", "#Parcels", "#Share"}, rows);
}

void add_variants(SheetBlocks& sheet, const Findings& findings) {
    const District& district = findings.district;
    std::vector<SheetBlocks::Cells> rows;
    for (const HeldIn& each : held_by_variant(findings)) {
        rows.push_back({spoken(at(district.seasons, each.variant.season).name),
                        spoken(at(district.periods, each.variant.period).name),
                        in_thousands(static_cast<double>(each.in_time)),
                        in_thousands(static_cast<double>(each.later)),
                        in_thousands(static_cast<double>(each.not_held))});
    }
    sheet.heading("Seasons and periods")
        .table({"Season", "Period",
                fmt::format(
                    "#Begun by {:.0f} min after {}", in_minutes(findings.rating->terms.full_within),
                    findings.rating->terms.clock == ClockStart::alarm ? "the alarm" : "arrival"),
                "#Begun later", "#Not held"},
               rows)
        .note(
            "Parcels at which apparatus that counts holds the minimum flow; hose to a source is "
            "not in this table.");
}

std::vector<std::string> method_of(const Findings& findings) {
    const rating::Terms& terms = findings.rating->terms;
    return {
        "Road miles: from the nearest own station, on roads for engines, to the property's road.",
        fmt::format("Hose goes from a source along roads and drives to the building, as it can be "
                    "laid; up to {} ft it counts, worth the smaller of the terms' credit and "
                    "of what the source gives.",
                    in_thousands(in_feet(terms.hose))),
        fmt::format(
            "Brought water is run minute by minute: arrivals, set-up, fill, drive, offload and "
            "storage, with every stage slowed cautiously. The minimum flow must begin within "
            "{:.0f} "
            "min and hold for {:.0f} min; a larger flow counts that holds from {:.0f} min on, but "
            "never more than the sum of undisturbed cycles.",
            in_minutes(terms.start_within), in_minutes(terms.duration),
            in_minutes(terms.full_within)),
        std::string(
            "Of all ways to bring water (place of the tanks, fill sites, tankers, one of which may "
            "feed the engine by its own pump until the draft is up, or hose from a source) the one "
            "counts that begins in time and without a gap, then the one that holds most; all "
            "numbers "
            "of a parcel are of that one."),
        fmt::format(
            "On paper a tank counts with {:.0f} % of its gallons; the drive of a round trip "
            "is {:.3g} min + {:.3g} min a mile, {}.",
            terms.delivered_share * 100, in_minutes(terms.drive_fixed),
            in_minutes(terms.drive_per_mile),
            terms.drive_rule == DriveRule::round_trip ? "once for both ways" : "once for each way"),
        travel_time_sentence(findings.district),
        "Flows on these sheets are rounded down: to 25 gpm below 500, to 50 gpm above.",
    };
}

void add_terms(SheetBlocks& sheet, const Findings& findings) {
    const Standard& standard = findings.district.rating->standard;
    std::vector<SheetBlocks::Cells> rows;
    std::size_t memory = 0;
    for (const StandardValue& value : standard.values) {
        memory += is_from_memory(value.certainty) ? 1U : 0U;
        rows.push_back({value.key,
                        value.text + fmt::format("{:.10g}", fmt::join(value.numbers, ", ")),
                        std::string(certainty_in_words(value.certainty)),
                        value.source + (value.section.empty() ? "" : " (" + value.section + ")")});
    }
    sheet.begin_section("terms", true).heading("Terms, value by value");
    sheet.paragraph(
        fmt::format("{}; {}. {} of {} values come from memory and were not confirmed{}.",
                    standard.name, standard.edition, memory, standard.values.size(),
                    standard.own_file.empty()
                        ? std::string()
                        : "; the district's own copy " + standard.own_file + " goes first"));
    sheet.table({"Key", "Value", "How sure", "Source"}, rows).end_section();
}

}  // namespace

SheetBlocks coverage_sheet(const Findings& findings) {
    const std::vector<RatingTotal> totals = totals_by_category(findings);
    SheetBlocks sheet;
    sheet.heading("Statement");
    add_statement(sheet, findings, totals);
    add_department(sheet, findings);
    CoverageMap map = coverage_map(findings);
    sheet.drawing(std::move(map.drawing)).note(map.note);
    add_categories(sheet, findings, totals);
    add_reasons(sheet, findings);
    add_starts(sheet, findings);
    add_variants(sheet, findings);
    sheet.heading("Method").list(method_of(findings));
    sheet.subheading("Not modelled");
    std::vector<std::string> left_out;
    for (const std::string_view what : not_modelled(findings.district)) {
        left_out.emplace_back(what);
    }
    sheet.list(left_out);
    add_terms(sheet, findings);
    return sheet;
}

}  // namespace farwater::reports
