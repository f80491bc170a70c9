#include "analyzer/app/write_public_results.h"

#include <string>
#include <vector>

#include "analyzer/app/run_record.h"
#include "analyzer/app/write_results.h"
#include "analyzer/app/write_workbook.h"
#include "io/csv_writer.h"
#include "io/geopackage_writer.h"
#include "io/second_pass.h"
#include "io/whole_file.h"
#include "reports/layer_styles.h"
#include "reports/public/public_page.h"
#include "reports/public/public_tables.h"
#include "reports/zones.h"

namespace farwater::app {
namespace {

// None when stopped.
std::optional<reports::PublicZones> public_zones_of(const io::DistrictFile& file,
                                                    const io::ReadResult& read,
                                                    const reports::Findings& findings,
                                                    const Work& work) {
    reports::PublicZones found;
    if (findings.parcels() > reports::most_parcels_in_zones) {
        found.zones.left_out = true;
        return found;
    }
    reports::ParcelOutlines outlines;
    io::PassThroughTable parcels = reports::parcel_supply(findings);
    parcels.sees = [&outlines](std::size_t, std::span<const Polyline> rings) {
        outlines.add(rings);
    };
    if (!io::see_second_pass(read.crs, read.fingerprints, parcels,
                             input_of(file.layers.at("parcels"), read), work)) {
        return std::nullopt;
    }
    return reports::find_public_zones(findings, outlines, work);
}

bool write_public_supply(const std::filesystem::path& path, const io::ReadResult& read,
                         const reports::Findings& findings, const reports::RunRecord& record,
                         const Work& work) {
    io::GeoPackageWriter writer(path, read.crs, date_of_change(read.district));
    std::vector<std::string> written;
    bool going = true;
    for (const io::FeatureTable& table : reports::public_layers(findings)) {
        if (table.rows > 0) {
            going = going && writer.write(table, work);
            written.push_back(table.name);
        }
    }
    return going && writer.write(reports::layer_styles(written), work) &&
           writer.write(reports::run_record_table(record), work) && writer.close(work);
}

bool write_public_tables(const std::filesystem::path& folder, const reports::Findings& findings,
                         const reports::RunRecord& record, const Work& work) {
    io::make_folder(folder);
    const std::vector<io::FeatureTable> tables = reports::public_tables(findings);
    for (const io::FeatureTable& table : tables) {
        if (!io::write_csv(folder / (table.name + ".csv"), table, work)) {
            return false;
        }
    }
    return write_workbook_and_columns(
        folder, findings.district, reports::public_sheets(findings, record, tables), tables, work);
}

}  // namespace

bool write_public_results(const std::filesystem::path& folder, const io::DistrictFile& file,
                          const io::ReadResult& read, const reports::Findings& all,
                          const Work& work, const StageBegins& begins) {
    begins("ground by flow");
    const auto zones = public_zones_of(file, read, all, work);
    if (!zones) {
        return false;
    }
    reports::Findings findings = all;
    findings.zones = &zones->zones;
    const reports::RunRecord record = reports::public_record(run_record(file, read, findings));
    begins("writing for the public");
    const bool going = write_public_supply(folder / "supply.gpkg", read, findings, record, work) &&
                       write_public_tables(folder / "tables", findings, record, work);
    if (!going || work.stopped()) {
        return false;
    }
    io::write_whole_file(folder / "report.html",
                         reports::public_page(findings, record, zones->left_out));
    return !work.stopped();
}

}  // namespace farwater::app
