// Which ways the answers rest on: those of the shuttles and first engines that places really get.
#pragma once

#include <span>

#include "analyzer/district/routes.h"
#include "analyzer/parallel/work.h"
#include "analyzer/supply/assessment.h"
#include "reports/findings.h"
#include "routing/drive_times.h"
#include "routing/dump_sites.h"

namespace farwater::app {

// What is known when the assessment is done. Only a view.
struct AnswersGiven {
    const routing::RoadSystem& roads;
    const routing::DumpSites& dump_sites;
    std::span<const reports::SeasonFindings> seasons;
    const supply::Assessment& assessment;
    std::span<const ProfileIndex> profile_of;  // per unit
};

// The time that a season's round trips give a drive to or from a fill site by an approach; no_time
// where it is not among them.
DriveTime leg_time(const AnswersGiven& answers, const WantedRoute& wanted, ApproachIndex approach);

// Of each parcel and target in its worst season and period: its first tanker's way there and back,
// and the way of the first engine at its dump site, and whether there is a loop. Shuttles whose
// fastest way runs over their hose have the way round. One search per fill site or station in use,
// no farther than its longest way, and one more where somebody goes round. Stopped early: not
// complete.
RoutesInUse routes_in_use(const AnswersGiven& answers, const Work& work);

}  // namespace farwater::app
