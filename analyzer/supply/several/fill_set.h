// Two or three fill sites that are run at the same time: who runs each, and what each then gives.
// Nobody runs two of them, and they must be waters that are known to be different, or one system
// that is known to give more than its strongest place does.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "analyzer/supply/filling/fill_option.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/scene.h"
#include "analyzer/supply/situation.h"

namespace farwater::supply {

struct FillSet {
    std::vector<const FillOption*> options;
    // In the same order. `ready` is the engine's; where none runs it, never: the first tanker that
    // is sent there opens it.
    std::vector<FillSite> sites;
    std::vector<UnitIndex> engines;  // that run them; not valid: none does
};

// What a source gives while another place of its water is in use. `share` is the part of what the
// whole system gives that its place has for itself; none = not at the same time.
enum class Sharing { apart, shared, one_water };

// apart: of different systems, or of none and not likely to be one water: no two hydrants, and no
// two places on open water nearer than `one_water_within`. shared: of one system, of which is told
// that it gives more than the stronger of them. Else one_water: a second place adds nothing that
// somebody vouches for.
Sharing sharing(const Situation& situation, const CountedSource& a, const CountedSource& b);

// None where too few engines are there or two of them are one water. Each suction point has an
// engine of its own, hydrants what is left, so that the sum of their ready times is least. Places
// of one system share its rate, volume and inflow by what they give alone. O(engines ^ sites).
std::optional<FillSet> run_together(const Situation& situation, const Scene& scene,
                                    std::span<const FillOption* const> options);

// The fill site with the largest pump and the earliest ready time of all who can run it: in no set
// does it give more.
FillSite best_run(const Situation& situation, const Scene& scene, const FillOption& option);

}  // namespace farwater::supply
