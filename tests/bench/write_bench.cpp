// How long a layer of parcels takes to write, against GDAL's own copy of it in the same run.
//   bench_write_bench [PARCELS [FOLDER]]
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <string>

#include <gdal_priv.h>
#include <gdal_utils.h>
#include <ogrsf_frmts.h>
#include <sys/resource.h>

#include "io/csv_writer.h"
#include "io/fingerprint.h"
#include "io/geopackage/geopackage_finish.h"
#include "io/geopackage_writer.h"
#include "io/records/dataset.h"

namespace {

using namespace farwater;
using namespace farwater::io;
namespace fs = std::filesystem;

double cpu_seconds() {
    rusage used{};
    getrusage(RUSAGE_SELF, &used);
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) * 1e-6;
    };
    return seconds(used.ru_utime) + seconds(used.ru_stime);
}

double timed(const char* name, double reference, const std::function<void()>& work) {
    const double begin = cpu_seconds();
    work();
    const double spent = cpu_seconds() - begin;
    std::printf("%-40s %8.2f s cpu", name, spent);
    std::printf(reference > 0.0 ? "  %5.2f\n" : "\n", spent / reference);
    return spent;
}

void require(bool right, const char* what) {
    if (!right) {
        std::fprintf(stderr, "wrong answer: %s\n", what);
        std::exit(1);
    }
}

// Crooked lots of 4 to 12 corners on a grid, row by row, with eight columns of an assessor.
void make_parcels(const fs::path& file, int count) {
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GPKG");
    const GDALDatasetUniquePtr dataset(driver->Create(file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    OGRSpatialReference crs;
    crs.importFromEPSG(32618);
    OGRLayer* layer = dataset->CreateLayer("parcels", &crs, wkbPolygon);
    constexpr std::array names{"map_lot", "owner", "street", "use_code", "zone"};
    for (const char* name : names) {
        OGRFieldDefn field(name, OFTString);
        layer->CreateField(&field);
    }
    for (const char* name : {"acres", "value", "year"}) {
        OGRFieldDefn field(name, name[0] == 'y' ? OFTInteger : OFTReal);
        layer->CreateField(&field);
    }
    dataset->StartTransaction();
    const int side = static_cast<int>(std::sqrt(count)) + 1;
    for (int i = 0; i < count; ++i) {
        OGRFeature feature(layer->GetLayerDefn());
        feature.SetField(0, ("R-" + std::to_string(100000 + i)).c_str());
        feature.SetField(1, ("Owner of lot " + std::to_string(i * 7 % 9973)).c_str());
        feature.SetField(2, (std::to_string(i % 300) + " Mountain View Road").c_str());
        feature.SetField(3, i % 5 == 0 ? "RES" : "AGR");
        feature.SetField(4, "R2");
        feature.SetField(5, 0.5 + i % 40);
        feature.SetField(6, 1000.0 * (i % 700));
        feature.SetField(7, 1900 + i % 120);
        auto ring = std::make_unique<OGRLinearRing>();
        const int corners = 4 + i % 9;
        for (int corner = 0; corner <= corners; ++corner) {
            const double turn = 2.0 * M_PI * (corner % corners) / corners;
            ring->addPoint(500000.0 + 80.0 * (i % side) + 39.0 * std::cos(turn),
                           4700000.0 + 80.0 * (i / side) + 39.0 * std::sin(turn));
        }
        auto polygon = std::make_unique<OGRPolygon>();
        polygon->addRingDirectly(ring.release());
        feature.SetGeometryDirectly(polygon.release());
        require(layer->CreateFeature(&feature) == OGRERR_NONE, "a parcel");
    }
    dataset->CommitTransaction();
}

// Sixteen result columns of the usual kinds.
PassThroughTable parcel_supply(std::size_t count) {
    PassThroughTable table;
    table.input = "parcels";
    table.results.name = "parcel_supply";
    table.results.rows = count;
    constexpr std::array kinds{ColumnType::text, ColumnType::real, ColumnType::integer,
                               ColumnType::real};
    for (std::size_t i = 0; i < 16; ++i) {
        table.results.columns.push_back(
            {"result_" + std::to_string(i), kinds[i % 4], "A result.", 1});
    }
    table.results.fill = [](std::size_t record, Row& row) {
        for (std::size_t i = 0; i < row.values.size(); ++i) {
            const std::size_t number = (record * 31 + i * 17) % 2000;
            switch (i % 4) {
                case 0:
                    row.values[i] = std::string_view(number % 3 == 0 ? "held" : "fill_site");
                    break;
                case 2:
                    row.values[i] = static_cast<std::int64_t>(number);
                    break;
                default:
                    row.values[i] = static_cast<double>(number) / 10.0;
            }
        }
    };
    return table;
}

void copy(const fs::path& from, const fs::path& to, const char* index) {
    const GDALDatasetUniquePtr input(GDALDataset::Open(from.c_str(), GDAL_OF_VECTOR));
    std::array<std::string, 4> words{"-f", "GPKG", "-lco", std::string("SPATIAL_INDEX=") + index};
    std::array<char*, 5> arguments{words[0].data(), words[1].data(), words[2].data(),
                                   words[3].data(), nullptr};
    GDALVectorTranslateOptions* options = GDALVectorTranslateOptionsNew(arguments.data(), nullptr);
    GDALDatasetH source = GDALDataset::ToHandle(input.get());
    GDALClose(GDALVectorTranslate(to.c_str(), nullptr, 1, &source, options, nullptr));
    GDALVectorTranslateOptionsFree(options);
}

}  // namespace

int main(int count_of_arguments, char** arguments) {
    const int count = count_of_arguments > 1 ? std::atoi(arguments[1]) : 100'000;
    const fs::path folder =
        count_of_arguments > 2 ? fs::path(arguments[2]) : fs::temp_directory_path();
    const fs::path parcels = folder / "write_bench_parcels.gpkg";
    const fs::path out = folder / "write_bench_out.gpkg";
    prepare_gdal();
    fs::remove(parcels);
    make_parcels(parcels, count);

    PassThroughInput input;
    input.spec.section = "parcels";
    input.spec.file = parcels.string();
    input.spec.path = parcels;
    input.features = static_cast<std::size_t>(count);
    WorkingCrs crs;
    crs.code = "EPSG:32618";
    const PassThroughTable table = parcel_supply(input.features);

    fs::remove(out);
    const double whole =
        timed("GDAL's copy with its index", 0.0, [&] { copy(parcels, out, "YES"); });
    fs::remove(out);
    timed("GDAL's copy without", whole, [&] { copy(parcels, out, "NO"); });
    timed("sha256 of the input", whole, [&] { input.sha256 = sha256_of_file(parcels); });
    fs::remove(out);
    GeoPackageWriter writer(out, crs, "2026-01-01T00:00:00.000Z");
    const double passed = timed("parcels through, 16 results, index", whole,
                                [&] { require(writer.write(table, input, Work{}), "write"); });
    const double closed = timed("close: descriptions, checks", whole,
                                [&] { require(writer.close(Work{}), "close"); });
    std::printf("%-40s %8.2f s cpu  %5.2f\n", "  both", passed + closed, (passed + closed) / whole);
    require(SqliteFile(out).integer("SELECT count(*) FROM rtree_parcel_supply_geom") == count,
            "boxes in the index");
    timed("the index by GDAL instead", whole, [&] {
        const GDALDatasetUniquePtr file(
            GDALDataset::Open(out.c_str(), GDAL_OF_VECTOR | GDAL_OF_UPDATE));
        for (const char* sql : {"SELECT DisableSpatialIndex('parcel_supply', 'geom')",
                                "SELECT CreateSpatialIndex('parcel_supply', 'geom')"}) {
            file->ReleaseResultSet(file->ExecuteSQL(sql, nullptr, nullptr));
        }
    });
    timed("the results as CSV", whole,
          [&] { require(write_csv(folder / "write_bench.csv", table.results, Work{}), "csv"); });
    rusage used{};
    getrusage(RUSAGE_SELF, &used);
    std::printf("peak memory %ld MB\n", used.ru_maxrss / 1024);
    for (const fs::path& file : {parcels, out, folder / "write_bench.csv"}) {
        fs::remove(file);
    }
    return 0;
}
