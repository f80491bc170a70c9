#include "analyzer/supply/filling/plan_judge.h"

#include <algorithm>
#include <cmath>

#include "analyzer/supply/handbook.h"
#include "analyzer/supply/incident_run.h"

namespace farwater::supply {
namespace {

constexpr double binary_dust = 1e-9;

std::int32_t tenths_up(Duration time) {
    return static_cast<std::int32_t>(std::ceil(in_minutes(time) * 10.0 - binary_dust));
}
Duration of_tenths(std::int32_t tenths) { return minutes(tenths / 10.0); }

// Until draft or nursing brings water there is the engine's own tank alone.
Duration first_water(const Incident& all) {
    Duration first = all.dump_site.draft_ready;
    for (const Tanker& tanker : all.tankers) {
        if (tanker.can_nurse) {
            const Duration met = std::max(tanker.arrives, all.dump_site.engine_arrives);
            first = std::min(first, met + all.dump_site.nurse_hookup);
        }
    }
    return first;
}

// No plan begins earlier: not before its engine has water on the fire, and not so early that the
// engine's tank is empty before other water comes.
Duration possible_begin(const Incident& all, HeldFlow flow) {
    const DumpSite& dump = all.dump_site;
    const bool attacks = all.initial_attack.flow > gpm(0);
    const Duration on_fire = attacks ? all.initial_attack.from : dump.engine_arrives;
    return std::max(on_fire, first_water(all) - dump.engine_tank / gpm(in_tenths(flow) / 10.0));
}

}  // namespace

PlanJudge::PlanJudge(const PlanOrder& order, const Incident& all, Duration first_arrival,
                     Window window, Duration horizon, double factor)
    : terms_(order.terms), window_(window), factor_(factor) {
    if (!terms_) {
        return;
    }
    earliest_ = tenths_up(order.begin_by(first_arrival));
    if (in_tenths(terms_->flow) > 0) {
        const Incident slow = slowed(all, factor);
        earliest_ = std::max(earliest_, tenths_up(possible_begin(slow, terms_->flow)));
    }
    latest_ = std::max(tenths_up(horizon), tenths_up(window.start));
}

Fingerprint PlanJudge::added_to(Fingerprint print) const {
    print.add(in_minutes(window_.start));
    print.add(in_minutes(window_.duration));
    print.add(factor_);
    if (terms_) {
        print.add(static_cast<std::uint64_t>(in_tenths(terms_->flow)));
        print.add(static_cast<std::uint64_t>(earliest_));
        print.add(static_cast<std::uint64_t>(latest_));
    }
    return print;
}

std::optional<Merit> PlanJudge::better_by_flow(const Merit& than, const Incident& slow) const {
    const HeldFlow flow = sustained_flow_above(slow, window_, than.flow);
    if (flow <= than.flow) {
        return std::nullopt;
    }
    return Merit{.begins = std::nullopt, .gap = 0, .flow = flow};
}

// Not later than `than`.
std::optional<std::int32_t> PlanJudge::begin_of(const Merit& than, const Incident& slow) const {
    const std::int32_t latest = than.begins.value_or(latest_);
    if (latest <= earliest_) {
        return holds(slow, {of_tenths(latest), window_.duration}, terms_->flow)
                   ? std::optional(latest)
                   : std::nullopt;
    }
    const auto start = earliest_start(slow, terms_->flow, window_.duration, of_tenths(latest));
    return start ? std::optional(std::max(earliest_, tenths_up(*start))) : std::nullopt;
}

std::optional<Merit> PlanJudge::begins_no_later(const Merit& than, const Incident& slow) const {
    Merit merit{.begins = begin_of(than, slow), .gap = 0, .flow = {}};
    const std::int32_t from = std::max(earliest_, tenths_up(window_.start));
    // Tankers of several kinds may fall into a worse order at the latest start than at the
    // window's, where the flow is known to hold.
    if (!merit.begins && (!than.begins || from <= *than.begins) &&
        holds(slow, window_, terms_->flow)) {
        merit.begins = from;
    }
    return than.begins && !merit.begins ? std::nullopt : std::optional(merit);
}

// What costs least and refuses most goes first.
std::optional<Merit> PlanJudge::more_flow(const Merit& than, const Incident& slow,
                                          const Incident& plain) const {
    const HeldFlow on_paper = held(handbook_flow(plain));
    if (on_paper <= than.flow) {
        return std::nullopt;
    }
    const HeldFlow flow = std::min(on_paper, sustained_flow_above(slow, window_, than.flow));
    if (flow <= than.flow || !begins_no_later(than, slow) ||
        tenths_up(first_minutes(plain, window_).dry) > 0) {
        return std::nullopt;
    }
    return Merit{.begins = than.begins, .gap = 0, .flow = flow};
}

std::optional<Merit> PlanJudge::better_by_terms(const Merit& than, Merit merit,
                                                const Incident& slow, const Incident& plain) const {
    const bool more_is_asked = merit.begins == than.begins && than.gap == 0;
    const HeldFlow least = more_is_asked ? than.flow : HeldFlow{};
    merit.flow = std::min(sustained_flow_above(slow, window_, least), held(handbook_flow(plain)));
    if (merit.begins && better(merit, than)) {  // were it without a gap
        merit.gap = tenths_up(first_minutes(plain, window_).dry);
    }
    return better(merit, than) ? std::optional(merit) : std::nullopt;
}

bool PlanJudge::may_be_better_than(const Merit& than, const Incident& most) const {
    if (terms_ && than.begins &&
        held(window_bound(most, {of_tenths(*than.begins), window_.duration})) < terms_->flow) {
        return false;
    }
    return held(window_bound(most, window_)) > than.flow || !only_flow_is_left(than);
}

}  // namespace farwater::supply
