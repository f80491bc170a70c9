// The slow twin of one parcel's answer, from its house to the incident that is run for it: access
// point, first engine, hose, legs, who comes with what, when it is set up. Each rule is written
// down as it is read; the roads are searched with slow_routes.h, the flow is asked of
// slow_shuttle.h. Which dump site and which source were chosen is told, not searched.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "tests/support/slow_routes.h"
#include "tests/support/slow_shuttle.h"

namespace farwater::slow {

// A district, its vehicle groups and its streets. The district must outlive it.
struct Town {
    const District& district;
    std::vector<Profile> profiles;
    Streets streets;
    std::vector<bool> of_tankers,
        of_anyone;  // roads that one of them may use loaded in some season
};
Town town_of(const District& district, std::vector<Profile> profiles);

struct Hour {
    SeasonIndex season;
    PeriodIndex period;
};

// --- roads --------------------------------------------------------------------------------------

// The place on a road of any class that is nearest to the house; none beyond access_reach.
std::optional<Nearest> access_of(const Town& town, std::size_t parcel);

// Who leaves a station for a fire in the zone, and when: since the alarm, or since aid is asked
// for.
struct Coming {
    UnitIndex unit;
    Duration rolls;
    bool asked_for = false;
};
std::vector<Coming> who_comes(const Town& town, Hour hour, const std::string& zone);
// The listed crew, else the fewest that the unit rolls with.
int crew_on(const Town& town, Hour hour, UnitIndex unit);

// The drive to a station's gate point, longer in a season that slows the roads; in tenths of a
// second, rounded up.
Duration to_gate_in(const Station& station, const Season& season);

// Where something that vehicles drive to meets a road that `roads` marks.
std::optional<Spot> driven_to(const Town& town, Point place, const std::vector<bool>& roads);

// Tenths of a second since the alarm; `never` when no engine that rolls at the alarm gets there.
long first_engine(const Town& town, Hour hour, std::size_t parcel);

// Metres of hose from a dump site to the house; none where no hose can lie.
std::optional<double> hose_to(const Town& town, std::size_t parcel, const DumpSiteCandidate& site);

// Tenths of a second; `never` where there is no way or a way beyond the trip limit.
struct Legs {
    long empty = never, loaded = never;
};
Legs legs_between(const Town& town, Hour hour, const Profile& profile,
                  const DumpSiteCandidate& site, const WaterSource& source);

// Whether tankers must back or turn there, with the road under the hose and in front of the house
// closed: the officer's word, else the shape of the roads.
bool must_back(const Town& town, Hour hour, std::size_t parcel, const DumpSiteCandidate& site);
// Whole seconds that a tanker drives alone there, each way: none where all drive one way round.
double single_file_seconds(const Town& town, Hour hour, std::size_t parcel,
                           const DumpSiteCandidate& site);
bool must_back_to_fill(const Town& town, Hour hour, const WaterSource& source);

// --- the incident -------------------------------------------------------------------------------

struct Shuttle {
    Incident incident;       // all tankers haul, none nurses, one fills at a time
    std::size_t places = 1;  // at the fill site
    double start = 0.0;      // minutes since the alarm
    double most = 0.0;       // gpm that draft and hose carry
};

// How tankers come to the dump site, whichever source they fill at.
struct WayIn {
    bool must_back = false;
    double single_file = 0.0;  // minutes
};
WayIn way_in(const Town& town, Hour hour, std::size_t parcel, const DumpSiteCandidate& site);

// With so many portable tanks in line. None when nobody can haul, draft or pump, or when not so
// many tanks are there or no siphon moves their water. `first_arrival` counts from the alarm,
// minutes.
std::optional<Shuttle> shuttle_at(const Town& town, Hour hour, std::size_t parcel,
                                  double first_arrival, const DumpSiteCandidate& site,
                                  const WayIn& in, const WaterSource& source,
                                  std::size_t tanks_used);

// --- without tankers ----------------------------------------------------------------------------

// Metres of hose from a source to the house, or none.
std::optional<double> hose_from(const Town& town, std::size_t parcel, const WaterSource& source);

// What so many engines do with the best hose they carry from the source; minutes since the alarm.
struct HoseWay {
    std::size_t engines = 0;
    double flow = 0.0;
    double ready = 0.0;
    double slow_ready = 0.0;  // with the work of setting up and laying slowed by `slower`
};
std::vector<HoseWay> hose_ways(const Town& town, Hour hour, std::size_t parcel,
                               double first_arrival, const WaterSource& source, double duration,
                               double slower);

// Every stage so much slower, what the cautious flow is made of.
Incident with_slow_stages(const Incident& incident, double factor);

}  // namespace farwater::slow
