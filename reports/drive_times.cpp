#include "reports/drive_times.h"

#include <algorithm>

#include <fmt/format.h>

#include "reports/layers/table_builder.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

bool miles_known(const DriveTable& table, const DrivePair& pair) {
    return table.from.outside[pair.from] == 0 && table.to.outside[pair.to] == 0;
}

io::Value miles_of(const OneWayDrive& drive, bool known) {
    return value_of(known && reachable(drive.time)
                        ? std::optional(static_cast<float>(in_miles(drive.length)))
                        : std::nullopt);
}

std::string printed(const io::Value& value, int decimals) {
    if (const auto* number = std::get_if<double>(&value)) {
        return fmt::format("{:.{}f}", *number, decimals);
    }
    const auto* words = std::get_if<std::string_view>(&value);
    return words == nullptr ? std::string() : std::string(*words);
}

using TextCells = std::vector<std::string>;

// Text to the left, numbers to the right.
std::string aligned(const std::vector<TextCells>& rows, const std::vector<io::Column>& columns) {
    std::vector<std::size_t> width(columns.size(), 0);
    for (const TextCells& row : rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            width[i] = std::max(width[i], letters(row[i]));
        }
    }
    std::string lines;
    for (const TextCells& row : rows) {
        std::string line;
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::string gap(width[i] - letters(row[i]), ' ');
            const bool words = columns[i].type == io::ColumnType::text;
            line += (i == 0 ? "" : "  ") + (words ? row[i] + gap : gap + row[i]);
        }
        line.erase(line.find_last_not_of(' ') + 1);
        lines += line + "\n";
    }
    return lines;
}

std::string heading(const DriveTable& drives) {
    return fmt::format(
        "Drives from {} to {}, {}, season {}\nVehicles: {}\n{}\nLoaded from -> to, empty to -> "
        "from; each at most {:g} min. Driving only: turnout, fill and offload come on top.\n\n",
        drives.from.layer, drives.to.layer, drives.district, drives.season, drives.vehicles,
        drives.time_model, drives.limit_min);
}

}  // namespace

io::FeatureTable drive_times(const DriveTable& drives) {
    const auto pair = [&drives](std::size_t row) -> const DrivePair& { return drives.drives[row]; };
    std::vector<ColumnOf> columns{
        text("from_id", "Where the loaded drive begins.",
             [&drives, pair](std::size_t row) {
                 return io::Value{std::string_view(drives.from.ids[pair(row).from])};
             }),
        text("to_id", "Where it ends.",
             [&drives, pair](std::size_t row) {
                 return io::Value{std::string_view(drives.to.ids[pair(row).to])};
             }),
        real(
            "loaded_min", "Drive from -> to, loaded, minutes.",
            [pair](std::size_t row) { return value_of(pair(row).loaded.time); }, 2),
        real(
            "loaded_mi", "Road miles of it.",
            [&drives, pair](std::size_t row) {
                return miles_of(pair(row).loaded, miles_known(drives, pair(row)));
            },
            2),
        real(
            "empty_min", "Drive to -> from, empty, minutes.",
            [pair](std::size_t row) { return value_of(pair(row).empty.time); }, 2),
        real(
            "empty_mi", "Road miles of it.",
            [&drives, pair](std::size_t row) {
                return miles_of(pair(row).empty, miles_known(drives, pair(row)));
            },
            2),
    };
    return table({"drive_times", "Drives from " + drives.from.layer + " to " + drives.to.layer,
                  "Driving only; empty cells: no way within the limit."},
                 std::move(columns), drives.drives.size());
}

std::string drive_times_text(const DriveTable& drives, std::size_t most) {
    const io::FeatureTable table = drive_times(drives);
    std::vector<TextCells> rows(1);
    for (const io::Column& column : table.columns) {
        rows.front().push_back(column.name);
    }
    const std::size_t shown = std::min(most, table.rows);
    io::Row row;
    for (std::size_t i = 0; i < shown; ++i) {
        row.values.assign(table.columns.size(), io::Value{});
        table.fill(i, row);
        rows.emplace_back();
        for (std::size_t c = 0; c < table.columns.size(); ++c) {
            rows.back().push_back(printed(row.values[c], table.columns[c].decimals));
        }
    }
    std::string text = heading(drives);
    text += shown == 0 ? "" : aligned(rows, table.columns);
    if (0 < shown && shown < table.rows) {
        text +=
            fmt::format("... {} more rows; --csv FILE writes all of them.\n", table.rows - shown);
    }
    const std::size_t none = drives.pairs() - table.rows;
    return text + fmt::format("{}{} of {} pairs have a way within the limit{}.\n",
                              shown == 0 ? "" : "\n", table.rows, drives.pairs(),
                              none == 0 ? "" : fmt::format("; {} have none", none));
}

}  // namespace farwater::reports
