// The small district with water on its map and places to choose from.
#pragma once

#include <filesystem>
#include <string>

#include "tests/app/small_district.h"
#include "tests/support/temporary_folder.h"

namespace farwater::support {

// A pond beside the road between the parcels, and three ideas of the officer's.
inline std::filesystem::path district_with_places(const std::filesystem::path& folder) {
    const std::filesystem::path file = write_small_district(folder);
    put(folder / "ponds.csv",
        "WKT,name\n"
        "\"POLYGON((502800 4499800,502900 4499800,502900 4499980,502800 4499980,502800 "
        "4499800))\",Long Pond\n"
        "\"POLYGON((502800 4499500,502900 4499500,502900 4499600,502800 4499600,502800 "
        "4499500))\",Far Pond\n"
        "\"POLYGON((501010 4499970,501060 4499970,501060 4499990,501010 4499990,501010 "
        "4499970))\",Mill Pond\n");
    put(folder / "ideas.csv",
        "WKT,proposal_id,name,kind,cost,rate_gpm,usable_gal,static_lift_ft\n"
        "POINT(503300 4500000),C1,Corner,cistern,80000,800,60000,8\n"
        "POINT(503400 4500000),C2,No size,cistern,80000,800,,8\n"
        "POINT(503400 4500000),C3,No price,cistern,,800,60000,8\n"
        "POINT(503400 4500000),C4,What is it,well,1,800,60000,8\n"
        "POINT(503400 4500000),C5,Below nothing,cistern,-5,800,60000,8\n");
    std::string text = bytes_of(file);
    text +=
        "\n[mapped_water]\nfile = \"ponds.csv\"\ncrs = \"EPSG:32618\"\n"
        "[proposals]\nfile = \"ideas.csv\"\ncrs = \"EPSG:32618\"\n";
    put(file, text);
    return file;
}

}  // namespace farwater::support
