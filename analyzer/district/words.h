// The closed lists of words that data may hold, each with its spelling. A word that is not in its
// list is a problem, never a guess.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace farwater {

enum class RoadClass : std::uint8_t { state, paved, paved_lane, gravel, narrow, drive };
enum class RoadAccess : std::uint8_t { open, private_road, gated, unmaintained, closed };
enum class OneWay : std::uint8_t { both, forward, backward };
enum class LaneClass : std::uint8_t { through, dead_end };
enum class Surface : std::uint8_t { paved, gravel };

// Which rule turns roads into minutes (routing/driving/travel_rule.h).
enum class TravelTime : std::uint8_t { road_speeds, linear_per_leg, linear_per_round_trip };

enum class SourceKind : std::uint8_t { hydrant, dry_hydrant, draft_site, cistern };
// Bonnet colours of the classes by flow at 20 psi, and what a pipe is made of.
enum class HydrantColour : std::uint8_t { blue, green, orange, red };
enum class PipeMaterial : std::uint8_t { plastic, steel, cement_lined, old_iron };

// Which formula counts the friction of suction pipes (hydraulics/suction.h).
enum class SuctionFriction : std::uint8_t { conservative, manning, hazen_williams };

// What the rate of a source rests on, or what keeps it down.
enum class RateLimit : std::uint8_t {
    stated,     // its rate, tested or declared
    flow_test,  // a hydrant's test, at the residual pressure that is planned for
    colour,     // low end of the marked class
    main,       // a weak main, or one of which nothing is known
    standard,   // the planning default
    suction,    // lift, pipe and strainer
    pump,       // the rating of the pump, at that lift
    portable_pump,
    system,  // what the whole water system gives
};

enum class Standing : std::uint8_t { mapped, declared, tested };  // ascending trust
enum class SourceUse : std::uint8_t { operations, rating, own_parcel };
enum class Reach : std::uint8_t { engine, portable_pump };

// What a property counts for when places of new sources are chosen.
enum class WeighBy : std::uint8_t { parcels, building_area, value, people };

// The weakest input that an answer rests on.
enum class Evidence : std::uint8_t { assumed, declared, tested };  // ascending trust

// Which rule tells what a property needs, and what the rules ask of a building.
enum class NeedMethod : std::uint8_t { column, fixed, rural_supply, rating_schedule, fire_code };
enum class SeparationTable : std::uint8_t { older, newer };
enum class BuildingUse : std::uint8_t {
    dwelling,  // of one or two families
    manufactured_home,
    apartments,
    lodging,
    care,
    school,
    office,
    municipal,
    church,
    assembly,
    restaurant,
    store,
    repair_garage,
    parking_garage,
    warehouse,
    barn,
    farm_storage,
    light_industry,
    industry,
    woodworking,
    flammables,
    outbuilding,
    unoccupied,
};
enum class Construction : std::uint8_t {  // the building code's types
    type_1a,
    type_1b,
    type_2a,
    type_2b,
    type_3a,
    type_3b,
    type_4,
    type_5a,
    type_5b,
};
enum class Sprinklers : std::uint8_t { none, nfpa_13, nfpa_13r, nfpa_13d };
// How sure a published number is.
enum class Certainty : std::uint8_t {
    seen,         // in the document named
    second_hand,  // in a text that quotes it
    memory_high,
    memory_medium,
    memory_low,
    derived,   // computed, or our own choice
    own_copy,  // the district's, from its own copy of the standard
};

// Which terms of insurance rating, when their clock starts, how their rule of travel is used, and
// whether they ask for a thing.
enum class RatingTerms : std::uint8_t {
    schedule,
    schedule_8b,
    tender_credit,
    shuttle_accreditation
};
enum class ClockStart : std::uint8_t { alarm, first_arrival, parking_brake };
enum class DriveRule : std::uint8_t { round_trip, each_leg };
enum class Asked : std::uint8_t { not_needed, needed };

enum class UnitKind : std::uint8_t { engine, tanker, other };
enum class Aid : std::uint8_t { own, automatic, mutual };

enum class SupplyState : std::uint8_t {
    unknown,
    no_building,
    unreached,
    held,
    late,
    short_flow,
    tank_only
};
enum class SupplyMode : std::uint8_t { none, direct, relay, shuttle };
enum class Margin : std::uint8_t { none, thin, firm };
enum class Limit : std::uint8_t {
    none,
    fleet,
    fill_site,
    source_volume,
    source_hydraulics,
    draft,
    storage,
    transfer,
    road_room,
    offload,
    supply_line,
    hose,
    engines,
    readiness,
    crew,
    no_dump_site,
    no_route,
    no_source,
};

// The word for each value, and the value for a word (letters as spelled; none if not in the list).
// Defined for every enum above: `word(RoadClass::state)` is "state"; `SupplyState::short_flow` is
// "short".

// NOLINTNEXTLINE(cppcoreguidelines-macro-usage): declares functions, which a template cannot
#define FARWATER_WORDS(Enum)                                     \
    std::span<const std::string_view> words_of(Enum);            \
    inline std::string_view word(Enum value) {                   \
        return words_of(value)[static_cast<std::size_t>(value)]; \
    }
FARWATER_WORDS(RoadClass)
FARWATER_WORDS(RoadAccess)
FARWATER_WORDS(OneWay)
FARWATER_WORDS(LaneClass)
FARWATER_WORDS(Surface)
FARWATER_WORDS(TravelTime)
FARWATER_WORDS(SourceKind)
FARWATER_WORDS(HydrantColour)
FARWATER_WORDS(PipeMaterial)
FARWATER_WORDS(SuctionFriction)
FARWATER_WORDS(RateLimit)
FARWATER_WORDS(Standing)
FARWATER_WORDS(SourceUse)
FARWATER_WORDS(Reach)
FARWATER_WORDS(WeighBy)
FARWATER_WORDS(Evidence)
FARWATER_WORDS(NeedMethod)
FARWATER_WORDS(SeparationTable)
FARWATER_WORDS(BuildingUse)
FARWATER_WORDS(Construction)
FARWATER_WORDS(Sprinklers)
FARWATER_WORDS(Certainty)
FARWATER_WORDS(RatingTerms)
FARWATER_WORDS(ClockStart)
FARWATER_WORDS(DriveRule)
FARWATER_WORDS(Asked)
FARWATER_WORDS(UnitKind)
FARWATER_WORDS(Aid)
FARWATER_WORDS(SupplyState)
FARWATER_WORDS(SupplyMode)
FARWATER_WORDS(Margin)
FARWATER_WORDS(Limit)
#undef FARWATER_WORDS

template <class Enum>
std::optional<Enum> parse_word(std::string_view text) {
    const std::span<const std::string_view> words = words_of(Enum{});
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (words[i] == text) {
            return static_cast<Enum>(i);
        }
    }
    return std::nullopt;
}

}  // namespace farwater
