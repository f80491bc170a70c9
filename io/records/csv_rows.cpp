#include "io/records/csv_rows.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <string>
#include <string_view>

namespace farwater::io {
namespace {

// Whether a cell's number shows what its point means: before three figures it can part thousands.
class PointInCell {
public:
    void take(char letter) {
        const bool figure = letter >= '0' && letter <= '9';
        if (ended_ || (!figure && !begun_ && (letter == ' ' || letter == '-' || letter == '"'))) {
            return;
        }
        if (figure) {
            leading_zero_ = leading_zero_ || (!begun_ && letter == '0');
            begun_ = true;
            ++behind_;
        } else if (letter == '.' && begun_) {
            ++points_;
            behind_ = 0;
        } else {
            ended_ = true;
        }
    }
    bool is_shown() const { return points_ == 1 && behind_ > 0 && (behind_ != 3 || leading_zero_); }

private:
    bool begun_ = false;
    bool ended_ = false;  // what follows is a unit, or it is no number
    bool leading_zero_ = false;
    int points_ = 0;
    int behind_ = 0;  // figures behind the last point
};

// Goes through the letters of a file as GDAL does: a quote mark anywhere begins or ends a part in
// which separators and line ends are text.
class CsvCells {
public:
    explicit CsvCells(char separator) : separator_(separator) {}

    void take(char letter) {
        look_at_point(letter);
        if (letter == '"') {
            quoted_inside_ = quoted_inside_ || (!in_quotes_ && !cell_is_blank_);
            in_quotes_ = !in_quotes_;
            cell_is_blank_ = false;
        } else if (in_quotes_) {
            breaks_ = breaks_ || letter == '\n';
        } else if (letter == separator_) {
            ++cells_;
            cell_is_blank_ = true;
        } else if (letter != ' ' && letter != '\r') {
            cell_is_blank_ = false;
            last_with_text_ = cells_;
        }
        blank_ = blank_ && letter == '\r';
        last_with_text_ = in_quotes_ ? cells_ : last_with_text_;
    }
    bool ends_row(char letter) const { return letter == '\n' && !in_quotes_; }

    std::size_t cells() const { return cells_; }
    std::size_t cells_to_last_text() const { return last_with_text_; }
    bool blank() const { return blank_; }
    bool breaks() const { return breaks_; }
    bool swallows() const { return (breaks_ && quoted_inside_) || in_quotes_; }
    // For each column, whether the row's cell shows it.
    void tell_points(std::vector<bool>& shown) {
        end_point();
        for (const std::size_t cell : points_shown_) {
            if (cell < shown.size()) {
                shown[cell] = true;
            }
        }
    }

private:
    void look_at_point(char letter) {
        if (separator_ != ';') {
            return;
        }
        if (letter == separator_ && !in_quotes_) {
            end_point();
        } else {
            point_.take(letter);
        }
    }
    void end_point() {
        if (point_.is_shown()) {
            points_shown_.push_back(cells_ - 1);
        }
        point_ = PointInCell();
    }

    char separator_;
    PointInCell point_;
    std::vector<std::size_t> points_shown_;
    std::size_t cells_ = 1;
    std::size_t last_with_text_ = 0;
    bool in_quotes_ = false;
    bool cell_is_blank_ = true;
    bool quoted_inside_ = false;  // a quote mark stood behind other letters of its cell
    bool breaks_ = false;         // over a line end
    bool blank_ = true;
};

class CsvFile {
public:
    explicit CsvFile(const std::filesystem::path& file) : stream_(file, std::ios::binary) {
        std::array<char, 3> mark{};
        stream_.read(mark.data(), mark.size());
        if (!(stream_.good() && mark == std::array{'\xEF', '\xBB', '\xBF'})) {
            stream_.clear();
            stream_.seekg(0);
        }
    }

    // The next row that is not blank; none at the end.
    std::optional<CsvCells> next(char separator) {
        std::streambuf& letters = *stream_.rdbuf();
        while (stream_) {
            CsvCells row(separator);
            int letter = letters.sbumpc();
            for (; letter != end && !row.ends_row(static_cast<char>(letter));
                 letter = letters.sbumpc()) {
                row.take(static_cast<char>(letter));
            }
            if (!row.blank()) {
                return row;
            }
            if (letter == end) {
                return std::nullopt;
            }
        }
        return std::nullopt;
    }

private:
    static constexpr int end = std::char_traits<char>::eof();
    std::ifstream stream_;
};

CsvRows rows_of(CsvFile& file, char separator, std::size_t columns) {
    CsvRows rows{separator, columns, {}, false, std::nullopt, {}};
    rows.point_shown.resize(separator == ';' ? columns : 0);
    for (std::int64_t number = 1;; ++number) {
        std::optional<CsvCells> row = file.next(separator);
        if (!row) {
            return rows;
        }
        if (row->swallows()) {
            rows.swallows = number;
            return rows;
        }
        row->tell_points(rows.point_shown);
        if (row->cells_to_last_text() > columns) {
            rows.too_long.push_back({number, row->cells()});
        }
    }
}

}  // namespace

const CsvRow* CsvRows::too_long_row(std::int64_t number) const {
    const auto found = std::ranges::lower_bound(too_long, number, {}, &CsvRow::number);
    return found != too_long.end() && found->number == number ? &*found : nullptr;
}

std::optional<CsvRows> look_at_csv(const std::filesystem::path& file, std::size_t columns) {
    for (const char separator : {',', ';', '\t', '|'}) {
        CsvFile letters(file);
        const std::optional<CsvCells> head = letters.next(separator);
        if (head && head->breaks()) {
            return CsvRows{separator, columns, {}, true, std::nullopt, {}};
        }
        if (head && head->cells() == columns) {
            return rows_of(letters, separator, columns);
        }
    }
    return std::nullopt;
}

}  // namespace farwater::io
