#include "analyzer/supply/bounds/closed_queue.h"

#include <algorithm>

namespace farwater::supply {
namespace {

// One number of customers of each class, with what the network does then.
struct State {
    std::vector<double> queue;                  // per station: customers there
    std::vector<std::vector<double>> marginal;  // per station: chance of 0..servers-1 there
};

// Goes through all numbers of customers, smaller ones first: each needs those with one less.
class MeanValues {
public:
    explicit MeanValues(const ClosedQueue& queue) : queue_(queue), counts_(queue.classes.size()) {
        std::size_t states = 1;
        for (const QueueClass& one : queue.classes) {
            strides_.push_back(states);
            states *= one.customers + 1;
        }
        states_.resize(states);
        states_.front() = empty_state();
    }

    QueueAnswer solve() {
        for (std::size_t index = 1; index < states_.size(); ++index) {
            count_up();
            states_[index] = next_state(index);
        }
        const std::size_t stations = queue_.servers.size();
        rounds_.resize(counts_.size());
        staying_.resize(counts_.size(), std::vector<double>(stations));
        QueueAnswer answer{rounds_, staying_, staying_};
        for (std::size_t c = 0; c < counts_.size(); ++c) {
            for (std::size_t k = 0; k < stations; ++k) {
                answer.at[c][k] = rounds_[c] * staying_[c][k];
            }
        }
        return answer;
    }

private:
    State empty_state() const {
        State state{std::vector<double>(queue_.servers.size()), {}};
        for (const std::size_t servers : queue_.servers) {
            state.marginal.emplace_back(servers);
            state.marginal.back().front() = 1.0;
        }
        return state;
    }

    void count_up() {
        for (std::size_t c = 0; c < counts_.size(); ++c) {
            if (counts_[c] < queue_.classes[c].customers) {
                ++counts_[c];
                return;
            }
            counts_[c] = 0;
        }
    }

    // What an arriving customer of the class sees is the network without itself.
    double stay(const State& seen, std::size_t station, double demand) const {
        const std::size_t servers = queue_.servers[station];
        double ahead = 1.0 + seen.queue[station];
        for (std::size_t there = 0; there + 1 < servers; ++there) {
            ahead += static_cast<double>(servers - 1 - there) * seen.marginal[station][there];
        }
        return demand * ahead / static_cast<double>(servers);
    }

    State next_state(std::size_t index) {
        const std::size_t stations = queue_.servers.size();
        rounds_.assign(counts_.size(), 0.0);
        staying_.assign(counts_.size(), std::vector<double>(stations));
        State state = empty_state();
        for (std::size_t c = 0; c < counts_.size(); ++c) {
            if (counts_[c] == 0) {
                continue;
            }
            const QueueClass& one = queue_.classes[c];
            double round = one.delay;
            for (std::size_t k = 0; k < stations; ++k) {
                staying_[c][k] = stay(states_[index - strides_[c]], k, one.demands[k]);
                round += staying_[c][k];
            }
            rounds_[c] = static_cast<double>(counts_[c]) / round;
            for (std::size_t k = 0; k < stations; ++k) {
                state.queue[k] += rounds_[c] * staying_[c][k];
            }
        }
        for (std::size_t k = 0; k < stations; ++k) {
            fill_marginal(state, index, k);
        }
        return state;
    }

    // The chance of j customers from that of j - 1 with one less in the network; of none from the
    // mean number of busy servers.
    void fill_marginal(State& state, std::size_t index, std::size_t station) const {
        std::vector<double>& chance = state.marginal[station];
        const std::size_t servers = chance.size();
        std::fill(chance.begin(), chance.end(), 0.0);
        double busy = 0.0;
        double idle = 0.0;  // servers, on average, with somebody there
        for (std::size_t c = 0; c < counts_.size(); ++c) {
            const double work = rounds_[c] * queue_.classes[c].demands[station];
            busy += work;
            for (std::size_t j = 1; work > 0.0 && j < servers; ++j) {
                chance[j] += work / static_cast<double>(j) *
                             states_[index - strides_[c]].marginal[station][j - 1];
            }
        }
        for (std::size_t j = 1; j < servers; ++j) {
            idle += static_cast<double>(servers - j) * chance[j];
        }
        chance.front() = std::max(0.0, 1.0 - (busy + idle) / static_cast<double>(servers));
    }

    const ClosedQueue& queue_;
    std::vector<std::size_t> counts_;
    std::vector<std::size_t> strides_;
    std::vector<State> states_;
    std::vector<double> rounds_;                // of the last state
    std::vector<std::vector<double>> staying_;  // the same
};

}  // namespace

QueueAnswer solve(const ClosedQueue& queue) { return MeanValues(queue).solve(); }

}  // namespace farwater::supply
