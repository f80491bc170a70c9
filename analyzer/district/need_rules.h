// How the district wants to know what its properties need: [need] of the district file.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/standard.h"
#include "analyzer/district/words.h"

namespace farwater {

struct NeedRules {
    NeedMethod method = NeedMethod::column;
    SeparationTable separation_table = SeparationTable::older;  // of dwellings, rating schedule
    bool dwelling_cap = false;  // rural supply: early editions cap a dwelling's construction class
    BuildingUse default_use = BuildingUse::dwelling;  // where the data do not say
    Construction default_construction = Construction::type_5b;
    Standard standard;               // of the method; empty where it rests on none
    std::vector<std::string> given;  // keys that the district file gave

    bool works_on_buildings() const {
        return method != NeedMethod::column && method != NeedMethod::fixed;
    }
    bool is_given(std::string_view key) const {
        return std::ranges::find(given, key) != given.end();
    }
};

}  // namespace farwater
