#include "analyzer/supply/typed_shuttle.h"

#include <algorithm>
#include <utility>

namespace farwater::supply {
namespace {

constexpr std::string_view planning = "planning default";
constexpr std::string_view not_known = "not known: does not count";

bool each_says_its_nurse_rate(const TypedTanker& tanker) { return tanker.nurse_rate.has_value(); }

class Completion {
public:
    Completion(const ShuttleScenario& scenario, const Assumptions& assumptions)
        : scenario_(scenario), usual_(assumptions) {}

    TypedShuttle shuttle() {
        add_clocks();
        add_dump_site();
        add_attack();
        for (const TypedFillSite& site : scenario_.fill_sites) {
            add(site);
        }
        for (const TypedTanker& tanker : scenario_.tankers) {
            add(tanker);
        }
        assume("stage_cv", {}, usual_.stage_cv, "scatter of stage times behind the cautious flow");
        return std::move(result_);
    }

private:
    template <class Value>
    void assume(std::string_view key, const std::string& of, Value value, std::string_view why) {
        result_.assumed.push_back({std::string(key), of, value, why});
    }

    // The value that is given, else the default, which is put on the list.
    template <class Value, class Default>
    Value either(const std::optional<Value>& given, Default standard, std::string_view key,
                 const std::string& of = {}, std::string_view why = planning) {
        if (given) {
            return *given;
        }
        if constexpr (std::is_same_v<Value, int>) {
            assume(key, of, static_cast<double>(standard), why);
        } else {
            assume(key, of, Value(standard), why);
        }
        return standard;
    }

    template <class Amount>
    std::optional<Amount> limit(const std::optional<Stated<Amount>>& given, Amount standard,
                                std::string_view key, const std::string& of, std::string_view why) {
        if (!given) {
            assume(key, of, standard, why);
            return standard;
        }
        return given->unlimited ? std::nullopt : std::optional(given->most);
    }

    // An engine that nobody timed came the usual time before the start, but not before a volunteer
    // crew could be out of the door.
    void add_clocks() {
        const std::optional<Duration>& arrives = scenario_.dump_site.engine_arrives;
        Window& window = result_.window;
        window.start =
            either(scenario_.start, arrives.value_or(Duration{}) + usual_.start_after_arrival,
                   "start_min", {}, "15 min after the first engine's arrival");
        window.duration = either(scenario_.duration, usual_.duration, "duration_min");
        const Duration out = usual_.alarm_handling + usual_.turnout_volunteer;
        result_.incident.dump_site.engine_arrives = either(
            arrives, std::max(window.start - usual_.start_after_arrival, out), "engine_arrives_min",
            {}, "15 min before the start, but not before alarm handling and turnout");
    }

    void add_dump_site() {
        const TypedDumpSite& typed = scenario_.dump_site;
        DumpSite& dump = result_.incident.dump_site;
        dump.offload_slots = either(typed.offload_slots, usual_.offload_slots, "offload_slots");
        dump.storage =
            limit(typed.storage, Volume{}, "storage_gal", {}, "not known: no portable tank counts");
        dump.engine_tank = either(typed.engine_tank, Volume{}, "engine_tank_gal", {}, not_known);
        dump.tanks_ready =
            either(typed.tanks_ready, met() + usual_.setup_portable_tank, "tanks_ready_min", {},
                   "3 min after the first tanker and the engine");
        dump.draft_ready = either(
            typed.draft_ready, std::max(dump.tanks_ready, dump.engine_arrives) + usual_.setup_draft,
            "draft_ready_min", {}, "5 min after the portable tanks and the engine");
        dump.nursing_tankers =
            either(typed.nursing_tankers, 0, "nursing_tankers", {}, "none nurses");
        dump.nurse_hookup = typed.nurse_hookup.value_or(usual_.nurse_hookup);
        if (dump.nursing_tankers > 0) {
            either(typed.nurse_hookup, usual_.nurse_hookup, "nurse_hookup_min");
            if (!std::ranges::all_of(scenario_.tankers, each_says_its_nurse_rate)) {
                either(typed.nurse_rate, usual_.nurse, "nurse_gpm", {}, "pumped off, untimed");
            }
        }
        dump.flow_cap =
            limit(typed.flow_cap, usual_.strainer, "flow_cap_gpm", {}, "a low-level strainer");
        add_tank_line();
    }

    // One tank needs no siphon, and none runs where nobody says so.
    void add_tank_line() {
        const TypedDumpSite& typed = scenario_.dump_site;
        DumpSite& dump = result_.incident.dump_site;
        if (!typed.portable_tanks || !dump.storage || *dump.storage <= Volume{}) {
            return;
        }
        const int tanks = *typed.portable_tanks;
        TankLine& line = result_.line;
        line.tanks.assign(static_cast<std::size_t>(tanks), *dump.storage / tanks);
        line.draft = dump.flow_cap;
        line.siphon = typed.siphon.value_or(usual_.siphon);
        line.drive_water = usual_.siphon_drive;
        if (tanks > 1) {
            line.siphons = std::min(
                1, either(typed.jet_siphons, 0, "jet_siphons", {}, "only the first tank counts"));
        }
        if (line.siphons > 0) {
            either(typed.siphon, usual_.siphon, "siphon_gpm", {}, "untested");
        }
        line.used = tanks_in_reach(line);
        dump = with_line(dump, line);
    }

    // When the first tanker has met the engine at the dump site.
    Duration met() const {
        Duration first = scenario_.tankers.front().arrives;
        for (const TypedTanker& tanker : scenario_.tankers) {
            first = std::min(first, tanker.arrives);
        }
        return std::max(first, result_.incident.dump_site.engine_arrives);
    }

    void add_attack() {
        const Flow attack =
            either(scenario_.initial_attack, Flow{}, "initial_attack_gpm", {},
                   "nothing is drawn before the start; a run on a district takes 200");
        if (attack > Flow{}) {
            result_.incident.initial_attack = {
                attack,
                either(
                    scenario_.initial_attack_from,
                    result_.incident.dump_site.engine_arrives + usual_.initial_attack_after_arrival,
                    "initial_attack_from_min", {}, "1.5 min after the engine's arrival")};
        }
    }

    void add(const TypedFillSite& typed) {
        FillSite site;
        site.places = either(typed.places, 1, "places", typed.id);
        site.flows = typed.flows;
        site.pump = either(typed.pump, std::min(usual_.draft_site_rate, usual_.hydrant_rate),
                           "pump_gpm", typed.id, "untested; the least of the planning rates");
        site.ready = either(typed.ready, met() + usual_.setup_open_bank, "ready_min", typed.id,
                            "8 min after the first tanker and the engine, as at an open bank");
        site.usable = limit(typed.usable, Volume{}, "usable_gal", typed.id, not_known);
        const bool endless = typed.usable && typed.usable->unlimited;
        site.inflow = endless ? typed.inflow.value_or(Flow{})
                              : either(typed.inflow, Flow{}, "inflow_gpm", typed.id, not_known);
        result_.incident.fill_sites.push_back(site);
        result_.fill_sites.push_back(typed.id);
    }

    void add(const TypedTanker& typed) {
        const std::string& id = typed.id;
        const auto stage = [&](const std::optional<Duration>& given, Duration usual,
                               std::string_view key) { return either(given, usual, key, id); };
        Tanker tanker;
        tanker.delivered = typed.tank * either(typed.delivered_fraction, usual_.delivered_fraction,
                                               "delivered_fraction", id);
        tanker.refilled = typed.tank * either(typed.refill_fraction, usual_.refill_fraction,
                                              "refill_fraction", id);
        tanker.fill_limit =
            either(typed.fill_limit, usual_.fill_limit, "fill_limit_gpm", id, "untimed");
        tanker.offload = either(typed.offload, usual_.offload, "offload_gpm", id, "untimed");
        tanker.fill_before = stage(typed.fill_before, usual_.fill_before, "fill_before_min");
        tanker.fill_after = stage(typed.fill_after, usual_.fill_after, "fill_after_min");
        tanker.offload_before =
            either(typed.offload_before, usual_.offload_before, "offload_before_min", id,
                   "driving through; backing with a spotter takes 2.0 more");
        tanker.offload_after =
            stage(typed.offload_after, usual_.offload_after, "offload_after_min");
        tanker.arrives = typed.arrives;
        tanker.can_nurse = typed.can_nurse.value_or(false);
        tanker.nurse_rate =
            typed.nurse_rate.value_or(scenario_.dump_site.nurse_rate.value_or(usual_.nurse));
        if (!typed.can_nurse && result_.incident.dump_site.nursing_tankers > 0) {
            assume("can_nurse", id, 0.0, "not known to have a pump");
        }
        add_legs(typed, tanker);
        result_.incident.tankers.push_back(tanker);
        result_.tankers.push_back(id);
    }

    // Until it is allocated, a tanker fills at the nearest site.
    void add_legs(const TypedTanker& typed, Tanker& tanker) {
        std::vector<std::optional<Leg>> legs(scenario_.fill_sites.size());
        std::optional<Duration> nearest;
        for (const TypedTravel& travel : typed.travel) {
            if (typed.fill_site && *typed.fill_site != travel.fill_site) {
                continue;
            }
            legs[travel.fill_site] = Leg{travel.empty, travel.loaded};
            const Duration both = travel.empty + travel.loaded;
            if (!nearest || both < *nearest) {
                nearest = both;
                tanker.fill_site = travel.fill_site;
                tanker.leg = {travel.empty, travel.loaded};
            }
        }
        result_.legs.push_back(std::move(legs));
    }

    const ShuttleScenario& scenario_;
    const Assumptions& usual_;
    TypedShuttle result_;
};

}  // namespace

TypedShuttle complete(const ShuttleScenario& scenario, const Assumptions& assumptions) {
    return Completion(scenario, assumptions).shuttle();
}

}  // namespace farwater::supply
