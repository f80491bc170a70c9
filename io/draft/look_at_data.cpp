#include "io/draft/look_at_data.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <string_view>

#include <cpl_string.h>
#include <fmt/format.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "analyzer/district/units.h"
#include "io/draft/look_at_layer.h"
#include "io/files/only_to_read.h"
#include "io/files/why_unreadable.h"
#include "io/inputs/read_elevation.h"
#include "io/records/dataset.h"
#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

namespace fs = std::filesystem;
using namespace std::string_view_literals;

// Formats whose files lead to other files or to the network: nobody wants a folder's look to call
// anywhere. And documents, which hold pictures of data.
constexpr std::array leading_elsewhere{
    "OGR_VRT"sv,       "WFS"sv,        "OAPIF"sv,      "CSW"sv,      "WMS"sv,      "WCS"sv,
    "WMTS"sv,          "HTTP"sv,       "GMLAS"sv,      "PDF"sv,      "PLMOSAIC"sv, "PLSCENES"sv,
    "OGCAPI"sv,        "STACIT"sv,     "STACTA"sv,     "EEDA"sv,     "EEDAI"sv,    "NGW"sv,
    "Elasticsearch"sv, "Carto"sv,      "AmigoCloud"sv, "GPSBabel"sv, "Memory"sv,   "MEM"sv,
    "PostGISRaster"sv, "RASTERLITE"sv, "DAAS"sv};

constexpr std::uintmax_t counted_up_to_bytes = std::uintmax_t{50} << 20U;

// All formats but those, as GDAL wants to be told.
const CPLStringList& formats_opened() {
    static const CPLStringList list = [] {
        CPLStringList formats;
        GDALDriverManager& drivers = *GetGDALDriverManager();
        for (int i = 0; i < drivers.GetDriverCount(); ++i) {
            const char* name = drivers.GetDriver(i)->GetDescription();
            if (std::ranges::find(leading_elsewhere, std::string_view(name)) ==
                leading_elsewhere.end()) {
                formats.AddString(name);
            }
        }
        return formats;
    }();
    return list;
}

// One opened file.
class DataSetLook {
public:
    DataSetLook(const fs::path& folder, const fs::path& below)
        : path_(folder / below), below_(below) {}

    DataLook look() {
        const GdalMessages messages;
        if (const auto vectors = opened_to_look(path_, GDAL_OF_VECTOR)) {
            look_at_layers(*vectors);
        } else if (const auto raster = opened_to_look(path_, GDAL_OF_RASTER)) {
            look_at_raster(*raster);
        } else {
            const std::string why = why_not_opened(path_, messages);
            const bool said = messages.failed();
            look_.left_out.push_back(
                {printed({}), !why.empty() ? why
                              : said       ? "cannot be read" + messages.said()
                                           : "cannot be read as any kind of data, or only "
                                             "leads elsewhere"});
        }
        return std::move(look_);
    }

private:
    std::string printed(const std::string& layer) const {
        const std::string file = as_printed(below_.generic_string());
        return layer.empty() ? file : fmt::format("{}, layer {}", file, as_printed(layer));
    }

    LookRules rules_for(std::string_view driver) const {
        std::error_code error;
        const std::uintmax_t bytes = fs::file_size(path_, error);
        // OpenStreetMap files are read from one end to the other, whatever is asked.
        const bool osm = driver == "OSM";
        return {.samples = !osm, .counts = !osm && !error && bytes <= counted_up_to_bytes};
    }

    void look_at_layers(GDALDataset& dataset) {
        const std::vector<OGRLayer*> layers = layers_to_look_at(dataset);
        const std::string_view driver = dataset.GetDriverName();
        if (layers.empty()) {
            look_.left_out.push_back({printed({}), "holds no layer"});
        }
        for (OGRLayer* layer : layers) {
            const std::string name = layer->GetName();
            take_only_row_for_names(dataset, *layer);
            LayerLook look = look_at_layer(*layer, rules_for(driver));
            look.file = as_written(below_);
            look.layer = layers.size() > 1 ? name : std::string();
            look.printed = printed(look.layer);
            look.called = layers.size() > 1 ? name : below_.stem().string() + " " + name;
            look.is_osm = driver == "OSM";
            look.lacks = missing_beside(path_);
            look_.layers.push_back(std::move(look));
        }
    }

    void look_at_raster(GDALDataset& raster) {
        std::array<double, 6> place{};
        if (raster.GetRasterCount() == 0 || raster.GetGeoTransform(place.data()) != CE_None) {
            look_.left_out.push_back({printed({}), "a picture without a place on the ground"});
            return;
        }
        GDALRasterBand& band = *raster.GetRasterBand(1);
        RasterLook look;
        look.file = as_written(below_);
        look.printed = printed({});
        look.called = below_.stem().string();
        look.bands = raster.GetRasterCount();
        look.is_picture = band.GetRasterDataType() == GDT_Byte || band.GetColorTable() != nullptr;
        look.has_unit = metres_of_height_unit(band.GetUnitType()).has_value();
        const Crs crs = crs_from_layer(raster.GetSpatialRef());
        look.has_crs = crs != nullptr;
        const double east = place[0] + place[1] * raster.GetRasterXSize();
        const double south = place[3] + place[5] * raster.GetRasterYSize();
        look.degrees = in_degrees({std::min(place[0], east), std::min(place[3], south),
                                   std::max(place[0], east), std::max(place[3], south)},
                                  crs);
        constexpr double metres_of_degree = 111'320.0;
        const bool angles = crs && crs->IsGeographic() != 0;
        look.cell_m = std::abs(place[5]) * (angles ? metres_of_degree
                                            : crs  ? crs->GetLinearUnits()
                                                   : 1.0);
        look_.rasters.push_back(std::move(look));
    }

    fs::path path_, below_;
    DataLook look_;
};

}  // namespace

std::shared_ptr<GDALDataset> opened_to_look(const fs::path& file, unsigned kind) {
    CPLStringList options;
    if (kind == GDAL_OF_VECTOR && is_only_to_read(file)) {
        options.AddString(open_unchanging);
    }
    return {GDALDataset::Open(file.c_str(), kind | GDAL_OF_READONLY, formats_opened().List(),
                              options.List(), nullptr),
            GDALDatasetUniquePtrDeleter()};
}

std::vector<OGRLayer*> layers_to_look_at(GDALDataset& dataset) {
    std::vector<OGRLayer*> layers;
    for (OGRLayer* layer : dataset.GetLayers()) {
        if (std::string_view(layer->GetName()) != "layer_styles") {
            layers.push_back(layer);
        }
    }
    return layers;
}

DataLook look_at_data(const std::filesystem::path& folder, const std::filesystem::path& below) {
    prepare_gdal();
    return DataSetLook(folder, below).look();
}

}  // namespace farwater::io
