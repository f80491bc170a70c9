#include "io/inputs/read_parcels.h"

#include <algorithm>

#include "analyzer/geometry/polygon.h"
#include "io/inputs/building_columns.h"
#include "io/records/layer_records.h"
#include "io/records/quantity_fields.h"
#include "io/records/record.h"
#include "io/records/record_shape.h"
#include "io/records/shape.h"
#include "io/records/unique_ids.h"

namespace farwater::io {
namespace {

void join_tables(Record& record, const std::string& raw_id, std::vector<JoinedTable>& joins) {
    std::vector<JoinedCell> cells;
    std::size_t column = 0;
    for (JoinedTable& table : joins) {
        const bool by_id = table.parcel_key().empty();
        const std::string key = by_id ? raw_id : printed(record.also(column));
        column += by_id ? 0 : 1;
        const std::vector<JoinedCell> found = table.find(key);
        cells.insert(cells.end(), found.begin(), found.end());
    }
    record.join(std::move(cells));
}

void read_need(Record& record, SharedTexts& zones, Parcel& parcel) {
    if (const auto value = record.number("value")) {
        parcel.value = static_cast<float>(*value);
    }
    if (const auto people = record.number("people")) {
        parcel.people = static_cast<float>(*people);
    }
    parcel.is_public = record.yes_no("public").value_or(false);
    parcel.needed = flow_field(record, "needed_gpm");
    parcel.duration = duration_field(record, "duration_min");
    parcel.setback = length_field(record, "setback_ft");
    parcel.zone = zones.of(record.text("zone"));
}

// The earlier one of two as large.
const House* largest(const std::vector<const House*>& houses) {
    const auto found =
        std::max_element(houses.begin(), houses.end(),
                         [](const House* a, const House* b) { return a->area_m2 < b->area_m2; });
    return found == houses.end() ? nullptr : *found;
}

// What the parcel's own columns say holds for those of its buildings that do not tell themselves.
void keep_buildings(Record& record, const std::vector<const House*>& inside, const Houses& houses,
                    ParcelIndex parcel, std::vector<Building>& buildings) {
    const BuildingTraits of_parcel = traits_of_parcel(record);
    for (const House* house : inside) {
        buildings.push_back({.parcel = parcel,
                             .place = house->place,
                             .area_m2 = static_cast<float>(house->area_m2),
                             .traits = house->traits,
                             .separation = houses.separation(*house)});
        buildings.back().traits.fill_from(of_parcel);
    }
}

std::vector<const House*> read_buildings_of(Record& record, const MultiPolygon& shape,
                                            ParcelSurroundings& around, Parcel& parcel) {
    const std::vector<const House*> inside = around.buildings.inside(shape);
    const std::optional<int> told = record.whole("buildings");
    const auto count =
        std::max<std::size_t>(inside.size(), static_cast<std::size_t>(told.value_or(0)));
    const bool not_known = !around.has_building_layer && !told;
    parcel.buildings = static_cast<std::uint16_t>(std::min<std::size_t>(count, UINT16_MAX));
    parcel.improved = count > 0 || not_known;
    if (const House* house = largest(inside)) {
        parcel.building_area_m2 = static_cast<float>(house->area_m2);
        parcel.house = house->place;
        parcel.house_from = HousePlace::building;
    }
    return inside;
}

// Overrules what the buildings say.
void read_address_of(const std::string& raw_id, const MultiPolygon& shape, Houses& addresses,
                     Parcel& parcel) {
    if (addresses.empty()) {
        return;
    }
    const std::vector<const House*> named = addresses.of_parcel(raw_id);
    const std::vector<const House*> inside = addresses.inside(shape);
    if (named.empty() && inside.empty()) {
        return;
    }
    parcel.house = named.empty() ? inside.front()->place : named.front()->place;
    parcel.house_from = HousePlace::address_point;
}

bool some_layer_tells_buildings(const LayerSource& source, const ParcelSurroundings& around) {
    const auto tells = [](const JoinedTable& table) { return table.has("buildings"); };
    return around.has_building_layer || source.has("buildings") ||
           std::any_of(around.joins.begin(), around.joins.end(), tells);
}

// Reads record after record into what read_parcels returns.
class ParcelReader {
public:
    ParcelReader(const LayerSource& source, const WorkingCrs& crs, ParcelSurroundings& around)
        : shapes_(source, crs, Box{}), around_(&around) {
        result_.rows.reserve(expected_records(source));
    }

    Taken read(Record& record) {
        const std::string raw_id = record.text("parcel_id");
        Parcel parcel;
        parcel.id = ids_.take(record, "parcel_id");
        parcel.row = record.row();
        join_tables(record, raw_id, around_->joins);
        const std::optional<AreaShape> area = shapes_.area(record);
        if (!area) {
            return Taken::no;
        }
        parcel.house = area->inside;
        read_need(record, zones_, parcel);
        const auto inside = read_buildings_of(record, area->shape, *around_, parcel);
        if (around_->needs_by_building) {
            keep_buildings(record, inside, around_->buildings, ParcelIndex(result_.rows.size()),
                           result_.buildings);
            around_->buildings.look_for_parts_on(area->shape, parcel.id);
        }
        read_address_of(raw_id, area->shape, around_->addresses, parcel);
        result_.addresses.add(record.text("address"));
        result_.owners.add(record.text("owner"));
        keep(*area, std::move(parcel));
        return Taken::yes;
    }

    ParcelRows take() { return std::move(result_); }

private:
    void keep(const AreaShape& area, Parcel parcel) {
        const Box box = box_of(area.shape);
        result_.extent.include(box.low);
        result_.extent.include(box.high);
        if (area.repaired) {
            result_.repaired.push_back({parcel.row, wkb_of(*area.repaired)});
        }
        result_.rows.push_back(std::move(parcel));
    }

    ShapeReader shapes_;
    ParcelSurroundings* around_;
    UniqueIds ids_;
    SharedTexts zones_;
    ParcelRows result_;
};

// Parcels that are drawn on top of each other: of those with a house at one and the same place all
// but the first are told.
void tell_same_houses(const std::vector<Parcel>& parcels, LayerLog& log) {
    std::vector<std::uint32_t> improved;
    for (std::uint32_t i = 0; i < parcels.size(); ++i) {
        if (parcels[i].improved) {
            improved.push_back(i);
        }
    }
    std::ranges::stable_sort(improved, {}, [&](std::uint32_t i) { return parcels[i].house; });
    for (std::size_t first = 0, next = 1; next < improved.size(); ++next) {
        const Parcel& parcel = parcels[improved[next]];
        const Parcel& before = parcels[improved[first]];
        if (parcel.house == before.house) {
            log.problems.push_back({.id = ProblemId::parcel_same_house,
                                    .layer = "parcels",
                                    .file = log.count.file,
                                    .record = parcel.id,
                                    .detail = "as parcel " + before.id});
        } else {
            first = next;
        }
    }
}

}  // namespace

std::vector<std::string> key_columns(const std::vector<JoinedTable>& joins) {
    std::vector<std::string> columns;
    for (const JoinedTable& table : joins) {
        if (!table.parcel_key().empty()) {
            columns.push_back(table.parcel_key());
        }
    }
    return columns;
}

ParcelRows read_parcels(const LayerSource& source, const WorkingCrs& crs,
                        ParcelSurroundings& surroundings, const Work& work) {
    ParcelReader reader(source, crs, surroundings);
    LayerLog log =
        for_each_record(source, work, [&](Record& record) { return reader.read(record); });
    ParcelRows result = reader.take();
    result.log = std::move(log);
    tell_same_houses(result.rows, result.log);
    result.buildings_known = some_layer_tells_buildings(source, surroundings);
    if (!result.buildings_known) {
        result.log.problems.push_back(
            {ProblemId::no_building_data, "parcels", result.log.count.file, {}, {}, {}});
    }
    return result;
}

}  // namespace farwater::io
