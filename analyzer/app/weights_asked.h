// What a property counts for, as it was asked.
#pragma once

#include <optional>

#include "analyzer/district/district.h"
#include "analyzer/planning/weights.h"

namespace farwater::app {

// None: each counts once. Throws SettingsError where no property has such a figure.
planning::Weights weights_asked(const District& district, std::optional<WeighBy> by);

}  // namespace farwater::app
