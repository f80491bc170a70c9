#include "io/inputs/match_zones.h"

#include <algorithm>
#include <map>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "analyzer/district/shared_text.h"
#include "io/near_word.h"

namespace farwater::io {
namespace {

using ZoneCounts = std::map<std::string, std::size_t, std::less<>>;

// How many of them name each zone; blank is none.
template <class Things>
ZoneCounts zones_named(const Things& things) {
    ZoneCounts counts;
    for (const auto& thing : things) {
        const std::string_view zone = thing.zone;
        const auto known = counts.find(zone);
        if (known != counts.end()) {
            ++known->second;
        } else if (!zone.empty()) {
            counts.emplace(zone, 1);
        }
    }
    return counts;
}

std::vector<std::string_view> names_of(const ZoneCounts& zones) {
    std::vector<std::string_view> names;
    for (const auto& [zone, count] : zones) {
        names.emplace_back(zone);
    }
    return names;
}

// Those that are the same name, however it is written.
std::vector<std::string> alike(const ZoneCounts& zones, std::string_view name) {
    const std::string plain = plain_name(name);
    std::vector<std::string> found;
    for (const auto& [zone, count] : zones) {
        if (plain_name(zone) == plain) {
            found.push_back(zone);
        }
    }
    return found;
}

// By their present name, for zones of `rules` that no parcel names so: how a parcel writes it, or
// the first rule where parcels write it otherwise again.
std::map<std::string, std::string> names_for_rules(const ZoneCounts& rules,
                                                   const ZoneCounts& parcels) {
    std::map<std::string, std::string> names;
    for (const auto& [zone, count] : rules) {
        if (parcels.contains(zone)) {
            continue;
        }
        std::vector<std::string> group = alike(rules, zone);
        const std::string first = group.front();
        std::erase_if(group, [&](const std::string& other) { return !parcels.contains(other); });
        if (group.size() < 2) {
            names[zone] = group.empty() ? first : group.front();
        }
    }
    return names;
}

std::map<std::string, SharedText, std::less<>> names_for_parcels(const ZoneCounts& parcels,
                                                                 const ZoneCounts& rules) {
    std::map<std::string, SharedText, std::less<>> names;
    for (const auto& [zone, count] : parcels) {
        const std::vector<std::string> group = alike(rules, zone);
        if (!rules.contains(zone) && group.size() == 1) {
            names[zone] = SharedText(group.front());
        }
    }
    return names;
}

void tell_unmatched(const LayerSource& layer, ProblemId id, const ZoneCounts& zones,
                    const ZoneCounts& others, std::vector<Problem>& problems) {
    for (const auto& [zone, count] : zones) {
        if (!others.contains(zone)) {
            problems.push_back({id,
                                std::string(layer.section->name),
                                printable_source(layer.spec.file),
                                {},
                                layer.bound("zone").column.empty() ? std::string("zone")
                                                                   : layer.bound("zone").column,
                                fmt::format("\"{}\", {} of them{}", zone, count,
                                            did_you_mean(zone, names_of(others)))});
        }
    }
}

}  // namespace

std::vector<Problem> match_zones(const LayerSource& parcel_layer, std::vector<Parcel>& parcels,
                                 const LayerSource& zone_layer, std::vector<ResponseRule>& rules) {
    std::vector<Problem> problems;
    if (rules.empty()) {
        return problems;
    }
    const auto of_rules = names_for_rules(zones_named(rules), zones_named(parcels));
    for (ResponseRule& rule : rules) {
        const auto name = of_rules.find(rule.zone);
        rule.zone = name == of_rules.end() ? rule.zone : name->second;
    }
    const ZoneCounts rule_zones = zones_named(rules);
    const auto of_parcels = names_for_parcels(zones_named(parcels), rule_zones);
    for (Parcel& parcel : parcels) {
        const auto name = of_parcels.find(std::string_view(parcel.zone));
        if (name != of_parcels.end()) {
            parcel.zone = name->second;
        }
    }
    const ZoneCounts parcel_zones = zones_named(parcels);
    tell_unmatched(parcel_layer, ProblemId::response_zone_without_rows, parcel_zones, rule_zones,
                   problems);
    tell_unmatched(zone_layer, ProblemId::response_zone_of_no_parcel, rule_zones, parcel_zones,
                   problems);
    return problems;
}

}  // namespace farwater::io
