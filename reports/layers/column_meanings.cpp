#include <array>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "reports/layers/table_builder.h"
#include "reports/workbook_sheets.h"

namespace farwater::reports {
namespace {

struct Meaning {
    std::string table, column, type, unit, what;
};

std::string unit_in_words(const io::Column& column) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 14> units{{
        {"gpm", "gallons per minute"},
        {"gal", "gallons"},
        {"min", "minutes"},
        {"ft", "feet"},
        {"mi", "miles"},
        {"in", "inches"},
        {"pct", "per cent"},
        {"psi", "pounds per square inch"},
        {"acres", "acres"},
        {"mph", "miles per hour"},
        {"lb", "pounds"},
        {"hp", "horsepower"},
        {"usd", "dollars"},
        {"m2", "square metres"},
    }};
    if (column.type == io::ColumnType::text || column.type == io::ColumnType::yes_no) {
        return "";
    }
    // No name but a whole one begins with its unit: min_crew is a least crew.
    const std::string name = column.name + "_";
    for (const auto& [ending, words] : units) {
        if (column.name == ending ||
            name.find("_" + std::string(ending) + "_") != std::string::npos) {
            return std::string(words);
        }
    }
    return "";
}

std::string_view type_in_words(io::ColumnType type) {
    switch (type) {
        case io::ColumnType::integer:
            return "whole number";
        case io::ColumnType::real:
            return "number";
        case io::ColumnType::yes_no:
            return "yes or no";
        case io::ColumnType::text:
            break;
    }
    return "text";
}

}  // namespace

io::FeatureTable column_meanings(std::span<const io::FeatureTable> tables) {
    std::vector<Meaning> all;
    for (const io::FeatureTable& table : tables) {
        for (const io::Column& column : table.columns) {
            all.push_back({table.name, column.name, std::string(type_in_words(column.type)),
                           unit_in_words(column), column.description});
        }
    }
    const auto rows = std::make_shared<const std::vector<Meaning>>(std::move(all));
    const auto cell = [rows](std::string Meaning::* member) {
        return [rows, member](std::size_t row) { return value_of((*rows)[row].*member); };
    };
    return table({"columns", "What the columns mean",
                  "Of the layers of supply.gpkg and of the tables; columns of your own data that "
                  "went through are not among them."},
                 {
                     text("table", "Layer or table.", cell(&Meaning::table)),
                     text("column", "Its column.", cell(&Meaning::column)),
                     text("type", "What it holds.", cell(&Meaning::type)),
                     text("unit", "Unit of its numbers.", cell(&Meaning::unit)),
                     text("meaning", "What it means.", cell(&Meaning::what)),
                 },
                 rows->size());
}

}  // namespace farwater::reports
