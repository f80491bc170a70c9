// Problems of one stage behind those of the stages before.
#pragma once

#include <iterator>
#include <vector>

#include "analyzer/district/problem.h"

namespace farwater::app {

inline void add(std::vector<Problem>& problems, std::vector<Problem> more) {
    problems.insert(problems.end(), std::make_move_iterator(more.begin()),
                    std::make_move_iterator(more.end()));
}

}  // namespace farwater::app
