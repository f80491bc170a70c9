#include "analyzer/planning/exact_choice.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <coin/CbcModel.hpp>
#include <coin/CoinPackedMatrix.hpp>
#include <coin/OsiClpSolverInterface.hpp>

#include "analyzer/planning/cover_levels.h"

namespace farwater::planning {
namespace {

constexpr double share_not_told_apart = 1e-7;  // of a gain, by the solver's doubles
constexpr double usual_gain = 1e6;             // that the solver's tolerances are made for
constexpr double integer_enough = 0.5;

// Columns: one per site, built or not, then one per level, covered or not; levels follow the sites
// by themselves. It looks for the least, so gains are turned round.
class CoverProgram {
public:
    CoverProgram(const ChoiceProblem& problem, double scale) : problem_(problem) {
        solver_.messageHandler()->setLogLevel(0);
        solver_.getModelPtr()->setLogLevel(0);
        solver_.setHintParam(OsiDoPresolveInInitial, true);
        add(cover_levels(problem), scale);
    }

    OsiClpSolverInterface& solver() { return solver_; }

    Sites sites_of(const double* solution) const {
        Sites sites;
        for (std::uint32_t site = 0; site < problem_.candidates(); ++site) {
            if (solution[site] > integer_enough) {
                sites.push_back(site);
            }
        }
        return sites;
    }

private:
    void add(const CoverLevels& levels, double scale) {
        const std::size_t sites = problem_.candidates();
        const auto columns = static_cast<int>(sites + levels.size());
        std::vector<double> objective(static_cast<std::size_t>(columns), 0.0);
        std::vector<double> low(static_cast<std::size_t>(columns), 0.0);
        std::vector<double> high(static_cast<std::size_t>(columns), 1.0);
        for (std::size_t site = 0; site < sites; ++site) {
            low[site] = problem_.rulings[site] == Ruling::planned ? 1.0 : 0.0;
            high[site] = problem_.rulings[site] == Ruling::ruled_out ? 0.0 : 1.0;
        }
        CoinPackedMatrix rows(false, 0, 0);
        rows.setDimensions(0, columns);
        for (std::size_t level = 0; level < levels.size(); ++level) {
            objective[sites + level] = -scale * static_cast<double>(levels.worth[level]);
            rows.appendRow(row_of(levels, level));
        }
        std::vector<double> most(levels.size(), 0.0);
        add_limits(rows, most);
        const std::vector<double> least(most.size(), -COIN_DBL_MAX);
        solver_.loadProblem(rows, low.data(), high.data(), objective.data(), least.data(),
                            most.data());
        for (int site = 0; site < static_cast<int>(sites); ++site) {
            solver_.setInteger(site);
        }
    }

    // covered <= covered above + built of those that come on
    CoinPackedVector row_of(const CoverLevels& levels, std::size_t level) const {
        const std::size_t sites = problem_.candidates();
        CoinPackedVector row;
        for (const std::uint32_t site : levels.sites[level]) {
            row.insert(static_cast<int>(site), -1.0);
        }
        if (levels.above[level] != CoverLevels::none) {
            row.insert(static_cast<int>(sites + levels.above[level]), -1.0);
        }
        row.insert(static_cast<int>(sites + level), 1.0);
        return row;
    }

    void add_limits(CoinPackedMatrix& rows, std::vector<double>& most) const {
        CoinPackedVector number;
        CoinPackedVector spent;
        for (std::size_t site = 0; site < problem_.candidates(); ++site) {
            if (problem_.rulings[site] == Ruling::open) {
                number.insert(static_cast<int>(site), 1.0);
                spent.insert(static_cast<int>(site), static_cast<double>(problem_.costs[site]));
            }
        }
        if (problem_.most_sites < static_cast<std::size_t>(number.getNumElements())) {
            rows.appendRow(number);
            most.push_back(static_cast<double>(problem_.most_sites));
        }
        if (problem_.budget) {
            rows.appendRow(spent);
            most.push_back(static_cast<double>(*problem_.budget));
        }
    }

    const ChoiceProblem& problem_;
    OsiClpSolverInterface solver_;
};

// What two gains must differ by to be told apart, at least one.
double step_above(Gain gain) {
    return std::max(1.0, share_not_told_apart * static_cast<double>(gain));
}

// The number as a gain from `least` to `most`; `most` for what is no number. Cut before it is made
// whole: a bound that Cbc never found is beyond all whole numbers.
Gain gain_within(double value, Gain least, Gain most) {
    if (!(value < static_cast<double>(most))) {
        return most;
    }
    return value <= static_cast<double>(least) ? least : static_cast<Gain>(value);
}

// Runs Cbc; true when it came to an end.
bool solved(CbcModel& model, double least_to_find, double step, double seconds) {
    model.setLogLevel(0);
    model.setUseElapsedTime(true);
    model.setMaximumSeconds(seconds);
    model.setCutoff(least_to_find);
    model.setCutoffIncrement(step);
    model.branchAndBound();
    return model.status() == 0;
}

}  // namespace

ExactChoice exact_choice(const ChoiceProblem& problem, const Sites& known, Gain known_at_most,
                         double seconds) {
    ExactChoice choice{known, known_at_most, false};
    Gain gain = gain_of(problem, known);
    const double step = step_above(gain);
    if (static_cast<double>(known_at_most - gain) < step) {
        choice.proved = true;
        return choice;
    }
    const double scale = std::min(1.0, usual_gain / static_cast<double>(known_at_most));
    CoverProgram program(problem, scale);
    program.solver().getModelPtr()->setMaximumSeconds(seconds);
    program.solver().initialSolve();
    if (!program.solver().isProvenOptimal()) {
        return choice;
    }
    CbcModel model(program.solver());
    const double above_known = static_cast<double>(gain) + step / 2.0;
    const bool ended = solved(model, -scale * above_known, scale * step / 2.0, seconds);
    if (model.bestSolution() != nullptr) {
        Sites better = program.sites_of(model.bestSolution());
        if (gain_of(problem, better) > gain) {
            gain = gain_of(problem, better);
            choice.sites = std::move(better);
        }
    }
    const double bound = -model.getBestPossibleObjValue() / scale;
    const auto slack = static_cast<Gain>(step_above(gain)) - 1;
    choice.proved = ended;
    choice.at_most = ended ? std::min(known_at_most, gain + slack)
                           : gain_within(std::ceil(bound + step), gain, known_at_most);
    return choice;
}

}  // namespace farwater::planning
