// The queue of a shortest-path search whose costs only grow: a bucket for each of the next costs
// (Dial 1969, "Algorithm 360"), a heap for what lies beyond. Half the time of a heap alone.
#pragma once

#include <bit>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "routing/structures/heap.h"

namespace farwater::routing {

class BucketQueue {
public:
    BucketQueue() : top_(width, none), filled_(width / bits_a_word, 0) {}

    bool empty() const { return in_buckets_ == 0 && beyond_.empty(); }

    // O(labels in the queue).
    void clear() {
        while (in_buckets_ > 0) {
            take(first_filled());
        }
        beyond_.clear();
    }

    // O(1) for less than `width` more than what was taken last, else O(log n). A label that costs
    // less than that is taken in its turn too.
    void push(Label label) {
        if (empty()) {
            least_ = label.cost;
        }
        if (label.cost < least_ || label.cost - least_ >= std::int32_t{width}) {
            beyond_.push(label);
        } else {
            put(static_cast<std::uint32_t>(label.cost) % width, label.node);
        }
    }

    // One of the least cost. Precondition: not empty. O(1) but for labels far apart or beyond.
    Label pop_least() {
        if (in_buckets_ == 0) {
            const Label label = beyond_.pop_least();
            least_ = label.cost;
            return label;
        }
        const std::uint32_t bucket = first_filled();
        const auto ahead = (bucket - static_cast<std::uint32_t>(least_)) % width;
        const std::int32_t cost = least_ + static_cast<std::int32_t>(ahead);
        if (!beyond_.empty() && beyond_.least_cost() < cost) {
            return beyond_.pop_least();
        }
        least_ = cost;
        return {cost, take(bucket)};
    }

private:
    static constexpr std::uint32_t width = 4096;  // tenths of a second: seven minutes of driving
    static constexpr std::uint32_t bits_a_word = 64;
    static constexpr std::uint32_t none = UINT32_MAX;

    struct Entry {
        std::uint32_t node = 0;
        std::uint32_t below = none;  // the next one in the bucket, or that is free
    };

    void put(std::uint32_t bucket, std::uint32_t node) {
        std::uint32_t entry = free_;
        if (entry == none) {
            entry = static_cast<std::uint32_t>(entries_.size());
            entries_.emplace_back();
        } else {
            free_ = entries_[entry].below;
        }
        entries_[entry] = {node, top_[bucket]};
        top_[bucket] = entry;
        filled_[bucket / bits_a_word] |= std::uint64_t{1} << (bucket % bits_a_word);
        ++in_buckets_;
    }

    // The node on top. Precondition: the bucket is filled.
    std::uint32_t take(std::uint32_t bucket) {
        const std::uint32_t entry = top_[bucket];
        top_[bucket] = entries_[entry].below;
        if (top_[bucket] == none) {
            filled_[bucket / bits_a_word] &= ~(std::uint64_t{1} << (bucket % bits_a_word));
        }
        entries_[entry].below = free_;
        free_ = entry;
        --in_buckets_;
        return entries_[entry].node;
    }

    // From that of least_ on, round to the one before it. Precondition: one is.
    std::uint32_t first_filled() const {
        const std::uint32_t from = static_cast<std::uint32_t>(least_) % width;
        std::uint32_t word = from / bits_a_word;
        std::uint64_t bits = filled_[word] & (~std::uint64_t{0} << (from % bits_a_word));
        while (bits == 0) {
            word = (word + 1) % (width / bits_a_word);
            bits = filled_[word];
        }
        return word * bits_a_word + static_cast<std::uint32_t>(std::countr_zero(bits));
    }

    std::vector<std::uint32_t> top_;     // per bucket: an entry; none where it is empty
    std::vector<std::uint64_t> filled_;  // one bit a bucket
    std::vector<Entry> entries_;
    std::uint32_t free_ = none;
    std::size_t in_buckets_ = 0;
    std::int32_t least_ = 0;  // what is in buckets costs from this to less than `width` more
    Heap beyond_;
};

}  // namespace farwater::routing
