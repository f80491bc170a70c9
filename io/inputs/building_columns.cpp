#include "io/inputs/building_columns.h"

#include <fmt/format.h>

#include "io/records/quantity_fields.h"

namespace farwater::io {
namespace {

float metres_or_none(std::optional<Length> length) {
    return length ? static_cast<float>(in_metres(*length)) : 0.0F;
}

void drop_eaves_above_roof(Record& record, BuildingTraits& traits) {
    if (traits.height_m > 0.0F && traits.eaves_m > traits.height_m) {
        record.report(ProblemId::building_heights_disagree, "eaves_ft",
                      fmt::format("{:.1f} ft over {:.1f} ft",
                                  in_feet(metres(static_cast<double>(traits.eaves_m))),
                                  in_feet(metres(static_cast<double>(traits.height_m)))));
        traits.eaves_m = 0.0F;
    }
}

}  // namespace

BuildingTraits traits_of_parcel(Record& record) {
    BuildingTraits traits;
    traits.use = record.known_word<BuildingUse>("use");
    traits.construction = record.known_word<Construction>("construction");
    traits.storeys = static_cast<float>(record.number("storeys").value_or(0.0));
    traits.hazard_class = static_cast<std::uint8_t>(record.whole("hazard_class").value_or(0));
    traits.sprinklers = record.known_word<Sprinklers>("sprinklers");
    return traits;
}

BuildingTraits traits_of_building(Record& record) {
    BuildingTraits traits = traits_of_parcel(record);
    traits.height_m = metres_or_none(length_field(record, "height_ft"));
    traits.eaves_m = metres_or_none(length_field(record, "eaves_ft"));
    drop_eaves_above_roof(record, traits);
    return traits;
}

}  // namespace farwater::io
