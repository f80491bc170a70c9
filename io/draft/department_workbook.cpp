#include "io/draft/department_workbook.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <fstream>
#include <memory>
#include <string>

#include <fmt/format.h>
#include <xlsxwriter.h>

#include "io/error.h"
#include "io/records/unit_words.h"
#include "io/settings/keys_page.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

constexpr lxw_row_t rows_to_fill = 1000;  // rows below the heading that have lists to choose from
constexpr lxw_row_t stations_to_choose = 100;

// Asked first, in this order: a department can say these in an evening.
constexpr std::array first_of_stations{"station_id"sv, "name"sv,    "x"sv,
                                       "y"sv,          "staffed"sv, "aid"sv};
constexpr std::array first_of_apparatus{
    "unit_id"sv,     "station_id"sv,        "kind"sv,           "tank_gal"sv,
    "pump_gpm"sv,    "portable_tank_gal"sv, "portable_tanks"sv, "hose_2_5in_ft"sv,
    "hose_3in_ft"sv, "hose_4in_ft"sv,       "hose_5in_ft"sv,    "crew"sv};
constexpr std::array first_of_water{"source_id"sv,  "name"sv,        "kind"sv,        "x"sv,
                                    "y"sv,          "standing"sv,    "standing_by"sv, "rate_gpm"sv,
                                    "usable_gal"sv, "open_months"sv, "frost_proof"sv};
constexpr std::array first_of_places{"place_id"sv,       "name"sv, "x"sv,         "y"sv,
                                     "portable_tanks"sv, "lane"sv, "turnaround"sv};

struct SheetToFill {
    std::string_view section;
    std::string_view name;
    std::span<const std::string_view> first;
};
constexpr std::array sheets_to_fill{
    SheetToFill{"stations", "stations", first_of_stations},
    SheetToFill{"apparatus", "apparatus", first_of_apparatus},
    SheetToFill{"water_sources", "water_sources", first_of_water},
    SheetToFill{"dump_site_places", "dump_sites", first_of_places},
};
constexpr std::array section_names{sheets_to_fill[0].section, sheets_to_fill[1].section,
                                   sheets_to_fill[2].section, sheets_to_fill[3].section};

constexpr std::array words_for_people{
    "What goes where"sv,
    ""sv,
    "Each sheet is one list: a row for each station, truck, water source or dump place."sv,
    "Row 1 names the columns and stays as it is. Rest the pointer on a name: a note says what goes there, in which unit, and what a blank means."sv,
    "Names on a dark ground must be filled in for each row. The lighter ones come next: they are what a department can say in an evening. All others may wait."sv,
    "A blank is no zero: it means that nobody knows, and then the cautious value counts. Do not guess to fill a cell."sv,
    ""sv,
    "longitude and latitude are the two numbers that a phone gives for a place, in degrees: -72.12345 and 43.12345. West of Greenwich the longitude begins with a minus."sv,
    "Begin with ten water sources where somebody can say: I have pumped there. Their standing is declared; with a test, tested. What is only mapped never counts."sv,
    "Then: farwater check district.toml"sv,
};

const SheetToFill& sheet_row(std::string_view section) {
    return *std::ranges::find(sheets_to_fill, section, &SheetToFill::section);
}

std::string_view heading_of_field(const FieldRow& field) {
    return field.name == "x" ? heading_of_x : field.name == "y" ? heading_of_y : field.name;
}

// Those asked first, then the others in the schema's order.
std::vector<const FieldRow*> fields_in_order(const SheetToFill& sheet) {
    const SectionRow& section = *find_section(sheet.section);
    std::vector<const FieldRow*> fields;
    for (const std::string_view name : sheet.first) {
        fields.push_back(find_field(section, name));
    }
    for (const FieldRow& field : section.fields) {
        if (std::ranges::find(sheet.first, field.name) == sheet.first.end()) {
            fields.push_back(&field);
        }
    }
    return fields;
}

struct SheetFormats {
    explicit SheetFormats(lxw_workbook* book)
        : needed(heading(book, 0x9CC4D8)),
          first(heading(book, 0xDCEAF1)),
          other(heading(book, LXW_COLOR_WHITE)),
          words(workbook_add_format(book)),
          plain(workbook_add_format(book)) {
        format_set_num_format(words, "@");  // what is typed stays as it is
        format_set_text_wrap(plain);
    }
    static lxw_format* heading(lxw_workbook* book, lxw_color_t colour) {
        lxw_format* format = workbook_add_format(book);
        format_set_bold(format);
        format_set_bottom(format, LXW_BORDER_THIN);
        format_set_bg_color(format, colour);
        format_set_num_format(format, "@");
        return format;
    }
    lxw_format *needed, *first, *other, *words, *plain;
};

void add_note(lxw_worksheet* sheet, lxw_col_t column, const FieldRow& field) {
    const std::string note = note_of_field(field);
    lxw_comment_options options{};
    options.width = 300;
    constexpr std::size_t letters_a_line = 42;
    options.height = static_cast<std::uint16_t>(40 + 16 * (note.size() / letters_a_line));
    worksheet_write_comment_opt(sheet, 0, column, note.c_str(), &options);
}

// The list is a help, not a gate: what is typed beside it is told when the data are read.
void offer(lxw_worksheet* sheet, lxw_col_t column, lxw_data_validation& list) {
    list.ignore_blank = LXW_VALIDATION_ON;
    list.dropdown = LXW_VALIDATION_ON;
    list.show_input = LXW_VALIDATION_ON;
    list.show_error = LXW_VALIDATION_ON;
    list.error_type = LXW_VALIDATION_ERROR_TYPE_WARNING;
    worksheet_data_validation_range(sheet, 1, column, rows_to_fill, column, &list);
}

void offer_words(lxw_worksheet* sheet, lxw_col_t column, std::span<const std::string_view> words) {
    std::vector<std::string> texts(words.begin(), words.end());
    std::vector<char*> pointers;
    for (std::string& text : texts) {
        pointers.push_back(text.data());
    }
    pointers.push_back(nullptr);
    lxw_data_validation list{};
    list.validate = LXW_VALIDATION_TYPE_LIST;
    list.value_list = pointers.data();
    offer(sheet, column, list);
}

void offer_stations(lxw_worksheet* sheet, lxw_col_t column) {
    std::string cells = fmt::format("=stations!$A$2:$A${}", stations_to_choose + 1);
    lxw_data_validation list{};
    list.validate = LXW_VALIDATION_TYPE_LIST_FORMULA;
    list.value_formula = cells.data();
    offer(sheet, column, list);
}

void offer_choices(lxw_worksheet* sheet, lxw_col_t column, const FieldRow& field,
                   bool chooses_station) {
    constexpr std::array answers{"yes"sv, "no"sv};
    if (field.kind == FieldKind::word) {
        offer_words(sheet, column, field.words());
    } else if (field.kind == FieldKind::yes_no) {
        offer_words(sheet, column, answers);
    } else if (chooses_station) {
        offer_stations(sheet, column);
    }
}

void write_sheet_to_fill(lxw_workbook* book, const SheetToFill& row, const SheetFormats& formats,
                         bool has_stations) {
    lxw_worksheet* sheet = workbook_add_worksheet(book, std::string(row.name).c_str());
    lxw_col_t column = 0;
    for (const FieldRow* field : fields_in_order(row)) {
        const std::string heading(heading_of_field(*field));
        lxw_format* format = field->required             ? formats.needed
                             : column < row.first.size() ? formats.first
                                                         : formats.other;
        worksheet_write_string(sheet, 0, column, heading.c_str(), format);
        add_note(sheet, column, *field);
        const bool chooses_station =
            has_stations && row.section == "apparatus" && field->name == "station_id";
        offer_choices(sheet, column, *field, chooses_station);
        const bool words = field->kind == FieldKind::text || field->kind == FieldKind::word ||
                           field->kind == FieldKind::months || field->kind == FieldKind::yes_no;
        const double width = std::max(12.0, static_cast<double>(heading.size()) + 3.0);
        worksheet_set_column(sheet, column, column, width, words ? formats.words : nullptr);
        ++column;
    }
    worksheet_freeze_panes(sheet, 1, 1);
    worksheet_set_landscape(sheet);
}

void write_words_for_people(lxw_workbook* book, const SheetFormats& formats) {
    constexpr double wide = 100.0;
    lxw_worksheet* sheet = workbook_add_worksheet(book, "read me");
    worksheet_set_column(sheet, 0, 0, wide, formats.plain);
    lxw_row_t row = 0;
    for (const std::string_view line : words_for_people) {
        worksheet_write_string(sheet, row, 0, std::string(line).c_str(),
                               row == 0 ? formats.first : formats.plain);
        ++row;
    }
}

}  // namespace

std::span<const std::string_view> sections_with_sheet() { return section_names; }

std::string_view sheet_of_section(std::string_view section) { return sheet_row(section).name; }

std::string note_of_field(const FieldRow& field) {
    std::string note = std::string(field.what) + ".";
    if (field.name == "x" || field.name == "y") {
        note += " Here: degrees, as a phone gives them.";
    }
    const std::string_view unit = unit_of_name(field.name);
    const std::string range = range_of(field.low, field.high);
    const bool place = field.name == "x" || field.name == "y";
    note += fmt::format(" A cell holds: {}{}{}.", kind_in_words(field),
                        unit.empty() ? "" : fmt::format(", in {}", unit),
                        range.empty() || place ? "" : fmt::format(", {}", range));
    if (field.required) {
        note += " Needed in every row.";
    } else if (field.what.find("blank") == std::string_view::npos) {
        note += " Blank = not known.";
    }
    return note;
}

void write_department_workbook(const std::filesystem::path& file,
                               const std::vector<std::string_view>& sections) {
    // The library would say on standard error that it cannot.
    if (!std::ofstream(file)) {
        throw OutputError(file.string() + ": cannot be made.");
    }
    std::unique_ptr<lxw_workbook, decltype(&lxw_workbook_free)> book(workbook_new(file.c_str()),
                                                                     lxw_workbook_free);
    if (!book) {
        throw OutputError(file.string() + ": cannot be made.");
    }
    using namespace std::chrono_literals;
    lxw_doc_properties properties{};
    // No clock: the same bytes each time.
    properties.created = std::chrono::system_clock::to_time_t(std::chrono::sys_days(2026y / 1 / 1));
    workbook_set_properties(book.get(), &properties);
    const SheetFormats formats(book.get());
    write_words_for_people(book.get(), formats);
    const bool has_stations = std::ranges::find(sections, "stations") != sections.end();
    for (const std::string_view section : sections) {
        write_sheet_to_fill(book.get(), sheet_row(section), formats, has_stations);
    }
    if (const lxw_error error = workbook_close(book.release()); error != LXW_NO_ERROR) {
        std::error_code ignored;
        std::filesystem::remove(file, ignored);
        throw OutputError(file.string() + ": cannot be written: " + lxw_strerror(error));
    }
}

}  // namespace farwater::io
