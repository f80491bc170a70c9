// Working memory for the chunks of a parallel loop: one is made when none is free, so there are as
// many as threads.
#pragma once

#include <functional>
#include <memory>
#include <mutex>
#include <utility>
#include <vector>

namespace farwater::routing {

// Whoever borrows a thing leaves it as it was made; then it does not matter which one a chunk gets.
template <class Thing>
class Pool {
public:
    explicit Pool(std::function<std::unique_ptr<Thing>()> make) : make_(std::move(make)) {}

    class Borrowed {
    public:
        explicit Borrowed(Pool& pool) : pool_(pool), thing_(pool.take()) {}
        ~Borrowed() { pool_.give_back(std::move(thing_)); }
        Borrowed(const Borrowed&) = delete;
        Borrowed& operator=(const Borrowed&) = delete;
        Thing& operator*() const { return *thing_; }
        Thing* operator->() const { return thing_.get(); }

    private:
        Pool& pool_;
        std::unique_ptr<Thing> thing_;
    };

private:
    std::unique_ptr<Thing> take() {
        {
            const std::scoped_lock lock(mutex_);
            if (!free_.empty()) {
                std::unique_ptr<Thing> thing = std::move(free_.back());
                free_.pop_back();
                return thing;
            }
        }
        return make_();
    }
    void give_back(std::unique_ptr<Thing> thing) {
        const std::scoped_lock lock(mutex_);
        free_.push_back(std::move(thing));
    }

    std::function<std::unique_ptr<Thing>()> make_;
    std::mutex mutex_;
    std::vector<std::unique_ptr<Thing>> free_;
};

}  // namespace farwater::routing
