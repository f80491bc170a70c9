#include "io/settings/read_standard.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "io/near_word.h"
#include "io/settings/district_layers.h"
#include "io/settings/faults.h"
#include "io/settings/standard_texts.h"
#include "io/settings/toml_tree.h"
#include "io/settings/toml_value.h"

namespace farwater::io {
namespace {

constexpr std::string_view certainty_key = "certainty";
constexpr std::string_view source_key = "source";
constexpr std::string_view section_key = "section";

bool is_remark(std::string_view key) {
    return key == certainty_key || key == source_key || key == section_key;
}

// Where a value of the file begins, for messages.
struct ReadValue {
    StandardValue value;
    TomlPlace place;
};

class StandardReading {
public:
    StandardReading(Certainty unless_said, Faults& faults)
        : unless_said_(unless_said), faults_(&faults) {}

    std::vector<ReadValue> values_of(const TomlTable& top) {
        for (const TomlEntry& entry : top) {
            if (const auto* table = entry.node.as<TomlTable>()) {
                read_table(entry.key, *table);
            } else if (entry.key != "name" && entry.key != "edition" &&
                       entry.key != "not_looked_at") {
                faults_->add(entry.key_place,
                             fmt::format("{} is no table; a standard has name, edition, "
                                         "not_looked_at and tables of numbers",
                                         entry.key));
            }
        }
        return std::move(values_);
    }

private:
    // What is said of where a value stands, over what the head of its table says.
    void read_remarks(const TomlTable& table, StandardValue& value) {
        for (const TomlEntry& entry : table) {
            if (!is_remark(entry.key)) {
                continue;
            }
            const auto* text = entry.node.as<std::string>();
            const auto certainty = text == nullptr ? std::nullopt : parse_word<Certainty>(*text);
            if (text == nullptr) {
                faults_->add(entry.node.place, fmt::format("{} must be a text", entry.key));
            } else if (entry.key == source_key) {
                value.source = *text;
            } else if (entry.key == section_key) {
                value.section = *text;
            } else if (certainty) {
                value.certainty = *certainty;
            } else {
                faults_->add(entry.node.place, fmt::format("certainty must be {}, not \"{}\"",
                                                           one_of(words_of(Certainty{})), *text));
            }
        }
    }

    void read_table(const std::string& name, const TomlTable& table) {
        StandardValue head;
        head.certainty = unless_said_;
        read_remarks(table, head);
        for (const TomlEntry& entry : table) {
            if (is_remark(entry.key)) {
                continue;
            }
            StandardValue value = head;
            value.key = name + "." + entry.key;
            const TomlNode* node = &entry.node;
            if (const auto* told = entry.node.as<TomlTable>()) {
                read_remarks(*told, value);
                const TomlEntry* inner = find_entry(*told, "value");
                node = inner == nullptr ? node : &inner->node;
            }
            if (const auto* word = node->as<std::string>()) {
                value.text = *word;
                values_.push_back({std::move(value), entry.key_place});
            } else if (read_numbers(*node, value)) {
                values_.push_back({std::move(value), entry.key_place});
            }
        }
    }

    bool read_numbers(const TomlNode& node, StandardValue& value) {
        const auto* list = node.as<TomlArray>();
        value.is_list = list != nullptr;
        const TomlArray nodes = list == nullptr ? TomlArray{node} : *list;
        for (const TomlNode& one : nodes) {
            const std::optional<double> number = number_of(one);
            if (!number || *number < 0.0) {
                faults_->add(one.place, fmt::format("{} must be a number of 0 or more, or a list "
                                                    "of them",
                                                    value.key));
                return false;
            }
            value.numbers.push_back(*number);
        }
        if (nodes.empty()) {
            faults_->add(node.place, fmt::format("{} is an empty list", value.key));
        }
        return !nodes.empty();
    }

    Certainty unless_said_;
    Faults* faults_;
    std::vector<ReadValue> values_;
};

std::string text_at(const TomlTable& top, std::string_view key) {
    const TomlEntry* entry = find_entry(top, key);
    const auto* text = entry == nullptr ? nullptr : entry->node.as<std::string>();
    return text == nullptr ? std::string() : *text;
}

std::vector<std::string_view> keys_of(const Standard& standard) {
    std::vector<std::string_view> keys;
    for (const StandardValue& value : standard.values) {
        keys.push_back(value.key);
    }
    return keys;
}

std::string_view table_of(std::string_view key) { return key.substr(0, key.find('.')); }

// Bounds of steps: their names say so.
bool are_bounds(const StandardValue& value) {
    const std::string name = value.key.substr(value.key.find('.') + 1);
    return value.is_list && (name.find("up_to") != std::string::npos || name.starts_with("below"));
}

// Words of the terms that stand in a closed list; the others are free.
struct WordsOfKey {
    std::string_view key;
    std::span<const std::string_view> words;
};

std::span<const std::string_view> words_for(std::string_view key) {
    constexpr std::size_t past_mapped = 1;  // water that is only mapped never counts
    const std::array rows{
        WordsOfKey{"clock.from", words_of(ClockStart{})},
        WordsOfKey{"hauling.drive_rule", words_of(DriveRule{})},
        WordsOfKey{"hauling.apparatus", words_of(Aid{})},
        WordsOfKey{"source.least_standing", words_of(Standing{}).subspan(past_mapped)},
        WordsOfKey{"source.drought_certificate", words_of(Asked{})},
        WordsOfKey{"source.all_weather", words_of(Asked{})},
        WordsOfKey{"source.all_year", words_of(Asked{})},
        WordsOfKey{"source.freeze_provision", words_of(Asked{})},
        WordsOfKey{"source.owner_permission", words_of(Asked{})},
    };
    const auto row = std::ranges::find(rows, key, &WordsOfKey::key);
    return row == rows.end() ? std::span<const std::string_view>{} : row->words;
}

std::string wrong_word(const StandardValue& theirs) {
    const auto words = words_for(theirs.key);
    const bool listed = words.empty() || std::ranges::find(words, theirs.text) != words.end();
    return listed ? "" : fmt::format("must be {}", one_of(words));
}

std::string wrong_value(const StandardValue& ours, const StandardValue& theirs) {
    if (ours.text.empty() != theirs.text.empty() ||
        !ours.numbers.empty() != !theirs.numbers.empty()) {
        return ours.numbers.empty() ? "must be a word"
                                    : "must be a number of 0 or more, or a list of them";
    }
    if (ours.numbers.empty()) {
        return wrong_word(theirs);
    }
    if (ours.is_list != theirs.is_list) {
        return ours.is_list ? "must be a list of numbers" : "must be one number";
    }
    const bool zero_is_ours = std::ranges::find(ours.numbers, 0.0) != ours.numbers.end();
    if (!zero_is_ours && std::ranges::find(theirs.numbers, 0.0) != theirs.numbers.end()) {
        return "cannot be 0";
    }
    const bool ascends =
        std::ranges::adjacent_find(theirs.numbers, std::greater_equal<>{}) == theirs.numbers.end();
    return are_bounds(ours) && !ascends ? "must go up from number to number" : "";
}

// How many numbers more the list has than the other list of its table.
std::ptrdiff_t longer_by(const Standard& standard, const StandardValue& value) {
    for (const StandardValue& other : standard.values) {
        if (other.is_list && other.key != value.key && table_of(other.key) == table_of(value.key)) {
            return std::ssize(value.numbers) - std::ssize(other.numbers);
        }
    }
    return 0;
}

// A list of bounds may be followed by another that goes on from it.
bool goes_on(const Standard& standard, const std::string& table) {
    const std::vector<double> first = standard.list(table + ".up_to_sqft");
    const std::vector<double> then = standard.list(table + ".then_up_to_sqft");
    return first.empty() || then.empty() || first.back() < then.front();
}

// Lists that belong together, bounds and entries, must fit each other as ours do.
bool lists_fit(const Standard& before, const Standard& after, const std::string& key) {
    const StandardValue& now = *after.find(key);
    const std::string table(table_of(key));
    if (!now.is_list || table == "dwelling") {
        return true;
    }
    return after.find(table + ".then_up_to_sqft") != nullptr
               ? goes_on(after, table)
               : longer_by(before, *before.find(key)) == longer_by(after, now);
}

// The tables of dwellings are two pairs of lists in one table.
bool dwelling_lists_fit(const Standard& standard) {
    for (const std::string which : {"dwelling.older", "dwelling.newer"}) {
        if (standard.find(which + "_gpm") != nullptr &&
            standard.list(which + "_gpm").size() != standard.list(which + "_up_to_ft").size() + 1) {
            return false;
        }
    }
    return true;
}

void put_in(Standard& standard, const std::vector<ReadValue>& own, Faults& faults) {
    const Standard before = standard;
    for (const ReadValue& read : own) {
        const auto ours = std::ranges::find(standard.values, read.value.key, &StandardValue::key);
        if (ours == standard.values.end()) {
            faults.add(read.place, fmt::format("the standard has no {}{}", read.value.key,
                                               did_you_mean(read.value.key, keys_of(standard))));
            continue;
        }
        const std::string wrong = wrong_value(*ours, read.value);
        if (!wrong.empty()) {
            faults.add(read.place, fmt::format("{} {}", read.value.key, wrong));
            continue;
        }
        *ours = read.value;
    }
    for (const ReadValue& read : own) {
        if (standard.find(read.value.key) != nullptr &&
            !(lists_fit(before, standard, read.value.key) && dwelling_lists_fit(standard))) {
            faults.add(read.place,
                       fmt::format("{} does not fit the other lists of its table: they grow and "
                                   "shrink together, and one goes on where another ends",
                                   read.value.key));
        }
    }
}

Standard standard_of(std::string_view text, std::string_view name) {
    if (text.empty()) {
        return {};
    }
    const TomlTable top = parse_toml(text, std::string(name));
    Faults faults{std::string(name)};
    Standard standard{
        text_at(top, "name"), text_at(top, "edition"), text_at(top, "not_looked_at"), {}, {}};
    for (ReadValue& read : StandardReading(Certainty::memory_low, faults).values_of(top)) {
        standard.values.push_back(std::move(read.value));
    }
    faults.throw_if_any();
    return standard;
}

Standard with_own(Standard standard, const std::string& text, const std::filesystem::path& path,
                  const std::string& as_written) {
    const TomlTable top = parse_toml(text, path.string());
    Faults faults(path.string());
    const auto own = StandardReading(Certainty::own_copy, faults).values_of(top);
    put_in(standard, own, faults);
    faults.throw_if_any();
    standard.own_file = as_written;
    const std::string name = text_at(top, "name");
    const std::string edition = text_at(top, "edition");
    standard.name = name.empty() ? standard.name : name;
    standard.edition = edition.empty() ? standard.edition : edition;
    const std::string not_looked_at = text_at(top, "not_looked_at");
    standard.not_looked_at = not_looked_at.empty() ? standard.not_looked_at : not_looked_at;
    return standard;
}

}  // namespace

Standard built_in_standard(NeedMethod method) {
    return standard_of(standard_text(method), word(method));
}

Standard standard_with_own(NeedMethod method, const std::string& text,
                           const std::filesystem::path& path, const std::string& as_written) {
    return with_own(built_in_standard(method), text, path, as_written);
}

Standard built_in_terms(RatingTerms terms) {
    return standard_of(standard_text(terms), word(terms));
}

Standard terms_with_own(RatingTerms terms, const std::string& text,
                        const std::filesystem::path& path, const std::string& as_written) {
    return with_own(built_in_terms(terms), text, path, as_written);
}

}  // namespace farwater::io
