// The answer: for every parcel and target the flow that can be held, its state and what limits it.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "analyzer/district/ids.h"
#include "analyzer/district/maybe.h"
#include "analyzer/district/need.h"
#include "analyzer/district/problem.h"
#include "analyzer/district/units.h"
#include "analyzer/district/words.h"
#include "analyzer/supply/build_up.h"
#include "analyzer/supply/places/limits.h"

namespace farwater::supply {

// A moment or span in whole tenths of a minute, as results keep it.
enum class TenthsMinute : std::int32_t {};
constexpr std::int32_t in_tenths(TenthsMinute time) { return static_cast<std::int32_t>(time); }
constexpr Duration duration_of(TenthsMinute time) { return minutes(in_tenths(time) / 10.0); }
TenthsMinute rounded_up(Duration duration);

}  // namespace farwater::supply

template <>
struct farwater::NoneOf<farwater::supply::TenthsMinute> {
    static constexpr farwater::supply::TenthsMinute none() {
        return farwater::supply::TenthsMinute{INT32_MIN};
    }
    static constexpr bool is_none(farwater::supply::TenthsMinute time) { return time == none(); }
};

namespace farwater::supply {

// A flow in whole gpm, rounded down; as much as it can tell where it is more.
enum class WholeGpm : std::uint16_t {};
constexpr int in_gpm(WholeGpm flow) { return static_cast<int>(flow); }
WholeGpm rounded_down(HeldFlow flow);

// A fill site beside the first.
struct FurtherFill {
    SourceIndex source;  // not valid: there is none
    UnitIndex first_tanker;
    TenthsMinute round_trip{};  // its undisturbed legs, both ways
    std::uint8_t tankers = 0;   // that fill there
};

struct ParcelSupply {
    SupplyState state = SupplyState::unknown;
    Margin margin = Margin::none;
    Evidence evidence = Evidence::assumed;
    SupplyMode mode = SupplyMode::none;
    Limit limit = Limit::none;                // what sets the flow, or why there is none
    std::optional<ProblemId> reason;          // of state unknown
    std::uint8_t tankers = 0;                 // in the shuttle
    std::uint8_t tankers_at_fill = 0;         // of those that fill at fill_source
    SupplyMode runner_up = SupplyMode::none;  // the best other mode that was looked at

    HeldFlow needed{};
    HeldFlow sustained{};
    HeldFlow cautious{};        // the state is judged on it
    HeldFlow later{};           // cautious, from the late horizon on
    HeldFlow one_tanker_out{};  // cautious, without the tanker that is missed most and its tanks
    HeldFlow handbook{};
    // Cautious, if all tankers fill at one place; beside several places, with none that nurses.
    HeldFlow one_site{};
    HeldFlow runner_up_cautious{};
    TenthsMinute duration{};
    TenthsMinute single_file{};  // that a tanker has to itself each way before the dump site
    std::array<WholeGpm, build_up_minutes.size()> build_up{};  // cautious, from each of them on
    std::array<WholeGpm, relieved.size()> gains{};  // in sustained flow, by one more of each thing
    WholeGpm nursing_flow{};                        // cautious, with gap_nursing
    WholeGpm gain_engine{};  // in sustained flow, by one more engine (places/one_more_engine.h)
    std::uint16_t crew_needed = 0;     // for all jobs of the shuttle
    std::uint16_t crew_there = 0;      // by the start, on units whose crew is listed
    std::uint8_t offload_slots = 0;    // of the shuttle, with people for them
    std::uint8_t crew_not_listed = 0;  // units there whose crew nobody lists
    std::uint8_t engines_needed = 0;   // to attack, to draft or pump at the source, to run fill
                                       // sites, and in line
    std::uint8_t more_tankers = 0;     // with which the need is met; 0: it is, or is not by tankers

    Maybe<TenthsMinute> first_engine;  // since the alarm, at the house
    Maybe<TenthsMinute> tank_water;
    Maybe<TenthsMinute> continuous;
    Maybe<TenthsMinute> gap;
    // The gap and the cautious flow if the first tanker that can fed the engine until the draft is
    // up, or the hose lies; none where there is no gap, none can, or it does.
    Maybe<TenthsMinute> gap_nursing;
    Maybe<TenthsMinute> earliest_start;  // of the needed flow, cautious
    Maybe<TenthsMinute> round_trip;      // undisturbed legs of the first tanker, both ways

    DumpSiteIndex dump_site;                   // of the season's list
    ApproachIndex approach;                    // its ways while this parcel is served
    LaneClass lane = LaneClass::dead_end;      // there, while this parcel is served
    SourceIndex fill_source;                   // where the first tanker fills
    std::array<FurtherFill, 2> further_fills;  // at the same time, by their first tanker's arrival
    UnitIndex first_tanker;                    // of the shuttle, by arrival; round_trip is its
    UnitIndex nurse;  // the tanker that feeds the engine until the draft is up, or the hose lies
    UnitIndex first_at_site;  // the first engine at the dump site, or at the source: it attacks
    // Engines that make water, and so put none on the fire. Of a shuttle: the one that drafts, then
    // those that run the fill sites, in their order (not valid: none is needed there). By hose: the
    // one at the source, then those in line, the first ones where there are more.
    std::array<UnitIndex, 4> makers{};
    Maybe<float> hose_ft;     // to the house, from the dump site or by hose from the source
    Maybe<float> wheels_gal;  // in the tanks there by the late horizon

    std::size_t fill_sites() const;
    bool fills_at(SourceIndex source) const;  // precondition: the source is valid

    // Tankers drive between a fill site and a dump site; else neither, or hose comes from the
    // source.
    bool has_round_trip() const { return dump_site.valid() && fill_source.valid(); }
};

// What can be held from the allowed start by the better of the ways that were looked at: a property
// that is late by hose, because it takes longer to lay, still has its shuttle.
HeldFlow flow_from_start(const ParcelSupply& supply);
// What of the need that leaves; never below 0.
HeldFlow shortfall_of(const ParcelSupply& supply);

// What is needed, and nothing yet of what meets it; evidence is that of the need.
ParcelSupply unanswered(const Need& need);

// Margin and state, from the need, the cautious flow now and later and the earliest start: held,
// late, short, tank_only.
void judge(ParcelSupply& supply, double firm_margin);

// Short flow first: unknown, unreached, tank_only, short, late, held. no_building is apart.
int severity_of(SupplyState state);
// Worse in state, then in what is held from the start.
bool worse(const ParcelSupply& a, const ParcelSupply& b);
// Which of two seasons or periods stands for the place: the worse one; of equals the one that holds
// less later, begins later, is without water longer, and so on, so that their order decides nothing
// that a reader would act on.
bool stands_for_worst(const ParcelSupply& a, const ParcelSupply& b);

// One combination of season and period.
struct Variant {
    SeasonIndex season;
    PeriodIndex period;
    friend bool operator==(const Variant&, const Variant&) = default;
};

// Counts by state of one variant, over improved parcels (no_building apart).
struct VariantSummary {
    Variant variant;
    std::vector<std::size_t> parcels_by_state;  // by SupplyState
};

class RowAnswers;

struct Assessment {
    std::vector<ParcelSupply> supplies;       // the worst variant of each parcel, then target
    std::vector<std::uint8_t> worst_variant;  // index into variants, per parcel, then target
    std::vector<VariantSummary> variants;     // in the order they were assessed

    // Begins the next variant of a district with so many rows. Precondition: fewer than
    // most_variants were begun.
    void begin(Variant variant, std::size_t rows);
    // Takes in answers of the variant begun last: keeps the worse of each row, and counts the rows
    // below `parcels`. Precondition: no row comes twice.
    void keep(const RowAnswers& answers, std::size_t parcels);
    // Counts one of them, for who keeps the worse of each row by a measure of its own.
    void count(std::size_t row, const ParcelSupply& supply, std::size_t parcels);
    // The whole of the next variant.
    void keep(Variant variant, std::span<const ParcelSupply> of_variant, std::size_t parcels);
    // The variant that leaves the fewest parcels held; the first of equals. Precondition: one was
    // kept.
    std::size_t thinnest() const;

private:
    void keep_row(std::size_t row, const ParcelSupply& supply, std::size_t parcels);
};

}  // namespace farwater::supply
