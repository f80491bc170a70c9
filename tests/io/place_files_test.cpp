// GPX and KML as other programs read them, and by the order that their schemas want.
#include "io/place_files.h"

#include <catch2/catch.hpp>
#include <cpl_minixml.h>
#include <ogrsf_frmts.h>

#include "io/files/xml_text.h"
#include "io/records/dataset.h"
#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"
#include "tests/support/xml_schema.h"

using namespace farwater;
using namespace farwater::io;
using namespace farwater::support;

namespace {

const std::string hostile_name = "</name><!-- ]]> & \"'\x01\xFF\xED\xA0\x80 M\xC3\xBChle\x00 gone";

FeatureTable two_places() {
    return {.name = "places",
            .title = "Places",
            .description = "Two <of> them.",
            .shape = ShapeKind::point,
            .columns = {{.name = "group", .description = "Group."},
                        {.name = "name", .description = "Name."},
                        {.name = "note", .description = "Note."},
                        {.name = "kind", .description = "Kind."}},
            .rows = 2,
            .fill = [](std::size_t index, Row& row) {
                row.values = {std::string_view(index == 0 ? "Fill sites" : "Dump sites"),
                              index == 0 ? std::string_view(hostile_name) : std::string_view("D1"),
                              std::string_view("Back in."), std::string_view("cistern")};
                row.shape = {{500000.0 + 1000.0 * static_cast<double>(index), 4500000.0}};
            }};
}

WorkingCrs utm_18n() { return described_crs(crs_from_text("EPSG:32618"), "test", 0.0); }

const PlacesHead places_head{"Alder & Notch", "farwater 1", "2026-05-31T00:00:00.000Z",
                             "farwater 1. Data of 2026-05-31"};

// ElementNames of the element's children, in their order.
std::vector<std::string> children(const CPLXMLNode* node) {
    std::vector<std::string> names;
    for (const CPLXMLNode* child = node->psChild; child != nullptr; child = child->psNext) {
        if (child->eType == CXT_Element) {
            names.emplace_back(child->pszValue);
        }
    }
    return names;
}

using Tree = std::unique_ptr<CPLXMLNode, decltype(&CPLDestroyXMLNode)>;
Tree parsed(const std::string& xml) {
    Tree tree(CPLParseXMLString(xml.c_str()), CPLDestroyXMLNode);
    REQUIRE(tree);
    return tree;
}

using ElementNames = std::vector<std::string>;

}  // namespace

TEST_CASE("GPX has what its schema wants in the schema's order, and GDAL reads it") {
    prepare_gdal();
    const TemporaryFolder folder;
    const auto file = folder.path() / "p.gpx";
    write_gpx(file, utm_18n(), places_head, two_places());
    const Tree tree = parsed(bytes_of(file));
    const CPLXMLNode* gpx = CPLGetXMLNode(tree.get(), "=gpx");
    REQUIRE(gpx != nullptr);
    // GPX 1.1 schema: gpxType, metadataType, wptType, each a sequence.
    CHECK(children(gpx) == ElementNames{"metadata", "wpt", "wpt"});
    CHECK(children(CPLGetXMLNode(tree.get(), "=gpx.metadata")) ==
          ElementNames{"name", "desc", "time"});
    CHECK(children(CPLGetXMLNode(tree.get(), "=gpx.wpt")) ==
          ElementNames{"name", "cmt", "desc", "type"});
    CHECK(std::string(CPLGetXMLValue(tree.get(), "=gpx.version", "")) == "1.1");
    CHECK(std::string(CPLGetXMLValue(tree.get(), "=gpx.creator", "")) == "farwater 1");
    const GDALDatasetUniquePtr data(GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR));
    REQUIRE(data);
    OGRLayer* points = data->GetLayerByName("waypoints");
    REQUIRE(points != nullptr);
    REQUIRE(points->GetFeatureCount() == 2);
    const OGRFeatureUniquePtr first(points->GetFeature(0));
    REQUIRE(first);
    CHECK(std::string(first->GetFieldAsString("name")) == "</name><!-- ]]> & \"'???? M\xC3\xBChle");
    // UTM's zone 18 has its middle at 75 degrees west; the northing is 40.65 north (PROJ).
    CHECK(first->GetGeometryRef()->toPoint()->getX() == Approx(-75.0).margin(1e-6));
    CHECK(first->GetGeometryRef()->toPoint()->getY() == Approx(40.65).margin(1e-2));
}

TEST_CASE("KML has a folder for each group, leads nowhere, and GDAL reads it") {
    prepare_gdal();
    const TemporaryFolder folder;
    const auto file = folder.path() / "p.kml";
    write_kml(file, utm_18n(), places_head, two_places());
    const std::string kml = bytes_of(file);
    const Tree tree = parsed(kml);
    // OGC KML 2.2: Document and Placemark are sequences that begin with name and description.
    CHECK(children(CPLGetXMLNode(tree.get(), "=kml.Document")) ==
          ElementNames{"name", "description", "Folder", "Folder"});
    CHECK(children(CPLGetXMLNode(tree.get(), "=kml.Document.Folder.Placemark")) ==
          ElementNames{"name", "description", "Point"});
    CHECK(kml.find("://", kml.find("<Document>")) == std::string::npos);
    const GDALDatasetUniquePtr data(GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR));
    REQUIRE(data);
    CHECK(data->GetLayerCount() == 2);
    CHECK(data->GetLayerByName("Fill sites") != nullptr);
}

// Whatever the text holds; and what the schema does not allow it refuses.
TEST_CASE("GPX and KML are valid by their schemas") {
    prepare_gdal();
    const TemporaryFolder folder;
    const auto check = [&](const std::string& schema, const std::string& text,
                           const std::string& there, const std::string& not_there) {
        const auto file = folder.path() / "held.xml";
        const auto valid = [&](const std::string& xml) {
            put(file, xml);
            return held_against("tests/io/data/" + schema, file);
        };
        const std::optional<Ended> as_written = valid(text);
        if (!as_written) {
            return;
        }
        INFO(as_written->err);
        CHECK(as_written->exit_code == 0);
        std::string broken = text;
        const std::size_t at = broken.find(there);
        REQUIRE(at != std::string::npos);
        CHECK(valid(broken.replace(at, there.size(), not_there))->exit_code != 0);
    };
    write_gpx(folder.path() / "p.gpx", utm_18n(), places_head, two_places());
    const std::string gpx = bytes_of(folder.path() / "p.gpx");
    check("gpx_1_1_places.xsd", gpx, "lat=\"40", "lat=\"140");
    check("gpx_1_1_places.xsd", gpx, "<type>cistern</type>", "<type>cistern</type><ele>1</ele>");
    check("gpx_1_1_places.xsd", gpx, "2026-05-31T", "2026-05-32T");
    write_kml(folder.path() / "p.kml", utm_18n(), places_head, two_places());
    const std::string kml = bytes_of(folder.path() / "p.kml");
    check("kml_2_2_places.xsd", kml, "<coordinates>-75.0000000,40", "<coordinates>40.1 -75.0,4");
    check("kml_2_2_places.xsd", kml, "<description>Back in.</description>", "<descr>x</descr>");
}

TEST_CASE("letters for XML: what it cannot hold is left out, the rest is escaped") {
    CHECK(xml_letters("a\x01"
                      "b\tc\nd\x7F") == "ab\tc\nd");
    CHECK(xml_letters("\xEF\xBF\xBF!") == "!");
    CHECK(xml_letters("bad \xFF") == "bad ?");
    CHECK(xml_letters(std::string_view("a\0b", 3)) == "a");
    CHECK(xml_escaped("<a href=\"'\">&") == "&lt;a href=&quot;&apos;&quot;&gt;&amp;");
    CHECK(xml_escaped("\xC3\xBC") == "\xC3\xBC");
}
