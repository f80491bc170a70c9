// A GeoPackage that another program holds open, with edits in its -wal file.
#include <memory>
#include <stdexcept>

#include <catch2/catch.hpp>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>
#include <sqlite3.h>

#include "io/fingerprint.h"
#include "tests/io/read_scene.h"

using namespace farwater;
using namespace farwater::io;

namespace {

// A table of two units, without shapes.
void write_fleet(const std::filesystem::path& file) {
    prepare_gdal();
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GPKG");
    const GDALDatasetUniquePtr dataset(driver->Create(file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    OGRLayer* layer = dataset->CreateLayer("fleet", nullptr, wkbNone, nullptr);
    for (const char* name : {"unit_id", "station_id", "kind"}) {
        OGRFieldDefn field(name, OFTString);
        layer->CreateField(&field);
    }
    for (const char* id : {"E1", "E2"}) {
        OGRFeature feature(layer->GetLayerDefn());
        feature.SetField("unit_id", id);
        feature.SetField("station_id", "S1");
        feature.SetField("kind", "engine");
        if (layer->CreateFeature(&feature) != OGRERR_NONE) {
            throw std::runtime_error("cannot write the test's package");
        }
    }
}

using Connection = std::unique_ptr<sqlite3, decltype(&sqlite3_close)>;

Connection open_and_edit(const std::filesystem::path& file) {
    sqlite3* raw = nullptr;
    const int opened = sqlite3_open(file.c_str(), &raw);
    Connection connection(raw, &sqlite3_close);
    const char* edit =
        "PRAGMA journal_mode = WAL;"
        "INSERT INTO fleet (unit_id, station_id, kind) VALUES ('E3', 'S1', 'engine');";
    if (opened != SQLITE_OK || sqlite3_exec(raw, edit, nullptr, nullptr, nullptr) != SQLITE_OK) {
        throw std::runtime_error("cannot edit the test's package");
    }
    return connection;
}

}  // namespace

TEST_CASE("edits that another program has not merged yet are read too, and hashed") {
    ReadScene scene;
    write_fleet(scene / "fleet.gpkg");
    scene.source("apparatus", "fleet.gpkg");
    CHECK(scene.read().district.units.size() == 2);
    const Connection editor = open_and_edit(scene / "fleet.gpkg");
    const std::string main_file = support::bytes_of(scene / "fleet.gpkg");
    REQUIRE(std::filesystem::file_size(scene / "fleet.gpkg-wal") > 0);
    const ReadResult read = scene.read();
    CHECK(read.district.units.size() == 3);
    CHECK(read.inputs.back().sha256 ==
          sha256_of_files({scene / "fleet.gpkg", scene / "fleet.gpkg-wal"}));
    CHECK(support::bytes_of(scene / "fleet.gpkg") == main_file);
}
