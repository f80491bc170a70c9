#include "reports/draft_page.h"
#include "reports/json/json_cells.h"

namespace farwater::reports {
namespace {

json drafted_table(const DraftedTable& table) {
    json columns = json::object();
    for (const auto& [field, column] : table.columns) {
        columns[field] = column;
    }
    json others = json::array();
    for (const auto& [source, why] : table.others) {
        others.push_back({{"source", source}, {"why", why}});
    }
    return {{"section", table.section},
            {"source", table.source},
            {"records", number_or_null(table.records)},
            {"columns", columns},
            {"likely", table.likely},
            {"lacks", table.lacks},
            {"could_be_the_same", others},
            {"competing", table.competing},
            {"not_read", table.overlooked},
            {"only_suggested", table.suggested}};
}

}  // namespace

std::string draft_json(const DraftPage& page) {
    json tables = json::array();
    for (const DraftedTable& table : page.tables) {
        tables.push_back(drafted_table(table));
    }
    json passed = json::array();
    for (const auto& [source, why] : page.passed_over) {
        passed.push_back({{"source", source}, {"why", why}});
    }
    return dumped({{"schema_version", json_schema_version},
                   {"folder", page.folder},
                   {"data_sets", page.files},
                   {"recognised", tables},
                   {"passed_over", passed},
                   {"other_files", page.other_files},
                   {"missing", page.missing},
                   {"written", page.written},
                   {"next", page.next}});
}

}  // namespace farwater::reports
