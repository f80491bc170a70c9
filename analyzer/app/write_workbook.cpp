#include "analyzer/app/write_workbook.h"

#include <utility>

#include "io/csv_writer.h"
#include "io/workbook_writer.h"
#include "reports/cautions.h"

namespace farwater::app {
namespace {

std::chrono::sys_days day_of(const District& district) {
    constexpr Date unknown{std::chrono::year(2000), std::chrono::January, std::chrono::day(1)};
    return district.data_date.value_or(unknown);
}

}  // namespace

bool write_workbook_and_columns(const std::filesystem::path& folder, const District& district,
                                std::vector<reports::SheetOfWorkbook> sheets,
                                std::span<const io::FeatureTable> dictionary, const Work& work) {
    std::vector<io::WorkbookSheet> written;
    for (reports::SheetOfWorkbook& sheet : sheets) {
        written.push_back({std::move(sheet.name), std::move(sheet.table)});
    }
    const io::WorkbookHead head{
        .title = (district.name.empty() ? "District" : district.name) + ": water by tanker shuttle",
        .footing = std::string(reports::cautions.front()),
        .created = day_of(district)};
    return io::write_csv(folder / "columns.csv", reports::column_meanings(dictionary), work) &&
           io::write_workbook(folder / "coverage.xlsx", head, written, work);
}

}  // namespace farwater::app
