// GeoPackages that may be read and not written.
#pragma once

#include <filesystem>

namespace farwater::io {

// A GeoPackage in which a program keeps a log of edits (write-ahead log, as desktop GIS leave
// them), without any edits in it, that may not be written from here. SQLite would open it with two
// files beside it and could not remove them afterwards: they would be ours, and in the way of those
// who may write. Such a file can be opened as one that does not change. False where that is not
// known.
bool is_only_to_read(const std::filesystem::path& file);

}  // namespace farwater::io
