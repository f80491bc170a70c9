// Fields of a record as quantities. The unit is that of the field's name; none = not known.
#pragma once

#include <optional>
#include <string_view>

#include "analyzer/district/units.h"
#include "io/records/record.h"

namespace farwater::io {

inline std::optional<Length> length_field(Record& record, std::string_view field_ft) {
    const std::optional<double> value = record.number(field_ft);
    return value ? std::optional(feet(*value)) : std::nullopt;
}
inline std::optional<Length> bore_field(Record& record, std::string_view field_in) {
    const std::optional<double> value = record.number(field_in);
    return value ? std::optional(inches(*value)) : std::nullopt;
}
inline std::optional<Area> area_field(Record& record, std::string_view field_acre) {
    const std::optional<double> value = record.number(field_acre);
    return value ? std::optional(acres(*value)) : std::nullopt;
}
inline std::optional<Duration> duration_field(Record& record, std::string_view field_min) {
    const std::optional<double> value = record.number(field_min);
    return value ? std::optional(minutes(*value)) : std::nullopt;
}
inline std::optional<Volume> volume_field(Record& record, std::string_view field_gal) {
    const std::optional<double> value = record.number(field_gal);
    return value ? std::optional(gallons(*value)) : std::nullopt;
}
inline std::optional<Flow> flow_field(Record& record, std::string_view field_gpm) {
    const std::optional<double> value = record.number(field_gpm);
    return value ? std::optional(gpm(*value)) : std::nullopt;
}
inline std::optional<Speed> speed_field(Record& record, std::string_view field_mph) {
    const std::optional<double> value = record.number(field_mph);
    return value ? std::optional(mph(*value)) : std::nullopt;
}
inline std::optional<Weight> weight_field(Record& record, std::string_view field_lb) {
    const std::optional<double> value = record.number(field_lb);
    return value ? std::optional(pounds(*value)) : std::nullopt;
}
inline std::optional<Power> power_field(Record& record, std::string_view field_hp) {
    const std::optional<double> value = record.number(field_hp);
    return value ? std::optional(horsepower(*value)) : std::nullopt;
}

// Of road data: the cell may carry its own unit, "65 mph" or "12'6\"".
inline std::optional<Length> length_measure(Record& record, std::string_view field_ft) {
    const std::optional<double> value = record.measure(field_ft);
    return value ? std::optional(feet(*value)) : std::nullopt;
}
inline std::optional<Speed> speed_measure(Record& record, std::string_view field_mph) {
    const std::optional<double> value = record.measure(field_mph);
    return value ? std::optional(mph(*value)) : std::nullopt;
}
inline std::optional<Weight> weight_measure(Record& record, std::string_view field_lb) {
    const std::optional<double> value = record.measure(field_lb);
    return value ? std::optional(pounds(*value)) : std::nullopt;
}

}  // namespace farwater::io
