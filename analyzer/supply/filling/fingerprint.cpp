#include "analyzer/supply/filling/fingerprint.h"

#include <optional>

namespace farwater::supply {
namespace {

void add(Fingerprint& print, Duration time) { print.add(in_minutes(time)); }
void add(Fingerprint& print, Flow flow) { print.add(in_gpm(flow)); }
void add(Fingerprint& print, Volume volume) { print.add(in_gallons(volume)); }
void add(Fingerprint& print, int number) { print.add(static_cast<std::uint64_t>(number)); }

template <class Value>
void add(Fingerprint& print, const std::optional<Value>& value) {
    add(print, value ? 1 : 0);
    add(print, value.value_or(Value{}));
}

void add(Fingerprint& print, const Tanker& tanker) {
    for (const Volume volume : {tanker.delivered, tanker.refilled}) {
        add(print, volume);
    }
    for (const Flow flow : {tanker.fill_limit, tanker.offload, tanker.nurse_rate}) {
        add(print, flow);
    }
    for (const Duration time :
         {tanker.fill_before, tanker.fill_after, tanker.offload_before, tanker.offload_after,
          tanker.arrives, tanker.leg.empty, tanker.leg.loaded}) {
        add(print, time);
    }
    add(print, tanker.can_nurse ? 1 : 0);
    print.add(std::uint64_t{tanker.fill_site});
}

void add(Fingerprint& print, const FillSite& site) {
    add(print, site.places);
    add(print, site.flows);
    add(print, site.pump);
    add(print, site.ready);
    add(print, site.usable);
    add(print, site.inflow);
    add(print, site.backing);
}

void add(Fingerprint& print, const DumpSite& site) {
    add(print, site.offload_slots);
    for (const Duration from : site.further_slots_from) {
        add(print, from);
    }
    for (const Duration time : {site.single_file, site.engine_arrives, site.tanks_ready,
                                site.draft_ready, site.nurse_hookup}) {
        add(print, time);
    }
    add(print, site.storage);
    add(print, site.engine_tank);
    add(print, site.nursing_tankers);
    add(print, site.flow_cap);
}

}  // namespace

Fingerprint fingerprint_of(const Incident& incident) {
    Fingerprint print;
    print.add(std::uint64_t{incident.tankers.size()});
    for (const Tanker& tanker : incident.tankers) {
        add(print, tanker);
    }
    print.add(std::uint64_t{incident.fill_sites.size()});
    for (const FillSite& site : incident.fill_sites) {
        add(print, site);
    }
    add(print, incident.dump_site);
    add(print, incident.initial_attack.flow);
    add(print, incident.initial_attack.from);
    return print;
}

}  // namespace farwater::supply
