// Everything between the givens and the answer of one parcel or target, for those who want to see
// how it came about. Values of their own: nothing here looks into what a stage lets go of.
#pragma once

#include <optional>
#include <vector>

#include "analyzer/district/need.h"
#include "analyzer/supply/assessment.h"
#include "analyzer/supply/filling/fill_option.h"
#include "analyzer/supply/places/case_answers.h"
#include "analyzer/supply/places/direct.h"
#include "analyzer/supply/places/shuttle_case.h"

namespace farwater::supply {

// A fill site that routing lists for the dump site.
struct FillSiteSeen {
    SourceIndex source;
    FillSiteIndex fill_site;
    LaneClass lane = LaneClass::through;  // of the fill site
    FillPlan plan;                        // with all tankers that have a way there
};

// One of the parcel's hose lays, with the shuttle that its dump site gets.
// The cautious flow of a shuttle when that tanker stays in quarters (places/one_tanker_out.h).
struct FlowWithout {
    UnitIndex tanker;
    HeldFlow flow{};
};

struct ShuttleWorking {
    HoseLay lay;
    Scene scene;
    CasePlan shuttle;  // the one that the answer rests on; passed over: no supply below
    std::vector<FillSiteSeen> fill_sites;
    std::optional<HouseLine> line;     // none = no hose that is there is long enough
    std::vector<FlowWithout> without;  // each tanker that runs or brings a portable tank or siphon
    ParcelSupply supply;
};

struct Working {
    Variant variant;
    std::optional<Need> need;  // none = no building
    Point house;
    DriveTime first_arrival = no_time;   // of the first engine, at the house, since the alarm
    std::vector<Responder> responders;   // of its zone, in the period
    std::vector<HoseLay> lays;           // all of the parcel's
    std::vector<ShuttleWorking> looked;  // lays that were worked out, in that order
    std::vector<HoseOption> options;     // direct supply and relay
    ParcelSupply supply;                 // as `assess` gives it
};

}  // namespace farwater::supply
