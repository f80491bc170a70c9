#include "reports/layers/detail_columns.h"

#include <array>
#include <cmath>
#include <string>
#include <utility>

namespace farwater::reports {
namespace {

using supply::ParcelSupply;

bool has_flow(const ParcelSupply& supply) { return supply.mode != SupplyMode::none; }

io::Value value_of_gpm(supply::WholeGpm flow) { return std::int64_t{supply::in_gpm(flow)}; }

struct GainColumn {
    const char* name;
    const char* description;
};

// In the order of supply::relieved.
constexpr std::array<GainColumn, supply::relieved.size()> gain_names{{
    {"gain_tanker_gpm",
     "Sustained flow that one more tanker like the largest gains, with it there, gpm."},
    {"gain_fill_place_gpm",
     "That one more place at each fill site gains, with its share of the pump, gpm."},
    {"gain_double_source_gpm", "That twice the water in the sources gains, gpm."},
    {"gain_no_draft_limit_gpm", "That a draft without its limit of pump and strainer gains, gpm."},
    {"gain_portable_tank_gpm",
     "That one more portable tank of 2,500 gal gains, the first in line with a siphon, gpm."},
    {"gain_siphon_gpm",
     "That one more jet siphon gains that runs between the portable tanks, gpm."},
    {"gain_road_room_gpm", "That road for one more of the portable tanks that came gains, gpm."},
    {"gain_offload_slot_gpm",
     "That one more slot to offload at gains, with its people; in single file, that tankers could "
     "pass each other, gpm."},
    {"gain_ready_5_min_gpm", "That fill and dump sites ready 5 minutes earlier gain, gpm."},
    {"gain_crew_gpm",
     "That people for one more fill site gain, or for the slots to offload at that have none, "
     "gpm."},
}};

// What closes a gap.
std::vector<ColumnOf> gap_columns(const Findings& findings) {
    return {
        integer("gap_gal",
                "Gallons more on the first engines that would bridge gap_min at the rate of the "
                "initial attack: a second engine's tank, for instance.",
                [findings](std::size_t row) {
                    const auto& gap = findings.supply(row).gap;
                    const Flow attack = findings.district.assumptions.initial_attack;
                    return gap && supply::in_tenths(*gap) > 0
                               ? io::Value{std::int64_t{std::llround(std::ceil(
                                     in_gallons(attack * supply::duration_of(*gap)) - 1e-6))}}
                               : io::Value{};
                }),
        text("nursing_tanker_id",
             "The tanker that feeds the engine until the draft is up, or until hose from a source "
             "lies; empty: none does.",
             [findings](std::size_t row) {
                 const UnitIndex nurse = findings.supply(row).nurse;
                 return nurse.valid() ? io::Value{at(findings.district.units, nurse).id}
                                      : io::Value{};
             }),
        real("gap_nursing_min",
             "What of gap_min is left where the first tanker that can feeds the engine until the "
             "draft is up or the hose lies; empty where there is no gap, none can, or one does.",
             [findings](std::size_t row) { return value_of(findings.supply(row).gap_nursing); }),
        integer("gap_nursing_gpm", "Cautious flow that is then held, gpm.",
                [findings](std::size_t row) {
                    const ParcelSupply& supply = findings.supply(row);
                    return supply.gap_nursing ? value_of_gpm(supply.nursing_flow) : io::Value{};
                }),
    };
}

std::vector<ColumnOf> people_columns(const Findings& findings) {
    const auto of_shuttle = [findings](auto ParcelSupply::* member) {
        return [findings, member](std::size_t row) {
            const ParcelSupply& supply = findings.supply(row);
            return supply.mode == SupplyMode::shuttle ? value_of_count(supply.*member)
                                                      : io::Value{};
        };
    };
    return {integer("crew_needed",
                    "People that all jobs of the shuttle need: attack, dump site and its slots, "
                    "fill sites, "
                    "traffic, water supply officer and tankers.",
                    of_shuttle(&ParcelSupply::crew_needed)),
            integer("crew_there",
                    "People there by the start, on units whose crew is listed; a further fill site "
                    "is not opened without people for all jobs.",
                    of_shuttle(&ParcelSupply::crew_there)),
            integer("crew_not_listed",
                    "Units there by the start whose crew nobody lists; they count as enough.",
                    of_shuttle(&ParcelSupply::crew_not_listed)),
            integer("offload_slots",
                    "Slots to offload at that the shuttle has, once their people are there.",
                    of_shuttle(&ParcelSupply::offload_slots)),
            integer("engines_needed",
                    "Engines that the supply takes: to attack, to draft and to run fill sites; by "
                    "hose, to attack, at the source and in line.",
                    [findings](std::size_t row) {
                        const ParcelSupply& supply = findings.supply(row);
                        return supply.mode != SupplyMode::none
                                   ? value_of_count(supply.engines_needed)
                                   : io::Value{};
                    })};
}

}  // namespace

std::vector<ColumnOf> build_up_columns(const Findings& findings) {
    std::vector<ColumnOf> columns;
    for (std::size_t i = 0; i < supply::build_up_minutes.size(); ++i) {
        const std::string minute = std::to_string(supply::build_up_minutes[i]);
        columns.push_back(integer(
            "from_" + minute + "_min_gpm",
            "Cautious flow that holds for the duration from minute " + minute +
                " since the alarm on, gpm; never more than from a later one of these minutes on.",
            [findings, i](std::size_t row) {
                const ParcelSupply& supply = findings.supply(row);
                return has_flow(supply) ? value_of_gpm(supply.build_up[i]) : io::Value{};
            }));
    }
    return columns;
}

std::vector<ColumnOf> gain_columns(const Findings& findings) {
    const auto shuttles = [](const ParcelSupply& supply) {
        return supply.mode == SupplyMode::shuttle;
    };
    std::vector<ColumnOf> columns;
    for (std::size_t i = 0; i < gain_names.size(); ++i) {
        columns.push_back(integer(gain_names[i].name, gain_names[i].description,
                                  [findings, i, shuttles](std::size_t row) {
                                      const ParcelSupply& supply = findings.supply(row);
                                      return shuttles(supply) ? value_of_gpm(supply.gains[i])
                                                              : io::Value{};
                                  }));
    }
    columns.push_back(integer(
        "gain_engine_gpm",
        "That one more engine gains, like the last one there by the start and with it, with its "
        "pump, hose and crew: at a fill site, at the draft or in a relay, gpm; empty where nothing "
        "is held and it would not help.",
        [findings](std::size_t row) {
            const ParcelSupply& supply = findings.supply(row);
            return has_flow(supply) || supply::in_gpm(supply.gain_engine) > 0
                       ? value_of_gpm(supply.gain_engine)
                       : io::Value{};
        }));
    for (ColumnOf& column : gap_columns(findings)) {
        columns.push_back(std::move(column));
    }
    for (ColumnOf& column : people_columns(findings)) {
        columns.push_back(std::move(column));
    }
    columns.push_back(integer("more_tankers",
                              "The fewest tankers more, each like the largest and with it, that "
                              "meet the need; empty where "
                              "it is met, or where six more do not.",
                              [findings](std::size_t row) {
                                  const std::uint8_t more = findings.supply(row).more_tankers;
                                  return more > 0 ? value_of_count(more) : io::Value{};
                              }));
    return columns;
}

}  // namespace farwater::reports
