// One fire at one dump site: who arrives when, and what that gives the dump site. The same for all
// parcels that share dump site, arrival and zone.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "analyzer/district/round_trips.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/places/arrivals.h"
#include "analyzer/supply/places/hose_there.h"
#include "analyzer/supply/places/slots_manned.h"
#include "analyzer/supply/places/tank_line.h"
#include "analyzer/supply/places/tanks_there.h"
#include "analyzer/supply/roster.h"
#include "analyzer/supply/situation.h"

namespace farwater::supply {

// The first engine attacks, the second drafts.
inline constexpr std::size_t engines_with_other_jobs = 2;

// One engine, one job: the first to arrive attacks, the second drafts, the others may run a fill
// site. A scene without a drafting engine or without a portable tank gives no continuous flow.
struct Scene {
    DumpSiteIndex dump_site;
    ApproachIndex approach;                // by which tankers come and go while this hose is in use
    LaneClass lane = LaneClass::dead_end;  // of the dump site while this hose is in use
    Duration first_arrival;                // of the first engine, at the house
    std::vector<Arrival> engines;          // by arrival
    std::vector<Arrival> tankers;          // by arrival
    std::vector<Arrival> held_back;        // tankers that get there only over the hose or past the
                                           // house: no more of them than their tank counts
    HoseThere hose;                        // of the attack and the draft engine
    LaidLine to_house;                     // by them; where nothing is missing
    std::vector<TanksSetUp> tanks;         // by arrival
    TankLine line;                         // of these tanks
    RoadRoom room;                         // for them
    UnitIndex siphon_of;                   // the unit whose siphon runs; not valid: none does
    DumpSite set_up;                       // what the incident run takes, with one fill site
    std::vector<PeopleFrom> people;        // that slots wait for; empty where one is all there is
    Limit missing = Limit::none;           // why there can be no continuous flow; none = there can
    Volume on_wheels;                      // in all tanks there by the horizon
};

// From when a tank and the engine are there.
Duration draft_setup(const Assumptions& assumptions, const Season& season);

// A dump site of the scene, once without the portable tanks and the siphon that the unit brings;
// none where no tank is left. Precondition: nothing is missing.
std::optional<DumpSite> set_up_without(const Situation& situation, const Scene& scene,
                                       DumpSite site, UnitIndex unit);

// Of the lay's dump site, lane, single file, approach and length, which no draft that takes longer
// to set up waits for.
Scene scene_at(const Situation& situation, std::span<const ProfileIndex> profile_of,
               std::span<const Responder> responders, const HoseLay& lay, Duration first_arrival);

}  // namespace farwater::supply
