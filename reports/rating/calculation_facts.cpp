#include "reports/rating/calculation_facts.h"

#include <algorithm>

#include <fmt/format.h>

#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

std::vector<SourceIndex> sources_in_use(const supply::ParcelSupply& brought) {
    std::vector<SourceIndex> sources;
    if (brought.fill_source.valid()) {
        sources.push_back(brought.fill_source);
    }
    for (const supply::FurtherFill& fill : brought.further_fills) {
        if (fill.source.valid()) {
            sources.push_back(fill.source);
        }
    }
    return sources;
}

// Over the duration at one source; none = unlimited.
std::optional<Volume> volume_there(const Findings& findings, SourceIndex source) {
    const auto& counted = supply::counted_source(findings.water, source);
    const Duration duration = findings.rating->terms.duration;
    return counted.usable ? std::optional(*counted.usable + counted.inflow * duration)
                          : std::nullopt;
}

}  // namespace

std::string id_of_source(const Findings& findings, SourceIndex source) {
    return source.valid() ? at(findings.district.sources, source).id : std::string("none");
}

std::string ids_of_sources(const Findings& findings, const supply::ParcelSupply& brought) {
    std::string ids;
    for (const SourceIndex source : sources_in_use(brought)) {
        ids += (ids.empty() ? "" : ", ") + id_of_source(findings, source);
    }
    return ids.empty() ? "none" : ids;
}

GallonsOfPlan gallons_of_plan(const Findings& findings, const rating::PlaceRating& place,
                              const supply::ParcelSupply& brought) {
    const rating::Terms& terms = findings.rating->terms;
    GallonsOfPlan gallons{.minimum = terms.minimum * terms.duration};
    if (const Flow printed = gpm(planned_gpm(place.held)); printed > terms.minimum) {
        gallons.credited = printed * terms.duration;
    }
    std::vector<std::string> systems;
    for (const SourceIndex source : sources_in_use(brought)) {
        const std::string& system = at(findings.district.sources, source).system;
        if (!findings.water.counts[source.position()] ||
            (!system.empty() && std::ranges::find(systems, system) != systems.end())) {
            continue;
        }
        systems.push_back(system);
        const std::optional<Volume> there = volume_there(findings, source);
        if (!there) {
            gallons.unlimited = true;
            gallons.there.reset();
            break;
        }
        gallons.there = gallons.there.value_or(Volume{}) + *there;
    }
    return gallons;
}

std::string makers_in_words(const Findings& findings, const supply::ParcelSupply& brought) {
    std::string units;
    for (const UnitIndex unit : brought.makers) {
        if (unit.valid()) {
            units += (units.empty() ? "" : ", ") + at(findings.district.units, unit).id;
        }
    }
    if (units.empty() || brought.mode == SupplyMode::none) {
        return "none";
    }
    const std::size_t in_relay = brought.mode == SupplyMode::relay ? brought.engines_needed : 0U;
    const std::size_t told = brought.makers.size() + 1;  // and the one that attacks
    return in_relay > told ? fmt::format("{} and {} more in line", units, in_relay - told) : units;
}

}  // namespace farwater::reports
