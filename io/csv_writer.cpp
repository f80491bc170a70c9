#include "io/csv_writer.h"

#include <cmath>
#include <iterator>
#include <string>

#include <fmt/format.h>

#include "io/whole_file.h"

namespace farwater::io {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::string_view line_end = "\r\n";
constexpr std::size_t lines_per_step = 1024;

void append_text(std::string& line, std::string_view text) {
    const bool formula =
        !text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos;
    const bool quotes = text.find_first_of(",\"\r\n") != std::string_view::npos;
    if (quotes) {
        line += '"';
    }
    if (formula) {
        line += '\'';
    }
    for (const char letter : text) {
        line.append(letter == '"' ? 2 : 1, letter);
    }
    if (quotes) {
        line += '"';
    }
}

void append_real(std::string& line, double number, int decimals) {
    if (!std::isfinite(number)) {
        return;
    }
    const std::size_t begin = line.size();
    fmt::format_to(std::back_inserter(line), "{:.{}f}", number, decimals);
    // A small negative number rounds to "-0.0", which nobody wants to read.
    if (line[begin] == '-' && line.find_first_not_of("-0.", begin) == std::string::npos) {
        line.erase(begin, 1);
    }
}

struct AppendValue {
    std::string& line;
    const Column& column;

    void operator()(std::monostate) const {}
    void operator()(std::int64_t number) const {
        fmt::format_to(std::back_inserter(line), "{}", number);
    }
    void operator()(double number) const { append_real(line, number, column.decimals); }
    void operator()(bool yes) const { line += yes ? "yes" : "no"; }
    void operator()(std::string_view text) const { append_text(line, text); }
};

std::string heading(const FeatureTable& table) {
    std::string line(byte_order_mark);
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        line += i > 0 ? "," : "";
        append_text(line, table.columns[i].name);
    }
    return line.append(line_end);
}

}  // namespace

bool csv(const FeatureTable& table, const Work& work,
         const std::function<void(std::string_view)>& sink) {
    sink(heading(table));
    Row row;
    std::string line;
    for (std::size_t index = 0; index < table.rows; ++index) {
        if (index % lines_per_step == 0) {
            if (work.stopped()) {
                return false;
            }
            work.step(table.name, index, table.rows);
        }
        row.values.assign(table.columns.size(), Value{});
        row.shape.clear();
        table.fill(index, row);
        line.clear();
        for (std::size_t i = 0; i < table.columns.size(); ++i) {
            line += i > 0 ? "," : "";
            std::visit(AppendValue{line, table.columns[i]}, row.values[i]);
        }
        sink(line.append(line_end));
    }
    work.step(table.name, table.rows, table.rows);
    return true;
}

bool write_csv(const std::filesystem::path& file, const FeatureTable& table, const Work& work) {
    WholeFile whole(file);
    if (!csv(table, work, [&](std::string_view bytes) { whole.write(bytes); })) {
        return false;
    }
    whole.finish();
    return true;
}

}  // namespace farwater::io
