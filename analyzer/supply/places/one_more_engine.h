// What one more engine gains: one like the last that is there when the flow has to begin, and with
// it, with its pump, hose, tanks and crew (engines_at in arrivals.h says which). It may run a
// further fill site, the first one where nobody is left to, draft where only one engine comes, or
// stand in the line of a relay.
#pragma once

#include <vector>

#include "analyzer/parallel/work.h"
#include "analyzer/supply/assessment.h"
#include "analyzer/supply/places/assessor.h"
#include "analyzer/supply/row_answers.h"
#include "analyzer/supply/situation.h"

namespace farwater::supply {

class OneMoreEngine {
public:
    // All that is given must outlive it.
    OneMoreEngine(const Situation& situation, const std::vector<std::optional<Need>>& needs,
                  const std::vector<DriveTime>& first_arrivals);
    OneMoreEngine(const OneMoreEngine&) = delete;  // it holds on to its own situation
    OneMoreEngine& operator=(const OneMoreEngine&) = delete;
    ~OneMoreEngine() = default;

    // The lay behind a row's answer; call before hose from a source takes its place. None where the
    // answer is of no lay.
    std::optional<Keyed> lay_behind(std::size_t row, const ParcelSupply& supply) const;

    // Sets gain_engine of each row that was answered: what is held more, sustained, by the shuttle
    // over the same lay or by hose from a source; where that is the largest gain of a shuttle, its
    // limit is engines. Nothing where gains are not told, nor by terms of a rating, whose plans are
    // not chosen by flow. Worked out as if that engine came, but for cases in which it has nothing
    // to do or whose bound is no more than what is held. `lays`: of lay_behind, at most one a row.
    void add_gains(std::vector<Keyed> lays, RowAnswers& answers, const Work& work) const;

private:
    std::vector<HeldFlow> by_shuttle(std::vector<Keyed> lays, const RowAnswers& answers,
                                     const Work& work) const;
    std::vector<Keyed> with_use(const std::vector<Keyed>& lays, const RowAnswers& answers,
                                const Work& work) const;
    std::vector<Keyed> promising(std::vector<Keyed> lays, const RowAnswers& answers,
                                 const Work& work) const;
    HeldFlow by_hose(std::size_t row, const ParcelSupply& supply) const;

    Situation with_;
    Assessor assessor_;
    bool told_;  // what gains at all
};

}  // namespace farwater::supply
