// Whether one plan of a shuttle is better than what is known, in the order that is asked for.
#pragma once

#include <optional>

#include "analyzer/supply/filling/fingerprint.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/plan_order.h"

namespace farwater::supply {

// A plan comes as two incidents: plain, and slow, the same with stage times slowed by `factor`,
// whose flows and starts are the cautious ones.
class PlanJudge {
public:
    // By flow alone.
    PlanJudge(Window window, double factor) : window_(window), factor_(factor) {}

    // By the order's terms, if it has any. `all` has everything that any plan has: the dump site,
    // all tankers, the initial attack. Starts later than `horizon` and the window's are not looked
    // for.
    PlanJudge(const PlanOrder& order, const Incident& all, Duration first_arrival, Window window,
              Duration horizon, double factor);

    Window window() const { return window_; }
    double factor() const { return factor_; }
    bool by_terms() const { return terms_.has_value(); }

    // With all that its judgement rests on besides the plan.
    Fingerprint added_to(Fingerprint print) const;

    // The plan's merit where it is better than `than`, else none. `plain` gives the plain incident;
    // it is asked for only where the terms want it. By flow one sustained_flow_above; by terms a
    // run or two more, and about ten where it begins earlier.
    template <class Plain>
    std::optional<Merit> better_than(const Merit& than, const Incident& slow,
                                     const Plain& plain) const {
        if (!terms_) {
            return better_by_flow(than, slow);
        }
        if (only_flow_is_left(than)) {
            return more_flow(than, slow, plain());
        }
        const auto begun = begins_no_later(than, slow);
        return begun ? better_by_terms(than, *begun, slow, plain()) : std::nullopt;
    }

    // No plan made of what `most` has, a slow incident, is better than that where this is false. By
    // bounds, without a run: window_bound.
    bool may_be_better_than(const Merit& than, const Incident& most) const;

    // It begins as early as anybody asks for, or as any plan can, without a gap: only flow is left
    // to gain.
    bool only_flow_is_left(const Merit& merit) const {
        return !terms_ || (merit.begins == earliest_ && merit.gap == 0);
    }

private:
    std::optional<Merit> better_by_flow(const Merit& than, const Incident& slow) const;
    // As early and without a gap. Precondition: only flow is left.
    std::optional<Merit> more_flow(const Merit& than, const Incident& slow,
                                   const Incident& plain) const;
    // With `begins` alone; none: it begins later.
    std::optional<Merit> begins_no_later(const Merit& than, const Incident& slow) const;
    std::optional<Merit> better_by_terms(const Merit& than, Merit merit, const Incident& slow,
                                         const Incident& plain) const;
    std::optional<std::int32_t> begin_of(const Merit& than, const Incident& slow) const;

    std::optional<FirstMinutesTerms> terms_;
    Window window_;
    double factor_ = 1.0;
    std::int32_t earliest_ = 0;  // tenths of a minute: nothing is gained by an earlier beginning
    std::int32_t latest_ = 0;    // nor looked for after that
};

}  // namespace farwater::supply
