#include <algorithm>
#include <cmath>
#include <cstdint>

#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/run/tenths.h"
#include "analyzer/supply/run/trial.h"

namespace farwater::supply {

namespace {

using run::Trial;

// Starts are tried in whole tenths of a minute.
class StartSearch {
public:
    StartSearch(Trial& trial, double flow, double duration)
        : trial_(trial), flow_(flow), duration_(duration) {}

    // While the attack draws no more than `flow`, a later start leaves more water and a start that
    // misses by some minutes rules out the starts up to there; every fourth trial halves the rest.
    std::optional<std::int32_t> earliest(std::int32_t latest) {
        if (trial_.attack().flow > flow_) {
            return earliest_by_trying_all(latest);
        }
        if (latest < 0 || !trial_.holds(latest / 10.0, duration_, flow_)) {
            return std::nullopt;
        }
        std::int32_t holds = latest;
        for (int step = 1; next_ < holds; ++step) {
            const std::int32_t start = step % 4 == 0 ? next_ + (holds - next_) / 2 : next_;
            if (holds_from(start)) {
                holds = start;
            }
        }
        return holds;
    }

private:
    std::optional<std::int32_t> earliest_by_trying_all(std::int32_t latest) {
        for (std::int32_t start = 0; start <= latest; ++start) {
            if (holds_from(start)) {
                return start;
            }
        }
        return std::nullopt;
    }

    bool holds_from(std::int32_t tenths) {
        const auto after = trial_.start_after(tenths / 10.0, duration_, flow_);
        if (after) {
            next_ = std::max(tenths + 1, rounded_up(*after));
        }
        return !after;
    }

    static std::int32_t rounded_up(double minute) {
        constexpr double latest_minute = 1e6;
        return static_cast<std::int32_t>(std::ceil(std::min(minute, latest_minute) * 10.0 - 1e-6));
    }

    Trial& trial_;
    double flow_;
    double duration_;
    std::int32_t next_ = 0;  // earlier starts than this are ruled out
};

std::int32_t tenths_of_minute_below(Duration latest) {
    constexpr double most = 1e7;
    return static_cast<std::int32_t>(
        std::floor(std::clamp(in_minutes(latest) * 10.0 + 1e-6, -1.0, most)));
}

}  // namespace

std::optional<Duration> earliest_start(const Incident& incident, HeldFlow flow, Duration duration,
                                       Duration latest) {
    if (run::above_cap(incident, flow) || latest < Duration{}) {
        return std::nullopt;
    }
    if (in_tenths(flow) <= 0) {
        return Duration{};
    }
    Trial trial(incident);
    const std::size_t regimes = trial.regimes().size();
    std::optional<std::int32_t> best;
    // Round and round, until no way of filling holds from a tenth earlier.
    for (std::size_t i = 0, since_best = 0; since_best < regimes; i = (i + 1) % regimes) {
        trial.prepare(trial.regimes()[i], in_minutes(latest));
        ++since_best;
        StartSearch search(trial, run::as_gpm(in_tenths(flow)), in_minutes(duration));
        const std::int32_t before = best ? *best - 1 : tenths_of_minute_below(latest);
        if (const auto start = search.earliest(before)) {
            best = start;
            since_best = 0;
        }
    }
    return best ? std::optional(minutes(*best / 10.0)) : std::nullopt;
}

}  // namespace farwater::supply
