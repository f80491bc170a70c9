// Whether a table without shapes belongs to the parcels.
#pragma once

#include <optional>

#include "io/draft/recognise.h"

namespace farwater::io {

// The columns by which table and parcels find each other, and what the parcels would get: those
// that hold the same values in both samples (sure), else those of the same name. Numbers that only
// count records are no key: they agree by chance. None: no key, or the table has shapes. The look
// must outlive what comes back.
std::optional<JoinCandidate> find_join(const LayerLook& table, const Candidate& parcels);

}  // namespace farwater::io
