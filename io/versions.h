// Which libraries the program reads and writes with, so that a report can be repeated.
#pragma once

#include <string>

namespace farwater::io {

// One line each: "GDAL 3.6.2", "PROJ ...", "SQLite ...".
std::string library_versions();

}  // namespace farwater::io
