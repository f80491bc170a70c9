#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include <fmt/format.h>

#include "sample_region/generate/random.h"
#include "sample_region/generate/records.h"
#include "sample_region/generate/shapes.h"

namespace farwater::sample {
namespace {

constexpr double sheet_size = 1800;
constexpr double feet_per_metre = 1 / 0.3048;

std::string_view land_use(const Holding& holding) {
    switch (holding.use) {
        case Use::vacant:
            return "V";
        case Use::forest:
            return "CU-FOREST";
        case Use::dwelling:
            return "R1";
        case Use::camp:
            return "R1-SEAS";
        case Use::farm:
            return "FARM";
        case Use::store:
            return "COM";
        case Use::public_building:
            return "EXEMPT";
        case Use::mill:
            return "IND";
    }
    return "";
}

std::string_view zoning(LotKind kind) {
    switch (kind) {
        case LotKind::village:
            return "VILLAGE";
        case LotKind::hamlet:
            return "HAMLET";
        case LotKind::camp:
            return "SHORELAND";
        case LotKind::roadside:
        case LotKind::farm:
            return "RURAL-AG";
        case LotKind::back:
            return "FOREST";
    }
    return "";
}

// The zone of the nearest station; the lake's camps have their own.
std::string fire_zone(const Township& township, const Holding& holding) {
    if (holding.lot.kind == LotKind::camp) {
        return "LAKE";
    }
    double best = metres_between(holding.inside, township.ground.village.centre);
    std::string zone = "VILLAGE";
    for (std::size_t i = 0; i < std::min<std::size_t>(2, township.hamlets.size()); ++i) {
        const double off = metres_between(holding.inside, township.hamlets[i].place);
        if (off < best) {
            best = off;
            zone = i == 0 ? "ZONE 2" : "ZONE 3";
        }
    }
    return zone;
}

int sheet_of(const Township& township, Point p) {
    const Box box = township.outline.box();
    const int columns = static_cast<int>((box.high.x - box.low.x) / sheet_size) + 1;
    return static_cast<int>((p.y - box.low.y) / sheet_size) * columns +
           static_cast<int>((p.x - box.low.x) / sheet_size) + 1;
}

int rounded_value(double dollars) { return static_cast<int>(dollars / 100) * 100; }

void value(ParcelRow& row, const Holding& holding, Random& random) {
    const double per_acre = holding.lot.kind == LotKind::camp      ? 90000
                            : holding.lot.kind == LotKind::village ? 60000
                                                                   : 2500;
    row.sale_year = random.whole(1968, 2025);
    // In a line of its own: compilers work out arguments in an order of theirs.
    const int page = random.whole(1, 999);
    row.deed = fmt::format("{}/{}", random.whole(700, 3900), page);
    row.land_value =
        rounded_value((12000 + per_acre * std::sqrt(row.acres)) * random.between(0.7, 1.3));
    row.frontage_ft = static_cast<int>((holding.lot.to - holding.lot.from) * feet_per_metre);
    if (holding.buildings.empty()) {
        return;
    }
    const double footprint = signed_area(holding.buildings.front());
    row.buildings = static_cast<int>(holding.buildings.size());
    row.year_built = random.chance(0.3) ? random.whole(1790, 1910) : random.whole(1930, 2022);
    row.living_area = static_cast<int>(footprint * 10.764 * random.between(1.0, 1.9) / 10) * 10;
    row.building_value = rounded_value(row.living_area * random.between(70, 160));
}

}  // namespace

std::string parcel_id(const Stamp& stamp, std::size_t holding) {
    return fmt::format("AN-{:06}", stamp.first_parcel + static_cast<std::int64_t>(holding));
}

std::vector<ParcelRow> parcel_rows(const Township& township, const Stamp& stamp) {
    Random random(mixed(stamp.seed, 101U));
    std::map<int, int> lots_of_sheet;
    std::vector<ParcelRow> rows;
    rows.reserve(township.holdings.size());
    for (const Holding& holding : township.holdings) {
        ParcelRow row;
        const int sheet = sheet_of(township, holding.inside);
        row.parcel_id = parcel_id(stamp, rows.size());
        row.map_lot = fmt::format("{}-{:03}", stamp.sheet_base + sheet, ++lots_of_sheet[sheet]);
        if (holding.route >= 0) {
            const std::string& road = township.routes[static_cast<std::size_t>(holding.route)].name;
            row.address =
                holding.buildings.empty() ? road : fmt::format("{} {}", holding.house_number, road);
        }
        row.land_use = land_use(holding);
        row.zoning = zoning(holding.lot.kind);
        row.fire_zone = fire_zone(township, holding);
        row.acres = std::round(area(holding.shape) / square_metres_per_acre * 100) / 100;
        row.needed_gpm = holding.needed_gpm;
        value(row, holding, random);
        row.shape = holding.shape;
        rows.push_back(std::move(row));
    }
    return rows;
}

std::vector<BuildingRow> building_rows(const Township& township, const Stamp& stamp) {
    std::vector<BuildingRow> rows;
    for (const Holding& holding : township.holdings) {
        for (std::size_t i = 0; i < holding.buildings.size(); ++i) {
            rows.push_back({fmt::format("{}B{:05}", stamp.prefix, rows.size() + 1),
                            i == 0 ? std::string(land_use(holding)) : "BARN",
                            holding.buildings[i]});
        }
    }
    return rows;
}

}  // namespace farwater::sample
