#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "reports/explain/explanation.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {

void explain_gap(Duration gap, Flow attack, WorkedPage& page) {
    page.number("gap without water", in_minutes(gap), Digits::two, "min");
    if (gap > Duration{}) {
        const double printed = std::round(in_minutes(gap) * 100.0) / 100.0;
        page.sum("more on the first engines would bridge it",
                 fmt::format("{:.2f} min x {} gpm", printed, plain(attack)),
                 printed * in_gpm(attack), Digits::none, "gal",
                 "a second engine's tank, for instance");
    }
}

void explain_nurse_rate(const Unit& tanker, const Assumptions& assumptions, WorkedPage& page) {
    const Flow pump = tanker.pump.value_or(gpm(0));
    page.sum("its pump gives the engine",
             fmt::format("least({}, {})", plain(pump), plain(assumptions.nurse)),
             in_gpm(std::min(pump, assumptions.nurse)), Digits::none, "gpm",
             "its rating, and what a tanker pumps off");
}

}  // namespace farwater::reports
