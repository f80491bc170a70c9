#include "tests/support/ascii_region.h"

#include <cctype>
#include <stdexcept>
#include <utility>

namespace farwater::test {

Speed ten_metres_a_second() { return mph(10.0 * 3600.0 / metres_per_mile); }

AsciiRegion::AsciiRegion(std::string_view drawing, Length cell) {
    double column = 0;
    double line = 0;
    for (const char ink : drawing) {
        if (std::isalnum(static_cast<unsigned char>(ink)) != 0) {
            const Point place{in_metres(cell) * column, -in_metres(cell) * line};
            if (!places_.try_emplace(ink, place).second) {
                throw std::invalid_argument(std::string("drawn twice: ") + ink);
            }
        }
        column = ink == '\n' ? 0 : column + 1;
        line += ink == '\n' ? 1 : 0;
    }
    Season season;
    season.name = "all_year";
    district.seasons.push_back(season);
    district.periods.push_back({"any_time", {}, {}});
    Assumptions& assumptions = district.assumptions;
    for (Speed* speed :
         {&assumptions.speed_state, &assumptions.speed_paved, &assumptions.speed_paved_lane,
          &assumptions.speed_gravel, &assumptions.speed_narrow, &assumptions.speed_drive}) {
        *speed = ten_metres_a_second();
    }
    assumptions.empty_speed_factor = 1.0;
}

Point AsciiRegion::at(char letter) const {
    const auto place = places_.find(letter);
    if (place == places_.end()) {
        throw std::out_of_range(std::string("not drawn: ") + letter);
    }
    return place->second;
}

Road& AsciiRegion::road(std::string_view letters) {
    Road road;
    road.row = static_cast<std::uint32_t>(district.roads.size());
    road.name = std::string(letters);
    road.kind = RoadClass::paved;
    for (const char letter : letters) {
        road.line.push_back(at(letter));
    }
    return district.roads.emplace_back(std::move(road));
}

Parcel& AsciiRegion::parcel(char letter) {
    Parcel parcel;
    parcel.id = letter;
    parcel.row = static_cast<std::uint32_t>(district.parcels.size());
    parcel.house = at(letter);
    return district.parcels.emplace_back(std::move(parcel));
}

Target& AsciiRegion::target(char letter) {
    Target target;
    target.id = letter;
    target.row = static_cast<std::uint32_t>(district.targets.size());
    target.place = at(letter);
    return district.targets.emplace_back(std::move(target));
}

Station& AsciiRegion::station(char letter) {
    Station station;
    station.id = letter;
    station.row = static_cast<std::uint32_t>(district.stations.size());
    station.place = at(letter);
    return district.stations.emplace_back(std::move(station));
}

WaterSource& AsciiRegion::source(char letter) {
    WaterSource source;
    source.id = letter;
    source.row = static_cast<std::uint32_t>(district.sources.size());
    source.place = at(letter);
    source.standing = Standing::declared;
    return district.sources.emplace_back(std::move(source));
}

DumpSitePlace& AsciiRegion::dump_site_place(char letter) {
    DumpSitePlace place;
    place.id = letter;
    place.row = static_cast<std::uint32_t>(district.dump_site_places.size());
    place.place = at(letter);
    return district.dump_site_places.emplace_back(std::move(place));
}

Unit& AsciiRegion::unit(UnitKind kind, std::string id, char station) {
    Unit unit;
    unit.id = std::move(id);
    unit.kind = kind;
    unit.tank = gallons(2000);
    for (std::size_t s = 0; s < district.stations.size(); ++s) {
        if (district.stations[s].id == std::string(1, station)) {
            unit.station = StationIndex(s);
        }
    }
    if (!unit.station.valid()) {
        throw std::out_of_range(std::string("no station: ") + station);
    }
    return district.units.emplace_back(std::move(unit));
}

}  // namespace farwater::test
