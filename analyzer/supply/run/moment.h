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
};

constexpr Moment at_minute(double minute) { return {minute, 0.0, minute}; }

constexpr Moment operator+(Moment moment, double minutes) {
    return {moment.fixed + minutes, moment.gallons, moment.at + minutes};
}

// Number by number, so that they stay in registers: a choice between two whole moments goes through
// memory and waits for it, a fifth of a run.
constexpr Moment one_of(bool second, Moment a, Moment b) {
    return {second ? b.fixed : a.fixed, second ? b.gallons : a.gallons, second ? b.at : a.at};
}
constexpr Moment later(Moment a, Moment b) { return one_of(b.at > a.at, a, b); }
constexpr Moment earlier(Moment a, Moment b) { return one_of(b.at < a.at, a, b); }

}  // namespace farwater::supply::run
