#include "io/records/joined_table.h"

#include <algorithm>

#include <fmt/format.h>

#include "io/records/layer_records.h"

namespace farwater::io {
namespace {

constexpr SectionRow join_section{
    "join", false, ShapeNeed::none, {}, "a table that is joined to the parcels"};

// The key column, then those of the fields.
std::vector<std::string> columns_of(const JoinSpec& spec) {
    std::vector<std::string> columns{spec.key};
    for (const auto& [field, column] : spec.table.columns) {
        columns.push_back(column);
    }
    return columns;
}

}  // namespace

JoinedTable::JoinedTable(const JoinSpec& spec)
    : source_(open_source(spec.table, join_section, columns_of(spec))),
      parcel_key_(spec.parcel_key) {
    for (const auto& [field, column] : spec.table.columns) {
        fields_.push_back(field);
        columns_.push_back(column);
    }
}

void JoinedTable::read(const Work& work) {
    log_ = for_each_record(source_, work, [this](Record& record) {
        std::string key = printed(record.also(0));
        if (key.empty()) {
            record.report(ProblemId::value_missing, {}, source_.also.front().column);
            return Taken::no;
        }
        record.call(key);
        if (!by_key_.emplace(key, rows_.size()).second) {
            record.report(ProblemId::join_key_duplicate, {}, {});
            return Taken::no;
        }
        Row row;
        for (std::size_t i = 0; i < fields_.size(); ++i) {
            row.cells.push_back(record.also(i + 1));
        }
        rows_.push_back(std::move(row));
        keys_.push_back(std::move(key));
        return Taken::yes;
    });
}

bool JoinedTable::has(std::string_view field) const {
    return std::find(fields_.begin(), fields_.end(), field) != fields_.end();
}

std::vector<JoinedCell> JoinedTable::find(const std::string& key) {
    const auto found = by_key_.find(key);
    if (found == by_key_.end()) {
        return {};
    }
    Row& row = rows_[found->second];
    row.found = true;
    std::vector<JoinedCell> cells;
    for (std::size_t i = 0; i < fields_.size(); ++i) {
        cells.push_back({fields_[i], columns_[i], source_.spec.file, &row.cells[i],
                         source_.commas_doubtful(),
                         source_.points_doubtful(source_.also[i + 1].index)});
    }
    return cells;
}

LayerLog JoinedTable::log() const {
    LayerLog log = log_;
    std::size_t found = 0;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (rows_[i].found) {
            ++found;
            continue;
        }
        --log.count.used;
        ++log.count.set_aside;
        log.problems.push_back({ProblemId::join_key_unmatched,
                                "join",
                                log.count.file,
                                keys_[i],
                                source_.also.front().column,
                                {}});
    }
    if (found == 0) {
        fail_input(
            source_.spec,
            fmt::format("no parcel has any of its {} keys; correct key or parcel_key in [join]",
                        rows_.size()));
    }
    return log;
}

}  // namespace farwater::io
