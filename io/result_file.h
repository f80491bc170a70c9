// The result of an earlier run, read back from its folder: what it says of parcels and targets,
// what it rests on, and its shapes when somebody asks for them.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/plane.h"
#include "analyzer/district/stored_result.h"
#include "analyzer/geometry/polygon.h"
#include "analyzer/parallel/work.h"
#include "io/crs.h"

namespace farwater::io {

struct NamedPlace {
    std::string id;
    Point place;
};

// One open result; it stays readable when its folder is replaced. Nothing is written. For one
// thread.
class ResultFile {
public:
    // `path`: a result folder, or its supply.gpkg. Throws InputError in one sentence: there is no
    // such thing; it is no result of a run, or not whole; it was made for the public and tells no
    // parcels; another program holds edits in it.
    explicit ResultFile(const std::filesystem::path& path);
    ~ResultFile();
    ResultFile(const ResultFile&) = delete;
    ResultFile& operator=(const ResultFile&) = delete;

    const std::filesystem::path& file() const;  // supply.gpkg
    // The result's folder, which a run replaces as a whole; none where the file stands by itself.
    const std::optional<std::filesystem::path>& folder() const;
    const WorkingCrs& crs() const;  // of its layers

    // Tables that stand in no GeoPackage (by_station) come from the folder, where there is one.
    // Not whole when stopped. Throws InputError where the file is damaged. O(records).
    StoredResult read(const Work& work) const;

    // From here on shapes are in the plane of this CRS; before, in that of crs(). False: there is
    // no way from one to the other, and no shape from now on.
    bool show_in(const WorkingCrs& plane);
    // By StoredAnswer::row, in metres of the plane; empty or none where the record has no such
    // shape.
    MultiPolygon parcel_area(std::int64_t row) const;
    std::optional<Point> target_place(std::int64_t row) const;
    std::vector<Polyline> roads(const Work& work) const;
    std::vector<NamedPlace> fill_sites() const;

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace farwater::io
