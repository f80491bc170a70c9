// Which splits of the tankers over two fill sites are worth an incident run: each is measured as a
// steady stream, where whatever is short scales all who use it down alike. Knows no order, no
// storage and no start, so it is no bound; it puts splits in an order for a few operations each.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/supply/several/several_sites.h"

namespace farwater::supply {

struct SteadySplit {
    std::uint32_t first = 0, second = 0;       // options, in their order
    std::uint32_t running = 0, to_second = 0;  // bits: tankers of the scene
    double estimate = 0.0;                     // gpm
};

class SteadySplits {
public:
    explicit SteadySplits(const SeveralQuestion& question);

    // All of `running` at the one of `options` that suits best; bits as above.
    double best_alone(std::uint32_t running) const;

    // The best `most` over two options that may be run together, those of `running` for which the
    // second is nearest, compared with the first, sent there one after the other. The best first,
    // of equals the nearer options and fewer tankers at the second. O(options ^ 2 x tankers).
    std::vector<SteadySplit> best_pairs(std::span<const std::uint32_t> running,
                                        std::size_t most) const;

private:
    // A minute's worth of so many tankers at one option, if nothing is short.
    struct Stream {
        double delivered = 0.0, refilled = 0.0;  // gallons
        double in_place = 0.0, in_slot = 0.0;    // minutes
        void add(const Stream& other, double sign);
    };
    struct Strength {
        double places = 0.0, rate = 0.0;
        double share = 1.0;  // of the window in which it is running
    };

    class BestSplits;
    class Pair;

    double estimate(std::span<const Stream> streams, std::span<const std::size_t> options) const;
    void add_pair(std::size_t first, std::size_t second, std::uint32_t running,
                  BestSplits& splits) const;
    const Stream& stream(std::size_t option, std::size_t tanker) const {
        return streams_[option * tankers_ + tanker];
    }
    double round(std::size_t option, std::size_t tanker) const {
        return rounds_[option * tankers_ + tanker];
    }

    const SeveralQuestion& question_;
    std::size_t tankers_;
    double slots_, cap_;
    std::vector<Strength> strengths_;  // per option
    std::vector<Stream> streams_;      // per option and tanker
    std::vector<double> rounds_;       // minutes; 0 = it has no way
};

}  // namespace farwater::supply
