// What the tables [[improvement]] mean in a district that is read: their ids become places in its
// lists.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/improvement.h"
#include "analyzer/district/proposal.h"
#include "io/district_file.h"

namespace farwater::io {

// In the file's order; a name that the file does not give is empty. `places` are those that a new
// source may be made at; its cost goes where the table gives none. Throws SettingsError with a line
// for each id that the district does not have, and for what would change nothing: a road that is
// open all year, a bridge without a posting, aid that is not mutual, hose on what is no engine.
std::vector<Improvement> read_improvements(const DistrictFile& file, const District& district,
                                           std::span<const ProposedSource> places);

}  // namespace farwater::io
