// What the help pages say: the first one, and those of commands that say more than a line.
#pragma once

#include <string_view>

namespace farwater::app::help {

inline constexpr std::string_view first_page =
    R"(How much water a tanker shuttle can hold at every property of a fire district.

  farwater init FOLDER                        a first district file from the data in it
  farwater check district.toml                what is wrong with the data, nothing written
  farwater run district.toml                  the analysis, into the folder result/ beside it
  farwater run district.toml --out coverage   into another folder
  farwater drive-times district.toml --from stations --to water_sources
                                              minutes and miles, there and back
  farwater calibrate district.toml            timed runs beside the planned ones
  farwater explain district.toml 042-017      the whole calculation of one parcel, on paper
  farwater propose district.toml              where the next source of water helps most
  farwater improvements district.toml         what a tanker, hose, aid, people do beside it
  farwater cards district.toml                run cards to print, one for each dump site
  farwater compare last-year/result result    what changed since last year's result
  farwater shuttle scenario.toml              what a shuttle typed by hand can hold, no map
  farwater keys                               every key of both kinds of file, with defaults
)";

inline constexpr std::string_view first_page_foot =
    R"(Exit codes: 0 done, 1 internal failure, 2 usage or district file, 3 input refused, 4 output
(disk, rights, result open elsewhere), 5 problems found by check or under --strict,
130 interrupted. Results go to files and standard output, messages to standard error.
Planning figures: prove them by a timed drill; local codes and the authority having
jurisdiction go first.
)";

inline constexpr std::string_view init =
    R"(A first district file from the data that lie in a folder and the folders in it: parcels, roads,
buildings, water, elevation, the assessor's table, stations and what else is told by shapes,
columns and names. What is not told apart is left out and listed, never guessed.

  farwater init town
  farwater check town/district.toml           next: what is wrong with it, what is still missing

Written are FOLDER/district.toml and, where no table tells stations, apparatus or water sources,
FOLDER/department.xlsx to fill in. Files that are there are never written over. Of each layer the
first 200 records are looked at; read the file through before you rely on it.)";

inline constexpr std::string_view drive_times =
    R"(Minutes and road miles between the points of two layers, loaded there and empty back, as `run`
drives them: the same roads, speeds, limits and restrictions.

  farwater drive-times district.toml --from stations --to water_sources
  farwater drive-times district.toml --from water_sources --to parcels --csv drives.csv
  farwater drive-times district.toml --from camps.gpkg:huts --to stations --season winter

A layer is a section of the district file that has points or areas (stations, water_sources,
dump_site_places, targets, parcels, buildings, address_points, mapped_water), or a file or
connection that GDAL reads, with :LAYER behind it where it holds several. Vehicles drive from
and to the nearest road that they may use; a parcel's drives end at its access point.)";

inline constexpr std::string_view calibrate =
    R"(Runs that were timed, from the incident records or a drill, beside what the plan says of them:
turnouts by station and period, drives by kind of unit, season and station. How many were no longer
than planned, within what half of them and eight of ten were, and what follows for planning speeds.

  farwater calibrate district.toml
  farwater calibrate district.toml --csv runs.csv    run by run

The runs are a table that the district file names, a row for each unit's run to one place:

  [timed_runs]
  file = "incidents.csv"
  crs = "EPSG:4326"
  columns.unit_id = "UNIT"
  columns.rolling_at = "ENROUTE"
  columns.arrived_at = "ONSCENE"
  columns.x = "LON"
  columns.y = "LAT"

and run_id, date, period, from_id, toned_at, turnout_min, drive_min where it has them (farwater keys).
Nothing is changed by it: the district file's figures are the officer's to write.)";

inline constexpr std::string_view explain =
    R"(The whole calculation of one parcel as it is written on paper: what is needed, who comes when,
dump site, fill site and the ways between, each tanker's trip, what is held and what limits it,
and every assumption that it rests on. Each sum has its numbers in it, so that it can be worked
out again by hand. The answer is the one of `run`; nothing is written.

  farwater explain district.toml 042-017
  farwater explain district.toml 042-017 --season winter --period weekday_day
  farwater explain district.toml 042-017 --json

The id is that of a parcel, else of a target. Without a season and a period the worst of all is
shown, as in the results; with one of the two the worst that it leaves. An id that begins with a
dash goes behind two of them: farwater explain district.toml -- -17)";

inline constexpr std::string_view propose =
    R"(Where the next dry hydrant or cistern helps most: places in the order in which they are worth
building, each with what it gains, for whom, what it costs and what must be found out first.

  farwater propose district.toml                    the best five
  farwater propose district.toml --sites 10 --out plan
  farwater propose district.toml --budget 60000     the best that the money buys
  farwater propose district.toml --planned C2 --rule-out DH-17
  farwater propose district.toml --sites 8 --yearly-budget 20000   which year builds what
  farwater propose district.toml --weigh-by building_area --exact

Places to choose from are those of [proposals] in the district file, a dry hydrant wherever a
road comes near [mapped_water], and cisterns at the junctions and on the public parcels that have
most flow missing near them. Gains are worked out as `run` works out supply, with the place
among the sources. To see for yourself, let [what_if_sources] name the layer source_proposals.
Planned places come first and use up neither the number nor the budget. The table [next_source] of
the district file holds such terms for every time; with it `run` proposes too, on its map page.
Results go to the folder proposals beside the district file, or to --out.)";

inline constexpr std::string_view improvements =
    R"(Spending of all kinds side by side, for the yearly budget: what a tanker, a portable tank, hose,
an engine to fill, a dump valve, aid that comes by itself, a road kept open, a bridge that bears
more, people in a thin period or a source would each do by itself, and what it costs.

  farwater improvements district.toml
  farwater improvements district.toml --out budget --json
  farwater improvements district.toml --yearly-budget 90000   which year buys what

Each [[improvement]] of the district file is worked out by the whole analysis, as `run` does, with
it made: buildings that come to meet their planned flow and that no longer do, gpm of shortfall
taken away, rating, value, cost and yearly cost. The places of [proposals] stand beside them. A file
without any gets one more of each usual thing, without a cost. That takes a run for each. Results
go to the folder improvements beside the district file, or to --out.)";

inline constexpr std::string_view cards =
    R"(Run cards for the cab: one printed page for each dump site, with map, who comes, fill sites, flow
by minute, the gap, what to call for and room to write in by hand; in front an index from house
number to card, behind them a page for each source that counts, but for hydrants that fill for nobody.

  farwater cards district.toml
  farwater cards district.toml --out /media/stick/cards

The answers are those of `run`. Written are cards.pdf, cards.html with the same, dispatch.csv
(address, card, dump site, fill sites, first tankers), wall_sheet.pdf (36 x 24 in) and atlas.pdf
(11 x 17 in) with the same numbers, into the folder cards beside the district file, or --out.)";

inline constexpr std::string_view compare =
    R"(What changed between two results of the same district: which properties no longer meet their
planned flow and which newly do, whether the water, the need or the data made the difference, and
in what the inputs of the two differ.

  farwater compare archive/2026 result
  farwater compare archive/2026/supply.gpkg result/supply.gpkg --out review
  farwater compare archive/2026 result --json --quiet

The earlier result comes first. Parcels are the same where their ids are. What an older result
does not tell is not known, and not compared. Written are comparison.html to print, comparison.gpkg
with the layer parcel_changes, and tables as CSV, into the folder comparison beside the later
result, or to --out.)";

inline constexpr std::string_view shuttle =
    R"(What a tanker shuttle typed by hand can hold, how soon and for how long, what limits it, what
one more of each thing gains, and where each tanker best fills. No map data are read.

  farwater shuttle sample_region/shuttle.toml
  farwater shuttle scenario.toml --json

The file's tables and keys, with the defaults of what is left out: farwater keys)";

}  // namespace farwater::app::help
