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

std::size_t earliest(std::span<const Moment> list) {
    std::size_t best = 0;
    for (std::size_t i = 1; i < list.size(); ++i) {
        if (list[i].at < list[best].at - same_minute) {
            best = i;
        }
    }
    return best;
}

}  // namespace

const std::vector<Load>& Schedule::run(const Shuttle& shuttle, const Draw& draw, double until) {
    reserved_ = 0.0;
    if (shuttle.nursing_tankers > 0) {
        pass(shuttle, draw, std::min(until, shuttle.draft_ready));
        reserved_ = nursed_;
    }
    pass(shuttle, draw, until);
    return loads_;
}

void Schedule::pass(const Shuttle& shuttle, const Draw& draw, double until) {
    reset(shuttle);
    while (!due_.empty() && loads_.size() < most_loads) {
        const std::size_t tanker = next_tanker();
        if (!(due_at_[tanker] < until)) {
            break;
        }
        if (full_[tanker] == 0) {
            due_[tanker] = fill(shuttle, tanker);
        } else if (nurses_now(shuttle, tanker)) {
            due_[tanker] = nurse(shuttle, draw, tanker);
        } else {
            due_[tanker] = offload(shuttle, draw, tanker);
        }
        due_at_[tanker] = due_[tanker].at;
        full_[tanker] = full_[tanker] == 0 ? 1 : 0;
    }
}

void Schedule::reset(const Shuttle& shuttle) {
    due_.clear();
    due_at_.clear();
    for (const Hauler& hauler : shuttle.haulers) {
        due_.push_back(at_minute(hauler.arrives));
        due_at_.push_back(hauler.arrives);
    }
    full_.assign(shuttle.haulers.size(), 1);
    slots_.assign(shuttle.slots, at_minute(shuttle.tanks_ready));
    places_.assign(shuttle.places, Moment{});
    lines_.assign(shuttle.lines, Moment{});
    for (const Site& site : shuttle.sites) {
        std::fill_n(places_.data() + site.first_place, site.places, at_minute(site.ready));
    }
    taken_.assign(shuttle.sites.size(), 0.0);
    loads_.clear();
    surges_.clear();
    in_tanks_ = 0.0;
    nursed_ = 0.0;
    nursings_ = 0;
}

std::size_t Schedule::next_tanker() const {
    const double first = *std::ranges::min_element(due_at_);
    const auto tied = [first](double due) { return due <= first + same_minute; };
    return static_cast<std::size_t>(std::ranges::find_if(due_at_, tied) - due_at_.begin());
}

bool Schedule::nurses_now(const Shuttle& shuttle, std::size_t tanker) const {
    const double met = std::max(due_at_[tanker], shuttle.engine_arrives);
    return nursings_ < shuttle.nursing_tankers && shuttle.haulers[tanker].can_nurse &&
           met + shuttle.nurse_hookup < shuttle.draft_ready;
}

// Feeds the engine tank as the fire makes room in it. What is left when the draft is up is dumped
// from then on, which may be quicker than going on nursing.
Moment Schedule::nurse(const Shuttle& shuttle, const Draw& draw, std::size_t tanker) {
    const Hauler& hauler = shuttle.haulers[tanker];
    const double rate = shuttle.nurse_rate;
    const Moment opened =
        later(due_[tanker], at_minute(shuttle.engine_arrives)) + shuttle.nurse_hookup;
    Load load{.opened = opened,
              .gallons = hauler.delivered,
              .rate = rate,
              .dump_rate = hauler.offload_rate,
              .nursed = nursed_,
              .nurses = true};
    load.first_in =
        later(opened, earlier(when_drawn(draw, nursed_), at_minute(shuttle.draft_ready)));
    nursed_ += hauler.delivered;
    const double flowing = rate > 0.0 ? hauler.delivered / rate : never;
    const Moment fed = later(opened + flowing, when_drawn(draw, nursed_));
    load.last_in = earlier(fed, at_minute(shuttle.draft_ready + hauler.offload_flow));
    if (hauler.offload_rate > rate) {
        const double gain = hauler.offload_rate - rate;
        surges_.push_back({(hauler.offload_rate * shuttle.draft_ready - rate * opened.fixed) / gain,
                           -rate * opened.gallons / gain,
                           (hauler.offload_rate * shuttle.draft_ready - rate * opened.at) / gain});
    }
    ++nursings_;
    add(load);
    return load.last_in + (hauler.offload_after + hauler.empty);
}

Moment Schedule::offload(const Shuttle& shuttle, const Draw& draw, std::size_t tanker) {
    if (slots_.empty()) {
        return at_minute(never);
    }
    const Hauler& hauler = shuttle.haulers[tanker];
    Moment& slot = slots_[earliest(slots_)];
    Load load{.opened = later(due_[tanker], slot) + hauler.offload_before,
              .gallons = hauler.delivered,
              .rate = hauler.offload_rate,
              .room = shuttle.storage - in_tanks_,
              .nursed = reserved_};
    load.first_in = load.opened;
    load.last_in = load.opened + hauler.offload_flow;
    in_tanks_ += hauler.delivered;
    if (in_tanks_ > shuttle.storage + same_gallons) {
        const Moment draft = at_minute(shuttle.draft_ready);
        const auto drawn = [&](double gallons) { return later(draft, when_drawn(draw, gallons)); };
        load.last_in = later(load.last_in, drawn(reserved_ + in_tanks_ - shuttle.storage));
        if (load.room <= 0.0) {
            load.first_in = later(load.first_in, drawn(reserved_ - load.room));
        } else if (reserved_ > 0.0) {
            surges_.push_back(drawn(reserved_));
        }
    }
    slot = load.last_in + hauler.offload_after;
    add(load);
    return slot + hauler.empty;
}

Moment Schedule::fill(const Shuttle& shuttle, std::size_t tanker) {
    const Hauler& hauler = shuttle.haulers[tanker];
    const Site& site = shuttle.sites[hauler.site];
    if (site.lines == 0) {
        return at_minute(never);
    }
    const std::span places = std::span(places_).subspan(site.first_place, site.places);
    const std::span lines = std::span(lines_).subspan(site.first_line, site.lines);
    Moment& place = places[earliest(places)];
    Moment& line = lines[earliest(lines)];
    const Moment connected = later(due_[tanker], place) + hauler.fill_before;
    Moment full = later(connected, line) + hauler.fill_flow;
    double& taken = taken_[hauler.site];
    taken += hauler.refilled;
    if (taken > site.usable + same_gallons) {
        const double missing = taken - site.usable;
        full = later(full, at_minute(site.inflow > 0.0 ? missing / site.inflow : never));
    }
    line = full;
    place = full + hauler.fill_after;
    return place + hauler.loaded;
}

// Tankers are served in order of arrival, so first gallons come nearly in order.
void Schedule::add(const Load& load) {
    loads_.push_back(load);
    for (std::size_t i = loads_.size() - 1;
         i > 0 && loads_[i].first_in.at < loads_[i - 1].first_in.at; --i) {
        std::swap(loads_[i], loads_[i - 1]);
    }
}

}  // namespace farwater::supply::run
