// Opening one data set to see what is in it.
#pragma once

#include <filesystem>
#include <memory>
#include <vector>

#include "io/draft/find_data.h"
#include "io/draft/layer_look.h"

class GDALDataset;
class OGRLayer;

namespace farwater::io {

// Read-only, without formats that lead elsewhere; `kind` is GDAL's. Null where GDAL cannot.
std::shared_ptr<GDALDataset> opened_to_look(const std::filesystem::path& file, unsigned kind);

// Of a GeoPackage's or a spreadsheet's layers, those with data.
std::vector<OGRLayer*> layers_to_look_at(GDALDataset& dataset);

struct DataLook {
    std::vector<LayerLook> layers;  // of a file of shapes or rows
    std::vector<RasterLook> rasters;
    std::vector<PassedOver>
        left_out;  // layers that hold nothing to read, or why the file cannot be
};

// The file `below` the folder. Reads the head of each layer, at most records_sampled of its records
// and, where a format counts only by reading and the file is below 50 MB, all of them for their
// number. Formats that lead elsewhere (web services, virtual layers) are told and not opened.
// Never throws for what is in the file.
DataLook look_at_data(const std::filesystem::path& folder, const std::filesystem::path& below);

}  // namespace farwater::io
