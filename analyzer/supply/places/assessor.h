// Everything that the cases of one season and period share: which lays fall into one case, what a
// case promises and what it answers.
#pragma once

#include <compare>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/need.h"
#include "analyzer/parallel/work.h"
#include "analyzer/supply/assessment.h"
#include "analyzer/supply/places/direct.h"
#include "analyzer/supply/places/house_on_fire.h"
#include "analyzer/supply/places/promise.h"
#include "analyzer/supply/places/shuttle_case.h"
#include "analyzer/supply/scene.h"
#include "analyzer/supply/situation.h"
#include "analyzer/supply/working.h"

namespace farwater::supply {

struct CaseKey {
    DumpSiteIndex dump_site;
    ApproachIndex approach;  // as the lay has it
    LaneClass lane = LaneClass::dead_end;
    std::uint16_t single_file_s = 0;
    std::uint16_t slow_hose = 0;  // to the house, in lengths of 50 ft, where its laying takes
                                  // longer than the draft; else 0, for nothing waits for it
    std::int32_t arrival_half_minutes = 0;
    std::int32_t duration_tenths = 0;  // of a minute
    std::uint32_t zone = 0;
    HeldFlow least{};  // what was found elsewhere: no more than that is of no interest
    friend auto operator<=>(const CaseKey&, const CaseKey&) = default;
};

// One of a parcel's hose lays, the case that answers for it, and where the answer goes.
struct Keyed {
    CaseKey key;
    std::uint32_t row = 0;
    std::uint32_t lay = 0;   // place in the parcel's list
    std::uint32_t slot = 0;  // each has its own
    friend auto operator<=>(const Keyed&, const Keyed&) = default;
};

// The responders of each response zone.
struct Rosters {
    std::vector<std::string> zones;
    std::vector<std::vector<Responder>> responders;  // per zone

    // Zones without rules respond as "" does.
    std::uint32_t zone_of(std::string_view name) const {
        const auto zone = std::ranges::lower_bound(zones, name);
        return zone != zones.end() && *zone == name
                   ? static_cast<std::uint32_t>(zone - zones.begin())
                   : 0;
    }
};

// All that is given must outlive it. Rows are parcels, then targets.
class Assessor {
public:
    Assessor(const Situation& situation, const std::vector<std::optional<Need>>& needs,
             const std::vector<DriveTime>& first_arrivals);

    std::optional<ParcelSupply> settled_answer(std::size_t row) const;  // settled.h

    // By hose from a source, where that can be and the answer is known but for that.
    std::optional<ParcelSupply> direct(std::size_t row, const ParcelSupply& shuttle) const;
    bool asks_for_hose(std::size_t row, const ParcelSupply& shuttle) const;
    std::vector<HoseOption> hose_options_of(std::size_t row) const;

    // Precondition: no settled answer.
    Keyed keyed(std::size_t row, std::size_t lay, std::size_t slot, HeldFlow least = {}) const;

    // The answer of each item into its slot, which stays as it is where no more than `least` was
    // found; each case is worked out once, on several threads.
    void answer(std::vector<Keyed> items, std::vector<ParcelSupply>& slots, const Work& work) const;

    // What each item's lay promises, into its slot: a bound, without a run.
    void promise(std::vector<Keyed> items, std::vector<Promise>& slots, const Work& work) const;

    // Calls `look` with each case's scene and items, on several threads.
    using Look = std::function<void(const Scene&, std::span<const Keyed>)>;
    void for_each_scene(std::vector<Keyed> items, const Work& work, const Look& look) const;

    // Whether the lay may give most of the row's, where the first one promises something: ways are
    // taken from that one by its hose, or tankers must back there and not here. All others are
    // asked for their promise later.
    bool may_be_likeliest(std::size_t row, std::size_t lay) const;

    // Whether `lay` is outdone in everything (outdone.h) by another, its hose to the house too.
    bool is_outdone(std::size_t row, std::size_t lay, std::size_t by) const;

    // One item, as `answer` looks at it; no supply (unknown) where no more than `least` was found.
    ShuttleWorking look_at(const Keyed& item) const;

    const PlanOrder& order() const { return situation_.order; }
    std::span<const HoseLay> lays_of(std::size_t row) const;
    const std::vector<Responder>& responders_of(std::size_t row) const;
    Point house_of(std::size_t row) const;

private:
    Scene scene_of(const CaseKey& key) const;
    CasePlans plans_of(const Scene& scene, std::span<const Keyed> items) const;
    HeldFlow carried(const Scene& scene, const Keyed& item) const;  // by hose to the house
    std::uint32_t zone_at(std::size_t row) const;
    HouseOnFire fire_at(std::size_t row) const;  // precondition: a need, and an engine gets there
    void answer_case(std::span<const Keyed> items, std::vector<ParcelSupply>& slots) const;
    void promise_case(std::span<const Keyed> items, std::vector<Promise>& slots) const;

    const Situation& situation_;
    const std::vector<std::optional<Need>>& needs_;
    const std::vector<DriveTime>& first_arrivals_;
    Rosters rosters_;
    bool lanes_matter_;  // there is a tanker that need not back where it can drive through
    std::vector<ProfileIndex> profile_of_;
};

}  // namespace farwater::supply
