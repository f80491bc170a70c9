#include "reports/calibration.h"

#include <algorithm>

#include <fmt/format.h>

#include "reports/cautions.h"
#include "reports/drive_words.h"
#include "reports/headline.h"
#include "reports/layers/table_builder.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

using planning::Spread;

std::optional<double> in_minutes_if(const std::optional<Duration>& time) {
    return time ? std::optional(in_minutes(*time)) : std::nullopt;
}

std::size_t count_of(const CalibrationFindings& findings,
                     std::optional<Duration> planning::RunBesidePlan::* timed) {
    return static_cast<std::size_t>(std::ranges::count_if(
        findings.beside, [&](const auto& run) { return (run.*timed).has_value(); }));
}

std::string within_words(const Spread& spread) {
    return fmt::format("{} ({})", spread.within, percent(spread.within, spread.runs));
}

std::string drives_part(const CalibrationFindings& findings) {
    const Spread& all = findings.calibration.drives;
    const std::size_t timed = count_of(findings, &planning::RunBesidePlan::drive);
    if (all.runs == 0) {
        return fmt::format("Drives: none of {} that were timed can be set beside the plan.\n",
                           timed);
    }
    std::string part = fmt::format(
        "Drives, as parts of the planned time (1.00: as planned, or less); {} of {} have a planned "
        "way\n"
        "  {}  {:>5}  {:>14}  {:>11}  {:>19}\n",
        all.runs, timed, padded("", 24), "runs", "as planned", "half within",
        "eight of ten within");
    for (const NamedSpread& group : drive_groups(findings)) {
        part += fmt::format("  {}  {:>5}  {:>14}  {:>11.2f}  {:>19.2f}\n",
                            padded(group.by == "all" ? "all" : group.by + " " + group.name, 24),
                            group.spread.runs, within_words(group.spread), group.spread.half,
                            group.spread.eight_of_ten);
    }
    return part + advice_on_speeds(findings.calibration) + "\n";
}

std::string turnouts_part(const CalibrationFindings& findings) {
    const std::size_t timed = count_of(findings, &planning::RunBesidePlan::turnout);
    if (findings.calibration.turnouts.empty()) {
        return fmt::format("Turnouts: none of {} that were timed can be set beside the plan.\n",
                           timed);
    }
    std::size_t compared = 0;
    for (const planning::TurnoutGroup& group : findings.calibration.turnouts) {
        compared += group.spread.runs;
    }
    std::string part = fmt::format(
        "Turnouts, minutes from tones to wheels rolling; {} of {} have a period\n"
        "  {}  {:>5}  {:>7}  {:>14}  {:>11}  {:>19}\n",
        compared, timed, padded("", 24), "runs", "planned", "as planned", "half within",
        "eight of ten within");
    for (const planning::TurnoutGroup& group : findings.calibration.turnouts) {
        const std::string name = at(findings.district.stations, group.station).id + ", " +
                                 at(findings.district.periods, group.period).name;
        part +=
            fmt::format("  {}  {:>5}  {:>7.1f}  {:>14}  {:>11.1f}  {:>19.1f}\n", padded(name, 24),
                        group.spread.runs, in_minutes(group.planned), within_words(group.spread),
                        group.spread.half, group.spread.eight_of_ten);
    }
    return part +
           "A turnout that eight of ten runs keep is what the standard for volunteer departments "
           "judges by;\nthe plan's stands in [staffing], in [period.NAME] or in [assumptions].\n";
}

// Where there are several.
template <class Groups, class Name>
void add_groups(std::vector<NamedSpread>& all, const std::string& by, const Groups& groups,
                const Name& name) {
    for (std::size_t i = 0; groups.size() > 1 && i < groups.size(); ++i) {
        all.push_back({by, std::string(name(groups[i].key)), groups[i].spread});
    }
}

}  // namespace

std::vector<NamedSpread> drive_groups(const CalibrationFindings& findings) {
    const District& district = findings.district;
    const planning::Calibration& calibration = findings.calibration;
    std::vector<NamedSpread> groups{{"all", "", calibration.drives}};
    add_groups(groups, "kind", calibration.by_kind, [](UnitKind kind) { return word(kind); });
    add_groups(groups, "season", calibration.by_season,
               [&](SeasonIndex season) { return at(district.seasons, season).name; });
    add_groups(groups, "station", calibration.by_station,
               [&](StationIndex station) { return at(district.stations, station).id; });
    return groups;
}

std::string advice_on_speeds(const planning::Calibration& calibration) {
    const Spread& drives = calibration.drives;
    if (drives.runs < planning::fewest_to_judge) {
        return fmt::format("Fewer than {} drives say little of the planning speeds.",
                           planning::fewest_to_judge);
    }
    const auto factor = planning::speed_factor(drives);
    if (!factor) {
        return "Half of the drives were within a twentieth of the plan: the planning speeds fit "
               "these runs.";
    }
    return fmt::format(
        "Half of the drives took {:.2f} times the planned time or less: planning speeds x {:.2f} "
        "would make half of them as planned{}",
        drives.half, *factor,
        *factor < 1.0
            ? ". The plan is faster than these crews were."
            : "; lights and an empty road make a timed run quick, so look before you raise "
              "a speed.");
}

io::FeatureTable timed_runs(const CalibrationFindings& findings) {
    const District& district = findings.district;
    const auto run = [&](std::size_t row) -> const TimedRun& { return findings.runs[row]; };
    const auto beside = [&](std::size_t row) -> const planning::RunBesidePlan& {
        return findings.beside[row];
    };
    const auto minutes_of = [beside](std::optional<Duration> planning::RunBesidePlan::* time) {
        return
            [beside, time](std::size_t row) { return value_of(in_minutes_if(beside(row).*time)); };
    };
    std::vector<ColumnOf> columns{
        text("run_id", "The incident or drill.",
             [run](std::size_t row) { return value_of(run(row).id); }),
        text("unit_id", "The unit.",
             [&district, run](std::size_t row) {
                 return value_of(at(district.units, run(row).unit).id);
             }),
        text("season", "Whose roads and speeds the planned drive has.",
             [&district, beside](std::size_t row) {
                 return value_of(at(district.seasons, beside(row).season).name);
             }),
        text("period", "Whose turnout is planned; empty: not told.",
             [&district, run](std::size_t row) {
                 return run(row).period.valid()
                            ? value_of(at(district.periods, run(row).period).name)
                            : io::Value{};
             }),
        real("turnout_min", "Tones to wheels rolling as timed, minutes.",
             minutes_of(&planning::RunBesidePlan::turnout), 2),
        real("planned_turnout_min", "As planned; empty: not known.",
             minutes_of(&planning::RunBesidePlan::planned_turnout), 2),
        real("drive_min", "Wheels rolling to arrival as timed, minutes.",
             minutes_of(&planning::RunBesidePlan::drive), 2),
        real("planned_drive_min", "As planned; empty: no way there for the unit.",
             minutes_of(&planning::RunBesidePlan::planned_drive), 2),
    };
    return table({"timed_runs", "Timed runs beside the plan", "A row a run."}, std::move(columns),
                 findings.runs.size());
}

std::string calibration_text(const CalibrationFindings& findings) {
    std::string text = fmt::format(
        "{}: {} timed run{} beside the plan\n{}\n\n{}\n{}\n", on_one_line(findings.district.name),
        findings.runs.size(), findings.runs.size() == 1 ? "" : "s",
        travel_time_sentence(findings.district), drives_part(findings), turnouts_part(findings));
    text +=
        "Runs that were timed are not all runs: bad roads, snow and loaded tankers are seldom "
        "among them.\n\n";
    for (const std::string_view caution : cautions) {
        text += std::string(caution) + "\n";
    }
    return text;
}

}  // namespace farwater::reports
