// Runs as the department's records system has them: who left when, and when they were there.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

#include "sample_region/generate/department.h"
#include "sample_region/generate/random.h"

namespace farwater::sample {
namespace {

constexpr int incidents = 40;
constexpr double roads_over_straight = 1.3;
constexpr double metres_per_mile = 1609.344;

struct Truck {
    std::string_view unit, station;
    double mph;  // on an average road of the district
};
constexpr std::array trucks{Truck{"E1", "S1", 46.0}, Truck{"T1", "S1", 41.0},
                            Truck{"E3", "S2", 45.0}, Truck{"T3", "S2", 40.0},
                            Truck{"E4", "S3", 46.0}, Truck{"T5", "S3", 42.0}};

std::string clock(int second) {
    return fmt::format("{:02}:{:02}:{:02}", second / 3600 % 24, second / 60 % 60, second % 60);
}

// One incident: a place, a day, and a period by the hour.
struct Incident {
    const Holding* where = nullptr;
    std::string number, date;
    bool night = true, snow = false;
    int toned = 0;  // seconds since midnight
};

Incident incident_of(const Township& township, Random& random, int number) {
    Incident incident;
    while (incident.where == nullptr || incident.where->buildings.empty()) {
        incident.where = &township.holdings[random.index(township.holdings.size())];
    }
    const int month = random.whole(1, 12);
    incident.number = fmt::format("25-{:04}", number * 7 + random.whole(1, 6));
    incident.date = fmt::format("2025-{:02}-{:02}", month, random.whole(1, 28));
    incident.night = random.chance(0.6);
    incident.snow = month <= 3 || month == 12;
    const int hour = incident.night ? (random.whole(18, 29)) % 24 : random.whole(8, 16);
    incident.toned = hour * 3600 + random.whole(0, 3599);
    return incident;
}

// Minutes, from somewhat quicker to much slower than usual.
double minutes_of_turnout(const Incident& incident, Random& random) {
    return (incident.night ? 5.0 : 7.5) * random.between(0.6, 1.5);
}

double minutes_of_drive(const Incident& incident, const Truck& truck, Point station,
                        Random& random) {
    const double miles =
        metres_between(station, incident.where->house) * roads_over_straight / metres_per_mile;
    const double slower = incident.snow ? 1.3 : 1.0;
    return 0.5 + miles / truck.mph * 60.0 * slower * random.between(0.85, 1.35);
}

}  // namespace

TypedTable run_table(const Township& township, const TypedTable& stations, std::uint64_t seed) {
    TypedTable table{{"INC_NO", "UNIT", "INC_DATE", "SHIFT", "TONES", "ENROUTE", "ONSCENE"}, {}};
    Random random = Random(seed).fork(0x72756e73);
    for (int number = 1; number <= incidents; ++number) {
        const Incident incident = incident_of(township, random, number);
        for (const Truck& truck : trucks) {
            const auto station = std::ranges::find_if(stations.rows, [&](const PointRow& row) {
                return row.cells.front() == truck.station;
            });
            if (station == stations.rows.end() || !random.chance(0.4)) {
                continue;
            }
            const int rolling =
                incident.toned +
                static_cast<int>(std::lround(minutes_of_turnout(incident, random) * 60.0));
            const int there =
                rolling + static_cast<int>(std::lround(
                              minutes_of_drive(incident, truck, station->place, random) * 60.0));
            const bool forgotten = random.chance(0.1);  // to press the button
            table.rows.push_back({{incident.number, std::string(truck.unit), incident.date,
                                   incident.night ? "night" : "weekday_day", clock(incident.toned),
                                   forgotten ? "" : clock(rolling), clock(there)},
                                  incident.where->house});
        }
    }
    return table;
}

}  // namespace farwater::sample
