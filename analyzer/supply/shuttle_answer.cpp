#include "analyzer/supply/shuttle_answer.h"

#include <algorithm>

#include "analyzer/supply/bounds/dispatch_bound.h"
#include "analyzer/supply/build_up.h"
#include "analyzer/supply/disorder.h"
#include "analyzer/supply/filling/fill_allocation.h"
#include "analyzer/supply/handbook.h"

namespace farwater::supply {
namespace {

constexpr Duration looked_at = minutes(1440);

bool to_allocate(const FillLegs& legs) {
    return std::ranges::any_of(legs, [](const auto& of_tanker) {
        return std::ranges::count_if(of_tanker, [](const auto& leg) { return leg.has_value(); }) >
               1;
    });
}

void allocate(ShuttleAnswer& answer, const Incident& incident, const ShuttleQuestion& question) {
    answer.allocated = to_allocate(question.legs);
    if (!answer.allocated) {
        answer.incident = incident;
        answer.sustained = sustained_flow(incident, question.window);
        return;
    }
    Allocation best = best_allocation(incident, question.legs, question.window);
    answer.incident = std::move(best.incident);
    answer.sustained = best.sustained;
    answer.allocation_proved = best.proved;
}

// A line whose siphons hold the flow down is made shorter as long as that gains.
void allocate_with_line(ShuttleAnswer& answer, const ShuttleQuestion& question) {
    answer.line = question.line;
    allocate(answer, question.incident, question);
    for (TankLine line = question.line; line.used > 1;) {
        const std::optional<Flow> cap = drawn_from(line).cap();
        if (!cap || answer.sustained < held(*cap)) {
            return;
        }
        --line.used;
        Incident incident = question.incident;
        incident.dump_site = with_line(incident.dump_site, line);
        ShuttleAnswer shorter;
        shorter.line = line;
        allocate(shorter, incident, question);
        if (shorter.sustained <= answer.sustained) {
            return;
        }
        answer = std::move(shorter);
    }
}

HeldFlow gain_of_flow_line(Incident incident, Window window, HeldFlow sustained) {
    bool given = false;
    for (FillSite& site : incident.fill_sites) {
        if (site.flows && *site.flows < site.places) {
            site.flows = *site.flows + 1;
            given = true;
        }
    }
    const std::int32_t more =
        given ? in_tenths(sustained_flow(incident, window)) - in_tenths(sustained) : 0;
    return tenths_of_gpm(more < no_gain_below ? 0 : more);
}

std::vector<HeldFlow> flows_without_each(const Incident& incident, Window window) {
    std::vector<HeldFlow> flows;
    for (std::size_t tanker = 0; tanker < incident.tankers.size(); ++tanker) {
        Incident rest = incident;
        rest.tankers.erase(rest.tankers.begin() + static_cast<std::ptrdiff_t>(tanker));
        flows.push_back(sustained_flow(rest, window));
    }
    return flows;
}

std::vector<HeldFrom> build_up_of(const Incident& incident, const Incident& slow,
                                  Duration duration) {
    std::vector<HeldFrom> list;
    for (const int start : build_up_minutes) {
        const Window window{minutes(start), duration};
        list.push_back(
            {window.start, sustained_flow(incident, window), sustained_flow(slow, window)});
    }
    return list;
}

Volume on_wheels_by(const Incident& incident, Duration start) {
    Volume sum =
        incident.dump_site.engine_arrives <= start ? incident.dump_site.engine_tank : Volume{};
    for (const Tanker& tanker : incident.tankers) {
        sum += tanker.arrives <= start ? tanker.delivered : Volume{};
    }
    return sum;
}

Margin margin_of(HeldFlow cautious, HeldFlow needed, double firm) {
    if (in_tenths(cautious) >= in_tenths(needed) * firm) {
        return Margin::firm;
    }
    return cautious >= needed ? Margin::thin : Margin::none;
}

// Some flow holds from the start on that refilled loads carry, not the water on wheels alone.
bool supplied(const Incident& slow, Window window) {
    Incident unfilled = slow;
    for (FillSite& site : unfilled.fill_sites) {
        site.ready = window.start + window.duration + looked_at;
    }
    return sustained_flow(slow, window) > sustained_flow(unfilled, window);
}

NeedAnswer need_of(const ShuttleQuestion& question, const Incident& slow, HeldFlow cautious) {
    const Window window = question.window;
    const Duration latest = std::max(question.horizon, window.start);
    NeedAnswer need{.needed = *question.needed};
    need.margin = margin_of(cautious, need.needed, question.firm_margin);
    need.earliest_start = earliest_start(slow, need.needed, window.duration, latest);
    need.holds_for = lasts(slow, window.start, need.needed, looked_at);
    need.holds_beyond = need.holds_for >= looked_at;
    if (cautious >= need.needed) {
        need.state = SupplyState::held;
    } else if (need.earliest_start) {
        need.state = SupplyState::late;
    } else if (supplied(slow, {latest, window.duration})) {
        need.state = SupplyState::short_flow;
    }
    return need;
}

}  // namespace

ShuttleAnswer answer(const ShuttleQuestion& question) {
    const Window window = question.window;
    ShuttleAnswer answer;
    allocate_with_line(answer, question);
    const Incident& incident = answer.incident;
    const Incident slow = slowed(incident, cautious_factor(question.stage_cv));
    answer.cautious = sustained_flow(slow, window);
    answer.handbook = handbook_flow(incident);
    answer.bound = dispatch_bound(incident, window);
    answer.long_run = long_run_bound(incident, window);
    answer.disorder = disorder_flow(incident, window);
    answer.gains = gains(incident, answer.line, window, answer.sustained);
    answer.flow_line_gain = gain_of_flow_line(incident, window, answer.sustained);
    answer.limit = binding_limit(answer.gains);
    if (answer.limit == Limit::none && in_tenths(answer.flow_line_gain) > 0) {
        answer.limit = Limit::fill_site;
    }
    answer.without = flows_without_each(incident, window);
    answer.build_up = build_up_of(incident, slow, window.duration);
    answer.first_minutes = first_minutes(incident, window);
    answer.on_wheels = on_wheels_by(incident, window.start);
    if (question.needed) {
        answer.need = need_of(question, slow, answer.cautious);
    }
    return answer;
}

std::optional<std::size_t> worst_out(const ShuttleAnswer& answer) {
    const auto least = std::ranges::min_element(answer.without);
    return least == answer.without.end()
               ? std::nullopt
               : std::optional(static_cast<std::size_t>(least - answer.without.begin()));
}

std::optional<std::size_t> better_without(const ShuttleAnswer& answer) {
    const auto most = std::ranges::max_element(answer.without);
    return most == answer.without.end() ||
                   in_tenths(*most) < in_tenths(answer.sustained) + no_gain_below
               ? std::nullopt
               : std::optional(static_cast<std::size_t>(most - answer.without.begin()));
}

}  // namespace farwater::supply
