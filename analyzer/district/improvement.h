// What money, a handshake or a plough could change about a district: one thing to buy, build, agree
// or staff, and what it costs.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "analyzer/district/apparatus.h"
#include "analyzer/district/ids.h"
#include "analyzer/district/units.h"
#include "analyzer/district/water.h"
#include "analyzer/district/words.h"

namespace farwater {

enum class ImprovementKind : std::uint8_t {
    tanker,
    portable_tank,
    siphon,
    hose,
    fill_engine,
    offload,
    automatic_aid,
    winter_access,
    bridge,
    staffing,
    source,
};
std::span<const std::string_view> words_of(ImprovementKind);
inline std::string_view word(ImprovementKind kind) {
    return words_of(kind)[static_cast<std::size_t>(kind)];
}

// Further tankers or engines. What is not said is as on the unit that they are like; without one it
// is not known, and stands for its default.
struct MoreUnits {
    UnitKind kind = UnitKind::tanker;
    StationIndex station;
    UnitIndex like;  // with the same crew in each period, sent where it is sent; not valid: none
    std::optional<Volume> tank;
    std::optional<Flow> pump, fill_limit, offload;
    int count = 1;
};

// More on a unit that is there.
struct MorePortableTanks {
    UnitIndex unit;
    Volume each;
    int count = 1;
};
struct MoreSiphons {
    UnitIndex unit;
    int count = 1;
};
struct MoreHose {
    UnitIndex unit;
    Length HoseLoad::* size = nullptr;  // of which diameter
    Length length;
};
struct FasterOffload {
    UnitIndex unit;
    Flow offload;
    std::optional<bool> backs;  // none = as before
};

// Mutual aid that comes at the alarm, without being asked for.
struct AutomaticAid {
    std::vector<UnitIndex> units;
};

struct SourceInWinter {
    SourceIndex source;
};
struct RoadsKeptOpen {
    std::vector<RoadIndex> roads;
};
struct PostingLifted {
    std::vector<RoadIndex> roads;
    std::optional<Weight> limit;  // the new one; none = no posting
};

// Of a period. What is not given stays as it is.
struct MorePeople {
    PeriodIndex period;
    std::vector<UnitIndex> units;
    std::optional<int> crew;
    std::optional<Duration> turnout;
};

struct NewSource {
    WaterSource source;
};

using ImprovedThing =
    std::variant<MoreUnits, MorePortableTanks, MoreSiphons, MoreHose, FasterOffload, AutomaticAid,
                 SourceInWinter, RoadsKeptOpen, PostingLifted, MorePeople, NewSource>;

// In the user's money; none = not known.
struct Spending {
    std::optional<double> cost, life_years, upkeep_per_year;

    // Cost spread over its life, and upkeep. None where a part is not known; what costs nothing
    // needs no life.
    std::optional<double> per_year() const;
};

// Where an improvement comes from.
enum class OfferedBy : std::uint8_t { officer, proposals, program };
std::span<const std::string_view> words_of(OfferedBy);
inline std::string_view word(OfferedBy by) { return words_of(by)[static_cast<std::size_t>(by)]; }

struct Improvement {
    std::string name;
    ImprovementKind kind = ImprovementKind::tanker;
    ImprovedThing thing;
    Spending spending;
    OfferedBy by = OfferedBy::officer;
    std::string to_prove;  // more than its kind asks for; empty: nothing
};

}  // namespace farwater
