// The department's lists of apparatus, staffing and response, as somebody typed them.
#include <algorithm>
#include <array>
#include <string_view>

#include "sample_region/generate/department.h"
#include "sample_region/generate/random.h"

namespace farwater::sample {
namespace {

// Blanks are what nobody has timed, weighed or counted.
constexpr std::string_view fleet =
    R"(Unit,Station,Type,Tank gal,Pump gpm,Fill gpm,Dump gpm,Timed on,Folding tanks gal,Folding tanks,Crew,Min crew,Loaded lb,Empty lb,2.5 in ft,3 in ft,4 in ft,5 in ft,Jet siphons,Low level strainers,Hard suction ft,Rear dump only
E1,S1,Engine,1000,1500,,,,,,4,2,38500,,600,800,1000,,,1,20,
E2,S1,Engine,1000,1250,,,,,,3,2,37000,,800,1000,,,1,1,20,
E3,S2,Engine,1000,1250,,,,,,3,2,36500,,600,,800,,,1,20,
E4,S3,Engine,750,1000,,,,,,3,2,,,,,,,,1,20,
T1,S1,Tanker,2500,500,900,1000,2025-10-04,2500,1,2,1,46800,25900,,,,,1,,,N
T2,S1,Tanker,1800,,,,,2000,1,2,1,41300,24100,,,,,,,,Y
T3,S2,Tanker,3000,750,1000,1200,2025-10-04,3000,1,2,1,54200,29100,,,,,1,,20,N
T4,S2,Tanker,2000,300,700,800,2025-10-04,2100,1,2,1,43900,26700,,,,,,,,N
T5,S3,Tanker,2500,500,850,900,2024-05-18,2500,1,2,1,47200,26300,,,,,,,,N
T6,S3,Tanker,1800,250,600,700,2024-05-18,,,1,1,40600,23900,,,,,,,,N
E21,A1,Engine,1000,1500,,,,,,4,3,39000,,,600,,1000,,1,20,
T21,A1,Tanker,3000,1000,1000,1100,2025-04-26,3000,1,2,1,55000,29900,,,,,1,1,,N
T22,A1,Tanker,2000,,800,900,2025-04-26,2100,1,2,1,,,,,,,,,,N
E41,M1,Engine,1000,1500,,,,,,4,2,38000,,,,1000,,,1,20,
T41,M1,Tanker,3500,1000,1000,1500,2023-09-16,3000,1,2,1,61500,32300,,,,,1,,,N
T42,M1,Tanker,1800,,,,,,,2,1,42000,24900,,,,,,,,Y
)";

constexpr std::string_view staffing = R"(UNIT,STATION,PERIOD,CREW,TURNOUT
,S1,night,,6
,S2,night,,6.5
,S3,night,,7
,S1,weekday_day,,8
,S2,weekday_day,,9
,S3,weekday_day,,9
E1,,weekday_day,2,
E2,,weekday_day,1,
E4,,weekday_day,2,
T2,,weekday_day,0,
T4,,weekday_day,0,
T6,,weekday_day,0,
)";

// The lake is nearer to the northern neighbour, so its tankers go at once.
constexpr std::string_view zones = R"(ZONE,ALARM,UNIT
LAKE,1,E1
LAKE,1,E2
LAKE,1,E3
LAKE,1,T1
LAKE,1,T2
LAKE,1,T3
LAKE,1,E41
LAKE,1,T41
LAKE,1,T42
LAKE,2,E4
LAKE,2,T4
LAKE,2,T5
LAKE,2,T6
LAKE,2,E21
LAKE,2,T21
LAKE,3,T22
)";

std::vector<std::string> cells_of(std::string_view line) {
    std::vector<std::string> cells(1);
    for (const char c : line) {
        if (c == ',') {
            cells.emplace_back();
        } else {
            cells.back() += c;
        }
    }
    return cells;
}

TypedTable table_of(std::string_view text) {
    TypedTable table;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        const std::vector<std::string> cells = cells_of(text.substr(0, end));
        text.remove_prefix(end + 1);
        if (table.header.empty()) {
            table.header = cells;
        } else {
            table.rows.push_back({cells, {}});
        }
    }
    return table;
}

// Does a row of the table hold `text` in this column?
bool holds(const TypedTable& table, std::size_t column, const std::string& text) {
    return std::ranges::any_of(table.rows,
                               [&](const PointRow& row) { return row.cells[column] == text; });
}

}  // namespace

TypedTable apparatus_table(const TypedTable& stations) {
    TypedTable table = table_of(fleet);
    std::erase_if(table.rows,
                  [&](const PointRow& row) { return !holds(stations, 0, row.cells[1]); });
    return table;
}

TypedTable staffing_table(const TypedTable& apparatus) {
    TypedTable table = table_of(staffing);
    std::erase_if(table.rows, [&](const PointRow& row) {
        return !holds(apparatus, 0, row.cells[0]) && !holds(apparatus, 1, row.cells[1]);
    });
    return table;
}

TypedTable zone_table(const TypedTable& apparatus) {
    TypedTable table = table_of(zones);
    std::erase_if(table.rows,
                  [&](const PointRow& row) { return !holds(apparatus, 0, row.cells[2]); });
    return table;
}

void add_region_apparatus(TypedTable& apparatus, const std::string& station, std::uint64_t seed) {
    Random random(mixed(seed, 131U));
    const TypedTable models = table_of(fleet);
    // One of three engines, a large tanker and a smaller one, under new names.
    const std::array<std::size_t, 3> chosen{random.index(3), random.chance(0.5) ? 4U : 6U, 8U};
    for (const std::size_t model : chosen) {
        PointRow row = models.rows[model];
        row.cells[0] = station + "-" + row.cells[0];
        row.cells[1] = station;
        apparatus.rows.push_back(row);
    }
}

}  // namespace farwater::sample
