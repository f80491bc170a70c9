// A time of the incident run that remembers how it depends on the flow drawn: fixed minutes plus
// gallons over that flow. Sums and maxima keep the form, so one run at one flow gives the exact
// times for every flow that leaves the order of events as it is.
//
// Inside the run quantities are plain numbers: minutes since the alarm, US gallons, gpm.
#pragma once

namespace farwater::supply::run {

struct Moment {
    double fixed = 0.0;    // minutes
    double gallons = 0.0;  // that have to be drawn meanwhile
    double at = 0.0;       // minutes, at the flow of this run: fixed + gallons / flow

    static constexpr Moment at_minute(double minute) { return {minute, 0.0, minute}; }
    // When so many gallons are drawn from `start` on.
    static constexpr Moment after_drawing(double gallons, double flow, double start) {
        return {start, gallons, start + gallons / flow};
    }
};

// The same minute to the last bit and nothing else, for runs of which only that is asked: they take
// half the time.
struct Minute {
    double at = 0.0;

    static constexpr Minute at_minute(double minute) { return {minute}; }
    static constexpr Minute after_drawing(double gallons, double flow, double start) {
        return {start + gallons / flow};
    }
};

constexpr Moment operator+(Moment moment, double minutes) {
    return {moment.fixed + minutes, moment.gallons, moment.at + minutes};
}
constexpr Minute operator+(Minute minute, double minutes) { return {minute.at + minutes}; }

// Number by number, so that they stay in registers: a choice between two whole moments goes through
// memory and waits for it, a fifth of a run.
constexpr Moment one_of(bool second, Moment a, Moment b) {
    return {second ? b.fixed : a.fixed, second ? b.gallons : a.gallons, second ? b.at : a.at};
}
constexpr Minute one_of(bool second, Minute a, Minute b) { return {second ? b.at : a.at}; }

// `Time` is one of the two, here and in the rest of the run.
template <class Time>
constexpr Time later(Time a, Time b) {
    return one_of(b.at > a.at, a, b);
}
template <class Time>
constexpr Time earlier(Time a, Time b) {
    return one_of(b.at < a.at, a, b);
}

}  // namespace farwater::supply::run
