// What stands on disk afterwards.
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>
#include <unistd.h>

#include "sample_region/generate/region.h"

using namespace farwater::sample;
namespace fs = std::filesystem;

namespace {

// A folder of its own that goes away with the value.
class Folder {
public:
    explicit Folder(const std::string& name)
        : path_(fs::temp_directory_path() /
                ("farwater_region_" + name + "_" + std::to_string(getpid()))) {
        fs::remove_all(path_);
    }
    ~Folder() { fs::remove_all(path_); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    const fs::path& path() const { return path_; }

private:
    fs::path path_;
};

std::string bytes_of(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

std::set<std::string> names_in(const fs::path& folder) {
    std::set<std::string> names;
    for (const auto& entry : fs::directory_iterator(folder)) {
        names.insert(entry.path().filename().string());
    }
    return names;
}

GDALDatasetUniquePtr open(const fs::path& path) {
    GDALAllRegister();
    return GDALDatasetUniquePtr(GDALDataset::Open(path.c_str(), GDAL_OF_VECTOR | GDAL_OF_RASTER));
}

// Every layer and record in words, whatever the versions of GDAL and SQLite do to the bytes.
std::string told(OGRLayer& layer) {
    std::string text = std::string(layer.GetName()) + "\n";
    for (const auto& feature : layer) {
        for (const auto& field : *feature) {
            text += std::string(field.GetName()) + "=" +
                    (field.IsNull() ? "NULL" : field.GetAsString()) + ";";
        }
        const OGRGeometry* shape = feature->GetGeometryRef();
        text += (shape == nullptr ? std::string("no shape") : shape->exportToWkt()) + "\n";
    }
    return text;
}

std::string told(const fs::path& path) {
    const auto dataset = open(path);
    REQUIRE(dataset);
    std::string text;
    for (OGRLayer* layer : dataset->GetLayers()) {
        text += told(*layer);
    }
    if (dataset->GetRasterCount() > 0) {
        GDALRasterBand* band = dataset->GetRasterBand(1);
        std::vector<float> heights(static_cast<std::size_t>(band->GetXSize()) *
                                   static_cast<std::size_t>(band->GetYSize()));
        REQUIRE(band->RasterIO(GF_Read, 0, 0, band->GetXSize(), band->GetYSize(), heights.data(),
                               band->GetXSize(), band->GetYSize(), GDT_Float32, 0, 0) == CE_None);
        text += band->GetUnitType();
        for (const float height : heights) {
            text += " " + std::to_string(height);
        }
    }
    return text;
}

GIntBig records_of(const fs::path& path, const char* layer) {
    const auto dataset = open(path);
    REQUIRE(dataset);
    return dataset->GetLayerByName(layer)->GetFeatureCount();
}

}  // namespace

TEST_CASE("The same seed gives the same bytes and another seed another district") {
    const Folder first("first"), second("second"), other("other");
    write_region({.parcels = 250, .seed = 9, .folder = first.path()});
    write_region({.parcels = 250, .seed = 9, .folder = second.path()});
    write_region({.parcels = 250, .seed = 10, .folder = other.path()});
    REQUIRE(names_in(first.path()) == names_in(second.path()));
    REQUIRE(names_in(first.path()).size() == 10);
    for (const std::string& name : names_in(first.path())) {
        CAPTURE(name);
        CHECK(bytes_of(first.path() / name) == bytes_of(second.path() / name));
    }
    CHECK(bytes_of(first.path() / "county.gpkg") != bytes_of(other.path() / "county.gpkg"));
}

TEST_CASE("The committed data are what the generator writes") {
    const fs::path committed = "sample_region/data";
    const Folder fresh("demo");
    write_region({.folder = fresh.path(), .district_file = false});
    REQUIRE(names_in(committed) == names_in(fresh.path()));
    std::uintmax_t size = 0;
    for (const std::string& name : names_in(committed)) {
        CAPTURE(name);
        size += fs::file_size(committed / name);
        const bool same_bytes = bytes_of(committed / name) == bytes_of(fresh.path() / name);
        if (name.ends_with(".csv")) {
            CHECK(same_bytes);
        } else if (!same_bytes) {
            CHECK((told(committed / name) == told(fresh.path() / name)));
        }
    }
    CHECK(size < 4U << 20U);
}

TEST_CASE("A region of many townships has the parcels that were ordered and enough of the rest") {
    const Folder folder("many");
    const RegionCounts counts =
        write_region({.parcels = 5000, .seed = 4, .folder = folder.path(), .buildings = false});
    CHECK(counts.townships == 2);
    CHECK(counts.parcels == 5000);
    CHECK(records_of(folder.path() / "county.gpkg", "parcels") == 5000);
    CHECK(counts.roads > 6000);
    CHECK(counts.roads < 6500);
    CHECK(records_of(folder.path() / "county.gpkg", "roads") == static_cast<GIntBig>(counts.roads));
    CHECK(counts.sources == 10);
    CHECK(counts.stations == 2);
}
