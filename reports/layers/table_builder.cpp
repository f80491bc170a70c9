#include "reports/layers/table_builder.h"

#include <cmath>
#include <utility>

namespace farwater::reports {
namespace {

ColumnOf column(io::ColumnType type, std::string name, std::string description, RowValue value,
                int decimals) {
    return {{.name = std::move(name),
             .type = type,
             .description = std::move(description),
             .decimals = decimals},
            std::move(value)};
}

}  // namespace

ColumnOf text(std::string name, std::string description, RowValue value) {
    return column(io::ColumnType::text, std::move(name), std::move(description), std::move(value),
                  0);
}
ColumnOf integer(std::string name, std::string description, RowValue value) {
    return column(io::ColumnType::integer, std::move(name), std::move(description),
                  std::move(value), 0);
}
ColumnOf real(std::string name, std::string description, RowValue value, int decimals) {
    return column(io::ColumnType::real, std::move(name), std::move(description), std::move(value),
                  decimals);
}
ColumnOf yes_no(std::string name, std::string description, RowValue value) {
    return column(io::ColumnType::yes_no, std::move(name), std::move(description), std::move(value),
                  0);
}

io::FeatureTable layer(TableHead head, io::ShapeKind kind, std::vector<ColumnOf> columns,
                       std::size_t rows, std::function<Polyline(std::size_t)> shape) {
    io::FeatureTable result{.name = std::move(head.name),
                            .title = std::move(head.title),
                            .description = std::move(head.description),
                            .shape = kind,
                            .columns = {},
                            .rows = rows,
                            .fill = {}};
    std::vector<RowValue> values;
    for (ColumnOf& of : columns) {
        result.columns.push_back(std::move(of.column));
        values.push_back(std::move(of.value));
    }
    result.fill = [values = std::move(values), shape = std::move(shape)](std::size_t row,
                                                                         io::Row& out) {
        for (std::size_t i = 0; i < values.size(); ++i) {
            out.values[i] = values[i](row);
        }
        if (shape) {
            out.shape = shape(row);
        }
    };
    return result;
}

io::FeatureTable layer_of_areas(TableHead head, std::vector<ColumnOf> columns, std::size_t rows,
                                std::function<const MultiPolygon&(std::size_t)> areas) {
    io::FeatureTable result = table(std::move(head), std::move(columns), rows);
    result.shape = io::ShapeKind::areas;
    result.fill = [fill = std::move(result.fill), areas = std::move(areas)](std::size_t row,
                                                                            io::Row& out) {
        fill(row, out);
        out.areas = areas(row);
    };
    return result;
}

io::FeatureTable table(TableHead head, std::vector<ColumnOf> columns, std::size_t rows) {
    return layer(std::move(head), io::ShapeKind::none, std::move(columns), rows, {});
}

io::Value value_of(std::string_view text) { return text.empty() ? io::Value{} : io::Value{text}; }
io::Value value_of(HeldFlow flow) { return in_tenths(flow) / 10.0; }
io::Value value_of(std::optional<supply::TenthsMinute> time) {
    return time ? io::Value{supply::in_tenths(*time) / 10.0} : io::Value{};
}
io::Value value_of(DriveTime time) {
    return reachable(time) ? io::Value{std::round(in_minutes(duration_of(time)) * 100.0) / 100.0}
                           : io::Value{};
}
io::Value value_of(std::optional<float> number) {
    return number ? io::Value{std::round(static_cast<double>(*number) * 100.0) / 100.0}
                  : io::Value{};
}
io::Value value_of(std::optional<double> number) {
    return number ? io::Value{*number} : io::Value{};
}
io::Value value_of_count(std::size_t count) { return static_cast<std::int64_t>(count); }

}  // namespace farwater::reports
