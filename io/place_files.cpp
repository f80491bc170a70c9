#include "io/place_files.h"

#include <algorithm>
#include <string>
#include <utility>
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

// One after the other, for a large district has a million. `wanted` is asked with the group.
template <class Wanted, class Look>
void for_each_place(const FeatureTable& table, const DegreesFor& degrees, const Wanted& wanted,
                    const Look& look) {
    Row row;
    for (std::size_t index = 0; index < table.rows; ++index) {
        row.values.assign(table.columns.size(), Value{});
        row.shape.clear();
        table.fill(index, row);
        std::string group = escaped_cell(row.values.at(0));
        if (row.shape.empty() || !wanted(group)) {
            continue;
        }
        const Degrees p = degrees(row.shape.front());
        look(WrittenPlace{std::move(group), escaped_cell(row.values.at(1)),
                          escaped_cell(row.values.at(2)), escaped_cell(row.values.at(3)),
                          p.longitude, p.latitude});
    }
}

bool any_group(const std::string&) { return true; }

// In the order of their first places.
std::vector<std::string> groups_of(const FeatureTable& table, const DegreesFor& degrees) {
    std::vector<std::string> groups;
    const auto is_new = [&](const std::string& group) {
        return std::ranges::find(groups, group) == groups.end();
    };
    for_each_place(table, degrees, is_new,
                   [&](const WrittenPlace& place) { groups.push_back(place.group); });
    return groups;
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
    WholeFile gpx(file);
    gpx.write(fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<gpx xmlns=\"http://www.topografix.com/GPX/1/1\" version=\"1.1\" creator=\"{}\">\n"
        "<metadata><name>{}: {}</name><desc>{} {}.</desc><time>{}</time></metadata>\n",
        xml_escaped(head.creator), xml_escaped(head.district), xml_escaped(table.title),
        xml_escaped(table.description), xml_escaped(head.origin), xml_escaped(head.data_time)));
    for_each_place(table, DegreesFor(crs, file), any_group, [&](const WrittenPlace& place) {
        gpx.write(fmt::format(
            "<wpt lat=\"{:.7f}\" lon=\"{:.7f}\"><name>{}</name><cmt>{}</cmt><desc>{}</desc>"
            "<type>{}</type></wpt>\n",
            place.latitude, place.longitude, place.name, place.note, place.note, place.kind));
    });
    gpx.write("</gpx>\n");
    gpx.finish();
}

void write_kml(const std::filesystem::path& file, const WorkingCrs& crs, const PlacesHead& head,
               const FeatureTable& table) {
    const DegreesFor degrees(crs, file);
    WholeFile kml(file);
    kml.write(
        fmt::format("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                    "<kml xmlns=\"http://www.opengis.net/kml/2.2\"><Document><name>{}: "
                    "{}</name><description>{} "
                    "{}.</description>\n",
                    xml_escaped(head.district), xml_escaped(table.title),
                    xml_escaped(table.description), xml_escaped(head.origin)));
    for (const std::string& group : groups_of(table, degrees)) {
        kml.write("<Folder><name>" + group + "</name>\n");
        for_each_place(
            table, degrees, [&](const std::string& of) { return of == group; },
            [&](const WrittenPlace& place) { kml.write(kml_placemark(place)); });
        kml.write("</Folder>\n");
    }
    kml.write("</Document></kml>\n");
    kml.finish();
}

}  // namespace farwater::io
