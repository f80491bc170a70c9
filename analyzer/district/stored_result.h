// A result that stands on a disk, as its layers and tables tell it: what `compare` lays side by
// side. Results are kept for years and an older one has fewer columns: what it does not tell is
// none, never zero, and it is said which columns those are.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "analyzer/district/calendar.h"
#include "analyzer/district/maybe.h"
#include "analyzer/district/shared_text.h"
#include "analyzer/district/words.h"

namespace farwater {

// A number in whole tenths, as results keep flows (gpm) and clocks (minutes): two are the same when
// they are the same to the tenth.
enum class Tenths : std::int32_t {};
constexpr std::int32_t whole(Tenths tenths) { return static_cast<std::int32_t>(tenths); }

template <>
struct NoneOf<Tenths> {
    static constexpr Tenths none() { return Tenths{INT32_MIN}; }
    static constexpr bool is_none(Tenths value) { return value == none(); }
};

// What is read of a place's answer, by the names of the columns that hold it.
enum class AnswerNumber : std::uint8_t {
    needed,
    cautious,
    later,
    tank_water,
    continuous,
    runner_up
};
enum class AnswerText : std::uint8_t { mode, limit, fill_source, evidence };
inline constexpr std::array<std::string_view, 6> answer_number_columns{
    "needed_gpm", "cautious_gpm", "later_gpm", "tank_water_min", "continuous_min", "runner_up_gpm"};
inline constexpr std::array<std::string_view, 4> answer_text_columns{"supply_mode", "binding_limit",
                                                                     "fill_source_id", "evidence"};
inline constexpr std::string_view answer_state_column = "state";

// The answer of one parcel or target, in its worst season and period.
struct StoredAnswer {
    std::string id;                    // as it stands there; may be empty
    std::int64_t row = 0;              // the key of its record
    std::optional<SupplyState> state;  // none: blank, or a word that this program does not know
    SharedText other_state;            // that word
    std::array<Maybe<Tenths>, answer_number_columns.size()> numbers{};
    std::array<SharedText, answer_text_columns.size()> texts{};  // empty: blank

    const Maybe<Tenths>& operator[](AnswerNumber which) const {
        return numbers[static_cast<std::size_t>(which)];
    }
    const SharedText& operator[](AnswerText which) const {
        return texts[static_cast<std::size_t>(which)];
    }
};

// The places of one layer.
struct StoredAnswers {
    bool told = false;  // the layer is there
    std::array<bool, answer_number_columns.size()> numbers_told{};
    std::array<bool, answer_text_columns.size()> texts_told{};
    std::vector<StoredAnswer> places;  // in the layer's order

    bool tells(AnswerNumber which) const { return numbers_told[static_cast<std::size_t>(which)]; }
    bool tells(AnswerText which) const { return texts_told[static_cast<std::size_t>(which)]; }
};

// A table without shapes, cell by cell as text: numbers to the tenth where their column is one of
// gpm, gallons or feet, else to six decimals, without zeros at the end. An empty cell is blank.
struct StoredTable {
    std::string name;
    std::vector<std::string> columns;
    std::vector<std::vector<std::string>> rows;  // each as long as `columns`
};

// Key by key, in the order in which the result has them; a key may stand several times.
using StoredRecord = std::vector<std::pair<std::string, std::string>>;

struct StoredResult {
    StoredRecord record;                   // run_record
    std::optional<Date> data_date;         // none: it does not say
    StoredAnswers parcels, targets;        // parcel_supply, target_supply
    std::vector<StoredTable> tables;       // those that it has of the ones that are compared
    std::optional<StoredRecord> settings;  // of the district file, flat: "season.winter.months"

    const StoredTable* table(std::string_view name) const {
        for (const StoredTable& each : tables) {
            if (each.name == name) {
                return &each;
            }
        }
        return nullptr;
    }
    // "" where the record has no such key.
    std::string_view recorded(std::string_view key) const {
        for (const auto& [name, value] : record) {
            if (name == key) {
                return value;
            }
        }
        return {};
    }
};

}  // namespace farwater
