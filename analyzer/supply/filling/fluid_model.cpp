#include "analyzer/supply/filling/fluid_model.h"

#include <algorithm>
#include <array>

#include "analyzer/supply/visits.h"

namespace farwater::supply {
namespace {

struct SiteRows {
    std::size_t places = 0, flows = 0, pump = 0, source = 0;
};

SiteRows rows_of(const FillSite& site, Window window, LinearProgram& program) {
    const double source =
        site.usable ? in_gpm(*site.usable / window.duration + site.inflow) : no_limit;
    return {.places = program.add_row(std::max(0, site.places)),
            .flows = program.add_row(std::max(0, site.flows.value_or(site.places))),
            .pump = program.add_row(in_gpm(site.pump)),
            .source = program.add_row(source)};
}

}  // namespace

FillLegs own_legs(const Incident& incident) {
    FillLegs legs;
    for (const Tanker& tanker : incident.tankers) {
        legs.emplace_back(incident.fill_sites.size());
        legs.back()[tanker.fill_site] = tanker.leg;
    }
    return legs;
}

FluidModel::FluidModel(const Incident& incident, const FillLegs& legs, Window window) {
    std::vector<SiteRows> sites;
    for (const FillSite& site : incident.fill_sites) {
        sites.push_back(rows_of(site, window, program_));
    }
    const std::size_t slots = program_.add_row(std::max(0, incident.dump_site.offload_slots));
    const std::optional<Flow> cap = incident.dump_site.flow_cap;
    const std::size_t draft = program_.add_row(cap ? in_gpm(*cap) : no_limit);
    for (std::size_t t = 0; t < incident.tankers.size(); ++t) {
        const Tanker& tanker = incident.tankers[t];
        const std::size_t own_time = program_.add_row(1.0);
        const double offload = in_minutes(offload_visit(tanker));
        const double in_slot = in_minutes(slot_visit(incident.dump_site, tanker));
        const double delivered = in_gallons(tanker.delivered);
        trips_.emplace_back(sites.size());
        for (std::size_t s = 0; s < sites.size(); ++s) {
            if (!legs[t][s]) {
                continue;
            }
            const FillVisit visit = fill_visit(incident.fill_sites[s], tanker);
            const Leg leg = *legs[t][s];
            const double minutes = in_minutes(visit.in_place() + leg.empty + leg.loaded) + offload;
            const std::array uses{
                LinearProgram::Use{sites[s].places, in_minutes(visit.in_place())},
                LinearProgram::Use{sites[s].flows, in_minutes(visit.flowing)},
                LinearProgram::Use{sites[s].pump, in_gallons(tanker.refilled)},
                LinearProgram::Use{sites[s].source, in_gallons(tanker.refilled)},
                LinearProgram::Use{slots, in_slot},
                LinearProgram::Use{draft, delivered},
                LinearProgram::Use{own_time, minutes},
            };
            trips_[t][s] = Trip{program_.add_column(delivered, no_limit, uses), minutes};
        }
    }
}

void FluidModel::allow(std::size_t tanker, std::size_t site, bool may) {
    if (trip(tanker, site)) {
        program_.limit(trip(tanker, site)->column, may ? no_limit : 0.0);
    }
}

double FluidModel::largest() { return program_.solve(); }

double FluidModel::share(std::size_t tanker, std::size_t site) const {
    const std::optional<Trip>& trips = trip(tanker, site);
    return trips ? program_.value(trips->column) * trips->minutes : 0.0;
}

Flow long_run_bound(const Incident& incident, Window window) {
    return gpm(FluidModel(incident, own_legs(incident), window).largest());
}

}  // namespace farwater::supply
