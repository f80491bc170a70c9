// Finding and opening the result that somebody names.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string_view>
#include <utility>

#include "analyzer/district/stored_result.h"

class GDALDataset;
class OGRLayer;

namespace farwater::io {

// Throws InputError: the path, and what is wrong with it.
[[noreturn]] void refuse_result(const std::filesystem::path& path, std::string_view what);

// supply.gpkg, and its folder where it is a result's. `given` may have a separator at its end.
// Throws InputError.
using FileAndFolder = std::pair<std::filesystem::path, std::optional<std::filesystem::path>>;
FileAndFolder find_result(const std::filesystem::path& given);

// Read-only, with all that a comparison takes. Throws InputError.
std::shared_ptr<GDALDataset> open_result(const std::filesystem::path& file);

OGRLayer* result_layer(GDALDataset& dataset, const char* name);  // null: there is none
StoredRecord stored_record(OGRLayer& run_record);

}  // namespace farwater::io
