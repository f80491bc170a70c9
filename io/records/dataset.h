// Opening a layer through GDAL, read-only, in one way for every reader and for the writer's second
// pass. GDAL's own messages never reach the terminal; they end up in our errors.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "io/crs.h"
#include "io/district_file.h"

class GDALDataset;
class OGRLayer;

namespace farwater::io {

// Registers GDAL's drivers and silences its own printing. Called by every function here; cheap
// after the first call.
void prepare_gdal();

// While it lives, GDAL's messages of this thread are kept here instead of being printed.
class GdalMessages {
public:
    GdalMessages();
    ~GdalMessages();
    GdalMessages(const GdalMessages&) = delete;
    GdalMessages& operator=(const GdalMessages&) = delete;
    // Errors and warnings, the first few, each once, joined by "; "; may be empty.
    std::string text() const;
    std::string said() const;  // "; GDAL says: " and the text, fit to print; or nothing
    bool failed() const { return failed_; }  // one of them was an error

private:
    std::vector<std::string> messages_;
    bool failed_ = false;
    friend void keep_message(GdalMessages& messages, const char* text, bool error);
};

// GDAL's option for a GeoPackage that is_only_to_read.
inline constexpr const char* open_unchanging = "IMMUTABLE=YES";

enum class DatasetKind : std::uint8_t { vector, raster };

// Read-only, with the options given; null where GDAL cannot, and why is in the messages that the
// caller collects. `path` is empty for sources that are no files, `file` then names them.
std::shared_ptr<GDALDataset> opened_by_gdal(const std::filesystem::path& path,
                                            const std::string& file,
                                            const std::vector<std::string>& open_options,
                                            DatasetKind kind);

// A clause that says why that was null, as far as it is seen: by the file, or by what GDAL said.
std::string why_not_opened(const std::filesystem::path& path, const GdalMessages& messages);

// A sheet of a spreadsheet with one row alone: GDAL names its columns Field1, Field2, ... and takes
// the row for a record. Here it names the columns, as in every other sheet, and there is no record.
// Says whether it was one. To be called before anything is read.
bool take_only_row_for_names(GDALDataset& dataset, OGRLayer& layer);

// The layer holds nothing, and that is known without counting.
bool is_known_empty(GDALDataset& dataset, OGRLayer& layer);

// "roads (roads.gpkg)": how messages call an input; without passwords.
std::string described(const LayerSpec& spec);

struct OpenLayer {
    std::shared_ptr<GDALDataset> dataset;  // closes it; the layer lives as long
    OGRLayer* layer = nullptr;  // with the section's `where` applied, reading from the start
    Crs crs;                    // the section's own, else the layer's; null = none
};

// Throws InputError: file missing or unreadable, layer missing (names those that exist) or
// ambiguous, `where` refused. Throws SettingsError where `crs` is not understood.
OpenLayer open_layer(const LayerSpec& spec);

// The files that make up the source, sorted; empty for a database connection. `path` is the
// source's own, empty where it has none. Of a section, also the files that its options name.
std::vector<std::filesystem::path> files_of(const std::filesystem::path& path,
                                            GDALDataset& dataset);
std::vector<std::filesystem::path> files_of(const LayerSpec& spec, GDALDataset& dataset);

}  // namespace farwater::io
