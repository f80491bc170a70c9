#include "analyzer/supply/places/one_more_engine.h"

#include <algorithm>
#include <array>
#include <utility>

#include "analyzer/supply/filling/fill_option.h"
#include "analyzer/supply/places/crew.h"
#include "analyzer/supply/places/shuttle_case.h"
#include "analyzer/supply/several/fill_set.h"

namespace farwater::supply {
namespace {

constexpr std::size_t rows_a_chunk = 1024;

Situation with_one_more(Situation situation) {
    situation.one_more_engine = true;
    situation.told = Told::flow;
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

// Fill sites that there are people for, by the number of tankers that are run, from one on; with
// the further engine's people and without them.
struct Manned {
    std::vector<std::size_t> with, without;
};

Manned manned_by_tankers(const Situation& situation, const Scene& scene, UnitIndex engine) {
    const Assumptions& assumptions = situation.district.assumptions;
    const Duration by = situation.order.flow_from(assumptions, scene.first_arrival);
    const CrewThere with = crew_there(situation, scene, by);
    Scene as_it_is = scene;
    const auto further = std::ranges::find(as_it_is.engines.rbegin(), as_it_is.engines.rend(),
                                           engine, &Arrival::unit);
    if (further != as_it_is.engines.rend()) {
        as_it_is.engines.erase(std::next(further).base());
    }
    const CrewThere without = crew_there(situation, as_it_is, by);
    Manned manned;
    for (std::size_t tankers = 1; tankers <= scene.tankers.size(); ++tankers) {
        manned.with.push_back(fill_sites_manned(assumptions, with, tankers, most_fill_sites));
        manned.without.push_back(fill_sites_manned(assumptions, without, tankers, most_fill_sites));
    }
    return manned;
}

// Whether some two fill sites are run otherwise with the further engine, or sooner.
bool runs_a_pair(const Situation& situation, const Scene& scene,
                 const std::vector<FillOption>& with, std::size_t engine) {
    std::vector<FillOption> without = with;
    for (FillOption& option : without) {
        option.run_by[engine] = std::nullopt;
    }
    for (std::size_t a = 0; a < with.size(); ++a) {
        for (std::size_t b = a + 1; b < with.size(); ++b) {
            const auto more = run_together(situation, scene, std::array{&with[a], &with[b]});
            const auto before =
                more ? run_together(situation, scene, std::array{&without[a], &without[b]})
                     : std::nullopt;
            if (more && !(before && std::ranges::equal(more->sites, before->sites, {},
                                                       &FillSite::ready, &FillSite::ready))) {
                return true;
            }
        }
    }
    return false;
}

std::vector<FillOption> runnable_options(const Situation& situation, const Scene& scene) {
    const std::vector<Tanker> tankers = tankers_of(situation, scene);
    std::vector<FillOption> options;
    for (const FillTrip& trip : situation.trips.fill_trips[scene.approach.position()]) {
        FillOption option = fill_option(situation, scene, tankers, trip);
        if (plan_alone(situation, scene, tankers, option).usable()) {
            options.push_back(std::move(option));
        }
    }
    return options;
}

// Whether it may change what the shuttle of one scene holds.
class EngineWork {
public:
    EngineWork(const Situation& situation, const Scene& scene)
        : situation_(situation),
          scene_(scene),
          engine_(further_engine(scene)),
          idle_(scene.missing != Limit::none || engine_ > scene.engines.size()) {
        if (!idle_ && !comes_first()) {
            manned_ = manned_by_tankers(situation, scene, scene.engines[engine_].unit);
        }
    }

    // One of the first two or the third to come does. Any other one runs no single fill site sooner
    // than its like, so that all of its use is a further one: a second, or where two are run
    // already a third. `supply`: what the shuttle is without it.
    bool may_change(const ParcelSupply& supply) {
        if (idle_ || comes_first()) {
            return !idle_;
        }
        if (manned_.with.empty() || manned_.with.front() < 2) {
            return false;
        }
        return supply.fill_sites() > 1 || may_open_second(supply);
    }

private:
    bool comes_first() const {
        return engine_ <= engines_with_other_jobs || !slots_manned(situation_, scene_.set_up);
    }

    // People are asked for with the tankers that the best single fill site has.
    bool may_open_second(const ParcelSupply& supply) {
        const std::size_t run = supply.tankers;
        const bool known =
            supply.mode == SupplyMode::shuttle && run > 0 && run <= manned_.with.size();
        if (known && manned_.with[run - 1] < 2) {
            return false;
        }
        return (known ? manned_.with[run - 1] != manned_.without[run - 1]
                      : manned_.with != manned_.without) ||
               runs_some_pair();
    }

    bool runs_some_pair() {
        if (!pair_) {
            pair_ = runs_a_pair(situation_, scene_, runnable_options(situation_, scene_), engine_);
        }
        return *pair_;
    }

    const Situation& situation_;
    const Scene& scene_;
    std::size_t engine_;
    bool idle_;
    Manned manned_;
    std::optional<bool> pair_;
};

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
    : with_(with_one_more(situation)),
      assessor_(with_, needs, first_arrivals),
      told_(situation.told == Told::everything && !situation.order.terms) {}

std::optional<Keyed> OneMoreEngine::lay_behind(std::size_t row, const ParcelSupply& supply) const {
    const std::span<const HoseLay> lays = assessor_.lays_of(row);
    const auto lane_with_tanks = [&](const HoseLay& one) {
        return lane_beside_tanks(with_.district, at(with_.trips.dump_sites, one.dump_site),
                                 one.lane);
    };
    const auto lay = std::ranges::find_if(lays, [&](const HoseLay& one) {
        return one.dump_site == supply.dump_site && one.ways() == supply.approach &&
               lane_with_tanks(one) == supply.lane && supply.hose_ft &&
               static_cast<float>(in_feet(one.length)) == *supply.hose_ft;
    });
    return lay == lays.end() ? std::nullopt
                             : std::optional(assessor_.keyed(
                                   row, static_cast<std::size_t>(lay - lays.begin()), 0));
}

std::vector<Keyed> OneMoreEngine::with_use(const std::vector<Keyed>& lays,
                                           const RowAnswers& answers, const Work& work) const {
    std::vector<char> of_use(lays.size(), 0);
    assessor_.for_each_scene(lays, work, [&](const Scene& scene, std::span<const Keyed> items) {
        EngineWork engine(with_, scene);
        for (const Keyed& item : items) {
            of_use[item.slot] = engine.may_change(answers.of_row(item.row)) ? 1 : 0;
        }
    });
    return those_kept(lays, [&](std::size_t i) { return of_use[i] != 0; });
}

std::vector<Keyed> OneMoreEngine::promising(std::vector<Keyed> lays, const RowAnswers& answers,
                                            const Work& work) const {
    std::vector<Promise> promised(lays.size());
    assessor_.promise(lays, promised, work);
    std::vector<Keyed> kept = those_kept(lays, [&](std::size_t i) {
        return promised[i].most > answers.of_row(lays[i].row).cautious;
    });
    for (Keyed& item : kept) {
        item.key.least = answers.of_row(item.row).cautious;
    }
    return kept;
}

// By the row's place among the answers.
std::vector<HeldFlow> OneMoreEngine::by_shuttle(std::vector<Keyed> lays, const RowAnswers& answers,
                                                const Work& work) const {
    lays = those_kept(lays, [](std::size_t) { return true; });  // slots from 0 on
    lays = promising(with_use(lays, answers, work), answers, work);
    std::vector<ParcelSupply> found(lays.size());
    assessor_.answer(lays, found, work);
    std::vector<HeldFlow> flows(answers.size());
    for (const Keyed& item : lays) {
        flows[answers.place_of(item.row)] = found[item.slot].sustained;
    }
    return flows;
}

HeldFlow OneMoreEngine::by_hose(std::size_t row, const ParcelSupply& supply) const {
    const auto hose = assessor_.direct(row, supply);
    return hose ? hose->sustained : HeldFlow{};
}

void OneMoreEngine::add_gains(std::vector<Keyed> lays, RowAnswers& answers,
                              const Work& work) const {
    if (!told_) {
        return;
    }
    const std::vector<HeldFlow> shuttles = by_shuttle(std::move(lays), answers, work);
    for_each_chunk(work, "one more engine", answers.size(), rows_a_chunk,
                   [&](std::size_t begin, std::size_t end) {
                       for (std::size_t i = begin; i < end; ++i) {
                           ParcelSupply& supply = answers.all()[i];
                           const HeldFlow hose = by_hose(answers.rows()[i], supply);
                           tell_gain(supply, std::max(shuttles[i], hose));
                       }
                   });
}

}  // namespace farwater::supply
