#include "analyzer/supply/run/kept_draws.h"

#include <algorithm>
#include <bit>
#include <iterator>
#include <limits>
#include <tuple>

namespace farwater::supply::run {

namespace {

constexpr double rounding_of_minutes = 1e-6;

// Whether no tanker that is there by then can be back, when no load is all in before `left`.
bool nobody_is_back(const Shuttle& shuttle, double left, double until) {
    return std::ranges::all_of(shuttle.haulers, [&](const Hauler& hauler) {
        const double away = hauler.offload_after + hauler.empty + hauler.fill_before +
                            hauler.fill_flow + hauler.fill_after + hauler.loaded;
        return hauler.arrives >= until || left + away > until + rounding_of_minutes;
    });
}

bool same_first_load(const Hauler& a, const Hauler& b) {
    const auto givens = [](const Hauler& hauler) {
        return std::tie(hauler.arrives, hauler.delivered, hauler.offload_before,
                        hauler.offload_flow, hauler.offload_after, hauler.offload_rate,
                        hauler.can_nurse, hauler.nurse_rate);
    };
    return givens(a) == givens(b);
}

bool same_dump_site(const Shuttle& a, const Shuttle& b) {
    const auto givens = [](const Shuttle& shuttle) {
        return std::tie(shuttle.nursing_tankers, shuttle.slots, shuttle.storage,
                        shuttle.engine_tank, shuttle.engine_arrives, shuttle.tanks_ready,
                        shuttle.draft_ready, shuttle.nurse_hookup);
    };
    return givens(a) == givens(b);
}

// Told by what changes from one trial to the next.
std::uint64_t mark_of(const Shuttle& shuttle, Attack attack, double until) {
    constexpr std::uint64_t odd = 0x9e3779b97f4a7c15;  // 2^64 over the golden ratio
    std::uint64_t mark = static_cast<std::uint64_t>(shuttle.nursing_tankers) + 1;
    const auto add = [&](double value) {
        mark = std::rotl((mark ^ std::bit_cast<std::uint64_t>(value)) * odd, 29);
    };
    add(until);
    add(attack.from);
    for (const Hauler& hauler : shuttle.haulers) {
        if (hauler.arrives < until) {
            add(hauler.arrives);
            add(hauler.delivered);
        }
    }
    return mark;
}

}  // namespace

bool KeptDraws::follows_from_the_same(const Kept& kept, const Shuttle& shuttle, Attack attack,
                                      double until) {
    std::size_t there = 0;
    for (const Hauler& hauler : shuttle.haulers) {
        if (hauler.arrives < until) {
            if (there == kept.there.size() || !same_first_load(kept.there[there], hauler)) {
                return false;
            }
            ++there;
        }
    }
    return there == kept.there.size() && kept.until == until && kept.attack.flow == attack.flow &&
           kept.attack.from == attack.from && same_dump_site(kept.shuttle, shuttle);
}

const AttackDraw* KeptDraws::find(const Shuttle& shuttle, Attack attack, double until) {
    const std::uint64_t mark = mark_of(shuttle, attack, until);
    for (std::size_t i = 0; i < most_kept; ++i) {
        if (marks_[i] == mark && follows_from_the_same(kept_[i], shuttle, attack, until)) {
            return nobody_is_back(shuttle, kept_[i].left, until) ? &kept_[i].draw : nullptr;
        }
    }
    return nullptr;
}

void KeptDraws::keep(const Shuttle& shuttle, Attack attack, double until,
                     const std::vector<Load<Minute>>& loads, const AttackDraw& draw) {
    double left = std::numeric_limits<double>::infinity();
    for (const Load<Minute>& load : loads) {
        left = std::min(left, load.last_in.at);
    }
    if (!nobody_is_back(shuttle, left, until)) {
        return;
    }
    marks_[oldest_] = mark_of(shuttle, attack, until);
    Kept& kept = kept_[oldest_];
    oldest_ = (oldest_ + 1) % kept_.size();
    kept.attack = attack;
    kept.until = until;
    kept.shuttle = shuttle;
    kept.there.clear();
    std::ranges::copy_if(shuttle.haulers, std::back_inserter(kept.there),
                         [&](const Hauler& hauler) { return hauler.arrives < until; });
    kept.left = left;
    kept.draw = draw;
}

}  // namespace farwater::supply::run
