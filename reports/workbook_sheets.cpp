#include "reports/workbook_sheets.h"

#include <algorithm>
#include <array>
#include <memory>
#include <utility>

#include <fmt/format.h>

#include "reports/cautions.h"
#include "reports/drive_words.h"
#include "reports/headline.h"
#include "reports/layers/table_builder.h"
#include "reports/origin.h"
#include "reports/proposals.h"
#include "reports/text/number_words.h"
#include "reports/zones.h"

namespace farwater::reports {
namespace {

// --- summary -------------------------------------------------------------------------------------

struct SummaryLine {
    std::string topic, what;
    std::optional<std::size_t> parcels;
    std::optional<double> percent;
    std::string words = {};
};

double percent_of(std::size_t part, std::size_t whole) {
    return whole == 0 ? 0.0 : 100.0 * static_cast<double>(part) / static_cast<double>(whole);
}

std::vector<SummaryLine> headline_lines(const Findings& findings) {
    const Headline h = headline_of(findings);
    const std::string topic = "Improved parcels, worst season and period of each";
    const auto of_improved = [&](std::string what, std::size_t part) {
        return SummaryLine{topic, std::move(what), part, percent_of(part, h.improved)};
    };
    const auto of_held = [&](std::string what, std::size_t part) {
        return SummaryLine{topic, std::move(what), part, percent_of(part, h.held),
                           "per cent of those that meet it"};
    };
    return {
        {topic, "all", h.improved, std::nullopt},
        of_improved("meet their planned flow", h.held),
        of_improved("meet it from a later start", h.late),
        of_improved("hold some flow, less than planned", h.short_flow),
        of_improved("have the water on wheels only", h.tank_only),
        of_improved("are out of reach", h.unreached),
        of_improved("are not known", h.unknown),
        of_held("meet it, but on an assumed value", h.held_on_assumed),
        of_held(fmt::format("meet it, but not when one {} is out", findings.district.tanker_word),
                h.held_but_for_one),
        {"Other parcels", "without a building: in no percentage", h.no_building, std::nullopt},
    };
}

std::vector<SummaryLine> lines_of_summary(const Findings& findings, const RunRecord& record) {
    std::vector<SummaryLine> lines = headline_lines(findings);
    const auto say = [&](std::string topic, std::string what, std::string words) {
        lines.push_back({std::move(topic), std::move(what), {}, {}, std::move(words)});
    };
    if (std::string what_if = what_if_sentence(findings.district); !what_if.empty()) {
        say("Not the district as it is", "what if", std::move(what_if));
    }
    constexpr std::size_t most_zones = 10;
    for (std::string& zone : zone_sentences(findings, most_zones)) {
        say("Neighbours that miss their planned flow", "", std::move(zone));
    }
    say("Travel time", "", travel_time_sentence(findings.district));
    if (const auto& date = findings.district.data_date) {
        say("What this rests on", "data as of", day(date));
    }
    for (const std::string_view key :
         {"audience", "district", "program", "district_file", "district_file_sha256"}) {
        if (std::string words(recorded(record, key)); !words.empty()) {
            say("What this rests on", std::string(key), std::move(words));
        }
    }
    for (const std::string_view caution : cautions) {
        say("Cautions", "", std::string(caution));
    }
    return lines;
}

// --- who is served by what
// ------------------------------------------------------------------------

constexpr std::size_t states = 7;

struct ServedBy {
    std::array<std::size_t, states> by_state{};
    std::size_t parcels = 0;

    void add(SupplyState state) {
        ++by_state.at(static_cast<std::size_t>(state));
        ++parcels;
    }
};

// Per station, then one for those that no engine reaches.
std::vector<ServedBy> served_by_station(const Findings& findings) {
    std::vector<ServedBy> served(findings.district.stations.size() + 1);
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        const supply::ParcelSupply& supply = findings.supply(row);
        if (supply.state == SupplyState::no_building) {
            continue;
        }
        const UnitIndex first = supply.first_at_site;
        const std::size_t place = first.valid()
                                      ? at(findings.district.units, first).station.position()
                                      : served.size() - 1;
        served[place].add(supply.state);
    }
    return served;
}

std::vector<ColumnOf> state_columns(const std::shared_ptr<const std::vector<ServedBy>>& served) {
    std::vector<ColumnOf> columns{
        integer("parcels", "Improved parcels.",
                [served](std::size_t row) { return value_of_count((*served)[row].parcels); }),
        real("held_pct", "Per cent of them that meet their planned flow.",
             [served](std::size_t row) {
                 const ServedBy& of = (*served)[row];
                 const auto held = static_cast<std::size_t>(SupplyState::held);
                 return of.parcels == 0 ? io::Value{}
                                        : io::Value{percent_of(of.by_state.at(held), of.parcels)};
             }),
    };
    for (std::size_t state = 0; state < states; ++state) {
        if (state != static_cast<std::size_t>(SupplyState::no_building)) {
            columns.push_back(integer(std::string(words_of(SupplyState{})[state]),
                                      "Of them in this state.", [served, state](std::size_t row) {
                                          return value_of_count((*served)[row].by_state.at(state));
                                      }));
        }
    }
    return columns;
}

}  // namespace

io::FeatureTable summary_lines(const Findings& findings, const RunRecord& record) {
    const auto lines =
        std::make_shared<const std::vector<SummaryLine>>(lines_of_summary(findings, record));
    std::vector<ColumnOf> columns{
        text("topic", "Heading.",
             [lines](std::size_t row) { return value_of((*lines)[row].topic); }),
        text("what", "What is told.",
             [lines](std::size_t row) { return value_of((*lines)[row].what); }),
        integer("parcels", "How many parcels.",
                [lines](std::size_t row) {
                    const auto& parcels = (*lines)[row].parcels;
                    return parcels ? value_of_count(*parcels) : io::Value{};
                }),
        real("share_pct", "Per cent of the improved parcels, unless it says otherwise.",
             [lines](std::size_t row) { return value_of((*lines)[row].percent); }),
        text("in_words", "What there is to say without a number.",
             [lines](std::size_t row) { return value_of((*lines)[row].words); }),
    };
    return table({"summary", "Summary", "What a chief asks first."}, std::move(columns),
                 lines->size());
}

io::FeatureTable by_station(const Findings& findings) {
    const auto served = std::make_shared<const std::vector<ServedBy>>(served_by_station(findings));
    const auto& stations = findings.district.stations;
    std::vector<ColumnOf> columns{
        text("station_id",
             "Station whose engine is first at the dump site or source; empty: there is none, no "
             "engine gets there, or it is not known.",
             [&stations](std::size_t row) {
                 return row < stations.size() ? value_of(stations[row].id) : io::Value{};
             }),
        text("name", "Its name.",
             [&stations](std::size_t row) {
                 return row < stations.size() ? value_of(stations[row].name) : io::Value{};
             }),
    };
    std::ranges::move(state_columns(served), std::back_inserter(columns));
    return table({"by_station", "Improved parcels by station of the first engine",
                  "Worst season and period of each parcel."},
                 std::move(columns), served->size());
}

io::FeatureTable caution_lines(const Findings& findings) {
    using Line = std::pair<std::string_view, std::string>;
    std::vector<Line> lines;
    for (const std::string_view caution : cautions) {
        lines.emplace_back("caution", caution);
    }
    for (const std::string_view what : not_modelled(findings.district)) {
        lines.emplace_back("not modelled", what);
    }
    const auto rows = std::make_shared<const std::vector<Line>>(std::move(lines));
    return table({"cautions", "Cautions", "To stand wherever results stand."},
                 {
                     text("kind", "caution, or what is not modelled.",
                          [rows](std::size_t row) { return value_of((*rows)[row].first); }),
                     text("in_words", "What to know.",
                          [rows](std::size_t row) { return value_of((*rows)[row].second); }),
                 },
                 rows->size());
}

std::vector<SheetOfWorkbook> workbook_sheets(const Findings& findings, const RunRecord& record,
                                             std::span<const io::FeatureTable> dictionary) {
    std::vector<SheetOfWorkbook> sheets{
        {"Summary", summary_lines(findings, record)},
        {"By state", by_state(findings)},
        {"By station", by_station(findings)},
        {"By fill site", fill_sites(findings)},
        {"By tanker", by_tanker(findings)},
        {"Shortfalls ranked", shortfalls(findings)},
        {"Shortfall zones", shortfall_zones(findings)},
    };
    if (findings.next_source != nullptr) {
        sheets.push_back({"Next sources", source_proposals(*findings.next_source)});
        sheets.push_back({"Who gains by them", proposal_gains(*findings.next_source)});
    }
    sheets.insert(sheets.end(), {{"Data problems", data_problems(findings)},
                                 {"To find out", worklist(findings)},
                                 {"Assumptions", assumptions(findings)},
                                 {"What columns mean", column_meanings(dictionary)},
                                 {"Cautions", caution_lines(findings)}});
    return sheets;
}

}  // namespace farwater::reports
