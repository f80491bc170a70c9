// Which of a row's hose lays are worked out, and in which order.
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "analyzer/supply/places/assessor.h"
#include "analyzer/supply/places/promise.h"
#include "analyzer/supply/row_answers.h"

namespace farwater::supply {

// First the lay that likely gives most; then those that may be better than what was found, the one
// that promises most first, until none is left; but none that the first outdoes in everything
// (outdone.h). So a lay that is not worked out gives no better answer, and a further lay never
// takes away what another holds.
class LayTrials {
public:
    // `found`: where the best answer of the lays that were given out stands. Both must outlive it.
    LayTrials(const Assessor& assessor, const RowAnswers& found)
        : assessor_(assessor), found_(found) {}

    // Precondition: no settled answer, and nothing was asked yet.
    void add(std::size_t row);

    // The first lay of each row; its slot is the row's place among the answers.
    std::vector<Keyed> first(const Work& work);

    // The next lay of each row for which there is one; slots are counted from 0 on. Call after
    // first(), with its answers and those of the last call in `found`.
    std::vector<Keyed> next(const Work& work);

private:
    enum class Stage : std::uint8_t { untold, promised, outdone, given_out };

    Keyed keyed(std::size_t trial, std::size_t item, std::size_t slot, HeldFlow least = {}) const;
    bool is_wanted(const Promise& promise, const ParcelSupply& found) const;
    std::size_t most_likely(std::size_t trial) const;
    void ask_for(std::vector<Keyed> items, const Work& work);
    void drop_outdone(const Work& work);
    void drop_outdone(std::size_t trial);
    void ask_for_others(const Work& work);
    template <class Do>
    void for_each_left(std::size_t trial, const Do& look) const;
    std::size_t lay_of(std::size_t trial, std::size_t item) const { return item - first_[trial]; }

    const Assessor& assessor_;
    const RowAnswers& found_;
    std::vector<std::uint32_t> row_;
    // An item is a lay of a trial, in the row's order; those of a trial stand together.
    std::vector<std::size_t> first_{0};  // per trial, and one more: its first item
    std::vector<Promise> promised_;      // per item
    std::vector<Stage> stage_;           // likewise
    bool others_asked_ = false;
};

}  // namespace farwater::supply
