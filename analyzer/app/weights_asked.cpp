#include "analyzer/app/weights_asked.h"

#include <fmt/format.h>

#include "io/error.h"

namespace farwater::app {

planning::Weights weights_asked(const District& district, std::optional<WeighBy> asked) {
    const WeighBy by = asked.value_or(WeighBy::parcels);
    planning::Weights weights = planning::weights_by(by, district);
    if (weights.all_nothing()) {
        throw io::SettingsError(fmt::format(
            "no property has a {} to weigh by: map its column in [parcels], or weigh by parcels",
            by == WeighBy::building_area ? "building with an area" : word(by)));
    }
    return weights;
}

}  // namespace farwater::app
