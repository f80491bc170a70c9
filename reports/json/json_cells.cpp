#include "reports/json/json_cells.h"

#include <cmath>

namespace farwater::reports {
namespace {

json cell_of(const io::Value& value) {
    return std::visit(
        [](const auto& cell) -> json {
            using Cell = std::decay_t<decltype(cell)>;
            if constexpr (std::is_same_v<Cell, std::monostate>) {
                return nullptr;
            } else if constexpr (std::is_same_v<Cell, std::string_view>) {
                return std::string(cell);
            } else {
                return cell;
            }
        },
        value);
}

json printed_cell(const io::Column& column, const io::Value& value) {
    const auto* number = std::get_if<double>(&value);
    if (number == nullptr) {
        return cell_of(value);
    }
    const double scale = std::pow(10.0, column.decimals);
    return std::round(*number * scale) / scale;
}

template <class Cell>
json row_of(const io::FeatureTable& table, std::size_t index, Cell cell) {
    io::Row row;
    row.values.assign(table.columns.size(), io::Value{});
    table.fill(index, row);
    json object = json::object();
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        object[table.columns[i].name] = cell(table.columns[i], row.values[i]);
    }
    return object;
}

}  // namespace

std::string dumped(const json& document) {
    return document.dump(2, ' ', false, json::error_handler_t::replace) + "\n";
}

json records_of(const District& district) {
    json list = json::array();
    for (const RecordCount& record : district.records) {
        list.push_back({{"layer", record.layer},
                        {"file", record.file},
                        {"read", record.read},
                        {"used", record.used},
                        {"repaired", record.repaired},
                        {"set_aside", record.set_aside}});
    }
    return list;
}

json problem_counts(std::span<const Problem> problems) {
    json counts = json::object();
    for (const Problem& problem : problems) {
        json& count = counts[std::string(name_of(problem.id))];
        count = count.is_null() ? 1 : count.get<int>() + 1;
    }
    return counts;
}

json stored_row(const io::FeatureTable& table, std::size_t row) {
    return row_of(table, row,
                  [](const io::Column&, const io::Value& value) { return cell_of(value); });
}

json printed_row(const io::FeatureTable& table, std::size_t row) {
    return row_of(table, row, printed_cell);
}

json printed_rows(const io::FeatureTable& table) {
    json list = json::array();
    for (std::size_t row = 0; row < table.rows; ++row) {
        list.push_back(printed_row(table, row));
    }
    return list;
}

}  // namespace farwater::reports
