// The queue of a shortest-path search: four children a parent, cost and node in one number.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace farwater::routing {

// A node and what it costs to get there. Ordered by cost, ties by node.
struct Label {
    std::int32_t cost = 0;  // not below 0
    std::uint32_t node = 0;
};

class Heap {
public:
    bool empty() const { return keys_.empty(); }
    void clear() { keys_.clear(); }
    // Precondition: not empty.
    std::int32_t least_cost() const { return label_of(keys_.front()).cost; }

    // O(log n).
    void push(Label label) {
        const std::uint64_t key = key_of(label);
        std::size_t at = keys_.size();
        keys_.push_back(key);
        while (at > 0 && keys_[(at - 1) / 4] > key) {
            keys_[at] = keys_[(at - 1) / 4];
            at = (at - 1) / 4;
        }
        keys_[at] = key;
    }

    // Precondition: not empty. O(log n).
    Label pop_least() {
        const Label least = label_of(keys_.front());
        const std::uint64_t last = keys_.back();
        keys_.pop_back();
        if (!keys_.empty()) {
            sink(last);
        }
        return least;
    }

private:
    static std::uint64_t key_of(Label label) {
        return (std::uint64_t{static_cast<std::uint32_t>(label.cost)} << 32U) | label.node;
    }
    static Label label_of(std::uint64_t key) {
        return {static_cast<std::int32_t>(key >> 32U), static_cast<std::uint32_t>(key)};
    }
    // Of four the least by pairs, which do not wait for each other.
    std::size_t least_of_four(std::size_t child) const {
        const std::size_t a = keys_[child + 1] < keys_[child] ? child + 1 : child;
        const std::size_t b = keys_[child + 3] < keys_[child + 2] ? child + 3 : child + 2;
        return keys_[b] < keys_[a] ? b : a;
    }
    std::size_t least_of_last(std::size_t child) const {
        std::size_t least = child;
        for (std::size_t i = child + 1; i < keys_.size(); ++i) {
            least = keys_[i] < keys_[least] ? i : least;
        }
        return least;
    }
    void sink(std::uint64_t key) {
        const std::size_t size = keys_.size();
        std::size_t at = 0;
        for (std::size_t child = 1; child < size; child = 4 * at + 1) {
            const std::size_t least =
                child + 4 <= size ? least_of_four(child) : least_of_last(child);
            if (keys_[least] >= key) {
                break;
            }
            keys_[at] = keys_[least];
            at = least;
        }
        keys_[at] = key;
    }

    std::vector<std::uint64_t> keys_;
};

}  // namespace farwater::routing
