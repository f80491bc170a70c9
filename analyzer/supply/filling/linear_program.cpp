#include "analyzer/supply/filling/linear_program.h"

#include <vector>

#include <coin/ClpSimplex.hpp>

namespace farwater::supply {
namespace {

constexpr int optimal = 0;

double bound_of(double most) { return most < COIN_DBL_MAX ? most : COIN_DBL_MAX; }

}  // namespace

struct LinearProgram::Model {
    ClpSimplex clp;
    bool loaded = false;
    std::vector<double> rows, gains, limits, amounts;
    std::vector<int> row_of;              // of each amount
    std::vector<CoinBigIndex> starts{0};  // of each column's amounts

    void load() {
        clp.setLogLevel(0);
        const std::vector<double> none(gains.size(), 0.0);
        const std::vector<double> least(rows.size(), -COIN_DBL_MAX);
        clp.loadProblem(static_cast<int>(gains.size()), static_cast<int>(rows.size()),
                        starts.data(), row_of.data(), amounts.data(), none.data(), limits.data(),
                        gains.data(), least.data(), rows.data());
        clp.setOptimizationDirection(-1.0);  // the largest
        loaded = true;
    }
};

LinearProgram::LinearProgram() : model_(std::make_unique<Model>()) {}
LinearProgram::~LinearProgram() = default;

std::size_t LinearProgram::add_row(double has) {
    model_->rows.push_back(bound_of(has));
    return model_->rows.size() - 1;
}

std::size_t LinearProgram::add_column(double gain, double most, std::span<const Use> uses) {
    for (const Use& use : uses) {
        model_->row_of.push_back(static_cast<int>(use.row));
        model_->amounts.push_back(use.amount);
    }
    model_->starts.push_back(static_cast<CoinBigIndex>(model_->amounts.size()));
    model_->gains.push_back(gain);
    model_->limits.push_back(bound_of(most));
    return model_->gains.size() - 1;
}

void LinearProgram::limit(std::size_t column, double most) {
    model_->limits[column] = bound_of(most);
    if (model_->loaded) {
        model_->clp.setColumnUpper(static_cast<int>(column), bound_of(most));
    }
}

double LinearProgram::solve() {
    if (model_->gains.empty()) {
        return 0.0;
    }
    if (model_->loaded) {
        model_->clp.dual();
    } else {
        model_->load();
        model_->clp.primal();
    }
    if (model_->clp.status() != optimal) {  // from the beginning, should the last basis mislead
        model_->load();
        model_->clp.primal();
    }
    return model_->clp.status() == optimal ? model_->clp.objectiveValue() : no_limit;
}

double LinearProgram::value(std::size_t column) const {
    return model_->clp.primalColumnSolution()[column];
}

}  // namespace farwater::supply
