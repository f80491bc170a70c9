// From an id in a record to the thing of the district that has it.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/problem.h"
#include "io/near_word.h"
#include "io/records/record.h"

namespace farwater::io {

inline constexpr auto id_of = [](const auto& thing) -> const std::string& { return thing.id; };
inline constexpr auto period_name = [](const auto& thing) -> const std::string& {
    return thing.name;
};

// The place in the list of the thing with this very id; not valid when there is none.
template <class Index, class Thing, class Key>
Index find_exactly(const std::vector<Thing>& things, const std::string& id, const Key& key) {
    const auto found = std::find_if(things.begin(), things.end(),
                                    [&](const Thing& thing) { return key(thing) == id; });
    return found == things.end() || id.empty()
               ? Index()
               : Index(static_cast<std::size_t>(found - things.begin()));
}

// The same, or else the only thing whose id is the same without regard to case, blanks,
// underscores and hyphens; not valid where two are.
template <class Index, class Thing, class Key>
Index find_in(const std::vector<Thing>& things, const std::string& id, const Key& key) {
    Index found = find_exactly<Index>(things, id, key);
    const std::string plain = plain_name(id);
    if (found.valid() || plain.empty()) {
        return found;
    }
    for (std::size_t i = 0; i < things.size(); ++i) {
        if (plain_name(key(things[i])) == plain) {
            if (found.valid()) {
                return {};
            }
            found = Index(i);
        }
    }
    return found;
}

// What `field` refers to; not valid when it is blank or, with a problem, when it names nothing.
template <class Index, class Thing, class Key>
Index refer(Record& record, std::string_view field, const std::vector<Thing>& things,
            const Key& key, ProblemId unknown) {
    const std::string id = record.text(field);
    const Index index = find_in<Index>(things, id, key);
    if (!index.valid() && !id.empty()) {
        record.report(unknown, field, "\"" + id + "\"");
    }
    return index;
}

}  // namespace farwater::io
