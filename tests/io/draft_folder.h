// Folders of data for the tests of drafting a district file: layers made by GDAL.
#pragma once

#include <cstdint>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "io/draft_district.h"
#include "tests/support/temporary_folder.h"

namespace farwater::io {

enum class MadeShape : std::uint8_t { none, point, line, area };

// A layer to be made: columns of texts, then rows of a shape as WKT with its cells.
struct MadeLayer {
    std::string name;
    MadeShape shape = MadeShape::none;
    std::vector<std::string> columns;
    std::vector<std::pair<std::string, std::vector<std::string>>> rows;
};

// By GDAL; defined beside the tests of recognising.
void make_file(const std::filesystem::path& file, const char* driver,
               const std::vector<MadeLayer>& layers);

// A square of so many thousandths of a degree at 72 W, 43 N and so many to the east and north.
inline std::string square_wkt(double east, double north, double side) {
    const double west = -72.0 + east / 1000.0;
    const double south = 43.0 + north / 1000.0;
    const double x = west + side / 1000.0;
    const double y = south + side / 1000.0;
    const auto at = [](double a, double b) { return std::to_string(a) + " " + std::to_string(b); };
    return "POLYGON ((" + at(west, south) + "," + at(x, south) + "," + at(x, y) + "," +
           at(west, y) + "," + at(west, south) + "))";
}

inline std::string spot_wkt(double east, double north) {
    return "POINT (" + std::to_string(-72.0 + east / 1000.0) + " " +
           std::to_string(43.0 + north / 1000.0) + ")";
}

// Forty lots in a row that tile the ground, each with `id` of its own.
inline MadeLayer lots(const std::string& name, const std::string& id) {
    MadeLayer layer{name, MadeShape::area, {id, "SITE_ADDR"}, {}};
    for (int i = 0; i < 40; ++i) {
        layer.rows.push_back(
            {square_wkt(i, 0, 1),
             {"7-" + std::to_string(100 + i * 3), std::to_string(i) + " Mill Rd"}});
    }
    return layer;
}

inline MadeLayer lines(const std::string& name, std::vector<std::string> columns,
                       std::vector<std::string> cells) {
    return {
        name,
        MadeShape::line,
        std::move(columns),
        {{"LINESTRING (-72 43,-71.98 43)", cells}, {"LINESTRING (-71.98 43,-71.96 43)", cells}}};
}

class DraftFolder {
public:
    std::filesystem::path operator/(const std::string& name) const { return folder_ / name; }
    const std::filesystem::path& path() const { return folder_.path(); }
    DraftFolder& geopackage(const std::string& file, const std::vector<MadeLayer>& layers) {
        make_file(folder_ / file, "GPKG", layers);
        return *this;
    }
    DraftFolder& text(const std::string& file, const std::string& bytes) {
        support::put(folder_ / file, bytes);
        return *this;
    }
    Draft draft() const { return draft_district(folder_.path(), Work{}); }

    // "parcels from county.gpkg, layer lots" for each table, in order.
    std::vector<std::string> recognised() const {
        std::vector<std::string> list;
        for (const DraftTable& table : draft().tables) {
            list.push_back(table.section + " from " + table.source +
                           (table.suggested ? ", suggested" : ""));
        }
        return list;
    }
    // "SOURCE: why" for each.
    std::vector<std::string> passed_over() const {
        std::vector<std::string> list;
        for (const DraftLeftOut& one : draft().left_out) {
            list.push_back(one.source + ": " + one.why);
        }
        return list;
    }

private:
    support::TemporaryFolder folder_;
};

// The first table of the section; throws where there is none.
inline DraftTable table_of(const Draft& draft, const std::string& section) {
    for (const DraftTable& table : draft.tables) {
        if (table.section == section) {
            return table;
        }
    }
    throw std::runtime_error("no table " + section);
}

// Their column for our field; empty = none.
inline std::string column_for(const DraftTable& table, const std::string& field) {
    for (const auto& [ours, theirs] : table.columns) {
        if (ours == field) {
            return theirs;
        }
    }
    return {};
}

}  // namespace farwater::io
