#include "analyzer/district/calendar.h"

#include <array>
#include <string_view>

namespace farwater {
namespace {

constexpr std::array<std::string_view, 12> month_names{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

// `number` counts from 0, over the end of the year too.
bool holds(MonthSet months, unsigned number) {
    return months.contains(std::chrono::month(number % 12 + 1));
}

}  // namespace

std::string month_words(MonthSet months) {
    if (months == MonthSet::all()) {
        return "all year";
    }
    std::string words;
    for (unsigned first = 0; first < 12; ++first) {
        if (!holds(months, first) || holds(months, first + 11)) {
            continue;  // not the first of its row
        }
        unsigned last = first;
        while (holds(months, last + 1)) {
            ++last;
        }
        words += words.empty() ? "" : ", ";
        words += month_names[first];
        if (last > first) {
            words += last == first + 1 ? ", " : " to ";
            words += month_names[last % 12];
        }
    }
    return words;
}

MonthsCovered months_covered(const std::vector<Season>& seasons) {
    MonthsCovered covered;
    for (const Season& season : seasons) {
        covered.twice = covered.twice.together(covered.once.in_common(season.months));
        covered.once = covered.once.together(season.months);
    }
    return covered;
}

}  // namespace farwater
