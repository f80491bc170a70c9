// A shuttle as somebody types it: one dump site, fill sites, tankers and the minutes between them,
// with no map behind. What is not given is none here; which planning value stands for it is the
// supply stage's business (analyzer/supply/typed_shuttle.h).
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/units.h"

namespace farwater {

// A limit that may be lifted, but only in so many words: "unlimited".
template <class Amount>
struct Stated {
    bool unlimited = false;
    Amount most{};  // where not unlimited
    friend bool operator==(const Stated&, const Stated&) = default;
};

struct TypedDumpSite {
    std::optional<int> offload_slots;
    std::optional<Stated<Volume>> storage;  // usable gallons in portable tanks
    std::optional<int> portable_tanks;      // equal ones in line; none = the storage is one pool
    std::optional<int> jet_siphons;         // between them
    std::optional<Flow> siphon;             // what one of them moves
    std::optional<Volume> engine_tank;
    std::optional<Duration> engine_arrives, tanks_ready, draft_ready;
    std::optional<int> nursing_tankers;
    std::optional<Duration> nurse_hookup;
    std::optional<Flow> nurse_rate;  // of tankers that give none of their own
    std::optional<Stated<Flow>> flow_cap;
};

struct TypedFillSite {
    std::string id;
    std::optional<int> places, flows;
    std::optional<Flow> pump;
    std::optional<Duration> ready;
    std::optional<Stated<Volume>> usable;
    std::optional<Flow> inflow;
};

// Minutes between the dump site and one fill site.
struct TypedTravel {
    std::size_t fill_site = 0;
    Duration empty, loaded;
};

struct TypedTanker {
    std::string id;
    Volume tank;
    std::optional<double> delivered_fraction, refill_fraction;
    std::optional<Flow> fill_limit, offload;
    std::optional<Duration> fill_before, fill_after, offload_before, offload_after;
    Duration arrives;  // full, at the dump site
    std::optional<bool> can_nurse;
    std::optional<Flow> nurse_rate;
    std::optional<std::size_t> fill_site;  // none = the best allocation is searched
    std::vector<TypedTravel> travel;       // to the fill sites that it may use, at least one
};

// Every id once, every index of a fill site valid, at least one fill site and one tanker; the start
// or the engine's arrival is there.
struct ShuttleScenario {
    std::optional<Duration> start, duration;
    std::optional<Flow> needed;
    std::optional<Flow> initial_attack;
    std::optional<Duration> initial_attack_from;
    TypedDumpSite dump_site;
    std::vector<TypedFillSite> fill_sites;
    std::vector<TypedTanker> tankers;
};

}  // namespace farwater
