// An incident made ready for many runs: plain numbers, places and flow lines counted out, one way
// of filling chosen for each fill site. Minutes, gallons, gpm; infinity for what has no limit.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "analyzer/supply/incident.h"

namespace farwater::supply::run {

struct Hauler {
    double delivered = 0.0, refilled = 0.0;
    double fill_limit = 0.0;
    double fill_before = 0.0, fill_flow = 0.0, fill_after = 0.0;  // fill_flow by the regime
    double offload_before = 0.0, offload_flow = 0.0, offload_after = 0.0;  // minutes
    double offload_rate = 0.0;                                             // gpm
    double empty = 0.0, loaded = 0.0;                                      // legs
    double arrives = 0.0;
    std::size_t site = 0;
    bool can_nurse = false;
    double nurse_rate = 0.0;
};

// Where one fill site's places and flow lines stand in the lists of the run.
struct Site {
    double pump = 0.0;
    double ready = 0.0;
    double usable = 0.0;
    double inflow = 0.0;
    std::size_t first_place = 0, places = 0;
    std::size_t first_line = 0, lines = 0;
};

struct Shuttle {
    std::vector<Hauler> haulers;
    std::vector<Site> sites;
    std::size_t slots = 0;
    std::array<double, most_offload_slots - 1> further_slots_from{};  // after the first
    std::size_t places = 0, lines = 0;                                // over all sites
    double storage = 0.0;
    double engine_tank = 0.0, engine_arrives = 0.0;
    double tanks_ready = 0.0, draft_ready = 0.0;
    int nursing_tankers = 0;
    double nurse_hookup = 0.0;
};

// How many fills run at the same time, one number per fill site.
using FillRegime = std::span<const std::size_t>;

// Every choice of flows that the incident leaves open, at least one. A site that nobody uses, or
// that has more places than tankers, offers no choice beyond its tankers. Fewer flows are no choice
// where the pump feeds more of them as well: nobody would fill quicker. Where the combinations
// are more than `most_regimes`, all sites go up together: 1, 2, ... flows each.
inline constexpr std::size_t most_regimes = 64;
class FillRegimes {
public:
    void find(const Incident& incident);

    std::size_t size() const { return count_; }
    FillRegime operator[](std::size_t i) const {
        return std::span(flows_).subspan(i * choices_.size(), choices_.size());
    }

private:
    // Flows that may run at one site: one choice where it is given, else as many as the pump can
    // feed to every tanker's limit, up to the places.
    struct Choices {
        std::size_t least = 1;
        std::size_t most = 1;
        std::size_t count() const { return most - least + 1; }
    };
    static Choices choices_at(const Incident& incident, std::size_t site);
    void take_all_combinations();
    void take_all_together();

    std::vector<Choices> choices_;    // per fill site
    std::vector<std::size_t> flows_;  // per way of filling and site
    std::size_t count_ = 0;
};

// Into what there is, so that its memory serves again. Tankers that deliver nothing are left out.
void make_ready(Shuttle& shuttle, const Incident& incident);
void fill_by(Shuttle& shuttle, FillRegime regime);

}  // namespace farwater::supply::run
