// What a property counts for, as it was asked on the command line.
#pragma once

#include "analyzer/district/district.h"
#include "analyzer/planning/weights.h"

namespace farwater::app {

// Throws SettingsError where no property has such a figure.
planning::Weights weights_asked(const District& district, WeighBy by);

}  // namespace farwater::app
