// Who comes to a dump site, with what, and which hose they lay.
#include <algorithm>

#include <fmt/format.h>

#include "analyzer/supply/visits.h"
#include "reports/cards/card_view.h"
#include "reports/cards/card_words.h"
#include "reports/explain/explanation.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

using supply::Arrival;
using supply::ShuttleWorking;

// The fill site (from 1) that an engine runs; 0 = none.
std::size_t runs_fill_site(const ShuttleWorking& look, UnitIndex engine) {
    for (std::size_t i = 0; i < look.shuttle.fills.size(); ++i) {
        if (look.shuttle.fills[i].run_by.engine == engine) {
            return i + 1;
        }
    }
    return 0;
}

// Empty: none is planned.
std::string engine_job(const ShuttleWorking& look, std::size_t place) {
    if (place == 0) {
        return "attacks";
    }
    if (place == 1) {
        return "drafts at the dump site";
    }
    const std::size_t fill = runs_fill_site(look, look.scene.engines[place].unit);
    return fill == 0 ? std::string() : fmt::format("runs fill site {}", fill);
}

std::string tanker_job(const ShuttleWorking& look, UnitIndex tanker) {
    const supply::Incident& incident = look.shuttle.incident;
    const auto found = std::ranges::find(incident.tankers, tanker, &supply::Tanker::unit);
    if (found == incident.tankers.end()) {
        return {};
    }
    const bool nurses = supply::first_to_nurse(incident) == &*found;
    const SourceIndex source = [&] {
        for (std::size_t i = 0; i < look.shuttle.fills.size(); ++i) {
            const auto first = std::ranges::find(
                incident.tankers, look.shuttle.fills[i].first_tanker, &supply::Tanker::unit);
            if (first != incident.tankers.end() && first->fill_site == found->fill_site) {
                return SourceIndex(i);
            }
        }
        return SourceIndex();
    }();
    const std::string fills =
        source.valid() ? fmt::format("fills at {}", source.position() + 1) : std::string("shuttle");
    return (nurses ? "NURSES first, then " : "dumps, ") + fills;
}

std::string hose_carried(const Unit& unit, const Assumptions& assumptions) {
    if (!unit.hose) {
        return unit.kind == UnitKind::engine
                   ? "2 1/2 in " + feet_words(assumptions.engine_hose_2_5in) + " (assumed)"
                   : std::string();
    }
    struct Size {
        Length length;
        std::string_view words;
    };
    std::string text;
    for (const Size& size :
         {Size{unit.hose->hose_5in, "5"}, Size{unit.hose->hose_4in, "4"},
          Size{unit.hose->hose_3in, "3"}, Size{unit.hose->hose_2_5in, "2 1/2"}}) {
        if (size.length > feet(0)) {
            text += fmt::format("{}{} in {}", text.empty() ? "" : ", ", size.words,
                                feet_words(size.length));
        }
    }
    return text;
}

std::string brings(const Unit& unit, const Assumptions& assumptions) {
    std::string text = hose_carried(unit, assumptions);
    if (unit.portable_tank > gallons(0)) {
        text += fmt::format("{}{} {}", text.empty() ? "" : "; ", std::max(1, unit.portable_tanks),
                            unit.portable_tanks > 1 ? "portable tanks" : "portable tank");
        text += fmt::format(" {}", gallon_words(unit.portable_tank));
    }
    return text;
}

// The job of a unit that is none of those, but whose portable tanks are counted on.
std::string with_tanks(const ShuttleWorking& look, UnitIndex unit, const std::string& job) {
    const bool carries = std::ranges::find(look.scene.tanks, unit, &supply::TanksSetUp::unit) !=
                         look.scene.tanks.end();
    return job.empty() && carries ? "its portable tank, then to command" : job;
}

struct Coming {
    Duration minute;
    UnitIndex unit;
    std::string job;
};

std::vector<Coming> all_coming(const ShuttleWorking& look) {
    std::vector<Coming> list;
    for (std::size_t i = 0; i < look.scene.engines.size(); ++i) {
        const Arrival& engine = look.scene.engines[i];
        list.push_back(
            {engine.at_scene, engine.unit, with_tanks(look, engine.unit, engine_job(look, i))});
    }
    for (const Arrival& tanker : look.scene.tankers) {
        list.push_back({tanker.at_scene, tanker.unit,
                        with_tanks(look, tanker.unit, tanker_job(look, tanker.unit))});
    }
    for (const Arrival& tanker : look.scene.held_back) {
        list.push_back({tanker.at_scene, tanker.unit, "to the house: its tank only"});
    }
    std::ranges::stable_sort(list, {}, &Coming::minute);
    return list;
}

bool on_request(const supply::Working& working, UnitIndex unit) {
    const auto found = std::ranges::find(working.responders, unit, &supply::Responder::unit);
    return found != working.responders.end() && found->on_request;
}

std::string tank_words(const Unit& unit) {
    return !unit.tank_known         ? "?"
           : unit.tank > gallons(0) ? in_thousands(in_gallons(unit.tank))
                                    : "-";
}

std::vector<std::string> row_of(const CardView& view, const Coming& coming) {
    const District& district = view.district();
    const Unit& unit = at(district.units, coming.unit);
    const auto crew = supply::crew_of(district, coming.unit, view.working().variant.period);
    const bool asked = on_request(view.working(), coming.unit);
    return {minute_words(coming.minute),
            unit_name(district, coming.unit) + (asked ? " *" : ""),
            name_words(at(district.stations, unit.station).id),
            crew ? fmt::format("{}", *crew) : "?",
            tank_words(unit),
            coming.job,
            brings(unit, district.assumptions)};
}

}  // namespace

SheetPart who_comes(const CardView& view) {
    SheetPart part{.heading = "WHO COMES TO THE DUMP SITE, IN THIS ORDER",
                   .column = SheetColumn::both,
                   .items = {}};
    const auto* look = view.look();
    if (look == nullptr) {
        part.items.push_back(SheetText{"Nobody is worked out for this place."});
        return part;
    }
    SheetTable table{.headers = {"#Min", "Unit", "From", "#Crew", "#Water, gal", "Job", "Brings"},
                     .rows = {}};
    bool asked = false;
    std::string others;
    for (const Coming& coming : all_coming(*look)) {
        asked = asked || on_request(view.working(), coming.unit);
        std::vector<std::string> row = row_of(view, coming);
        if (coming.job.empty()) {
            others += fmt::format("{}{} ({})", others.empty() ? "" : ", ", row[1], row[0]);
        } else {
            table.rows.push_back(std::move(row));
        }
    }
    if (table.rows.empty() && others.empty()) {
        part.items.push_back(
            SheetText{"Nobody comes: no engine or tanker has a way to this place.", true});
        return part;
    }
    part.items.push_back(std::move(table));
    std::string below = others.empty() ? "" : "To command, no job planned: " + others + ". ";
    if (asked) {
        below += fmt::format(
            "* Only when asked, counted as asked {:.0f} min after the first "
            "engine's arrival: ask sooner.",
            in_minutes(view.district().assumptions.request_delay));
    }
    if (!below.empty()) {
        part.items.push_back(SheetText{std::move(below)});
    }
    return part;
}

SheetPart hose_part(const CardView& view) {
    SheetPart part{.heading = "SUPPLY LINE: WHO LAYS WHAT", .items = {}};
    const auto* look = view.look();
    if (look == nullptr) {
        part.items.push_back(SheetText{"Not worked out."});
        return part;
    }
    if (!look->line) {
        part.items.push_back(SheetText{
            fmt::format("{} to the house: no hose that attack and draft engine bring is long "
                        "enough. Call for an engine with more.",
                        feet_words(look->lay.length)),
            true});
        return part;
    }
    const auto& engines = look->scene.engines;
    std::string who;
    for (std::size_t i = 0; i < std::min<std::size_t>(2, engines.size()); ++i) {
        who += (i == 0 ? "" : " and ") + unit_name(view.district(), engines[i].unit);
    }
    part.items.push_back(SheetText{
        fmt::format("{} of {} to {}, laid by {}.", feet_words(look->lay.length),
                    hose_words(look->line->size), view.book.place_name(view.site().worst), who),
        true});
    part.items.push_back(SheetText{fmt::format(
        "Carries {} gpm at {:.0f} psi.{}", in_thousands(std::floor(in_gpm(look->line->flow))),
        view.district().assumptions.supply_line_pressure_psi,
        look->line->rise > feet(0)
            ? fmt::format(" The house is {} higher.", feet_words(look->line->rise))
            : "")});
    return part;
}

}  // namespace farwater::reports
