#include "analyzer/app/write_gains.h"

#include <fmt/format.h>

#include "analyzer/app/run_record.h"
#include "io/csv_writer.h"
#include "io/geopackage_writer.h"
#include "io/whole_file.h"

namespace farwater::app {
namespace {

std::filesystem::path file_of(const std::filesystem::path& folder, std::string_view name,
                              std::string_view ending) {
    return folder / fmt::format("{}{}", name, ending);
}

}  // namespace

bool write_gains(const std::filesystem::path& folder, const GainFiles& files,
                 const io::DistrictFile& file, const io::ReadResult& read, const District& district,
                 const Work& work) {
    io::GeoPackageWriter writer(file_of(folder, files.name, ".gpkg"), read.crs,
                                date_of_change(district), read.fingerprints);
    bool going = true;
    for (const io::FeatureTable& table : files.tables) {
        going = going && writer.write(table, work) &&
                io::write_csv(file_of(folder, table.name, ".csv"), table, work);
    }
    const reports::RunRecord record = input_record(file, read);
    going = going && writer.write(reports::run_record_table(record), work) && writer.close(work);
    if (going) {
        io::write_whole_file(file_of(folder, files.name, ".html"), files.pages(record));
    }
    return going;
}

std::string where_gains_are(const std::filesystem::path& folder, std::string_view name) {
    return fmt::format("\nResults: {}\nA page to print for each: {}\n",
                       file_of(folder, name, ".gpkg").string(),
                       file_of(folder, name, ".html").string());
}

}  // namespace farwater::app
