#include "analyzer/supply/bounds/dispatch_bound.h"

#include <algorithm>
#include <array>
#include <limits>
#include <vector>

#include "analyzer/supply/bounds/undisturbed.h"
#include "analyzer/supply/filling/linear_program.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/visits.h"

namespace farwater::supply {
namespace {

constexpr double unlimited = std::numeric_limits<double>::infinity();

struct BoundsOfSite {
    std::size_t places = 0, flows = 0, pump = 0, source = 0;
};

class WindowProgram {
public:
    WindowProgram(const Incident& incident, double end) : incident_(incident), end_(end) {
        for (const Tanker& tanker : incident.tankers) {
            each_.push_back(undisturbed(incident, tanker, end));
        }
        for (std::size_t site = 0; site < incident.fill_sites.size(); ++site) {
            sites_.push_back(bounds_of(site));
        }
        slots_ = program_.add_row(slot_minutes());
        for (std::size_t tanker = 0; tanker < incident.tankers.size(); ++tanker) {
            add(tanker);
        }
    }

    double most_gallons() { return program_.solve(); }

private:
    // A refilled load has held its place, its flow line and its part of the pump by the time at
    // which its first gallon is in.
    BoundsOfSite bounds_of(std::size_t index) {
        const FillSite& site = incident_.fill_sites[index];
        double from_place = unlimited;
        double from_line = unlimited;
        for (std::size_t t = 0; t < incident_.tankers.size(); ++t) {
            const Tanker& tanker = incident_.tankers[t];
            if (tanker.fill_site == index) {
                from_place = std::min(from_place, each_[t].from_place);
                from_line =
                    std::min(from_line, each_[t].from_place + in_minutes(tanker.fill_after));
            }
        }
        const auto minutes_left = [&](double to_the_fire) {
            return std::max(0.0, end_ - to_the_fire - in_minutes(site.ready));
        };
        const int places = std::max(0, site.places);
        const double source =
            site.usable ? in_gallons(*site.usable) + in_gpm(site.inflow) * end_ : unlimited;
        return {.places = program_.add_row(places * minutes_left(from_place)),
                .flows = program_.add_row(site.flows.value_or(places) * minutes_left(from_line)),
                .pump = program_.add_row(in_gpm(site.pump) * minutes_left(from_line)),
                .source = program_.add_row(source)};
    }

    // The load that is under way at the end has not yet held its slot for the handling after, and
    // nursing tankers have needed no slot.
    double slot_minutes() const {
        const DumpSite& dump = incident_.dump_site;
        double begins = unlimited;
        double after = 0.0;
        double nursed = 0.0;
        for (const Tanker& tanker : incident_.tankers) {
            begins = std::min(begins, in_minutes(tanker.arrives));
            after = std::max(after, in_minutes(tanker.offload_after));
            nursed = std::max(nursed, tanker.can_nurse ? in_minutes(offload_visit(tanker)) : 0.0);
        }
        begins = std::max(begins, in_minutes(dump.tanks_ready));
        return std::max(0, dump.offload_slots) * std::max(0.0, end_ - begins + after) +
               std::max(0, dump.nursing_tankers) * nursed;
    }

    // Columns in gallons: of the first load and of the others.
    void add(std::size_t index) {
        const Tanker& tanker = incident_.tankers[index];
        const double load = in_gallons(tanker.delivered);
        if (load <= 0.0) {
            return;
        }
        const FillVisit visit = fill_visit(incident_.fill_sites[tanker.fill_site], tanker);
        const BoundsOfSite& rows = sites_[tanker.fill_site];
        const double refilled = in_gallons(tanker.refilled) / load;
        const LinearProgram::Use in_slot{slots_, in_minutes(offload_visit(tanker)) / load};
        const std::array uses{
            in_slot,
            LinearProgram::Use{rows.places, in_minutes(visit.in_place()) / load},
            LinearProgram::Use{rows.flows, in_minutes(visit.flowing) / load},
            LinearProgram::Use{rows.pump, refilled},
            LinearProgram::Use{rows.source, refilled},
        };
        program_.add_column(1.0, each_[index].first_load, {&in_slot, 1});
        program_.add_column(1.0, each_[index].later_loads, uses);
    }

    const Incident& incident_;
    double end_;
    std::vector<Undisturbed> each_;
    LinearProgram program_;
    std::vector<BoundsOfSite> sites_;
    std::size_t slots_ = 0;
};

}  // namespace

Flow dispatch_bound(const Incident& incident, Window window) {
    const DumpSite& dump = incident.dump_site;
    const double end = in_minutes(window.start + window.duration);
    const double hauled = WindowProgram(incident, end).most_gallons();
    const double in_engine =
        in_minutes(dump.engine_arrives) < end ? in_gallons(dump.engine_tank) : 0.0;
    const Flow bound = gallons(hauled + in_engine) / window.duration;
    return std::min(bound, window_bound(incident, window));
}

}  // namespace farwater::supply
