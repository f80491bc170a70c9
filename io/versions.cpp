#include "io/versions.h"

#include <fmt/format.h>
#include <gdal.h>
#include <proj.h>
#include <sqlite3.h>

namespace farwater::io {

std::string library_versions() {
    return fmt::format("GDAL {}\nPROJ {}\nSQLite {}\n", GDALVersionInfo("RELEASE_NAME"),
                       proj_info().version, sqlite3_libversion());
}

}  // namespace farwater::io
