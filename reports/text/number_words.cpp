#include "reports/text/number_words.h"

#include <cmath>

#include <fmt/format.h>

namespace farwater::reports {

std::string in_thousands(double number) {
    const std::string digits = fmt::format("{:.0f}", std::round(number));
    std::string text;
    for (std::size_t i = 0; i < digits.size(); ++i) {
        const bool group = i > 0 && (digits.size() - i) % 3 == 0 && digits[i - 1] != '-';
        text += group ? "," : "";
        text += digits[i];
    }
    return text;
}

std::string gpm_in_words(Flow flow) { return in_thousands(in_gpm(flow)) + " gpm"; }

int planned_gpm(HeldFlow flow) {
    const int gpm = in_tenths(flow) / 10;
    const int step = gpm < 500 ? 25 : 50;
    return gpm / step * step;
}

int planned_gpm(HeldFlow flow, HeldFlow needed) {
    return flow >= needed ? std::max(planned_gpm(flow), in_tenths(needed) / 10) : planned_gpm(flow);
}

std::string day(std::optional<Date> date) {
    return date ? fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date->year()),
                              static_cast<unsigned>(date->month()),
                              static_cast<unsigned>(date->day()))
                : std::string();
}

}  // namespace farwater::reports
