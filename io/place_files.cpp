#include "io/place_files.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "io/crs.h"
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

// Throws OutputError where the working CRS has no way there.
class DegreesFor {
public:
    DegreesFor(const WorkingCrs& working, const std::filesystem::path& file)
        : file_(file.string()), degrees_(working) {}
    Degrees operator()(Point metres) const {
        const auto found = degrees_(metres);
        if (!found) {
            throw OutputError(file_ +
                              ": the working CRS has no way to longitude and latitude. An older "
                              "result is untouched.");
        }
        return *found;
    }

private:
    std::string file_;
    ToDegrees degrees_;
};

std::string escaped_cell(const Value& value) {
    const auto* text = std::get_if<std::string_view>(&value);
    return text == nullptr ? "" : xml_escaped(*text);
}

std::vector<WrittenPlace> places_in_degrees(const FeatureTable& table, const DegreesFor& degrees) {
    std::vector<WrittenPlace> places;
    Row row;
    for (std::size_t index = 0; index < table.rows; ++index) {
        row.values.assign(table.columns.size(), Value{});
        row.shape.clear();
        table.fill(index, row);
        if (!row.shape.empty()) {
            const Degrees p = degrees(row.shape.front());
            places.push_back({escaped_cell(row.values.at(0)), escaped_cell(row.values.at(1)),
                              escaped_cell(row.values.at(2)), escaped_cell(row.values.at(3)),
                              p.longitude, p.latitude});
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
    for (const WrittenPlace& place : places_in_degrees(table, DegreesFor(crs, file))) {
        gpx += fmt::format(
            "<wpt lat=\"{:.7f}\" lon=\"{:.7f}\"><name>{}</name><cmt>{}</cmt><desc>{}</desc>"
            "<type>{}</type></wpt>\n",
            place.latitude, place.longitude, place.name, place.note, place.note, place.kind);
    }
    write_whole_file(file, gpx + "</gpx>\n");
}

void write_kml(const std::filesystem::path& file, const WorkingCrs& crs, const PlacesHead& head,
               const FeatureTable& table) {
    const std::vector<WrittenPlace> places = places_in_degrees(table, DegreesFor(crs, file));
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
