#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "analyzer/app/by_name.h"
#include "analyzer/app/commands/commands.h"
#include "analyzer/app/csv_result.h"
#include "analyzer/app/drive_ends.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/reading.h"
#include "analyzer/app/road_work.h"
#include "analyzer/app/session.h"
#include "io/csv_writer.h"
#include "io/district_file.h"
#include "io/error.h"
#include "io/read_district.h"
#include "io/read_points.h"
#include "reports/drive_times.h"
#include "reports/drive_words.h"
#include "routing/drive_table.h"
#include "routing/profiles.h"

namespace farwater::app {
namespace {

constexpr std::size_t most_rows_shown = 40;

SeasonIndex season_of(const District& district, const std::string& wanted) {
    const auto name = [](const Season& season) -> std::string_view { return season.name; };
    return SeasonIndex(wanted.empty() ? 0 : position_of(district.seasons, wanted, "season", name));
}

ProfileIndex profile_of(const District& district, const std::vector<Profile>& profiles,
                        const std::string& wanted) {
    if (wanted.empty()) {
        const std::vector<ProfileIndex> tankers = routing::tanker_profiles(profiles);
        const auto usual =
            tankers.empty() ? routing::response_profile(profiles) : std::optional(tankers.front());
        if (!usual) {
            throw io::InputError("apparatus: there is neither an engine nor a tanker to drive");
        }
        return *usual;
    }
    const auto id = [](const Unit& unit) -> std::string_view { return unit.id; };
    const UnitIndex unit(position_of(district.units, wanted, "unit", id));
    for (std::size_t p = 0; p < profiles.size(); ++p) {
        if (std::ranges::find(profiles[p].members, unit) != profiles[p].members.end()) {
            return ProfileIndex(p);
        }
    }
    throw io::SettingsError(
        fmt::format("unit \"{}\" is neither an engine nor a tanker: it is not routed", wanted));
}

std::string vehicles_of(const Profile& profile, const District& district) {
    return fmt::format("{} {}; {}, {:.0f} mph at most", word(profile.kind), profile.name,
                       routing::weight_in_words(profile, district), in_mph(profile.top_speed));
}

DriveTime limit_of(const DriveOptions& drives, const Assumptions& assumptions) {
    const double minutes_most = drives.limit_min.value_or(in_minutes(assumptions.trip_limit));
    return tenths_of_second(static_cast<std::int32_t>(std::floor(minutes_most * 600.0 + 1e-7)));
}

// A station beyond the data: the drive to its gate point comes on top.
void add_gates(std::vector<DrivePair>& drives, const DriveSide& from, const DriveSide& to) {
    for (DrivePair& pair : drives) {
        const DriveTime gates = from.to_gate[pair.from] + to.to_gate[pair.to];
        pair.loaded.time = pair.loaded.time + gates;
        pair.empty.time = pair.empty.time + gates;
    }
}

struct Asked {
    SideAsked from, to;
};

// None when stopped.
std::optional<reports::DriveTable> table_of(const Options& options, const io::ReadResult& read,
                                            const Asked& asked, Session& session) {
    const District& district = read.district;
    const Work& work = session.work();
    const std::vector<Profile> profiles = routing::vehicle_profiles(district);
    const ProfileIndex profile = profile_of(district, profiles, options.drives.vehicle);
    const SeasonIndex season = season_of(district, options.drives.season);
    const std::optional<RoadsFound> found =
        find_roads(district, profiles, work, [&](std::string_view stage) { session.stage(stage); });
    if (!found) {
        return std::nullopt;
    }
    const routing::RoadSystem roads{district, found->network.network, found->access.access,
                                    profiles};
    session.stage("points");
    DriveSide from = drive_side(asked.from, roads, profile, season, read.crs, work);
    DriveSide to = drive_side(asked.to, roads, profile, season, read.crs, work);
    session.stage("drives");
    reports::DriveTable table{
        .district = district.name,
        .season = at(district.seasons, season).name,
        .vehicles = vehicles_of(at(profiles, profile), district),
        .time_model = reports::travel_time_of_drives(district),
        .limit_min = options.drives.limit_min.value_or(in_minutes(district.assumptions.trip_limit)),
        .from = from.ends,
        .to = to.ends,
        .drives = work.stopped() ? std::vector<DrivePair>{}
                                 : routing::drives_between(
                                       roads, profile, season, from.spots, to.spots,
                                       limit_of(options.drives, district.assumptions), work),
        .problems = std::move(from.problems)};
    table.problems.insert(table.problems.end(), to.problems.begin(), to.problems.end());
    add_gates(table.drives, from, to);
    return work.stopped() ? std::nullopt : std::optional(std::move(table));
}

std::string answer(const Options& options, const reports::DriveTable& table) {
    if (options.json) {
        return reports::drive_times_json(table);
    }
    std::string text = reports::drive_times_text(table, options.csv ? 0 : most_rows_shown);
    if (options.csv) {
        text += fmt::format("Written: {}\n", options.csv->string());
    }
    return text;
}

}  // namespace

int drive_times_command(const Options& options, io::Interrupt& interrupt) {
    Session session(options, interrupt);
    const DriveOptions& drives = options.drives;
    const io::DistrictFile file = io::read_district_file(options.district_file);
    const Asked asked{{io::spec_of_points(file, drives.from), drives.from_id},
                      {io::spec_of_points(file, drives.to), drives.to_id}};
    if (options.csv) {
        refuse_over_inputs(*options.csv, file,
                           std::array{asked.from.spec.path, asked.to.spec.path});
    }
    session.stage("reading");
    const Reading reading = read_with_needs(file, session.work());
    const io::ReadResult& read = reading.read;
    const auto table =
        session.work().stopped() ? std::nullopt : table_of(options, read, asked, session);
    if (!table) {
        return exit_interrupted;
    }
    if (options.csv && !io::write_csv(*options.csv, reports::drive_times(*table), session.work())) {
        return exit_interrupted;
    }
    session.end();
    complain_of(options, table->problems);
    session.say(answer(options, *table));
    const bool problems = !table->problems.empty() || !read.district.problems.empty();
    return options.strict && problems ? exit_problems : exit_done;
}

}  // namespace farwater::app
