// Water sources, declared and tested, and water that is only a shape on a map.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/calendar.h"
#include "analyzer/district/plane.h"
#include "analyzer/district/units.h"
#include "analyzer/district/words.h"

namespace farwater {

// Gallons that can be used during one incident: a volume, or "unlimited" in so many words.
class UsableWater {
public:
    static UsableWater unlimited() { return UsableWater(std::nullopt); }
    static UsableWater of(Volume volume) { return UsableWater(volume); }
    bool is_unlimited() const { return !volume_.has_value(); }
    std::optional<Volume> volume() const { return volume_; }  // none = unlimited
    friend bool operator==(UsableWater, UsableWater) = default;

private:
    explicit UsableWater(std::optional<Volume> volume) : volume_(volume) {}
    std::optional<Volume> volume_;
};

// What is known of a hydrant besides its rate. None = not known, everywhere.
struct HydrantData {
    std::optional<double> static_psi, residual_psi;  // of its flow test: nothing flowing, and
    std::optional<Flow> test_flow;                   // this flowing,
    std::optional<double> pitot_psi;                 // or this pitot reading
    std::optional<Length> outlet;                    // in this outlet
    std::optional<double> outlet_coefficient;
    std::optional<HydrantColour> colour;
    std::optional<Length> main;  // diameter of the main under it
    std::optional<bool> dead_end_main;
};

// How a suction point is built, from the water to the pump.
struct SuctionData {
    std::optional<Length> lift;  // from the drought level up to the pump
    std::optional<Length> pipe, pipe_diameter;
    std::optional<PipeMaterial> material;
    std::optional<int> elbows_90, elbows_45;  // reducers count as the latter
    std::optional<Length> strainer_loss;      // strainer and standpipe, at 500 gpm
    std::optional<Length> hose;               // hard suction that it takes
};

// What stands in a pond or cistern at drought level.
struct StillWater {
    std::optional<Area> area;
    std::optional<Length> over_intake;  // depth of water over the intake
    bool sounded = false;               // the depth holds over the whole area
    std::optional<Length> ice;          // thickest
};

struct WaterSource {
    std::string id;
    std::string name;
    std::uint32_t row = 0;
    Point place;
    std::optional<Degrees> degrees;  // of the place; none where it was read from no layer
    SourceKind kind = SourceKind::draft_site;
    Standing standing = Standing::mapped;  // mapped never counts in a supply state
    std::string standing_by;               // who vouches
    std::optional<Date> tested_on;
    SourceUse use = SourceUse::operations;
    std::string own_parcel;  // whose it is, with SourceUse::own_parcel, which counts there alone
    std::string system;      // sources of one system share volume and rate and fail together
    MonthSet open_months = MonthSet::all();
    bool frost_proof = false;           // may be used in ice months though open water
    std::optional<Flow> rate;           // none = the stated default, evidence assumed
    std::optional<UsableWater> usable;  // none = not known: a pond or cistern then does not count
    std::optional<Flow> inflow;         // none = no inflow
    std::optional<Flow> system_rate;    // of the whole system; none = that of its strongest member
    HydrantData hydrant;
    SuctionData suction;
    StillWater still;
    std::optional<int> places;                 // tankers that can be connected at once; none = 1
    Reach reach = Reach::engine;               // who can get to it
    std::optional<bool> fills_without_engine;  // none = a hydrant does, a suction point does not
    std::optional<bool> all_weather;
    std::optional<LaneClass> lane;
    bool turnaround = false;  // a tanker can turn there; not said = no
    std::string owner;
    std::string agreement;     // the owner's written permission: which, until when
    std::string certified_by;  // who certified what it holds in a drought
    std::optional<Date> certified_on;
    std::string cross_street;  // the nearest
    std::string note;
};

// Open water from a data set: a row of the worklist, never a fill site.
struct MappedWater {
    std::string id;
    std::string name;
    std::uint32_t row = 0;
    Point place;
    double area_m2 = 0.0;
    std::vector<Polyline> shore;  // closed rings, islands too; empty for a point
};

}  // namespace farwater
