#include "io/results/stored_layers.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>
#include <utility>

#include <cpl_string.h>
#include <fmt/format.h>
#include <ogrsf_frmts.h>

#include "io/results/open_result.h"

namespace farwater::io {
namespace {

constexpr std::size_t answers_per_step = 4096;

bool is_number(const OGRFieldDefn& column) {
    const OGRFieldType type = column.GetType();
    return type == OFTReal || type == OFTInteger || type == OFTInteger64;
}

int column_at(OGRLayer& layer, std::string_view name) {
    return layer.GetLayerDefn()->GetFieldIndex(std::string(name).c_str());
}

// Where the columns of an answer stand; -1: not there, or of another type.
struct AnswerPlaces {
    int id = -1, state = -1;
    std::array<int, answer_number_columns.size()> numbers{};
    std::array<int, answer_text_columns.size()> texts{};

    AnswerPlaces(OGRLayer& layer, const std::string& id_column)
        : id(column_at(layer, id_column)), state(column_at(layer, answer_state_column)) {
        for (std::size_t i = 0; i < numbers.size(); ++i) {
            numbers[i] = column_at(layer, answer_number_columns[i]);
            if (numbers[i] >= 0 && !is_number(*layer.GetLayerDefn()->GetFieldDefn(numbers[i]))) {
                numbers[i] = -1;
            }
        }
        for (std::size_t i = 0; i < texts.size(); ++i) {
            texts[i] = column_at(layer, answer_text_columns[i]);
        }
    }

    bool uses(int column) const {
        return column == id || column == state || std::ranges::count(numbers, column) > 0 ||
               std::ranges::count(texts, column) > 0;
    }
};

// The rest of a hundred columns, and the shapes, are passed over.
void read_only(OGRLayer& layer, const AnswerPlaces& places) {
    CPLStringList ignored;
    ignored.AddString("OGR_GEOMETRY");
    for (int i = 0; i < layer.GetLayerDefn()->GetFieldCount(); ++i) {
        if (!places.uses(i)) {
            ignored.AddString(layer.GetLayerDefn()->GetFieldDefn(i)->GetNameRef());
        }
    }
    layer.SetIgnoredFields(const_cast<const char**>(ignored.List()));
}

std::string text_in(const OGRFeature& record, int column) {
    return column >= 0 && record.IsFieldSetAndNotNull(column) ? record.GetFieldAsString(column)
                                                              : "";
}

// No flow or clock is below 0, and a million gpm or minutes is none that a run wrote.
constexpr double most_stored = 1e6;

Maybe<Tenths> tenths_at(const OGRFeature& record, int column, const std::filesystem::path& file) {
    if (column < 0 || !record.IsFieldSetAndNotNull(column)) {
        return std::nullopt;
    }
    const double value = record.GetFieldAsDouble(column);
    if (!(value >= 0.0 && value <= most_stored)) {
        refuse_result(
            file, fmt::format("layer {}, record {}, column {}: {:g} is not within 0 to "
                              "{:.0f}, so that no run wrote it; run the district anew",
                              record.GetDefnRef()->GetName(), record.GetFID(),
                              record.GetFieldDefnRef(column)->GetNameRef(), value, most_stored));
    }
    return Tenths{static_cast<std::int32_t>(std::lround(value * 10.0))};
}

StoredAnswer answer_of(const OGRFeature& record, const AnswerPlaces& places,
                       const std::filesystem::path& file, SharedTexts& texts) {
    StoredAnswer answer;
    answer.id = text_in(record, places.id);
    answer.row = record.GetFID();
    const std::string state = text_in(record, places.state);
    answer.state = parse_word<SupplyState>(state);
    answer.other_state = answer.state ? SharedText() : texts.of(state);
    for (std::size_t i = 0; i < places.numbers.size(); ++i) {
        answer.numbers[i] = tenths_at(record, places.numbers[i], file);
    }
    for (std::size_t i = 0; i < places.texts.size(); ++i) {
        answer.texts[i] = texts.of(text_in(record, places.texts[i]));
    }
    return answer;
}

// To how many decimals numbers of a column are compared.
int decimals_of(std::string_view column) {
    for (const std::string_view unit : {"_gpm", "_gal", "_ft"}) {
        if (column.ends_with(unit)) {
            return 1;
        }
    }
    return 6;
}

std::string cell_text(const OGRFeature& record, int column) {
    const OGRFieldDefn& of = *record.GetFieldDefnRef(column);
    if (!record.IsFieldSetAndNotNull(column)) {
        return {};
    }
    if (of.GetSubType() == OFSTBoolean) {
        return record.GetFieldAsInteger(column) != 0 ? "yes" : "no";
    }
    return of.GetType() == OFTReal
               ? number_text(record.GetFieldAsDouble(column), decimals_of(of.GetNameRef()))
               : record.GetFieldAsString(column);
}

}  // namespace

std::string number_text(double value, int decimals) {
    if (!std::isfinite(value)) {
        return {};
    }
    std::string text = fmt::format("{:.{}f}", value, decimals);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        text.erase(text.find_last_not_of('.') + 1);
    }
    return text == "-0" ? "0" : text;
}

StoredAnswers stored_answers(OGRLayer& layer, const std::string& id_column,
                             const std::filesystem::path& file, const Work& work) {
    const AnswerPlaces places(layer, id_column);
    StoredAnswers answers{.told = true};
    for (std::size_t i = 0; i < places.numbers.size(); ++i) {
        answers.numbers_told[i] = places.numbers[i] >= 0;
    }
    for (std::size_t i = 0; i < places.texts.size(); ++i) {
        answers.texts_told[i] = places.texts[i] >= 0;
    }
    read_only(layer, places);
    SharedTexts texts;
    const auto records = static_cast<std::size_t>(std::max<GIntBig>(0, layer.GetFeatureCount()));
    layer.ResetReading();
    while (const OGRFeatureUniquePtr record{layer.GetNextFeature()}) {
        if (answers.places.size() % answers_per_step == 0) {
            work.step(layer.GetName(), answers.places.size(), records);
            if (work.stopped()) {
                break;
            }
        }
        answers.places.push_back(answer_of(*record, places, file, texts));
    }
    layer.SetIgnoredFields(nullptr);
    return answers;
}

StoredTable stored_table(OGRLayer& layer) {
    StoredTable table{.name = layer.GetName()};
    const int columns = layer.GetLayerDefn()->GetFieldCount();
    for (int i = 0; i < columns; ++i) {
        table.columns.emplace_back(layer.GetLayerDefn()->GetFieldDefn(i)->GetNameRef());
    }
    layer.ResetReading();
    while (const OGRFeatureUniquePtr record{layer.GetNextFeature()}) {
        std::vector<std::string>& row = table.rows.emplace_back();
        for (int i = 0; i < columns; ++i) {
            row.push_back(cell_text(*record, i));
        }
    }
    return table;
}

}  // namespace farwater::io
