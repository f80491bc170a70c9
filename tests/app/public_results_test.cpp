// farwater run --audience public: whatever the data hold in confidence stays out of every byte.
#include <catch2/catch.hpp>
#include <cpl_vsi.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "tests/app/small_district.h"
#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;

namespace {

// Ten houses in a row, one far off; everything that is nobody's business begins with KEEP.
std::filesystem::path write_confided_district(const std::filesystem::path& folder) {
    write_small_district(folder);
    std::string parcels = "WKT,parcel_id,needed_gpm,buildings,owner,phone\n";
    for (int i = 0; i < 11; ++i) {
        const int west = i < 10 ? 502300 + 50 * i : 503500;
        parcels += "\"POLYGON((" + std::to_string(west) + " 4500020," + std::to_string(west + 50) +
                   " 4500020," + std::to_string(west + 50) + " 4500120," + std::to_string(west) +
                   " 4500120," + std::to_string(west) + " 4500020))\",KEEPID" + std::to_string(i) +
                   ",250,1,KEEPOWNER,KEEPPHONE\n";
    }
    put(folder / "parcels.csv", parcels);
    put(folder / "roads.csv",
        "WKT,name,class,gate\n"
        "\"LINESTRING(500000 4500000,502000 4500000)\",KEEPROAD,paved,KEEPCODE\n"
        "\"LINESTRING(502000 4500000,504000 4500000)\",Main,paved,KEEPCODE\n");
    put(folder / "sources.csv",
        "WKT,source_id,name,kind,standing,standing_by,rate_gpm,usable_gal,owner,agreement,note,"
        "cross_street,key_holder\n"
        "POINT(501000 4500000),D1,KEEPNAME,dry_hydrant,declared,KEEPCHIEF,1000,500000,KEEPOWNER,"
        "KEEPPAPER,KEEPNOTE,KEEPSTREET,KEEPKEY\n"
        "POINT(501500 4500000),D2,KEEPNAME,dry_hydrant,declared,KEEPCHIEF,KEEPBAD,500000,KEEPOWNER,"
        "KEEPPAPER,KEEPNOTE,KEEPSTREET,KEEPKEY\n");
    put(folder / "district.toml", std::string("# KEEPCOMMENT\n") + small_district_toml());
    return folder / "district.toml";
}

// Every byte that a reader could unpack of a file.
std::string unpacked(const std::filesystem::path& file) {
    std::string bytes = bytes_of(file);
    if (file.extension() == ".xlsx") {
        const std::string root = "/vsizip/" + file.string();
        char** const names = VSIReadDirRecursive(root.c_str());
        REQUIRE(names != nullptr);
        for (char** name = names; *name != nullptr; ++name) {
            VSILFILE* part = VSIFOpenL((root + "/" + *name).c_str(), "rb");
            std::string text(1U << 20U, '\0');
            text.resize(part == nullptr ? 0 : VSIFReadL(text.data(), 1, text.size(), part));
            bytes += text;
            if (part != nullptr) {
                VSIFCloseL(part);
            }
        }
        CSLDestroy(names);
    }
    return bytes;
}

std::string all_bytes(const std::filesystem::path& folder) {
    std::string bytes;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
        if (entry.is_regular_file()) {
            bytes += entry.path().string() + "\n" + unpacked(entry.path());
        }
    }
    return bytes;
}

}  // namespace

TEST_CASE("results for the public hold nothing that the data hold in confidence", "[golden]") {
    const TemporaryFolder folder;
    const auto district = write_confided_district(folder.path());
    const auto run = [&](const char* audience, const char* out) {
        const Ended ended =
            run_program(FARWATER_PROGRAM, {"run", district.string(), "--audience", audience,
                                           "--out", (folder.path() / out).string()});
        CAPTURE(ended.err);
        REQUIRE(ended.exit_code == 0);
        return ended.out;
    };
    const std::string said = run("public", "public");
    run("officers", "officers");
    CHECK(contains(said, "For the public: without the parcels"));

    const std::string for_officers = all_bytes(folder.path() / "officers");
    for (const char* planted : {"KEEPID", "KEEPOWNER", "KEEPPHONE", "KEEPNAME", "KEEPNOTE",
                                "KEEPROAD", "KEEPCODE", "KEEPCOMMENT", "KEEPBAD"}) {
        CAPTURE(planted);
        CHECK(contains(for_officers, planted));  // else the search below would prove nothing
    }
    const std::string for_public = all_bytes(folder.path() / "public");
    const std::size_t kept = for_public.find("KEEP");
    INFO("around it: " << (kept == std::string::npos ? "" : for_public.substr(kept - 80, 160)));
    CHECK(kept == std::string::npos);
    CHECK(contains(for_public, "For the public: without the parcels"));
    CHECK(contains(for_public, "prove them by a timed drill"));
    for (const char* absent : {"inputs.gpkg", "rating", "maps", "places", "cards", "run.log"}) {
        CAPTURE(absent);
        CHECK_FALSE(std::filesystem::exists(folder.path() / "public" / absent));
    }
}

TEST_CASE("ground is shown to the public only where properties hang together", "[golden]") {
    const TemporaryFolder folder;
    const auto district = write_confided_district(folder.path());
    const auto out = folder.path() / "public";
    REQUIRE(run_program(FARWATER_PROGRAM,
                        {"run", district.string(), "--audience", "public", "--out", out.string()})
                .exit_code == 0);
    GDALAllRegister();
    const GDALDatasetUniquePtr package(
        GDALDataset::Open((out / "supply.gpkg").c_str(), GDAL_OF_VECTOR));
    REQUIRE(package);
    CHECK(package->GetLayerByName("parcel_supply") == nullptr);
    CHECK(package->GetLayerByName("shortfall_zones") == nullptr);
    OGRLayer* ground = package->GetLayerByName("flow_zones");
    REQUIRE(ground != nullptr);
    std::size_t parcels = 0;
    for (const auto& zone : *ground) {
        parcels += static_cast<std::size_t>(zone->GetFieldAsInteger("parcels"));
    }
    CHECK(parcels == 10);
    CHECK(
        contains(bytes_of(out / "report.html"), "1 properties stand on ground that is not shown"));
    OGRLayer* fills = package->GetLayerByName("fill_sites");
    REQUIRE(fills != nullptr);
    CHECK(fills->GetLayerDefn()->GetFieldIndex("name") < 0);
    CHECK(fills->GetLayerDefn()->GetFieldIndex("rate_gpm") >= 0);
}

TEST_CASE("an audience that is not known is refused") {
    const Ended ended = run_program(FARWATER_PROGRAM, {"run", "d.toml", "--audience", "press"});
    CHECK(ended.exit_code == 2);
    CHECK(contains(ended.err, "--audience"));
}
