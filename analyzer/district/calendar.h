// When things hold: months of the year, seasons, periods of the week, alarm levels, dates.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/units.h"
#include "analyzer/district/words.h"

namespace farwater {

using Date = std::chrono::year_month_day;

// Whole months from one date to a later one; 0 when `later` is not later.
constexpr int months_between(Date earlier, Date later) {
    const auto months = (later.year() / later.month()) - (earlier.year() / earlier.month());
    const int whole = static_cast<int>(months.count()) - (later.day() < earlier.day() ? 1 : 0);
    return whole > 0 ? whole : 0;
}

class MonthSet {
public:
    constexpr MonthSet() = default;  // no month
    static constexpr MonthSet all() { return MonthSet{0x0fffU}; }
    constexpr void include(std::chrono::month month) {
        bits_ |= static_cast<std::uint16_t>(1U << (static_cast<unsigned>(month) - 1U));
    }
    constexpr bool contains(std::chrono::month month) const {
        return ((bits_ >> (static_cast<unsigned>(month) - 1U)) & 1U) != 0;
    }
    constexpr bool empty() const { return bits_ == 0; }
    constexpr MonthSet in_common(MonthSet other) const {
        return MonthSet{static_cast<unsigned>(bits_ & other.bits_)};
    }
    constexpr MonthSet without(MonthSet other) const {
        return MonthSet{static_cast<unsigned>(bits_ & ~other.bits_)};
    }
    constexpr MonthSet together(MonthSet other) const {
        return MonthSet{static_cast<unsigned>(bits_ | other.bits_)};
    }
    constexpr bool covers(MonthSet other) const { return (other.bits_ & ~bits_) == 0; }
    friend constexpr bool operator==(MonthSet, MonthSet) = default;

private:
    constexpr explicit MonthSet(unsigned bits) : bits_(static_cast<std::uint16_t>(bits)) {}
    std::uint16_t bits_ = 0;
};

// "Apr to Nov", "Jan, Oct to Dec" as "Oct to Jan", "all year"; empty for no month.
std::string month_words(MonthSet months);

// A season: what the roads and the water are like.
struct Season {
    std::string name;
    MonthSet months = MonthSet::all();
    double speed_factor = 1.0;  // on every speed; never raises it above the posted limit
    Duration extra_setup;       // added to every set-up
    bool ice = false;           // open-water draft sites without freeze provision are out
    std::vector<RoadAccess> closed_access;  // roads of these kinds are closed
    std::vector<SourceKind> sources_out;    // sources of these kinds do not count
};

// The months that any of them holds, and those that more than one does.
struct MonthsCovered {
    MonthSet once, twice;
};
MonthsCovered months_covered(const std::vector<Season>& seasons);

// A period of the week: who is there. Rows of the staffing table name it.
struct Period {
    std::string name;
    std::optional<Duration> turnout_staffed;  // none = the assumption's value
    std::optional<Duration> turnout_volunteer;
};

// Each season is judged with each period; answers keep their variant in 8 bits.
inline constexpr std::size_t most_variants = 256;

}  // namespace farwater
