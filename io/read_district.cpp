#include "io/read_district.h"

#include <map>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/error.h"
#include "io/inputs/houses.h"
#include "io/inputs/match_zones.h"
#include "io/inputs/read_elevation.h"
#include "io/inputs/read_fleet.h"
#include "io/inputs/read_places.h"
#include "io/inputs/read_roads.h"
#include "io/inputs/read_staffing.h"
#include "io/inputs/read_water.h"
#include "io/inputs/working_crs.h"
#include "io/records/joined_table.h"
#include "io/records/layer_records.h"
#include "io/records/layer_source.h"
#include "io/records/record_shape.h"
#include "io/records/stray_record.h"

namespace farwater::io {
namespace {

std::string described_with_layer(const LayerSpec& spec) {
    return fmt::format("{} ({}{})", spec.section, printable_source(spec.file),
                       spec.layer.empty() ? "" : ", layer " + spec.layer);
}

// One reading of a district: what is read goes into `result_` step by step.
class DistrictReading {
public:
    DistrictReading(const DistrictFile& file, const Work& work) : file_(&file), work_(&work) {
        result_.district.name = file.name;
        result_.district.tanker_word = file.tanker_word;
        result_.district.travel_time = file.travel_time;
        result_.district.suction_friction = file.suction_friction;
        result_.district.data_date = file.data_date;
        result_.district.seasons = file.seasons;
        result_.district.periods = file.periods;
        result_.district.assumptions = file.assumptions;
        result_.district.need = file.need;
        result_.district.rating = file.rating;
        keep_problems(season_problems(file.seasons, file.path.filename().string()));
    }

    // Opens everything before anything is read, so that a name that is wrong is found at once.
    void open_all() {
        for (const JoinSpec& join : file_->joins) {
            joins_.emplace_back(join);
        }
        for (const SectionRow& section : section_rows()) {
            const auto spec = file_->layers.find(section.name);
            if (spec != file_->layers.end()) {
                const bool has_keys = section.name == "parcels";
                const auto also = has_keys ? key_columns(joins_) : std::vector<std::string>{};
                sources_.emplace(section.name, open_source(spec->second, section, also));
            }
        }
        require_rows();
    }

    void choose_crs() {
        const LayerSource& parcels = sources_.at("parcels");
        result_.crs = choose_working_crs(file_->crs, parcels.open.crs, extent_of(parcels),
                                         [&] { return stray_record(parcels, "parcel_id"); });
    }

    void read_land() {
        ParcelSurroundings around;
        for (JoinedTable& table : joins_) {
            table.read(*work_);
        }
        around.joins = std::move(joins_);
        if (const LayerSource* buildings = source("buildings")) {
            around.has_building_layer = true;
            around.buildings = read_buildings(*buildings, result_.crs, file_->need, *work_);
            around.needs_by_building = file_->need.works_on_buildings();
            if (around.needs_by_building && !work_->stopped()) {
                around.buildings.measure_separations(file_->need.standard, *work_);
            }
        }
        if (const LayerSource* addresses = source("address_points")) {
            around.addresses = read_address_points(*addresses, result_.crs, *work_);
        }
        ParcelRows parcels = read_parcels(sources_.at("parcels"), result_.crs, around, *work_);
        if (work_->stopped()) {
            return;
        }
        parcels_ = parcels.extent;
        result_.district.buildings_known = parcels.buildings_known;
        result_.repaired_parcels = std::move(parcels.repaired);
        result_.addresses = std::move(parcels.addresses);
        result_.owners = std::move(parcels.owners);
        result_.district.buildings = std::move(parcels.buildings);
        result_.district.parcels =
            keep(sources_.at("parcels"),
                 LayerRows<Parcel>{std::move(parcels.rows), std::move(parcels.log)});
        keep_surroundings(around);
    }

    void read_the_rest() {
        District& district = result_.district;
        district.roads = rows_of("roads", &read_roads);
        district.targets = rows_of("targets", &read_targets);
        district.sources = rows_of("water_sources", &read_water_sources);
        const std::vector<WaterSource> what_if = rows_of("what_if_sources", &read_what_if_sources);
        district.sources.insert(district.sources.end(), what_if.begin(), what_if.end());
        district.what_if_sources = what_if.size();
        district.mapped_water = rows_of("mapped_water", &read_mapped_water);
        district.proposals = rows_of("proposals", &read_proposals);
        district.stations = rows_of("stations", &read_stations);
        district.dump_site_places = rows_of("dump_site_places", &read_dump_site_places);
        district.turnarounds = rows_of("turnarounds", &read_turnarounds);
        if (const LayerSource* fleet = running_source("apparatus")) {
            district.units = keep(
                *fleet, read_apparatus(*fleet, district.stations, district.assumptions, *work_));
        }
        if (const LayerSource* staffing = running_source("staffing")) {
            district.staffing =
                keep(*staffing,
                     read_staffing(*staffing, {district.stations, district.units, district.periods},
                                   district.assumptions, *work_));
        }
        if (const LayerSource* zones = running_source("response_zones")) {
            district.response_rules =
                keep(*zones, read_response_zones(*zones, district.units, *work_));
            keep_problems(match_zones(sources_.at("parcels"), district.parcels, *zones,
                                      district.response_rules));
        }
    }

    void read_heights() {
        if (!file_->elevation || work_->stopped()) {
            return;
        }
        work_->step("reading elevation", 0, 1);
        ElevationRead read = read_elevation(*file_->elevation, result_.crs, box_of_everything());
        result_.district.elevation = std::move(read.grid);
        keep_input({"elevation", printable_source(file_->elevation->file), {}, 0, {}, {}},
                   read.files);
        tell_elevation_gaps();
        work_->step("reading elevation", 1, 1);
    }

    ReadResult take() { return std::move(result_); }

private:
    // Tables that nobody has filled in yet are told together, before long layers are read.
    void require_rows() const {
        std::vector<std::string> empty;
        for (const SectionRow& section : section_rows()) {
            const LayerSource* layer = source(section.name);
            if (layer != nullptr && section.required &&
                is_known_empty(*layer->open.dataset, *layer->open.layer)) {
                empty.push_back(described_with_layer(layer->spec));
            }
        }
        if (empty.empty()) {
            return;
        }
        const LayerSource* water = source("water_sources");
        throw InputError(fmt::format(
            "{}: the layer holds no record; the analysis cannot do without, so write a row there "
            "for each{}.",
            fmt::join(empty, ", "),
            water != nullptr && is_known_empty(*water->open.dataset, *water->open.layer)
                ? fmt::format("; {} has none either, and without water no flow is held",
                              described_with_layer(water->spec))
                : ""));
    }

    const LayerSource* source(std::string_view section) const {
        const auto found = sources_.find(section);
        return found == sources_.end() ? nullptr : &found->second;
    }

    const LayerSource* running_source(std::string_view section) const {
        return work_->stopped() ? nullptr : source(section);
    }

    template <class Thing>
    std::vector<Thing> rows_of(std::string_view section,
                               LayerRows<Thing> (*read)(const LayerSource&, const WorkingCrs&,
                                                        const Box&, const Work&)) {
        const LayerSource* layer = running_source(section);
        return layer == nullptr ? std::vector<Thing>{}
                                : keep(*layer, read(*layer, result_.crs, parcels_, *work_));
    }

    template <class Thing>
    std::vector<Thing> keep(const LayerSource& layer, LayerRows<Thing> rows) {
        keep_log(layer, rows.log);
        return std::move(rows.rows);
    }

    void keep_problems(const std::vector<Problem>& more) {
        std::vector<Problem>& problems = result_.district.problems;
        problems.insert(problems.end(), more.begin(), more.end());
    }

    void tell_elevation_gaps() {
        District& district = result_.district;
        district.elevation_gaps = elevation_gaps(district);
        const ElevationGaps& gaps = district.elevation_gaps;
        if (gaps.matter()) {
            keep_problems({{.id = ProblemId::elevation_leaves_out,
                            .layer = "elevation",
                            .file = printable_source(file_->elevation->file),
                            .detail = fmt::format("no height on {:.1f} % of the roads' length, at "
                                                  "{} of {} parcels and {} of {} water sources",
                                                  100.0 * gaps.road_share, gaps.parcels,
                                                  district.parcels.size(), gaps.sources,
                                                  district.sources.size())}});
        }
    }

    void keep_log(const LayerSource& layer, const LayerLog& log) {
        keep_problems(log.problems);
        result_.district.records.push_back(log.count);
        const std::size_t rows = log.count.read + log.empty;
        keep_input({layer.spec.section, log.count.file, layer_name(layer), rows, {}, {}},
                   files_of(layer.spec, *layer.open.dataset));
    }

    void keep_input(InputRecord input, const std::vector<std::filesystem::path>& files) {
        input.sha256 = result_.fingerprints.of(files);
        input.note = input.sha256.empty() ? "not a file: its content has no sha256" : "";
        result_.inputs.push_back(std::move(input));
    }

    // Buildings and address points in no parcel, rows of joins that no parcel has: known only now.
    void keep_surroundings(const ParcelSurroundings& around) {
        for (const JoinedTable& table : around.joins) {
            keep_log(table.source(), table.log());
        }
        if (const LayerSource* buildings = source("buildings")) {
            keep_houses(*buildings, around.buildings);
        }
        if (const LayerSource* addresses = source("address_points")) {
            keep_houses(*addresses, around.addresses);
        }
    }

    void keep_houses(const LayerSource& layer, const Houses& houses) {
        if (!houses.empty()) {
            check_on_parcels(layer.spec, houses.extent(), parcels_);
        }
        const LayerLog log = houses.log();
        check_mostly_usable(layer.spec, log);
        keep_log(layer, log);
    }

    Box box_of_everything() const {
        Box box = parcels_;
        for (const Road& road : result_.district.roads) {
            for (const Point p : road.line) {
                box.include(p);
            }
        }
        for (const WaterSource& water : result_.district.sources) {
            box.include(water.place);
        }
        return box;
    }

    const DistrictFile* file_;
    const Work* work_;
    std::map<std::string, LayerSource, std::less<>> sources_;
    std::vector<JoinedTable> joins_;
    Box parcels_;
    ReadResult result_;
};

}  // namespace

ReadResult read_district(const DistrictFile& file, const Work& work) {
    prepare_gdal();
    DistrictReading reading(file, work);
    reading.open_all();
    reading.choose_crs();
    reading.read_land();
    reading.read_the_rest();
    reading.read_heights();
    return reading.take();
}

}  // namespace farwater::io
