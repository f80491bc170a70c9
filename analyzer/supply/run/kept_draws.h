// Attacks that were drawn, kept for the next trials: before anybody is back from filling it is all
// the same where and how tankers fill and who arrives later. Minutes, gallons, gpm.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "analyzer/supply/run/attack.h"

namespace farwater::supply::run {

class KeptDraws {
public:
    // The draw up to `until`, to the last bit as draw_attack has it; null: it is not kept, or
    // somebody may be back by then. Valid until the next call of keep. O(tankers).
    const AttackDraw* find(const Shuttle& shuttle, Attack attack, double until);

    // The draw that was not found, with the loads of its last pass, in the place of the oldest one.
    void keep(const Shuttle& shuttle, Attack attack, double until,
              const std::vector<Load<Minute>>& loads, const AttackDraw& draw);

private:
    struct Kept {
        Attack attack;
        double until = 0.0;
        Shuttle shuttle;            // nothing of its fill sites
        std::vector<Hauler> there;  // that arrive before `until`
        double left = 0.0;          // the minute by which the first of them is empty
        AttackDraw draw;
    };
    static bool follows_from_the_same(const Kept& kept, const Shuttle& shuttle, Attack attack,
                                      double until);

    static constexpr std::size_t most_kept = 64;
    std::array<std::uint64_t, most_kept> marks_{};  // what is not alike has another one
    std::array<Kept, most_kept> kept_{};
    std::size_t oldest_ = 0;
};

}  // namespace farwater::supply::run
