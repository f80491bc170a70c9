#include "reports/page/packed_table.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "reports/page/packed_bytes.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

constexpr char between_texts = '\x1E';  // in no mended text

// One column while its cells come in.
class Cells {
public:
    explicit Cells(const io::Column& column)
        : text_(column.type == io::ColumnType::text),
          factor_(std::pow(10.0, column.type == io::ColumnType::real ? column.decimals : 0)) {}

    void add(const io::Value& value) {
        if (text_) {
            const auto* words = std::get_if<std::string_view>(&value);
            add_text(words == nullptr ? std::string() : mended(*words));
        } else {
            const std::optional<std::int64_t> number = number_of(value);
            if (number) {
                append_one_more(*number);
            } else {
                append_count(numbers_, 0);
            }
        }
    }

    PackedTable::Form form() const {
        return !text_                         ? PackedTable::Form::numbers
               : word_of_.size() * 2 <= rows_ ? PackedTable::Form::words
                                              : PackedTable::Form::texts;
    }

    std::string bytes() const {
        switch (form()) {
            case PackedTable::Form::words:
                return words();
            case PackedTable::Form::texts:
                return texts();
            default:
                return numbers_;
        }
    }

private:
    void append_one_more(std::int64_t number) {
        const auto twice = static_cast<std::uint64_t>(number) << 1U;
        append_count(numbers_, (number < 0 ? ~twice : twice) + 1);
    }

    std::optional<std::int64_t> number_of(const io::Value& value) const {
        if (const auto* whole = std::get_if<std::int64_t>(&value)) {
            return *whole;
        }
        if (const auto* yes = std::get_if<bool>(&value)) {
            return *yes ? 1 : 0;
        }
        const auto* real = std::get_if<double>(&value);
        const double most = 9e15;  // whole numbers that a page's numbers still tell apart
        if (real == nullptr || !std::isfinite(*real) || std::abs(*real) * factor_ > most) {
            return std::nullopt;
        }
        return std::llround(*real * factor_);
    }

    void add_text(std::string text) {
        ++rows_;
        if (text.empty()) {
            codes_.push_back(0);
            return;
        }
        const auto [found, fresh] = word_of_.try_emplace(std::move(text), word_of_.size() + 1);
        if (fresh) {
            in_order_.push_back(&found->first);
        }
        codes_.push_back(found->second);
    }

    std::string words() const {
        std::string bytes;
        append_count(bytes, in_order_.size());
        for (const std::string* word : in_order_) {
            append_text(bytes, *word);
        }
        for (const std::size_t code : codes_) {
            append_count(bytes, code);
        }
        return bytes;
    }

    std::string texts() const {
        std::string bytes;
        for (std::size_t i = 0; i < codes_.size(); ++i) {
            if (i > 0) {
                bytes += between_texts;
            }
            if (codes_[i] > 0) {
                bytes += *in_order_[codes_[i] - 1];
            }
        }
        return bytes;
    }

    bool text_;
    double factor_;
    std::string numbers_;
    std::size_t rows_ = 0;
    std::map<std::string, std::size_t> word_of_;
    std::vector<const std::string*> in_order_;
    std::vector<std::size_t> codes_;
};

struct WantedColumn {
    std::size_t place;
    Cells cells;
};

std::vector<WantedColumn> wanted_columns(const io::FeatureTable& table,
                                         const std::vector<std::string_view>& only) {
    std::vector<WantedColumn> columns;
    for (std::size_t place = 0; place < table.columns.size(); ++place) {
        const io::Column& column = table.columns[place];
        if (only.empty() || std::ranges::find(only, column.name) != only.end()) {
            columns.push_back({place, Cells(column)});
        }
    }
    return columns;
}

// Of a row that the table does not have: no value.
void fill_row(const io::FeatureTable& table, std::size_t index, io::Row& row) {
    row.values.assign(table.columns.size(), io::Value{});
    row.shape.clear();
    row.areas.clear();
    if (index < table.rows) {
        table.fill(index, row);
    }
}

std::vector<Polyline> rings_of(const MultiPolygon& areas) {
    std::vector<Polyline> rings;
    for (const Polygon& area : areas) {
        rings.push_back(area.shell);
        rings.insert(rings.end(), area.holes.begin(), area.holes.end());
    }
    return rings;
}

}  // namespace

PackedTable::PackedTable(std::string_view title, std::string_view description, std::size_t rows)
    : title_(title), description_(description), rows_(rows) {}

void PackedTable::add(const io::FeatureTable& table, const PageGrid& grid,
                      const std::vector<std::string_view>& only) {
    std::vector<WantedColumn> columns = wanted_columns(table, only);
    const bool has_shapes = table.shape != io::ShapeKind::none;
    PackedShapes shapes(grid);
    io::Row row;
    for (std::size_t i = 0; i < rows_; ++i) {
        fill_row(table, i, row);
        for (WantedColumn& column : columns) {
            column.cells.add(row.values[column.place]);
        }
        if (table.shape == io::ShapeKind::areas) {
            shapes.add_areas(rings_of(row.areas));
        } else if (has_shapes) {
            shapes.add_line(row.shape);
        }
    }
    for (const WantedColumn& column : columns) {
        add_column(table.columns[column.place], column.cells.form(), column.cells.bytes());
    }
    if (has_shapes) {
        add_shapes(shapes);
    }
}

void PackedTable::add_shapes(const PackedShapes& shapes, std::string_view name) {
    add_column({.name = std::string(name), .description = "Where it is."}, Form::shapes,
               shapes.bytes());
}

void PackedTable::add_column(const io::Column& column, Form form, std::string_view bytes) {
    const bool has_decimals = column.type == io::ColumnType::real;
    append_text(packed_, column.name);
    append_text(packed_, column.description);
    append_count(packed_, static_cast<std::uint64_t>(form));
    append_count(packed_, has_decimals ? static_cast<std::uint64_t>(column.decimals) : 0);
    append_count(packed_, bytes.size());
    packed_ += bytes;
    ++columns_;
}

std::string PackedTable::bytes() const {
    std::string all;
    append_count(all, rows_);
    append_count(all, columns_);
    append_text(all, title_);
    append_text(all, description_);
    return all + packed_;
}

}  // namespace farwater::reports
