#include "analyzer/supply/run/schedule.h"

#include <algorithm>
#include <limits>
#include <span>

namespace farwater::supply::run {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

// Arrivals closer than this are a tie, whatever the last bits of their sums say.
constexpr double same_minute = 1e-9;
// Water that fits but for rounding fits.
constexpr double same_gallons = 1e-9;

template <class Time>
std::size_t earliest(std::span<Time> list) {
    std::size_t best = 0;
    for (std::size_t i = 1; i < list.size(); ++i) {
        if (list[i].at < list[best].at - same_minute) {
            best = i;
        }
    }
    return best;
}

// From when on a nursing tanker that dumps the rest, from `draft` on and at the quicker
// `dump_rate`, has put in more than it would have by nursing on.
double overtakes(double dump_rate, double draft, double rate, double opened) {
    return (dump_rate * draft - rate * opened) / (dump_rate - rate);
}
Moment overtakes(double dump_rate, double draft, double rate, Moment opened) {
    return {overtakes(dump_rate, draft, rate, opened.fixed),
            -rate * opened.gallons / (dump_rate - rate),
            overtakes(dump_rate, draft, rate, opened.at)};
}
Minute overtakes(double dump_rate, double draft, double rate, Minute opened) {
    return {overtakes(dump_rate, draft, rate, opened.at)};
}

}  // namespace

template <class Time>
const std::vector<Load<Time>>& Schedule<Time>::run(const Shuttle& shuttle, const Draw& draw,
                                                   double until) {
    begin(shuttle, draw, until);
    go_on(until);
    return loads_;
}

template <class Time>
void Schedule<Time>::begin(const Shuttle& shuttle, const Draw& draw, double until) {
    shuttle_ = &shuttle;
    draw_ = draw;
    reserved_ = 0.0;
    reset();
    if (shuttle.nursing_tankers > 0) {
        go_on(std::min(until, shuttle.draft_ready));
        reserved_ = nursed_;
        reset();
    }
}

template <class Time>
void Schedule<Time>::go_on(double part_until) {
    while (!order_.empty() && loads_.size() < most_loads) {
        const std::size_t tanker = next_tanker();
        if (!(due_[tanker].at < part_until)) {
            break;
        }
        const bool arrives_full = full_[tanker] != 0;
        due_[tanker] = !arrives_full        ? fill(tanker)
                       : nurses_now(tanker) ? nurse(tanker)
                                            : offload(tanker);
        is_due_again(due_[tanker].at);
        full_[tanker] = arrives_full ? 0 : 1;
    }
}

template <class Time>
void Schedule<Time>::reset() {
    const Shuttle& shuttle = *shuttle_;
    const std::size_t tankers = shuttle.haulers.size();
    due_.resize(tankers);
    order_.resize(tankers);
    for (std::size_t tanker = 0; tanker < tankers; ++tanker) {
        due_[tanker] = Time::at_minute(shuttle.haulers[tanker].arrives);
        order_[tanker] = {due_[tanker].at, tanker};
    }
    std::ranges::sort(order_, {}, &Due::at);
    full_.assign(tankers, 1);
    slots_.assign(shuttle.slots, Time::at_minute(shuttle.tanks_ready));
    const std::size_t waiting = std::min(slots_.size(), shuttle.further_slots_from.size() + 1);
    for (std::size_t slot = 1; slot < waiting; ++slot) {
        slots_[slot] = later(slots_[slot], Time::at_minute(shuttle.further_slots_from[slot - 1]));
    }
    places_.assign(shuttle.places, Time{});
    lines_.assign(shuttle.lines, Time{});
    for (const Site& site : shuttle.sites) {
        std::fill_n(places_.data() + site.first_place, site.places, Time::at_minute(site.ready));
    }
    taken_.assign(shuttle.sites.size(), 0.0);
    loads_.clear();
    surges_.clear();
    in_tanks_ = 0.0;
    nursed_ = 0.0;
    nursings_ = 0;
    follows_draw_ = false;
}

// Comes to the front: of those that are due at the same minute the one that is listed first.
template <class Time>
std::size_t Schedule<Time>::next_tanker() {
    std::size_t next = 0;
    for (std::size_t i = 1; i < order_.size() && order_[i].at <= order_[0].at + same_minute; ++i) {
        next = order_[i].tanker < order_[next].tanker ? i : next;
    }
    if (next > 0) {
        std::rotate(order_.begin(), order_.begin() + static_cast<std::ptrdiff_t>(next),
                    order_.begin() + static_cast<std::ptrdiff_t>(next) + 1);
    }
    return order_[0].tanker;
}

// The one in front. Without a branch, so that the next event need not wait for this one's minute.
template <class Time>
void Schedule<Time>::is_due_again(double minute) {
    Due late{minute, order_[0].tanker};
    for (std::size_t i = 1; i < order_.size(); ++i) {
        const Due next = order_[i];
        const std::size_t both = next.tanker ^ late.tanker;
        const std::size_t swapped = next.at < late.at ? both : 0;
        order_[i - 1] = {std::min(next.at, late.at), late.tanker ^ swapped};
        late = {std::max(next.at, late.at), next.tanker ^ swapped};
    }
    order_.back() = late;
}

template <class Time>
bool Schedule<Time>::nurses_now(std::size_t tanker) const {
    const Shuttle& shuttle = *shuttle_;
    const double met = std::max(due_[tanker].at, shuttle.engine_arrives);
    return nursings_ < shuttle.nursing_tankers && shuttle.haulers[tanker].can_nurse &&
           met + shuttle.nurse_hookup < shuttle.draft_ready;
}

// Feeds the engine tank as the fire makes room in it. What is left when the draft is up is dumped
// from then on, which may be quicker than going on nursing.
template <class Time>
Time Schedule<Time>::nurse(std::size_t tanker) {
    const Shuttle& shuttle = *shuttle_;
    const Hauler& hauler = shuttle.haulers[tanker];
    const double rate = hauler.nurse_rate;
    const Time opened =
        later(due_[tanker], Time::at_minute(shuttle.engine_arrives)) + shuttle.nurse_hookup;
    Load<Time>& load = loads_.emplace_back();
    load.opened = opened;
    load.gallons = hauler.delivered;
    load.rate = rate;
    load.dump_rate = hauler.offload_rate;
    load.nursed = nursed_;
    load.nurses = true;
    load.first_in = later(
        opened, earlier(when_drawn<Time>(draw_, nursed_), Time::at_minute(shuttle.draft_ready)));
    nursed_ += hauler.delivered;
    const double flowing = rate > 0.0 ? hauler.delivered / rate : never;
    const Time fed = later(opened + flowing, when_drawn<Time>(draw_, nursed_));
    load.last_in = earlier(fed, Time::at_minute(shuttle.draft_ready + hauler.offload_flow));
    if (hauler.offload_rate > rate) {
        surges_.push_back(overtakes(hauler.offload_rate, shuttle.draft_ready, rate, opened));
    }
    ++nursings_;
    follows_draw_ = true;
    const Time leaves = load.last_in + (hauler.offload_after + hauler.empty);
    put_last_in_order();
    return leaves;
}

template <class Time>
Time Schedule<Time>::offload(std::size_t tanker) {
    const Shuttle& shuttle = *shuttle_;
    if (slots_.empty()) {
        return Time::at_minute(never);
    }
    const Hauler& hauler = shuttle.haulers[tanker];
    Time& slot = slots_[earliest<Time>(slots_)];
    Load<Time>& load = loads_.emplace_back();
    load.opened = later(due_[tanker], slot) + hauler.offload_before;
    load.gallons = hauler.delivered;
    load.rate = hauler.offload_rate;
    load.room = shuttle.storage - in_tanks_;
    load.nursed = reserved_;
    load.first_in = load.opened;
    load.last_in = load.opened + hauler.offload_flow;
    in_tanks_ += hauler.delivered;
    if (in_tanks_ > shuttle.storage + same_gallons) {
        follows_draw_ = true;
        const Time draft = Time::at_minute(shuttle.draft_ready);
        const auto drawn = [&](double gallons) {
            return later(draft, when_drawn<Time>(draw_, gallons));
        };
        load.last_in = later(load.last_in, drawn(reserved_ + in_tanks_ - shuttle.storage));
        if (load.room <= 0.0) {
            load.first_in = later(load.first_in, drawn(reserved_ - load.room));
        } else if (reserved_ > 0.0) {
            surges_.push_back(drawn(reserved_));
        }
    }
    slot = load.last_in + hauler.offload_after;
    put_last_in_order();
    return slot + hauler.empty;
}

template <class Time>
Time Schedule<Time>::fill(std::size_t tanker) {
    const Shuttle& shuttle = *shuttle_;
    const Hauler& hauler = shuttle.haulers[tanker];
    const Site& site = shuttle.sites[hauler.site];
    if (site.lines == 0) {
        return Time::at_minute(never);
    }
    const std::span places = std::span(places_).subspan(site.first_place, site.places);
    const std::span lines = std::span(lines_).subspan(site.first_line, site.lines);
    Time& place = places[earliest<Time>(places)];
    Time& line = lines[earliest<Time>(lines)];
    const Time connected = later(due_[tanker], place) + hauler.fill_before;
    Time full = later(connected, line) + hauler.fill_flow;
    double& taken = taken_[hauler.site];
    taken += hauler.refilled;
    if (taken > site.usable + same_gallons) {
        const double missing = taken - site.usable;
        full = later(full, Time::at_minute(site.inflow > 0.0 ? missing / site.inflow : never));
    }
    line = full;
    place = full + hauler.fill_after;
    return place + hauler.loaded;
}

// Tankers are served in order of arrival, so first gallons come nearly in order.
template <class Time>
void Schedule<Time>::put_last_in_order() {
    for (std::size_t i = loads_.size() - 1;
         i > 0 && loads_[i].first_in.at < loads_[i - 1].first_in.at; --i) {
        std::swap(loads_[i], loads_[i - 1]);
    }
}

template class Schedule<Moment>;
template class Schedule<Minute>;

}  // namespace farwater::supply::run
