#include <algorithm>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "analyzer/app/analysis.h"
#include "analyzer/app/by_name.h"
#include "analyzer/app/commands/commands.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/first_engines.h"
#include "analyzer/app/reading.h"
#include "analyzer/app/session.h"
#include "analyzer/supply/assess.h"
#include "io/district_file.h"
#include "io/error.h"
#include "io/near_word.h"
#include "reports/explain/explanation.h"
#include "routing/drive_times.h"

namespace farwater::app {
namespace {

// The row of a parcel's id, else of a target's.
std::size_t row_of_place(const District& district, const std::string& wanted) {
    const auto parcel = std::ranges::find(district.parcels, wanted, &Parcel::id);
    if (parcel != district.parcels.end()) {
        return static_cast<std::size_t>(parcel - district.parcels.begin());
    }
    const auto target = std::ranges::find(district.targets, wanted, &Target::id);
    if (target != district.targets.end()) {
        return district.parcels.size() +
               static_cast<std::size_t>(target - district.targets.begin());
    }
    std::vector<std::string_view> ids;
    ids.reserve(district.parcels.size() + district.targets.size());
    for (const Parcel& known : district.parcels) {
        ids.emplace_back(known.id);
    }
    for (const Target& known : district.targets) {
        ids.emplace_back(known.id);
    }
    throw io::SettingsError(fmt::format("there is no parcel and no target \"{}\"{}", wanted,
                                        io::did_you_mean(wanted, ids)));
}

template <class Thing, class Things>
std::optional<Index<Thing>> named(const Things& things, const std::string& wanted,
                                  const char* what) {
    const auto name = [](const auto& thing) -> std::string_view { return thing.name; };
    return wanted.empty() ? std::nullopt
                          : std::optional(Index<Thing>(position_of(things, wanted, what, name)));
}

// Each engine that rolls at the alarm by itself, by the search that finds the first of them.
std::vector<reports::EngineToHouse> engines_to_house(const VariantSeen& seen,
                                                     const supply::Working& working,
                                                     std::size_t row) {
    const District& district = seen.roads.district;
    const auto profile_of = supply::profile_of_units(district, seen.roads.profiles);
    std::vector<reports::EngineToHouse> engines;
    for (const supply::Responder& responder : working.responders) {
        const ProfileIndex profile = at(profile_of, responder.unit);
        const Unit& unit = at(district.units, responder.unit);
        if (unit.kind != UnitKind::engine || responder.on_request || !profile.valid()) {
            continue;
        }
        const routing::Departure departure{unit.station, in_drive_time(responder.rolls)};
        const DriveTime there = routing::first_arrivals(
            seen.roads, profile, std::span(&departure, 1), working.variant.season)[row];
        if (reachable(there)) {
            engines.push_back({responder.unit, responder.rolls, there});
        }
    }
    std::ranges::stable_sort(engines, {}, &reports::EngineToHouse::there);
    return engines;
}

// What is kept of the season and period that is shown.
struct Shown {
    supply::Working working;
    std::vector<reports::EngineToHouse> engines;
};

// Keeps the worst of what it sees: of equals the first, as the results do.
class OneRow {
public:
    explicit OneRow(std::size_t row) : row_(row) {}

    void see(const VariantSeen& seen) {
        supply::Working working =
            supply::working_of(seen.situation, seen.needs, seen.first_arrivals, row_);
        answers_.push_back(
            {working.variant, working.supply.state, working.supply.mode, working.supply.cautious});
        if (!shown_ || supply::stands_for_worst(working.supply, shown_->working.supply)) {
            auto engines = engines_to_house(seen, working, row_);
            shown_ = Shown{std::move(working), std::move(engines)};
        }
    }
    const std::optional<Shown>& shown() const { return shown_; }
    const std::vector<reports::AnswerIn>& answers() const { return answers_; }

private:
    std::size_t row_;
    std::optional<Shown> shown_;
    std::vector<reports::AnswerIn> answers_;
};

}  // namespace

int explain_command(const Options& options, io::Interrupt& interrupt) {
    Session session(options, interrupt);
    const io::DistrictFile file = io::read_district_file(options.district_file);
    session.stage("reading");
    Reading reading = read_with_needs(file, session.work());
    if (session.work().stopped()) {
        return exit_interrupted;
    }
    const District& district = reading.read.district;
    const std::size_t row = row_of_place(district, options.explain.place);
    const auto season = named<SeasonTag>(district.seasons, options.explain.season, "season");
    const auto period = named<PeriodTag>(district.periods, options.explain.period, "period");
    OneRow one(row);
    const Onlooker onlooker{.wanted =
                                [&](supply::Variant variant) {
                                    return (!season || *season == variant.season) &&
                                           (!period || *period == variant.period);
                                },
                            .sees = [&](const VariantSeen& seen) { one.see(seen); }};
    const auto analysis = analyse(
        district, std::move(reading.needs), session.work(),
        [&](std::string_view stage) { session.stage(stage); }, onlooker, std::span(&row, 1));
    if (!analysis || !one.shown()) {
        return exit_interrupted;
    }
    session.end();
    const reports::Findings findings = analysis->findings(district);
    const reports::Explained explained{
        findings,
        row,
        one.shown()->working,
        one.shown()->engines,
        one.answers(),
        {.season = season.has_value(), .period = period.has_value()}};
    session.say(options.json ? reports::explanation_json(explained)
                             : reports::explanation_text(explained));
    return options.strict && !analysis->problems.empty() ? exit_problems : exit_done;
}

}  // namespace farwater::app
