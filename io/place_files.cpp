#include "io/place_files.h"

#include <algorithm>
#include <array>
#include <functional>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <ogr_spatialref.h>

#include "io/error.h"
#include "io/files/xml_text.h"
#include "io/whole_file.h"

namespace farwater::io {
namespace {

// With all text escaped.
struct WrittenPlace {
    std::string group, name, note, kind;
    double longitude = 0.0;
    double latitude = 0.0;
};

class ToDegrees {
public:
    ToDegrees(const WorkingCrs& working, const std::filesystem::path& file)
        : file_(file.string()),
          transformation_(transformation(crs_of(working), crs_from_text("EPSG:4326"))),
          metres_per_unit_(working.metres_per_unit) {
        if (!transformation_) {
            fail();
        }
    }
    Point operator()(Point metres) const {
        Point p{metres.x / metres_per_unit_, metres.y / metres_per_unit_};
        if (transformation_->Transform(1, &p.x, &p.y) == FALSE) {
            fail();
        }
        return p;
    }

private:
    [[noreturn]] void fail() const {
        throw OutputError(file_ +
                          ": the working CRS has no way to longitude and latitude. An older "
                          "result is untouched.");
    }
    std::string file_;
    CrsTransformation transformation_;
    double metres_per_unit_;
};

std::string escaped_cell(const Value& value) {
    const auto* text = std::get_if<std::string_view>(&value);
    return text == nullptr ? "" : xml_escaped(*text);
}

std::vector<WrittenPlace> places_in_degrees(const FeatureTable& table, const ToDegrees& degrees) {
    std::vector<WrittenPlace> places;
    Row row;
    for (std::size_t index = 0; index < table.rows; ++index) {
        row.values.assign(table.columns.size(), Value{});
        row.shape.clear();
        table.fill(index, row);
        if (!row.shape.empty()) {
            const Point p = degrees(row.shape.front());
            places.push_back({escaped_cell(row.values.at(0)), escaped_cell(row.values.at(1)),
                              escaped_cell(row.values.at(2)), escaped_cell(row.values.at(3)), p.x,
                              p.y});
        }
    }
    return places;
}

std::string kml_placemark(const WrittenPlace& place) {
    return fmt::format(
        "<Placemark><name>{}</name><description>{}</description><Point><coordinates>{:.7f},{:.7f}"
        "</coordinates></Point></Placemark>\n",
        place.name, place.note, place.longitude, place.latitude);
}

}  // namespace

void write_gpx(const std::filesystem::path& file, const WorkingCrs& crs, const PlacesHead& head,
               const FeatureTable& table) {
    std::string gpx = fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<gpx xmlns=\"http://www.topografix.com/GPX/1/1\" version=\"1.1\" creator=\"{}\">\n"
        "<metadata><name>{}: {}</name><desc>{} {}.</desc><time>{}</time></metadata>\n",
        xml_escaped(head.creator), xml_escaped(head.district), xml_escaped(table.title),
        xml_escaped(table.description), xml_escaped(head.origin), xml_escaped(head.data_time));
    for (const WrittenPlace& place : places_in_degrees(table, ToDegrees(crs, file))) {
        gpx += fmt::format(
            "<wpt lat=\"{:.7f}\" lon=\"{:.7f}\"><name>{}</name><cmt>{}</cmt><desc>{}</desc>"
            "<type>{}</type></wpt>\n",
            place.latitude, place.longitude, place.name, place.note, place.note, place.kind);
    }
    write_whole_file(file, gpx + "</gpx>\n");
}

void write_kml(const std::filesystem::path& file, const WorkingCrs& crs, const PlacesHead& head,
               const FeatureTable& table) {
    const std::vector<WrittenPlace> places = places_in_degrees(table, ToDegrees(crs, file));
    std::string kml = fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<kml xmlns=\"http://www.opengis.net/kml/2.2\"><Document><name>{}: "
        "{}</name><description>{} "
        "{}.</description>\n",
        xml_escaped(head.district), xml_escaped(table.title), xml_escaped(table.description),
        xml_escaped(head.origin));
    std::vector<std::string> groups;
    for (const WrittenPlace& place : places) {
        if (std::ranges::find(groups, place.group) == groups.end()) {
            groups.push_back(place.group);
        }
    }
    for (const std::string& group : groups) {
        kml += "<Folder><name>" + group + "</name>\n";
        for (const WrittenPlace& place : places) {
            kml += place.group == group ? kml_placemark(place) : "";
        }
        kml += "</Folder>\n";
    }
    write_whole_file(file, kml + "</Document></kml>\n");
}

}  // namespace farwater::io
