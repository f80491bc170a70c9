// The columns that tell what a building is, of the buildings or of their parcels.
#pragma once

#include "analyzer/district/building.h"
#include "io/records/record.h"

namespace farwater::io {

// Of a record of [buildings] or of [parcels]. A word that is not in its list, a number that cannot
// be and eaves above the roof are problems of the record and not known.
BuildingTraits traits_of_building(Record& record);
BuildingTraits traits_of_parcel(Record& record);

}  // namespace farwater::io
