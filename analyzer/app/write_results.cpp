#include "analyzer/app/write_results.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "analyzer/app/run_record.h"
#include "analyzer/app/version.h"
#include "analyzer/app/write_workbook.h"
#include "io/csv_writer.h"
#include "io/error.h"
#include "io/geopackage_writer.h"
#include "io/place_files.h"
#include "io/whole_file.h"
#include "reports/cab_places.h"
#include "reports/gains/gain_pages.h"
#include "reports/layer_styles.h"
#include "reports/map_page.h"
#include "reports/origin.h"
#include "reports/overview.h"
#include "reports/proposals.h"
#include "reports/rating/rating_documents.h"
#include "reports/rating/rating_tables.h"
#include "reports/workbook_sheets.h"
#include "reports/zones.h"

namespace farwater::app {
namespace {

constexpr std::size_t most_parcels_with_inputs = 200000;
constexpr std::size_t most_parcels_in_overview = 50000;

constexpr std::array<reports::MakesTable, 13> tables_of_supply{
    reports::flow_zones,    reports::shortfall_zones, reports::target_supply,  reports::fill_sites,
    reports::dump_sites,    reports::shuttle_routes,  reports::response_times, reports::fleet,
    reports::assumptions,   reports::need_standard,   reports::data_problems,  reports::worklist,
    reports::input_records,
};

constexpr std::array<reports::MakesTable, 15> csv_tables{
    reports::by_station,      reports::by_tanker,  reports::by_state,      reports::shortfalls,
    reports::shortfall_zones, reports::flow_zones, reports::fill_sites,    reports::dump_sites,
    reports::shuttle_routes,  reports::fleet,      reports::assumptions,   reports::need_standard,
    reports::data_problems,   reports::worklist,   reports::input_records,
};

// What looks at the parcels' shapes while they are written, and what comes of it.
struct SeenShapes {
    reports::PackedShapes* areas = nullptr;       // null: the page draws points
    reports::ParcelOutlines* outlines = nullptr;  // null: no zones
    reports::Zones& zones;
};

io::PassThroughTable parcels_seen_by(const SeenShapes& seen, const reports::Findings& findings) {
    io::PassThroughTable parcels = reports::parcel_supply(findings);
    if (seen.areas != nullptr || seen.outlines != nullptr) {
        parcels.sees = [seen](std::size_t, std::span<const Polyline> rings) {
            if (seen.areas != nullptr) {
                seen.areas->add_areas(rings);
            }
            if (seen.outlines != nullptr) {
                seen.outlines->add(rings);
            }
        };
    }
    return parcels;
}

// None where the district file does not ask for proposals.
std::vector<io::FeatureTable> next_source_tables(const reports::Findings& findings) {
    return findings.next_source == nullptr ? std::vector<io::FeatureTable>{}
                                           : reports::proposal_tables(*findings.next_source);
}

bool write_supply(const std::filesystem::path& path, const io::DistrictFile& file,
                  const io::ReadResult& read, const reports::Findings& findings,
                  const SeenShapes& seen, const Work& work) {
    io::GeoPackageWriter writer(path, read.crs, date_of_change(read.district), read.fingerprints);
    bool going = writer.write(parcels_seen_by(seen, findings),
                              input_of(file.layers.at("parcels"), read), work);
    if (going && seen.outlines != nullptr) {
        seen.zones = reports::find_zones(findings, *seen.outlines, work);
    }
    going = going && writer.write(reports::road_times(findings),
                                  input_of(file.layers.at("roads"), read), work);
    std::vector<std::string> written{"parcel_supply", "road_times"};
    for (const reports::MakesTable make : tables_of_supply) {
        const io::FeatureTable table = make(findings);
        if (table.rows > 0 || table.shape == io::ShapeKind::none) {
            going = going && writer.write(table, work);
            written.push_back(table.name);
        }
    }
    for (const io::FeatureTable& table : next_source_tables(findings)) {
        going = going && writer.write(table, work);
        written.push_back(table.name);
    }
    going = going && writer.write(reports::layer_styles(written), work) &&
            writer.write(reports::run_record_table(run_record(file, read, findings)), work);
    return going && writer.close(work);
}

// One input as it was used, repaired shapes in place of broken ones.
bool write_input(io::GeoPackageWriter& writer, const std::string& name,
                 const io::PassThroughInput& input, const Work& work) {
    io::FeatureTable results{.name = name,
                             .title = "Input: " + name,
                             .description = "As read from " + io::printable_source(input.spec.file),
                             .shape = io::ShapeKind::polygon,
                             .columns = {},
                             .rows = 0,
                             .fill = [](std::size_t, io::Row&) {}};
    const io::PassThroughTable table{std::move(results), input.spec.section,
                                     [](std::size_t) { return true; }};
    return writer.write(table, input, work);
}

// Every layer that was read and every joined table: join, join_2, ... Runs that were timed are
// none: the answers do not rest on them.
bool write_inputs(const std::filesystem::path& path, const io::DistrictFile& file,
                  const io::ReadResult& read, const reports::Findings& findings, const Work& work) {
    io::GeoPackageWriter writer(path, read.crs, date_of_change(read.district), read.fingerprints);
    bool going = true;
    for (const auto& [section, spec] : file.layers) {
        if (std::ranges::find(read.inputs, section, &io::InputRecord::section) !=
            read.inputs.end()) {
            going = going && write_input(writer, section, input_of(spec, read), work);
        }
    }
    for (std::size_t i = 0; i < file.joins.size(); ++i) {
        const std::string name = i == 0 ? "join" : fmt::format("join_{}", i + 1);
        going = going && write_input(writer, name, input_of(file.joins[i].table, read, i), work);
    }
    return going &&
           writer.write(reports::run_record_table(run_record(file, read, findings)), work) &&
           writer.close(work);
}

bool write_tables(const std::filesystem::path& folder, const io::ReadResult& read,
                  const reports::Findings& findings, const Work& work) {
    io::make_folder(folder);
    const auto write_one = [&](const io::FeatureTable& table) {
        return io::write_csv(folder / (table.name + ".csv"), table, work);
    };
    const auto write = [&](reports::MakesTable make) { return write_one(make(findings)); };
    const auto address = [&](std::size_t parcel) { return read.addresses[parcel]; };
    return std::ranges::all_of(csv_tables, write) &&
           std::ranges::all_of(next_source_tables(findings), write_one) &&
           (findings.rating == nullptr || (std::ranges::all_of(reports::rating_csv_tables, write) &&
                                           write_one(reports::rating_parcels(findings, address))));
}

// Every layer and table of the result, for what their columns mean; each once.
std::vector<io::FeatureTable> dictionary_of(const reports::Findings& findings) {
    std::vector<io::FeatureTable> all{reports::parcel_supply(findings).results,
                                      reports::road_times(findings).results};
    const auto add = [&](reports::MakesTable make) {
        io::FeatureTable table = make(findings);
        if (std::ranges::find(all, table.name, &io::FeatureTable::name) == all.end()) {
            all.push_back(std::move(table));
        }
    };
    std::ranges::for_each(tables_of_supply, add);
    std::ranges::for_each(csv_tables, add);
    std::ranges::move(next_source_tables(findings), std::back_inserter(all));
    if (findings.rating != nullptr) {
        std::ranges::for_each(reports::rating_csv_tables, add);
        add([](const reports::Findings& all_found) {
            return reports::rating_parcels(all_found, [](std::size_t) { return ""; });
        });
    }
    return all;
}

bool write_all_in_workbook(const std::filesystem::path& folder, const reports::Findings& findings,
                           const reports::RunRecord& record, const Work& work) {
    const std::vector<io::FeatureTable> dictionary = dictionary_of(findings);
    return write_workbook_and_columns(folder, findings.district,
                                      reports::workbook_sheets(findings, record, dictionary),
                                      dictionary, work);
}

void write_places(const std::filesystem::path& folder, const io::ReadResult& read,
                  const reports::Findings& findings, const reports::RunRecord& record) {
    io::make_folder(folder);
    const io::FeatureTable places = reports::cab_places(findings);
    const io::PlacesHead head{
        .district = findings.district.name.empty() ? "District" : findings.district.name,
        .creator = fmt::format("farwater {}", program_version),
        .data_time = date_of_change(findings.district),
        .origin = reports::origin_words(findings.district, record)};
    io::write_gpx(folder / "water_and_dump_sites.gpx", read.crs, head, places);
    io::write_kml(folder / "water_and_dump_sites.kml", read.crs, head, places);
}

void write_report(const std::filesystem::path& path, const reports::MapPage& page) {
    io::WholeFile whole(path);
    reports::write_map_page(page, [&](std::string_view bytes) { whole.write(bytes); });
    whole.finish();
}

void write_rating(const std::filesystem::path& folder, const reports::Findings& findings,
                  const reports::RunRecord& record) {
    io::make_folder(folder);
    const auto sheets = reports::rating_sheets(findings, record);
    for (const reports::RatingDocument& document :
         reports::rating_documents(findings, record, sheets)) {
        io::write_whole_file(folder / document.file, document.html);
    }
    const std::filesystem::path pdf = folder / reports::rating_pdf_file;
    io::WholeFile whole(pdf);
    if (!reports::write_rating_pdf(findings, record, sheets,
                                   [&](std::string_view bytes) { whole.write(bytes); })) {
        throw io::OutputError(pdf.string() + ": the document cannot be made");
    }
    whole.finish();
}

// What is printed of a run, where the district file asks for it.
void write_printed(const std::filesystem::path& folder, const reports::Findings& findings,
                   const reports::RunRecord& record, const StageBegins& begins) {
    if (findings.next_source != nullptr) {
        begins("writing proposals.html");
        io::write_whole_file(folder / "proposals.html",
                             reports::proposal_pages(*findings.next_source, record));
    }
    if (findings.rating != nullptr) {
        begins("writing rating");
        write_rating(folder / "rating", findings, record);
    }
}

}  // namespace

io::PassThroughInput input_of(const io::LayerSpec& spec, const io::ReadResult& read,
                              std::size_t nth) {
    io::PassThroughInput input;
    input.spec = spec;
    std::size_t seen = 0;
    for (const io::InputRecord& record : read.inputs) {
        if (record.section == spec.section && seen++ == nth) {
            input.features = record.features;
            input.sha256 = record.sha256;
        }
    }
    if (spec.section == "parcels") {
        input.repaired = read.repaired_parcels;
    }
    return input;
}

std::optional<reports::Zones> write_results(const std::filesystem::path& folder,
                                            const io::DistrictFile& file,
                                            const io::ReadResult& read,
                                            const reports::Findings& all, const Work& work,
                                            const StageBegins& begins) {
    reports::Zones zones{.left_out = all.parcels() > reports::most_parcels_in_zones};
    reports::Findings findings = all;
    findings.zones = &zones;
    const auto grid = reports::PageGrid::at(reports::extent_of(read.district));
    reports::PackedShapes areas(grid);
    reports::PackedShapes* const drawn =
        findings.parcels() <= reports::most_parcels_as_areas ? &areas : nullptr;
    const reports::RunRecord record = run_record(file, read, findings);
    begins("writing supply.gpkg");
    std::optional<reports::ParcelOutlines> outlines(std::in_place);
    bool going = write_supply(folder / "supply.gpkg", file, read, findings,
                              {drawn, zones.left_out ? nullptr : &*outlines, zones}, work);
    outlines.reset();
    if (going && findings.parcels() <= most_parcels_with_inputs) {
        begins("writing inputs.gpkg");
        going = write_inputs(folder / "inputs.gpkg", file, read, findings, work);
    }
    begins("writing tables");
    going = going && write_tables(folder / "tables", read, findings, work) &&
            write_all_in_workbook(folder / "tables", findings, record, work);
    if (going) {
        write_places(folder / "places", read, findings, record);
    }
    if (going && findings.parcels() <= most_parcels_in_overview) {
        io::make_folder(folder / "maps");
        io::write_whole_file(folder / "maps" / "overview.svg",
                             reports::overview_svg(findings, record));
    }
    if (going && !work.stopped()) {
        begins("writing report.html");
        const auto address = [&](std::size_t parcel) { return read.addresses[parcel]; };
        write_report(folder / "report.html", {findings, record, grid, drawn, address});
    }
    if (going && !work.stopped()) {
        write_printed(folder, findings, record, begins);
    }
    return going && !work.stopped() ? std::optional(std::move(zones)) : std::nullopt;
}

}  // namespace farwater::app
