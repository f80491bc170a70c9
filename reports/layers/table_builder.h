// A result table as a list of columns, each with its description and the value of a row side by
// side, so that a column cannot be described and not filled, or filled and not described.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/supply/assessment.h"
#include "io/feature_table.h"

namespace farwater::reports {

using RowValue = std::function<io::Value(std::size_t row)>;

struct ColumnOf {
    io::Column column;
    RowValue value;
};

ColumnOf text(std::string name, std::string description, RowValue value);
ColumnOf integer(std::string name, std::string description, RowValue value);
ColumnOf real(std::string name, std::string description, RowValue value, int decimals = 1);
ColumnOf yes_no(std::string name, std::string description, RowValue value);

struct TableHead {
    std::string name;
    std::string title;
    std::string description;
};

io::FeatureTable table(TableHead head, std::vector<ColumnOf> columns, std::size_t rows);
io::FeatureTable layer(TableHead head, io::ShapeKind kind, std::vector<ColumnOf> columns,
                       std::size_t rows, std::function<Polyline(std::size_t row)> shape);
io::FeatureTable layer_of_areas(TableHead head, std::vector<ColumnOf> columns, std::size_t rows,
                                std::function<const MultiPolygon&(std::size_t row)> areas);

// Values as tables hold them; an empty optional is NULL, empty text too.
io::Value value_of(std::string_view text);
io::Value value_of(HeldFlow flow);                             // gpm
io::Value value_of(std::optional<supply::TenthsMinute> time);  // minutes
io::Value value_of(DriveTime time);  // minutes, NULL where there is no way
io::Value value_of(std::optional<float> number);
io::Value value_of(std::optional<double> number);
io::Value value_of_count(std::size_t count);

}  // namespace farwater::reports
