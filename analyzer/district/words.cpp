#include "analyzer/district/words.h"

#include <array>

#include "analyzer/district/need.h"

namespace farwater {
namespace {

using namespace std::string_view_literals;

constexpr std::array road_classes{"state"sv,  "paved"sv,  "paved_lane"sv,
                                  "gravel"sv, "narrow"sv, "drive"sv};
constexpr std::array road_accesses{"open"sv, "private"sv, "gated"sv, "unmaintained"sv, "closed"sv};
constexpr std::array one_ways{"both"sv, "forward"sv, "backward"sv};
constexpr std::array lane_classes{"through"sv, "dead_end"sv};
constexpr std::array surfaces{"paved"sv, "gravel"sv};
constexpr std::array travel_times{"road_speeds"sv, "linear_per_leg"sv, "linear_per_round_trip"sv};
constexpr std::array source_kinds{"hydrant"sv, "dry_hydrant"sv, "draft_site"sv, "cistern"sv};
constexpr std::array hydrant_colours{"blue"sv, "green"sv, "orange"sv, "red"sv};
constexpr std::array pipe_materials{"plastic"sv, "steel"sv, "cement_lined"sv, "old_iron"sv};
constexpr std::array suction_frictions{"conservative"sv, "manning"sv, "hazen_williams"sv};
constexpr std::array rate_limits{"rate"sv, "flow_test"sv,     "colour"sv,
                                 "main"sv, "default"sv,       "suction"sv,
                                 "pump"sv, "portable_pump"sv, "system"sv};
constexpr std::array standings{"mapped"sv, "declared"sv, "tested"sv};
constexpr std::array source_uses{"operations"sv, "rating"sv, "own_parcel"sv};
constexpr std::array reaches{"engine"sv, "portable_pump"sv};
constexpr std::array ways_to_weigh{"parcels"sv, "building_area"sv, "value"sv, "people"sv};
constexpr std::array evidences{"assumed"sv, "declared"sv, "tested"sv};
constexpr std::array need_methods{"column"sv, "fixed"sv, "rural_supply"sv, "rating_schedule"sv,
                                  "fire_code"sv};
constexpr std::array separation_tables{"older"sv, "newer"sv};
constexpr std::array building_uses{"dwelling"sv,      "manufactured_home"sv,
                                   "apartments"sv,    "lodging"sv,
                                   "care"sv,          "school"sv,
                                   "office"sv,        "municipal"sv,
                                   "church"sv,        "assembly"sv,
                                   "restaurant"sv,    "store"sv,
                                   "repair_garage"sv, "parking_garage"sv,
                                   "warehouse"sv,     "barn"sv,
                                   "farm_storage"sv,  "light_industry"sv,
                                   "industry"sv,      "woodworking"sv,
                                   "flammables"sv,    "outbuilding"sv,
                                   "unoccupied"sv};
constexpr std::array constructions{"type_1a"sv, "type_1b"sv, "type_2a"sv, "type_2b"sv, "type_3a"sv,
                                   "type_3b"sv, "type_4"sv,  "type_5a"sv, "type_5b"sv};
constexpr std::array sprinkler_kinds{"none"sv, "nfpa_13"sv, "nfpa_13r"sv, "nfpa_13d"sv};
constexpr std::array certainties{"seen"sv,          "second_hand"sv, "memory_high"sv,
                                 "memory_medium"sv, "memory_low"sv,  "derived"sv,
                                 "own_copy"sv};
constexpr std::array need_inputs{"footprint"sv, "use"sv, "construction"sv, "storeys"sv};
constexpr std::array need_origins{"default"sv, "column"sv, "method"sv};
constexpr std::array rating_terms{"schedule"sv, "schedule_8b"sv, "tender_credit"sv,
                                  "shuttle_accreditation"sv};
constexpr std::array clock_starts{"alarm"sv, "first_arrival"sv, "parking_brake"sv};
constexpr std::array drive_rules{"round_trip"sv, "each_leg"sv};
constexpr std::array asked{"not_needed"sv, "needed"sv};
constexpr std::array unit_kinds{"engine"sv, "tanker"sv, "other"sv};
constexpr std::array aids{"own"sv, "automatic"sv, "mutual"sv};
constexpr std::array supply_states{"unknown"sv, "no_building"sv, "unreached"sv, "held"sv,
                                   "late"sv,    "short"sv,       "tank_only"sv};
constexpr std::array supply_modes{"none"sv, "direct"sv, "relay"sv, "shuttle"sv};
constexpr std::array margins{"none"sv, "thin"sv, "firm"sv};
constexpr std::array limits{
    "none"sv,         "fleet"sv,    "fill_site"sv, "source_volume"sv, "source_hydraulics"sv,
    "draft"sv,        "storage"sv,  "transfer"sv,  "road_room"sv,     "offload"sv,
    "supply_line"sv,  "hose"sv,     "engines"sv,   "readiness"sv,     "crew"sv,
    "no_dump_site"sv, "no_route"sv, "no_source"sv};

}  // namespace

std::span<const std::string_view> words_of(RoadClass) { return road_classes; }
std::span<const std::string_view> words_of(RoadAccess) { return road_accesses; }
std::span<const std::string_view> words_of(OneWay) { return one_ways; }
std::span<const std::string_view> words_of(LaneClass) { return lane_classes; }
std::span<const std::string_view> words_of(Surface) { return surfaces; }
std::span<const std::string_view> words_of(TravelTime) { return travel_times; }
std::span<const std::string_view> words_of(SourceKind) { return source_kinds; }
std::span<const std::string_view> words_of(HydrantColour) { return hydrant_colours; }
std::span<const std::string_view> words_of(PipeMaterial) { return pipe_materials; }
std::span<const std::string_view> words_of(SuctionFriction) { return suction_frictions; }
std::span<const std::string_view> words_of(RateLimit) { return rate_limits; }
std::span<const std::string_view> words_of(Standing) { return standings; }
std::span<const std::string_view> words_of(SourceUse) { return source_uses; }
std::span<const std::string_view> words_of(Reach) { return reaches; }
std::span<const std::string_view> words_of(WeighBy) { return ways_to_weigh; }
std::span<const std::string_view> words_of(Evidence) { return evidences; }
std::span<const std::string_view> words_of(NeedMethod) { return need_methods; }
std::span<const std::string_view> words_of(SeparationTable) { return separation_tables; }
std::span<const std::string_view> words_of(BuildingUse) { return building_uses; }
std::span<const std::string_view> words_of(Construction) { return constructions; }
std::span<const std::string_view> words_of(Sprinklers) { return sprinkler_kinds; }
std::span<const std::string_view> words_of(Certainty) { return certainties; }
std::span<const std::string_view> words_of(RatingTerms) { return rating_terms; }
std::span<const std::string_view> words_of(ClockStart) { return clock_starts; }
std::span<const std::string_view> words_of(DriveRule) { return drive_rules; }
std::span<const std::string_view> words_of(Asked) { return asked; }
std::span<const std::string_view> words_of(NeedInput) { return need_inputs; }
std::span<const std::string_view> words_of(NeedFrom) { return need_origins; }
std::span<const std::string_view> words_of(UnitKind) { return unit_kinds; }
std::span<const std::string_view> words_of(Aid) { return aids; }
std::span<const std::string_view> words_of(SupplyState) { return supply_states; }
std::span<const std::string_view> words_of(SupplyMode) { return supply_modes; }
std::span<const std::string_view> words_of(Margin) { return margins; }
std::span<const std::string_view> words_of(Limit) { return limits; }

}  // namespace farwater
