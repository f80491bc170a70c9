// Who does what, people needed and there, cautions.
#include <algorithm>

#include <fmt/format.h>

#include "reports/cards/card_view.h"
#include "reports/cards/card_words.h"

namespace farwater::reports {
namespace {

void add_people(const CardView& view, SheetPart& part) {
    const auto* look = view.look();
    if (look == nullptr) {
        return;
    }
    const Assumptions& a = view.district().assumptions;
    const int fills = static_cast<int>(std::max<std::size_t>(1, look->shuttle.fills.size()));
    const int tankers = static_cast<int>(look->shuttle.tankers);
    const int slots = std::max(1, look->shuttle.incident.dump_site.offload_slots);
    const int needed =
        supply::crew_needed(a, static_cast<std::size_t>(fills), look->shuttle.tankers, slots);
    const supply::CrewThere& people = look->shuttle.crew;
    part.items.push_back(SheetText{
        fmt::format("People: {} needed, {} there by minute {}{}.", needed, people.people,
                    minute_words(look->shuttle.window.start),
                    people.not_listed == 0 ? ""
                                           : fmt::format(", and {} whose crew is not listed",
                                                         plural(people.not_listed, "unit"))),
        true});
    part.items.push_back(SheetText{fmt::format(
        "Needed: attack {}, dump site {}, fill site {}{}, traffic {}, water supply {}, {} {}.",
        a.crew_attack, a.crew_dump_site + a.crew_offload_slot * (slots - 1), a.crew_fill_site,
        fills > 1 ? fmt::format(" x {}", fills) : "", a.crew_traffic, a.crew_water_supply,
        view.district().tanker_word + "s", a.crew_tanker * tankers)});
}

}  // namespace

SheetPart jobs_part(const CardView& view) {
    SheetPart part{.heading = "WHO DOES WHAT", .column = SheetColumn::right, .items = {}};
    add_people(view, part);
    std::vector<std::string> roles{"Water supply: counts loads", "Dump: level tanks, open lane"};
    const std::size_t fills = view.has_shuttle() ? view.look()->shuttle.fills.size() : 1;
    for (std::size_t i = 0; i < fills; ++i) {
        roles.push_back(
            fmt::format("Fill{}: pump primed", fills > 1 ? fmt::format(" {}", i + 1) : ""));
    }
    roles.emplace_back("Traffic: both ends held");
    part.items.push_back(SheetText{"Radio role, its task; write in channel and name:"});
    for (std::size_t i = 0; i < roles.size(); i += 2) {
        part.items.push_back(LinesToFill{
            {roles.begin() + static_cast<std::ptrdiff_t>(i),
             roles.begin() + static_cast<std::ptrdiff_t>(std::min(i + 2, roles.size()))}});
    }
    return part;
}

SheetPart cautions_part(const CardView& view) {
    SheetPart part{.heading = "CAUTIONS", .column = SheetColumn::foot, .items = {}};
    const Season& season = at(view.district().seasons, view.working().variant.season);
    part.items.push_back(SheetText{fmt::format(
        "Planning figures: prove them by a timed drill. Local code and the authority having "
        "jurisdiction go first. Traffic held before the first {0} moves. Never faster than road "
        "and load allow: a full {0} stops late and tips in bends. No backing without a spotter. "
        "Never pull a main below 20 psi. Never fill from a suspect source. {1}",
        view.district().tanker_word,
        season.ice ? "ICE: what is spilled freezes; sand both sites, chains."
                   : "In frost what is spilled freezes; sand both sites.")});
    return part;
}

}  // namespace farwater::reports
