#include "io/houses.h"

#include "io/record.h"
#include "io/record_shape.h"

namespace farwater::io {
namespace {

std::vector<Point> places_of(const std::vector<House>& houses) {
    std::vector<Point> places;
    places.reserve(houses.size());
    for (const House& house : houses) {
        places.push_back(house.place);
    }
    return places;
}

bool was_repaired(const Record& record) {
    for (const Problem& problem : record.problems()) {
        if (kind_of(problem.id).severity == Severity::repaired) {
            return true;
        }
    }
    return false;
}

// Everything through: which of them lie on parcels is only known when the parcels are read.
Houses read_houses(const LayerSource& source, const WorkingCrs& crs, const Work& work,
                   std::string_view name_field, std::string_view parcel_field) {
    const ShapeReader shapes(source, crs, Box{});
    LayerRows<House> rows;
    rows.log = for_each_record(source, work, [&](Record& record) {
        if (std::string id = name_field.empty() ? "" : record.text(name_field); !id.empty()) {
            record.call(std::move(id));
        }
        const std::optional<PlaceShape> shape = shapes.place(record);
        if (!shape) {
            return Taken::no;
        }
        rows.rows.push_back({shape->place, shape->area_m2, record.name(),
                             parcel_field.empty() ? std::string() : record.text(parcel_field),
                             was_repaired(record), false});
        return Taken::yes;
    });
    return Houses(std::move(rows));
}

}  // namespace

Houses::Houses(LayerRows<House> rows)
    : houses_(std::move(rows.rows)), index_(places_of(houses_)), log_(std::move(rows.log)) {
    for (std::size_t i = 0; i < houses_.size(); ++i) {
        if (!houses_[i].parcel_id.empty()) {
            by_parcel_[houses_[i].parcel_id].push_back(static_cast<std::uint32_t>(i));
        }
    }
}

Box Houses::extent() const {
    Box box;
    for (const House& house : houses_) {
        box.include(house.place);
    }
    return box;
}

std::vector<const House*> Houses::marked(const std::vector<std::uint32_t>& positions) {
    std::vector<const House*> found;
    for (const std::uint32_t position : positions) {
        houses_[position].found = true;
        found.push_back(&houses_[position]);
    }
    return found;
}

std::vector<const House*> Houses::inside(const MultiPolygon& parcel) {
    if (houses_.empty()) {
        return {};
    }
    std::vector<std::uint32_t> positions = index_.inside(box_of(parcel));
    std::erase_if(positions, [&](std::uint32_t position) {
        return !contains(parcel, houses_[position].place);
    });
    return marked(positions);
}

std::vector<const House*> Houses::of_parcel(const std::string& parcel_id) {
    const auto found = by_parcel_.find(parcel_id);
    return found == by_parcel_.end() ? std::vector<const House*>{} : marked(found->second);
}

LayerLog Houses::log() const {
    LayerLog log = log_;
    for (const House& house : houses_) {
        if (!house.found) {
            --(house.repaired ? log.count.repaired : log.count.used);
            ++log.count.set_aside;
            log.problems.push_back(
                {ProblemId::building_outside_parcels,
                 log.count.layer,
                 log.count.file,
                 house.name,
                 {},
                 house.parcel_id.empty() ? "" : "nor is there a parcel " + house.parcel_id});
        }
    }
    return log;
}

Houses read_buildings(const LayerSource& source, const WorkingCrs& crs, const Work& work) {
    return read_houses(source, crs, work, "building_id", {});
}

Houses read_address_points(const LayerSource& source, const WorkingCrs& crs, const Work& work) {
    return read_houses(source, crs, work, {}, "parcel_id");
}

}  // namespace farwater::io
