#include "analyzer/app/next_source.h"

#include <utility>

#include <fmt/format.h>

#include "analyzer/app/pipes_to_water.h"
#include "analyzer/app/propose.h"
#include "io/error.h"

namespace farwater::app {

void check_places(const io::DistrictFile& file) {
    if (!file.layers.contains("proposals") && !file.layers.contains("mapped_water") &&
        file.assumptions.most_new_cisterns == 0) {
        throw io::SettingsError(fmt::format(
            "{}: there is no place to choose from: add [proposals] with your own places, or "
            "[mapped_water] with the water that is on the map, or let most_new_cisterns be more "
            "than 0",
            file.path.string()));
    }
}

std::optional<NextSource> choose_next_source(District district,
                                             std::vector<std::optional<Need>> needs,
                                             const io::DistrictFile& file,
                                             const io::ReadResult& read, ProposeOptions options,
                                             const Work& work, const StageBegins& begins) {
    options.terms = or_usual(std::move(options.terms), file.next_source.value_or(ChoiceTerms{}));
    std::optional<WhatIf> what_if = WhatIf::of(std::move(district), std::move(needs), work, begins);
    if (!what_if) {
        return std::nullopt;
    }
    begins("mapped water");
    const std::vector<RoadNearWater> pipes =
        pipes_to_water(what_if->district(), what_if->profiles(), file, read, work);
    auto findings = propose(*what_if, pipes, options, work, begins);
    if (!findings) {
        return std::nullopt;
    }
    return NextSource{std::move(*what_if), std::move(*findings)};
}

}  // namespace farwater::app
