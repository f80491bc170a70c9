#include "io/workbook_writer.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <memory>
#include <utility>

#include <fmt/format.h>
#include <xlsxwriter.h>

#include "io/error.h"
#include "io/files/xml_text.h"

namespace farwater::io {
namespace {

constexpr std::size_t rows_per_sheet_step = 1024;
constexpr std::size_t most_letters_of_cell = 32000;  // the format's own limit is 32,767
constexpr std::size_t rows_for_width = 200;
constexpr double widest_column = 60.0;
constexpr double width_of_page = 130.0;  // letters that can be read on a sheet of letter paper

constexpr std::array<std::pair<std::string_view, std::string_view>, 11> unit_endings{{
    {"_gpm", "gpm"},
    {"_gal", "gal"},
    {"_min", "min"},
    {"_ft", "ft"},
    {"_mi", "mi"},
    {"_pct", "%"},
    {"_psi", "psi"},
    {"_in", "in"},
    {"_mph", "mph"},
    {"_lb", "lb"},
    {"_hp", "hp"},
}};

std::size_t count_of_letters(std::string_view text) {
    return static_cast<std::size_t>(std::ranges::count_if(
        text, [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }));
}

std::string sheet_cell_text(std::string_view text) {
    std::string letters = xml_letters(text);
    if (letters.size() > most_letters_of_cell) {
        std::size_t end = most_letters_of_cell;
        while ((static_cast<unsigned char>(letters[end]) & 0xC0U) == 0x80U) {
            --end;
        }
        letters.resize(end);
    }
    return letters;
}

// Page headings give & a meaning, and may have 255 letters.
std::string page_heading_text(std::string_view text) {
    std::string result;
    for (const char letter : xml_letters(text)) {
        result.append(letter == '&' ? 2 : 1, letter);
    }
    constexpr std::size_t most = 200;
    std::size_t end = std::min(result.size(), most);
    while (end < result.size() && end > 0 &&
           (static_cast<unsigned char>(result[end]) & 0xC0U) == 0x80U) {
        --end;
    }
    result.resize(end);
    return result;
}

struct SheetLooks {
    lxw_workbook* book;
    lxw_format* heading;
    lxw_format* text;
    std::vector<lxw_format*> number;  // by decimals

    explicit SheetLooks(lxw_workbook* workbook)
        : book(workbook),
          heading(workbook_add_format(workbook)),
          text(workbook_add_format(workbook)) {
        format_set_bold(heading);
        format_set_text_wrap(heading);
        format_set_align(heading, LXW_ALIGN_VERTICAL_TOP);
        format_set_bg_color(heading, 0xE7EEF2);
        format_set_bottom(heading, LXW_BORDER_THIN);
        format_set_text_wrap(text);
        format_set_align(text, LXW_ALIGN_VERTICAL_TOP);
        format_set_num_format(text, "@");  // stays text when somebody edits it
        for (const char* form : {"#,##0", "#,##0.0", "#,##0.00", "#,##0.000"}) {
            number.push_back(workbook_add_format(workbook));
            format_set_num_format(number.back(), form);
            format_set_align(number.back(), LXW_ALIGN_VERTICAL_TOP);
        }
    }
    lxw_format* of(int decimals) const {
        return number[static_cast<std::size_t>(
            std::clamp(decimals, 0, static_cast<int>(number.size()) - 1))];
    }
};

// One sheet in the making, row by row. Throws OutputError where the library takes something not.
class SheetInMaking {
public:
    SheetInMaking(lxw_workbook* book, const WorkbookSheet& sheet, const SheetLooks& looks)
        : table_(sheet.table),
          looks_(looks),
          name_(sheet.name),
          sheet_(workbook_add_worksheet(book, sheet.name.c_str())) {
        check(sheet_ == nullptr ? workbook_validate_sheet_name(book, sheet.name.c_str())
                                : LXW_NO_ERROR);
        for (std::size_t i = 0; i < table_.columns.size(); ++i) {
            const std::string heading = heading_of(table_.columns[i]);
            widths_.push_back(width_of_heading(heading));
            check(worksheet_write_string(sheet_, 0, column(i), heading.c_str(), looks_.heading));
        }
    }

    void add(const Row& row) {
        ++rows_;
        for (std::size_t i = 0; i < table_.columns.size(); ++i) {
            std::visit([&](const auto& value) { write(i, value); }, row.values[i]);
        }
    }

    void say_left_out(std::size_t rows) {
        ++rows_;
        write(0,
              std::string_view(fmt::format("{} more rows: see tables/{}.csv", rows, table_.name)));
    }

    void finish(const WorkbookHead& head) {
        double all = 0.0;
        for (std::size_t i = 0; i < widths_.size(); ++i) {
            const double width = std::min(widths_[i] + 2.0, widest_column);
            check(worksheet_set_column(sheet_, column(i), column(i), width, nullptr));
            all += width;
        }
        worksheet_freeze_panes(sheet_, 1, widths_.size() > 6 ? 1 : 0);
        if (rows_ > 0 && !widths_.empty()) {
            check(worksheet_autofilter(sheet_, 0, 0, rows_, column(widths_.size() - 1)));
        }
        worksheet_set_landscape(sheet_);
        constexpr std::uint8_t letter_paper = 1;
        worksheet_set_paper(sheet_, letter_paper);
        check(worksheet_repeat_rows(sheet_, 0, 0));
        worksheet_fit_to_pages(sheet_, static_cast<std::uint16_t>(std::ceil(all / width_of_page)),
                               0);
        check(worksheet_set_header(
            sheet_, fmt::format("&L{}&R{}", page_heading_text(head.title), name_).c_str()));
        check(worksheet_set_footer(
            sheet_, fmt::format("&L{}&RPage &P of &N", page_heading_text(head.footing)).c_str()));
    }

private:
    void check(lxw_error error) const {
        if (error != LXW_NO_ERROR || sheet_ == nullptr) {
            throw OutputError(fmt::format("the workbook's sheet \"{}\" cannot be written: {}",
                                          name_, lxw_strerror(error)));
        }
    }
    static lxw_col_t column(std::size_t i) { return static_cast<lxw_col_t>(i); }
    // Headings may break at blanks.
    static double width_of_heading(const std::string& heading) {
        std::size_t longest_word = 0;
        for (std::size_t begin = 0; begin <= heading.size();) {
            const std::size_t end = std::min(heading.find(' ', begin), heading.size());
            longest_word = std::max(longest_word, end - begin);
            begin = end + 1;
        }
        return static_cast<double>(
            std::max<std::size_t>(longest_word + 2, 6));  // room for the arrow
    }
    void widen(std::size_t i, std::size_t letters) {
        if (rows_ <= rows_for_width) {
            widths_[i] = std::max(widths_[i], static_cast<double>(letters));
        }
    }

    void write(std::size_t, std::monostate) {}
    void write(std::size_t i, std::string_view text) {
        const std::string letters = sheet_cell_text(text);
        if (!letters.empty()) {
            widen(i, count_of_letters(letters));
            check(worksheet_write_string(sheet_, rows_, column(i), letters.c_str(), looks_.text));
        }
    }
    void write(std::size_t i, bool yes) { write(i, std::string_view(yes ? "yes" : "no")); }
    void write(std::size_t i, std::int64_t number) {
        write_number(i, static_cast<double>(number), 0);
    }
    void write(std::size_t i, double number) {
        if (std::isfinite(number)) {
            write_number(i, number, table_.columns[i].decimals);
        }
    }
    void write_number(std::size_t i, double number, int decimals) {
        widen(i, fmt::format("{:.{}f}", number, decimals).size() + 2);
        check(worksheet_write_number(sheet_, rows_, column(i), number, looks_.of(decimals)));
    }

    const FeatureTable& table_;
    const SheetLooks& looks_;
    const std::string& name_;
    lxw_worksheet* sheet_;
    lxw_row_t rows_ = 0;
    std::vector<double> widths_;
};

bool fill_sheet(SheetInMaking& sheet, const FeatureTable& table, const Work& work) {
    Row row;
    const std::size_t shown = std::min(table.rows, most_rows_of_sheet);
    for (std::size_t index = 0; index < shown; ++index) {
        if (index % rows_per_sheet_step == 0) {
            if (work.stopped()) {
                return false;
            }
            work.step(table.name, index, shown);
        }
        row.values.assign(table.columns.size(), Value{});
        row.shape.clear();
        row.areas.clear();
        table.fill(index, row);
        sheet.add(row);
    }
    if (shown < table.rows) {
        sheet.say_left_out(table.rows - shown);
    }
    return true;
}

void describe_workbook(lxw_workbook* book, const WorkbookHead& head) {
    std::string title = xml_letters(head.title);
    std::string footing = xml_letters(head.footing);
    lxw_doc_properties properties{};
    properties.title = title.data();
    properties.comments = footing.data();
    properties.created = std::chrono::system_clock::to_time_t(head.created);
    workbook_set_properties(book, &properties);
}

}  // namespace

std::string heading_of(const Column& column) {
    std::string words = column.name;
    std::string_view unit;
    for (const auto& [ending, of] : unit_endings) {
        // Also in the middle: shortfall_gpm_worst.
        const std::size_t at = words.find(std::string(ending) + "_");
        if (words.ends_with(ending)) {
            unit = of;
            words.resize(words.size() - ending.size());
            break;
        }
        if (at != std::string::npos && column.type != ColumnType::text) {
            unit = of;
            words.erase(at, ending.size());
            break;
        }
    }
    std::ranges::replace(words, '_', ' ');
    return unit.empty() ? words : words + ", " + std::string(unit);
}

bool write_workbook(const std::filesystem::path& file, const WorkbookHead& head,
                    const std::vector<WorkbookSheet>& sheets, const Work& work) {
    // The library would say on standard error that it cannot.
    if (!std::ofstream(file)) {
        throw OutputError(file.string() + ": cannot be made.");
    }
    lxw_workbook_options options{};
    options.constant_memory = 1;
    // The library closes and frees what it makes, in workbook_close().
    std::unique_ptr<lxw_workbook, decltype(&lxw_workbook_free)> book(
        workbook_new_opt(file.c_str(), &options), lxw_workbook_free);
    if (!book) {
        throw OutputError(file.string() + ": cannot be made.");
    }
    describe_workbook(book.get(), head);
    const SheetLooks looks(book.get());
    for (const WorkbookSheet& sheet : sheets) {
        SheetInMaking making(book.get(), sheet, looks);
        if (!fill_sheet(making, sheet.table, work)) {
            return false;
        }
        making.finish(head);
    }
    if (const lxw_error error = workbook_close(book.release()); error != LXW_NO_ERROR) {
        throw OutputError(file.string() + ": cannot be written: " + lxw_strerror(error) +
                          " An older result is untouched.");  // it ends its sentence
    }
    return true;
}

}  // namespace farwater::io
