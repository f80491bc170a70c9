// Fill sites and dump sites as a phone in the cab lists them: a name that is found, a note that
// helps.
#pragma once

#include "io/feature_table.h"
#include "reports/findings.h"

namespace farwater::reports {

// Points with the columns group, name, note and kind, as io/place_files.h takes them: the fill
// sites that count, then the dump sites in use and the officer's own. Neither owners, phones, codes
// nor notes of the data go in, for such files are handed on.
io::FeatureTable cab_places(const Findings& findings);

}  // namespace farwater::reports
