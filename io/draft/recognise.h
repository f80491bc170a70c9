// What the layers of a folder most likely are.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "io/draft/find_data.h"
#include "io/draft/layer_look.h"
#include "io/draft/match_columns.h"

namespace farwater::io {

// A layer taken for a section.
struct Candidate {
    const LayerLook* look = nullptr;
    SectionMatch match;
    int points = 0;
    std::vector<std::string> lacks;  // what it cannot be read without, a clause each

    bool usable() const { return lacks.empty(); }
};

// A table that shares a key with the parcels.
struct JoinCandidate {
    const LayerLook* look = nullptr;
    std::string key;
    std::string parcel_key;            // empty = the column of parcel_id
    std::vector<ColumnMatch> columns;  // fields of parcels that the parcels have not
    std::vector<ColumnMatch> likely;   // likewise, not sure
    bool sure = false;                 // keys of both samples are the same
};

struct Recognised {
    // By section, the best one first; those behind it could be the same thing.
    std::map<std::string, std::vector<Candidate>, std::less<>> sections;
    std::vector<JoinCandidate> joins;
    std::vector<const RasterLook*> elevation;  // likewise, the best one first
    std::vector<PassedOver> left_out;

    const Candidate* best(std::string_view section) const;  // null: none
};

// Why of two layers of a section the first is taken: a clause.
std::string why_taken(const Candidate& taken, const Candidate& other);
bool told_apart(const Candidate& taken, const Candidate& other);  // by anything but their order

// Goes by shape, then columns and sizes, then the name as the last hint. A layer that fits nothing,
// or two sections as well, is left out and told; so is one that has no ground in common with the
// parcels. Both lists must outlive what comes back. O(layers x sections x columns).
Recognised recognise(const std::vector<LayerLook>& layers, const std::vector<RasterLook>& rasters);

}  // namespace farwater::io
