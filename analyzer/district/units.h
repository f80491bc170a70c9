// Physical quantities as types, so that feet cannot be added to minutes and no bare number with a
// meaning crosses a header. A quantity is built by a function that names the unit and read back by
// one that does: `feet(300)`, `in_feet(length)`.
//
// Inside, each quantity is one double in the base unit named beside its type. Conversion factors
// stand here only, and are exact but for the weight of water: 1 ft = 0.3048 m and 1 mi = 1609.344 m
// (international foot, 1959), 1 US survey foot = 1200/3937 m (Mendenhall order, 1893), 1 acre =
// 43,560 square feet, 1 US gal = 231 cubic inches, 1 short ton = 2,000 lb, 1 kg = 1/0.45359237 lb.
#pragma once

#include <compare>
#include <cstdint>

namespace farwater {

// One double of one dimension: addition, scaling, comparison; quantity / quantity is a number.
template <class Dimension>
class Quantity {
public:
    constexpr Quantity() = default;

    // For the named builders below; everything else builds by unit.
    static constexpr Quantity from_base(double value) { return Quantity(value); }
    constexpr double in_base() const { return value_; }

    friend constexpr auto operator<=>(Quantity, Quantity) = default;
    friend constexpr Quantity operator+(Quantity a, Quantity b) {
        return Quantity(a.value_ + b.value_);
    }
    friend constexpr Quantity operator-(Quantity a, Quantity b) {
        return Quantity(a.value_ - b.value_);
    }
    friend constexpr Quantity operator-(Quantity a) { return Quantity(-a.value_); }
    friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.value_ * k); }
    friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(a.value_ * k); }
    friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.value_ / k); }
    friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }
    constexpr Quantity& operator+=(Quantity b) { return *this = *this + b; }
    constexpr Quantity& operator-=(Quantity b) { return *this = *this - b; }

private:
    constexpr explicit Quantity(double value) : value_(value) {}
    double value_ = 0.0;
};

using Length = Quantity<struct LengthDimension>;                  // base: metre
using Area = Quantity<struct AreaDimension>;                      // base: acre
using Duration = Quantity<struct DurationDimension>;              // base: minute
using Volume = Quantity<struct VolumeDimension>;                  // base: US gallon
using Flow = Quantity<struct FlowDimension>;                      // base: US gallon per minute
using Speed = Quantity<struct SpeedDimension>;                    // base: mile per hour
using Weight = Quantity<struct WeightDimension>;                  // base: pound
using Power = Quantity<struct PowerDimension>;                    // base: horsepower (550 ft lb/s)
using WeightPerPower = Quantity<struct WeightPerPowerDimension>;  // base: pound per horsepower

inline constexpr double metres_per_foot = 0.3048;
inline constexpr double metres_per_mile = 1609.344;
inline constexpr double metres_per_us_survey_foot = 1200.0 / 3937.0;
inline constexpr double square_metres_per_square_foot = metres_per_foot * metres_per_foot;
inline constexpr double square_feet_per_acre = 43560.0;
inline constexpr double square_metres_per_acre =
    square_feet_per_acre * square_metres_per_square_foot;
inline constexpr double gallons_per_cubic_foot = 1728.0 / 231.0;
// A column of water of 62.43 lb per cubic foot (fresh, at 39 F; handbooks of physics), over 144
// square inches. Handbooks of the trade round it to 0.433 or 0.434, and its inverse to 2.31 ft.
inline constexpr double psi_per_foot_of_water = 0.4335;
inline constexpr double pounds_per_kilogram = 1.0 / 0.45359237;

constexpr Length metres(double value) { return Length::from_base(value); }
constexpr Length feet(double value) { return Length::from_base(value * metres_per_foot); }
constexpr Length miles(double value) { return Length::from_base(value * metres_per_mile); }
constexpr double in_metres(Length length) { return length.in_base(); }
constexpr Length inches(double value) { return feet(value / 12.0); }
constexpr double in_inches(Length length) { return length.in_base() / metres_per_foot * 12.0; }
constexpr double in_feet(Length length) { return length.in_base() / metres_per_foot; }
constexpr double in_miles(Length length) { return length.in_base() / metres_per_mile; }

constexpr Area acres(double value) { return Area::from_base(value); }
constexpr double in_acres(Area area) { return area.in_base(); }

constexpr Duration minutes(double value) { return Duration::from_base(value); }
constexpr Duration seconds(double value) { return Duration::from_base(value / 60.0); }
constexpr double in_minutes(Duration duration) { return duration.in_base(); }
constexpr double in_seconds(Duration duration) { return duration.in_base() * 60.0; }

constexpr Volume gallons(double value) { return Volume::from_base(value); }
constexpr double in_gallons(Volume volume) { return volume.in_base(); }

constexpr Flow gpm(double value) { return Flow::from_base(value); }
constexpr double in_gpm(Flow flow) { return flow.in_base(); }

constexpr Speed mph(double value) { return Speed::from_base(value); }
constexpr double in_mph(Speed speed) { return speed.in_base(); }

constexpr Weight pounds(double value) { return Weight::from_base(value); }
constexpr Weight short_tons(double value) { return Weight::from_base(value * 2000.0); }
constexpr Weight tonnes(double value) {
    return Weight::from_base(value * 1000.0 * pounds_per_kilogram);
}
constexpr double in_pounds(Weight weight) { return weight.in_base(); }
inline constexpr Weight water_per_gallon = pounds(8.34);

constexpr Power horsepower(double value) { return Power::from_base(value); }
constexpr double in_horsepower(Power power) { return power.in_base(); }

constexpr WeightPerPower pounds_per_horsepower(double value) {
    return WeightPerPower::from_base(value);
}
constexpr double in_pounds_per_horsepower(WeightPerPower burden) { return burden.in_base(); }
constexpr WeightPerPower operator/(Weight weight, Power power) {
    return pounds_per_horsepower(in_pounds(weight) / in_horsepower(power));
}

constexpr Volume operator*(Flow flow, Duration duration) {
    return gallons(in_gpm(flow) * in_minutes(duration));
}
constexpr Volume operator*(Duration duration, Flow flow) { return flow * duration; }
constexpr Flow operator/(Volume volume, Duration duration) {
    return gpm(in_gallons(volume) / in_minutes(duration));
}
constexpr Duration operator/(Volume volume, Flow flow) {
    return minutes(in_gallons(volume) / in_gpm(flow));
}
constexpr Duration operator/(Length length, Speed speed) {
    return minutes(in_miles(length) / in_mph(speed) * 60.0);
}

// Drive time as routing counts it: a whole number of tenths of a second, so that sums are exact
// and results do not depend on the order of addition. Not a Quantity: it has no fractions.
enum class DriveTime : std::int32_t {};

inline constexpr DriveTime no_time{INT32_MAX};  // "there is no way"; larger than every real time

constexpr DriveTime tenths_of_second(std::int32_t value) { return DriveTime{value}; }
constexpr std::int32_t in_tenths(DriveTime time) { return static_cast<std::int32_t>(time); }
constexpr Duration duration_of(DriveTime time) { return minutes(in_tenths(time) / 600.0); }
constexpr bool reachable(DriveTime time) { return time != no_time; }
// No way plus anything is no way. Precondition: two ways together are shorter than no_time.
constexpr DriveTime operator+(DriveTime a, DriveTime b) {
    return reachable(a) && reachable(b) ? DriveTime{in_tenths(a) + in_tenths(b)} : no_time;
}

// A flow that was proved to hold: a whole number of tenths of a gpm. It holds at this value and
// not at one tenth more, so the answer does not depend on where a solver started.
enum class HeldFlow : std::int32_t {};

constexpr HeldFlow tenths_of_gpm(std::int32_t value) { return HeldFlow{value}; }
constexpr std::int32_t in_tenths(HeldFlow flow) { return static_cast<std::int32_t>(flow); }
constexpr Flow flow_of(HeldFlow flow) { return gpm(in_tenths(flow) / 10.0); }
// Rounded down, with 1e-7 relative room for binary fractions: 0.3 gpm is 3 tenths. Flows beyond
// 214 million gpm are that; what is no number, or less than that below nothing, is none.
constexpr HeldFlow held(Flow flow) {
    constexpr double most = INT32_MAX;
    const double tenths = in_gpm(flow) * 10.0 * (1.0 + 1e-7) + 1e-7;
    if (tenths >= most) {
        return HeldFlow{INT32_MAX};
    }
    return HeldFlow{tenths > -most ? static_cast<std::int32_t>(tenths) : 0};
}

}  // namespace farwater
