#include "analyzer/supply/places/one_more_engine.h"

#include <algorithm>
#include <utility>

#include "analyzer/supply/filling/fill_option.h"
#include "analyzer/supply/places/crew.h"
#include "analyzer/supply/places/shuttle_case.h"

namespace farwater::supply {
namespace {

constexpr std::size_t rows_a_chunk = 1024;

Situation with_one_more(Situation situation) {
    situation.one_more_engine = true;
    return situation;
}

// Where the further engine stands in the list: behind the one that it is like.
std::size_t further_engine(const Scene& scene) {
    const auto twin = std::ranges::adjacent_find(scene.engines, {}, &Arrival::unit);
    return static_cast<std::size_t>(twin - scene.engines.begin()) + 1;
}

// All are run from the beginning.
bool slots_manned(const Situation& situation, const DumpSite& site) {
    const DumpSite all = with_all_slots(site, situation.district.assumptions);
    return site.offload_slots == all.offload_slots &&
           std::ranges::all_of(site.further_slots_from,
                               [&](Duration from) { return from <= site.tanks_ready; });
}

// Without it there are people for all fill sites that may be opened.
bool people_suffice(const Situation& situation, const Scene& scene, UnitIndex engine) {
    CrewThere there =
        crew_there(situation, scene,
                   situation.order.flow_from(situation.district.assumptions, scene.first_arrival));
    const auto crew = crew_of(situation.district, engine, situation.period);
    there.people -= crew.value_or(0);
    there.not_listed -= crew ? 0U : 1U;
    return fill_sites_manned(situation.district.assumptions, there, scene.tankers.size(),
                             most_fill_sites) == most_fill_sites;
}

// Whether it may run the fill site sooner than two others could that are left over too. Of three
// fill sites they can run those that it and its like would.
bool may_run(const FillOption& option, std::size_t engine) {
    const auto& ready = option.run_by[engine];
    std::size_t as_soon = 0;
    for (std::size_t other = 0; other < option.run_by.size(); ++other) {
        const bool apart = other != engine && other + 1 != engine;
        as_soon += apart && option.run_by[other] && ready && *option.run_by[other] <= *ready;
    }
    return ready && as_soon + 1 < most_fill_sites;
}

// Whether it may change what the shuttle holds.
bool has_work(const Situation& situation, const Scene& scene) {
    const std::size_t engine = further_engine(scene);
    if (scene.missing != Limit::none || engine > scene.engines.size()) {
        return false;
    }
    if (engine <= engines_with_other_jobs || !slots_manned(situation, scene.set_up) ||
        !people_suffice(situation, scene, scene.engines[engine].unit)) {
        return true;
    }
    const std::vector<Tanker> tankers = tankers_of(situation, scene);
    return std::ranges::any_of(
        situation.trips.fill_trips[scene.approach.position()], [&](const FillTrip& trip) {
            return may_run(fill_option(situation, scene, tankers, trip), engine);
        });
}

void tell_gain(ParcelSupply& supply, HeldFlow with) {
    const std::int32_t more = in_tenths(with) - in_tenths(supply.sustained);
    if (more < no_gain_below) {
        return;
    }
    supply.gain_engine = rounded_down(tenths_of_gpm(more));
    const bool largest = supply.gain_engine > *std::ranges::max_element(supply.gains);
    if (supply.mode == SupplyMode::shuttle && supply.limit != Limit::supply_line && largest) {
        supply.limit = Limit::engines;
    }
}

template <class Keep>
std::vector<Keyed> those_kept(const std::vector<Keyed>& items, const Keep& keep) {
    std::vector<Keyed> kept;
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (keep(i)) {
            kept.push_back(items[i]);
            kept.back().slot = static_cast<std::uint32_t>(kept.size() - 1);
        }
    }
    return kept;
}

}  // namespace

OneMoreEngine::OneMoreEngine(const Situation& situation,
                             const std::vector<std::optional<Need>>& needs,
                             const std::vector<DriveTime>& first_arrivals)
    : with_(with_one_more(situation)), assessor_(with_, needs, first_arrivals) {}

std::optional<Keyed> OneMoreEngine::lay_behind(std::size_t row, const ParcelSupply& supply) const {
    const std::span<const HoseLay> lays = assessor_.lays_of(row);
    const auto lay = std::ranges::find_if(lays, [&](const HoseLay& one) {
        return one.dump_site == supply.dump_site && one.ways() == supply.approach &&
               one.lane == supply.lane && supply.hose_ft &&
               static_cast<float>(in_feet(one.length)) == *supply.hose_ft;
    });
    return lay == lays.end() ? std::nullopt
                             : std::optional(assessor_.keyed(
                                   row, static_cast<std::size_t>(lay - lays.begin()), 0));
}

std::vector<Keyed> OneMoreEngine::with_use(std::vector<Keyed> lays, const Work& work) const {
    std::vector<char> of_use(lays.size(), 0);
    assessor_.for_each_scene(lays, work, [&](const Scene& scene, std::span<const Keyed> items) {
        const bool works = has_work(with_, scene);
        for (const Keyed& item : items) {
            of_use[item.slot] = works ? 1 : 0;
        }
    });
    return those_kept(lays, [&](std::size_t i) { return of_use[i] != 0; });
}

std::vector<Keyed> OneMoreEngine::promising(std::vector<Keyed> lays,
                                            const std::vector<ParcelSupply>& supplies,
                                            const Work& work) const {
    std::vector<Promise> promised(lays.size());
    assessor_.promise(lays, promised, work);
    std::vector<Keyed> kept = those_kept(
        lays, [&](std::size_t i) { return promised[i].most > supplies[lays[i].row].cautious; });
    for (Keyed& item : kept) {
        item.key.least = supplies[item.row].cautious;
    }
    return kept;
}

// Per row.
std::vector<HeldFlow> OneMoreEngine::by_shuttle(std::vector<Keyed> lays,
                                                const std::vector<ParcelSupply>& supplies,
                                                const Work& work) const {
    lays = those_kept(lays, [](std::size_t) { return true; });  // slots from 0 on
    lays = promising(with_use(std::move(lays), work), supplies, work);
    std::vector<ParcelSupply> found(lays.size());
    assessor_.answer(lays, found, work);
    std::vector<HeldFlow> flows(supplies.size());
    for (const Keyed& item : lays) {
        flows[item.row] = found[item.slot].sustained;
    }
    return flows;
}

HeldFlow OneMoreEngine::by_hose(std::size_t row, const ParcelSupply& supply) const {
    const auto hose = assessor_.direct(row, supply);
    return hose ? hose->sustained : HeldFlow{};
}

void OneMoreEngine::add_gains(std::vector<Keyed> lays, std::vector<ParcelSupply>& supplies,
                              const Work& work) const {
    if (with_.order.terms) {
        return;
    }
    const std::vector<HeldFlow> shuttles = by_shuttle(std::move(lays), supplies, work);
    for_each_chunk(work, "one more engine", supplies.size(), rows_a_chunk,
                   [&](std::size_t begin, std::size_t end) {
                       for (std::size_t row = begin; row < end; ++row) {
                           const HeldFlow hose = by_hose(row, supplies[row]);
                           tell_gain(supplies[row], std::max(shuttles[row], hose));
                       }
                   });
}

void OneMoreEngine::add_gain(const std::optional<Keyed>& lay, ParcelSupply& supply,
                             std::size_t row) const {
    if (with_.order.terms) {
        return;
    }
    HeldFlow shuttle{};
    if (lay) {
        std::vector<ParcelSupply> supplies(row + 1);
        supplies[row] = supply;
        shuttle = by_shuttle({*lay}, supplies, Work{})[row];
    }
    tell_gain(supply, std::max(shuttle, by_hose(row, supply)));
}

}  // namespace farwater::supply
