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

constexpr Moment later(Moment a, Moment b) { return b.at > a.at ? b : a; }
constexpr Moment earlier(Moment a, Moment b) { return b.at < a.at ? b : a; }

}  // namespace farwater::supply::run
