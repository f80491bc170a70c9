// A fill site as the tankers and engines of one scene can use it, alone or beside others.
#pragma once

#include <optional>
#include <vector>

#include "analyzer/district/round_trips.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/scene.h"
#include "analyzer/supply/situation.h"
#include "analyzer/supply/water_review.h"

namespace farwater::supply {

// The ready time of a fill site that nobody runs.
inline constexpr Duration never_ready = minutes(1e6);

struct FillOption {
    const CountedSource* source = nullptr;  // the review's
    int places = 1;
    Duration backing;                      // into a place there
    std::vector<std::optional<Leg>> legs;  // per tanker of the scene; none = it has no way
    // Per engine of the scene: from when it has the fill site running; none = it has another job,
    // or no way there.
    std::vector<std::optional<Duration>> run_by;
    // Per tanker of the scene: from when it has opened the fill site by itself; none = it has no
    // way, or the source takes an engine.
    std::vector<std::optional<Duration>> opened_by;

    bool reached() const;  // by some tanker
};

// The tankers of a scene, in the order of their arrival, sent to no fill site yet.
std::vector<Tanker> tankers_of(const Situation& situation, const Scene& scene);

// Precondition: `tankers` are the scene's.
FillOption fill_option(const Situation& situation, const Scene& scene,
                       const std::vector<Tanker>& tankers, const FillTrip& trip);

// Who runs a fill site.
struct RunBy {
    UnitIndex engine;               // can run it; not valid: none is left to
    bool opened_by_tanker = false;  // which is there before that engine, or instead of one
};

// The incident with no fill site and no tankers yet, and with the offload slots that there are
// people for beside so many fill sites.
Incident incident_at(const Situation& situation, const Scene& scene, std::size_t fill_sites = 1);

// The incident with all tankers at one fill site; tankers that have no way there stay out. The
// first engine that can runs it, or the first tanker opens it where that is sooner. The reason
// instead when nobody can fill there: engines (none is left to run it) or no_route.
struct FillPlan {
    Incident incident;
    Limit missing = Limit::none;
    RunBy run_by;
    bool usable() const { return missing == Limit::none; }
};
FillPlan plan_alone(const Situation& situation, const Scene& scene,
                    const std::vector<Tanker>& tankers, const FillOption& option);

FillPlan plan_with(const Situation& situation, const Scene& scene, const FillTrip& trip);

// What an engine gives a fill site, by its rated pump.
Flow pump_of(const Situation& situation, const Arrival& engine);

}  // namespace farwater::supply
