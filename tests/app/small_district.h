// A district of one road, three parcels, one pond, one station: written as CSV with WKT shapes.
#pragma once

#include <filesystem>
#include <string>

#include "tests/support/temporary_folder.h"

namespace farwater::support {

inline const char* small_district_toml() {
    return R"(name = "Small"
data_date = 2026-05-31
crs = "EPSG:32618"

[parcels]
file = "parcels.csv"
crs = "EPSG:32618"

[roads]
file = "roads.csv"
crs = "EPSG:32618"

[stations]
file = "stations.csv"
crs = "EPSG:32618"

[water_sources]
file = "sources.csv"
crs = "EPSG:32618"

[apparatus]
file = "apparatus.csv"
)";
}

// Returns the district file.
inline std::filesystem::path write_small_district(const std::filesystem::path& folder) {
    put(folder / "roads.csv",
        "WKT,name,class\n"
        "\"LINESTRING(500000 4500000,502000 4500000)\",Main,paved\n"
        "\"LINESTRING(502000 4500000,504000 4500000)\",Main,paved\n"
        "\"LINESTRING(502000 4500000,502000 4501000,504000 4501000,504000 4500000)\",Loop,paved\n");
    put(folder / "parcels.csv",
        "WKT,parcel_id,needed_gpm,buildings\n"
        "\"POLYGON((502300 4500020,502400 4500020,502400 4500120,502300 4500120,502300 "
        "4500020))\",007,250,1\n"
        "\"POLYGON((503000 4500020,503100 4500020,503100 4500120,503000 4500120,503000 "
        "4500020))\",008,900,1\n"
        "\"POLYGON((503100 4500020,503200 4500020,503200 4500120,503100 4500120,503100 "
        "4500020))\",009,,0\n");
    put(folder / "stations.csv",
        "WKT,station_id,name,staffed\nPOINT(500100 4500000),S1,Central,yes\n");
    put(folder / "sources.csv",
        "WKT,source_id,name,kind,standing,standing_by,rate_gpm,usable_gal\n"
        "POINT(501000 4500000),D1,Mill Pond,dry_hydrant,declared,Chief,1000,500000\n");
    put(folder / "apparatus.csv",
        "unit_id,station_id,kind,tank_gal,pump_gpm,portable_tank_gal,hose_4in_ft,fill_limit_"
        "gpm,offload_gpm\n"
        "E1,S1,engine,1000,1500,,1000,,\nE2,S1,engine,1000,1500,,1000,,\nE3,S1,engine,1000,"
        "1500,,1000,,\n"
        "T1,S1,tanker,2500,,2500,,1000,1000\nT2,S1,tanker,2500,,2500,,1000,1000\nT3,S1,"
        "tanker,2500,,,,1000,1000\n");
    put(folder / "district.toml", small_district_toml());
    return folder / "district.toml";
}

}  // namespace farwater::support
