// How the answer of one parcel or target came about, as an officer would write it on paper.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "analyzer/supply/working.h"
#include "reports/explain/worked_page.h"
#include "reports/findings.h"

namespace farwater::reports {

// An engine that rolls at the alarm, on its way to the house.
struct EngineToHouse {
    UnitIndex unit;
    Duration rolls;  // since the alarm
    DriveTime there = no_time;
};

// What the place gets in one season and period.
struct AnswerIn {
    supply::Variant variant;
    SupplyState state = SupplyState::unknown;
    SupplyMode mode = SupplyMode::none;
    HeldFlow cautious{};
};

// Which season and period somebody named; of what is left open, the worst is shown.
struct AskedFor {
    bool season = false;
    bool period = false;
};

// `row` is that of a parcel or, behind them, of a target; `working` its working in the season and
// period that `findings` show for it. Only a view.
struct Explained {
    const Findings& findings;
    std::size_t row = 0;
    const supply::Working& working;
    const std::vector<EngineToHouse>& engines;  // by arrival
    const std::vector<AnswerIn>& answers;       // of all that were looked at
    AskedFor asked_for;

    const District& district() const { return findings.district; }
    const supply::ParcelSupply& supply() const { return findings.supply(row); }
    bool is_parcel() const { return row < findings.parcels(); }
    std::string id() const;
};

WorkedPage explanation(const Explained& explained);

std::string explanation_text(const Explained& explained);
// The same lines, and under "answer" every column that supply.gpkg has of it.
std::string explanation_json(const Explained& explained);

// The parts, in the order of the page.
void explain_answer(const Explained& explained, WorkedPage& page);
void explain_need(const Explained& explained, WorkedPage& page);
void explain_first_engine(const Explained& explained, WorkedPage& page);
void explain_dump_site(const Explained& explained, const supply::ShuttleWorking& look,
                       WorkedPage& page);
void explain_fill_site(const Explained& explained, const supply::ShuttleWorking& look,
                       WorkedPage& page);
void explain_source(const Explained& explained, SourceIndex index, WorkedPage& page);
void explain_ways(const Explained& explained, const supply::ShuttleWorking& look, WorkedPage& page);
void explain_tank_line(const Explained& explained, const supply::ShuttleWorking& look,
                       WorkedPage& page);
void explain_tankers(const Explained& explained, const supply::ShuttleWorking& look,
                     WorkedPage& page);
void explain_shuttle_flow(const Explained& explained, const supply::ShuttleWorking& look,
                          WorkedPage& page);
void explain_hose(const Explained& explained, WorkedPage& page);
// Between the first engine's tank and the supply, and what would bridge it.
void explain_gap(Duration gap, Flow attack, WorkedPage& page);
void explain_nurse_rate(const Unit& tanker, const Assumptions& assumptions, WorkedPage& page);
void explain_assumptions(const Explained& explained, WorkedPage& page);

// The shuttle that was best of those looked at; null where none was.
const supply::ShuttleWorking* shuttle_of(const supply::Working& working);

// "T2 (Mill Road)": a unit and its station's id.
std::string unit_words(const District& district, UnitIndex unit);
// "W3 Mill Pond (dry_hydrant)".
std::string source_words(const District& district, SourceIndex source);
std::string_view hose_words(hydraulics::HoseSize size);
const Season& season_at(const Explained& explained);
// Of a unit: when its wheels roll, in a sum of alarm handling and turnout.
std::string rolling_sum(const Explained& explained, UnitIndex unit, Duration leaves);
// The assumptions in that sum; a turnout of the staffing list is none.
void rest_on_turnout(const Explained& explained, UnitIndex unit, WorkedPage& page);

}  // namespace farwater::reports
