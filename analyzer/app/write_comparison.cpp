#include "analyzer/app/write_comparison.h"

#include <string>
#include <utility>
#include <vector>

#include "analyzer/app/run_record.h"
#include "analyzer/geometry/polygon.h"
#include "io/csv_writer.h"
#include "io/geopackage_writer.h"
#include "io/whole_file.h"
#include "reports/comparison/comparison_page.h"
#include "reports/layer_styles.h"
#include "reports/workbook_sheets.h"

namespace farwater::app {
namespace {

// The later result's shape where the place stands in it.
reports::AreaOfChange areas_of(const io::ResultFile& before, const io::ResultFile& after,
                               const reports::ComparedResults& results) {
    return [&](const planning::AnswerChange& change) {
        MultiPolygon area;
        if (change.after) {
            area = after.parcel_area(results.after.parcels.places[*change.after].row);
        }
        if (area.empty() && change.before) {
            area = before.parcel_area(results.before.parcels.places[*change.before].row);
        }
        return area;
    };
}

reports::PlaceOfChange places_of_targets(const io::ResultFile& before, const io::ResultFile& after,
                                         const reports::ComparedResults& results) {
    return [&](const planning::AnswerChange& change) {
        return change.after
                   ? after.target_place(results.after.targets.places[*change.after].row)
                   : before.target_place(results.before.targets.places[*change.before].row);
    };
}

bool write_layers(const std::filesystem::path& file, const io::ResultFile& before,
                  const io::ResultFile& after, const reports::ComparedResults& results,
                  const std::vector<io::FeatureTable>& tables, const Work& work) {
    io::GeoPackageWriter writer(file, after.crs(), date_of_change(results.after.data_date));
    bool going =
        writer.write(reports::parcel_changes(results, areas_of(before, after, results)), work);
    std::vector<std::string> layers{"parcel_changes"};
    if (!results.comparison.targets.changes.empty()) {
        going = going && writer.write(reports::target_changes(
                                          results, places_of_targets(before, after, results)),
                                      work);
        layers.emplace_back("target_changes");
    }
    for (const io::FeatureTable& table : tables) {
        going = going && writer.write(table, work);
    }
    return going && writer.write(reports::layer_styles(layers), work) && writer.close(work);
}

bool write_csv_tables(const std::filesystem::path& folder, std::vector<io::FeatureTable> tables,
                      const reports::ComparedResults& results, const Work& work) {
    tables.insert(tables.begin(),
                  {reports::parcel_changes(results), reports::target_changes(results)});
    for (const io::FeatureTable& table : tables) {
        if (!io::write_csv(folder / (table.name + ".csv"), table, work)) {
            return false;
        }
    }
    return io::write_csv(folder / "columns.csv", reports::column_meanings(tables), work);
}

reports::ComparisonGround ground_of(const io::ResultFile& after, const reports::AreaOfChange& areas,
                                    const Work& work) {
    reports::ComparisonGround ground;
    ground.roads = after.roads(work);
    for (io::NamedPlace& site : after.fill_sites()) {
        ground.fill_sites.push_back({std::move(site.id), site.place});
    }
    ground.place_of_parcel = [areas](const planning::AnswerChange& change) {
        return inside_point(areas(change));
    };
    return ground;
}

}  // namespace

bool write_comparison(const std::filesystem::path& folder, const io::ResultFile& before,
                      const io::ResultFile& after, const reports::ComparedResults& results,
                      const Work& work) {
    const std::vector<io::FeatureTable> tables{
        reports::state_changes(results), reports::station_changes(results),
        reports::input_changes(results), reports::compared_results(results)};
    if (!write_layers(folder / "comparison.gpkg", before, after, results, tables, work) ||
        !write_csv_tables(folder, tables, results, work)) {
        return false;
    }
    const reports::ComparisonGround ground =
        ground_of(after, areas_of(before, after, results), work);
    if (!work.stopped()) {
        io::write_whole_file(folder / "comparison.html", reports::comparison_page(results, ground));
    }
    return !work.stopped();
}

}  // namespace farwater::app
