// The order of events of one run: who offloads, leaves, fills and returns when, first in, first
// out at every place, under one draw. Minutes, gallons, gpm.
//
// Rules. A fill place is held from connecting to leaving, with the wait for a flow line in between;
// flow lines are reserved in order of arrival. Room in the portable tanks is reserved in order of
// offload start, after the room that nursed water needs: a load's water runs in at its own rate
// from its beginning on, as far as there is room, and its last gallon is in when its rate and the
// room allow it. Until the draft is up the portable tanks only fill; nursed water goes into the
// engine tank as the fire empties it. Ties go to the tanker listed first.
#pragma once

#include <cstddef>
#include <vector>

#include "analyzer/supply/run/draw.h"
#include "analyzer/supply/run/moment.h"
#include "analyzer/supply/run/shuttle.h"

namespace farwater::supply::run {

template <class Time>
struct Load {
    Time opened{};    // the valve (or the nursing line) is open
    Time first_in{};  // the first gallon finds room; never before `opened`
    Time last_in{};   // the last gallon is in
    double gallons = 0.0;
    double rate = 0.0;       // from `opened` on
    double dump_rate = 0.0;  // of a nursing tanker once the draft is up
    double room = 0.0;       // in the portable tanks if nothing were drawn; infinite = unlimited
    double nursed = 0.0;  // gallons nursed before this load, or in all where it goes into the tanks
    bool nurses = false;
};

template <class Time>
class Schedule {
public:
    // All loads that arrive at the dump site before `until`, in order of their first gallon, valid
    // until the next run. O(trips x (tankers + slots + places)); the memory is kept between runs.
    // Stops after `most_loads` loads, which can only lower what is found to hold.
    static constexpr std::size_t most_loads = 100'000;
    const std::vector<Load<Time>>& run(const Shuttle& shuttle, const Draw& draw, double until);

    // The same in parts, for those who may have seen enough before the end: the loads that arrive
    // before a part's end, which are then all whose first gallon is in before it. What is given
    // must stay as it is until the last part.
    void begin(const Shuttle& shuttle, const Draw& draw, double until);
    void go_on(double part_until);

    const std::vector<Load<Time>>& loads() const { return loads_; }  // of the last run
    // A load waits for room, or a tanker nurses: under another draw the loads would be other ones.
    bool follows_draw() const { return follows_draw_; }
    // Moments besides first gallons at which the inflow of a load speeds up.
    const std::vector<Time>& surges() const { return surges_; }

private:
    struct Due {
        double at = 0.0;
        std::size_t tanker = 0;
    };

    void reset();
    std::size_t next_tanker();
    void is_due_again(double minute);
    bool nurses_now(std::size_t tanker) const;
    Time nurse(std::size_t tanker);
    Time offload(std::size_t tanker);
    Time fill(std::size_t tanker);
    void put_last_in_order();

    const Shuttle* shuttle_ = nullptr;
    Draw draw_;
    std::vector<Time> due_;   // per tanker: its next arrival
    std::vector<Due> order_;  // the same, by minute
    std::vector<char> full_;  // per tanker: arrives at the dump site, else at its fill site
    std::vector<Time> slots_, places_, lines_;  // free from
    std::vector<double> taken_;                 // per fill site
    std::vector<Load<Time>> loads_;
    std::vector<Time> surges_;
    double in_tanks_ = 0.0;  // gallons sent to the portable tanks so far
    double nursed_ = 0.0;    // gallons sent to the engine so far
    double reserved_ = 0.0;  // gallons that are nursed in all, found by a pass up to the draft
    int nursings_ = 0;
    bool follows_draw_ = false;
};

}  // namespace farwater::supply::run
