#include "io/inputs/houses.h"

#include <fmt/format.h>

#include "io/inputs/building_columns.h"
#include "io/records/layer_records.h"
#include "io/records/record.h"
#include "io/records/record_shape.h"

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
struct HouseColumns {
    std::string_view name;    // empty = none
    std::string_view parcel;  // empty = none
};

// What no building is: 20 square feet, or 5 million. Common practice, no source.
constexpr double least_area_m2 = 20.0 * square_metres_per_square_foot;
constexpr double most_area_m2 = 5e6 * square_metres_per_square_foot;

// The area, 0 where it cannot be right.
double checked_area(Record& record, double area_m2) {
    if (area_m2 >= least_area_m2 && area_m2 <= most_area_m2) {
        return area_m2;
    }
    record.report(ProblemId::building_area_doubtful, {},
                  fmt::format("{:.1f} square feet", area_m2 / square_metres_per_square_foot));
    return 0.0;
}

// Reads one layer of houses; with footprints, if asked to.
class HouseReader {
public:
    HouseReader(const LayerSource& source, const WorkingCrs& crs, HouseColumns columns,
                bool for_needs)
        : shapes_(source, crs, Box{}), columns_(columns), for_needs_(for_needs) {}

    Taken read(Record& record) {
        if (std::string id = columns_.name.empty() ? "" : record.text(columns_.name); !id.empty()) {
            record.call(std::move(id));
        }
        std::optional<PlaceShape> shape = shapes_.place(record);
        if (!shape) {
            return Taken::no;
        }
        House house{.place = shape->place, .area_m2 = shape->area_m2, .name = record.name()};
        if (for_needs_) {
            read_building(record, *shape, house);
        }
        house.parcel_id = columns_.parcel.empty() ? std::string() : record.text(columns_.parcel);
        house.repaired = was_repaired(record);
        rows_.push_back(std::move(house));
        return Taken::yes;
    }

    Houses take(LayerLog log) {
        return {LayerRows<House>{std::move(rows_), std::move(log)}, std::move(footprints_)};
    }

private:
    void read_building(Record& record, const PlaceShape& shape, House& house) {
        house.traits = traits_of_building(record);
        house.area_m2 = shape.shape.empty() ? 0.0 : checked_area(record, shape.area_m2);
        if (house.area_m2 > 0.0) {
            footprints_.add(shape.shape, house.area_m2);
        } else {
            footprints_.add_point(shape.place);
            house.area_m2 =
                record.number("area_sqft").value_or(0.0) * square_metres_per_square_foot;
        }
    }

    ShapeReader shapes_;
    HouseColumns columns_;
    bool for_needs_;
    std::vector<House> rows_;
    Footprints footprints_;
};

Houses read_houses(const LayerSource& source, const WorkingCrs& crs, HouseColumns columns,
                   bool for_needs, const Work& work) {
    HouseReader reader(source, crs, columns, for_needs);
    LayerLog log =
        for_each_record(source, work, [&](Record& record) { return reader.read(record); });
    return reader.take(std::move(log));
}

}  // namespace

Houses::Houses(LayerRows<House> rows, Footprints footprints)
    : houses_(std::move(rows.rows)),
      index_(places_of(houses_)),
      footprints_(std::make_unique<Footprints>(std::move(footprints))),
      log_(std::move(rows.log)) {
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

Problem Houses::problem_of(std::size_t house, ProblemId id, std::string detail) const {
    return {id, log_.count.layer, log_.count.file, houses_[house].name, {}, std::move(detail)};
}

void Houses::note_overlap(std::size_t house, std::size_t earlier) {
    log_.problems.push_back(problem_of(house, ProblemId::building_overlap, houses_[earlier].name));
}

void Houses::measure_separations(const Standard& standard, const Work& work) {
    const SeparationRules rules{
        feet(standard.number("exposure.reach_ft")),
        standard.number("exposure.counted_from_sqft") * square_metres_per_square_foot};
    near_ = std::make_unique<SeparationIndex>(*footprints_, rules);
    std::vector<Surroundings> around(footprints_->size());
    constexpr std::size_t chunk = 512;
    for_each_chunk(work, "separation of buildings", around.size(), chunk,
                   [&](std::size_t begin, std::size_t end) {
                       for (std::size_t i = begin; i < end; ++i) {
                           around[i] = near_->around(i);
                       }
                   });
    const bool exposures = in_metres(rules.reach) > 0.0;
    separations_.reserve(exposures ? around.size() : 0);
    for (std::size_t i = 0; i < around.size(); ++i) {
        if (exposures) {
            separations_.push_back(around[i].separation);
        }
        if (around[i].covers) {
            note_overlap(i, *around[i].covers);
        }
    }
}

const Separation& Houses::separation(const House& house) const {
    static const Separation not_measured;
    return separations_.empty() ? not_measured
                                : separations_[static_cast<std::size_t>(&house - houses_.data())];
}

void Houses::look_for_parts_on(const MultiPolygon& parcel, const std::string& parcel_id) {
    constexpr double good_part = 0.1;  // less is how lines are drawn
    if (near_ == nullptr) {
        return;
    }
    for (const std::uint32_t position : near_->touching(box_of(parcel))) {
        if (contains(parcel, houses_[position].place) ||
            !footprints_->may_lie_on(position, parcel)) {
            continue;
        }
        const double share = share_on(*footprints_, position, parcel);
        if (share >= good_part) {
            log_.problems.push_back(
                problem_of(position, ProblemId::building_across_parcels,
                           fmt::format("{:.0f} % of it on parcel {}", 100.0 * share, parcel_id)));
        }
    }
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

Houses read_buildings(const LayerSource& source, const WorkingCrs& crs, const NeedRules& rules,
                      const Work& work) {
    return read_houses(source, crs, {"building_id", {}}, rules.works_on_buildings(), work);
}

Houses read_address_points(const LayerSource& source, const WorkingCrs& crs, const Work& work) {
    return read_houses(source, crs, {{}, "parcel_id"}, false, work);
}

}  // namespace farwater::io
