#include "reports/drive_times.h"
#include "reports/json/json_cells.h"

namespace farwater::reports {

// Row by row, for a table may have millions.
std::string drive_times_json(const DriveTable& drives) {
    json head = {{"schema_version", json_schema_version},
                 {"district", drives.district},
                 {"from", drives.from.layer},
                 {"to", drives.to.layer},
                 {"season", drives.season},
                 {"vehicles", drives.vehicles},
                 {"travel_time_in_words", drives.time_model},
                 {"limit_min", drives.limit_min},
                 {"pairs", drives.pairs()},
                 {"problems", problem_counts(drives.problems)}};
    std::string text = dumped(head);
    text.erase(text.size() - 3);  // the closing brace and its lines
    text += ",\n  \"drives\": [";
    const io::FeatureTable table = drive_times(drives);
    for (std::size_t row = 0; row < table.rows; ++row) {
        text += (row == 0 ? "\n    " : ",\n    ") +
                printed_row(table, row).dump(-1, ' ', false, json::error_handler_t::replace);
    }
    return text + "\n  ]\n}\n";
}

}  // namespace farwater::reports
