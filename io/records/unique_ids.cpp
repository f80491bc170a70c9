#include "io/records/unique_ids.h"

#include <algorithm>
#include <functional>

#include <fmt/format.h>

#include "io/records/parse_cell.h"

namespace farwater::io {

TextSet::Slot& TextSet::slot_of(std::string_view text, std::size_t hash) {
    const std::size_t mask = slots_.size() - 1;
    const auto tag = static_cast<std::uint32_t>(hash >> 32U);
    std::size_t at = hash & mask;
    while (slots_[at].position != 0 &&
           (slots_[at].tag != tag || texts_[slots_[at].position - 1] != text)) {
        at = (at + 1) & mask;
    }
    return slots_[at];
}

void TextSet::grow() {
    slots_.assign(std::max<std::size_t>(64, slots_.size() * 2), Slot{});
    for (std::size_t i = 0; i < texts_.size(); ++i) {
        const std::size_t hash = std::hash<std::string_view>{}(texts_[i]);
        slot_of(texts_[i], hash) = {static_cast<std::uint32_t>(hash >> 32U),
                                    static_cast<std::uint32_t>(i + 1)};
    }
}

bool TextSet::insert(std::string_view text) {
    if (texts_.size() * 2 >= slots_.size()) {
        grow();
    }
    const std::size_t hash = std::hash<std::string_view>{}(text);
    Slot& slot = slot_of(text, hash);
    if (slot.position != 0) {
        return false;
    }
    texts_.emplace_back(text);
    slot = {static_cast<std::uint32_t>(hash >> 32U), static_cast<std::uint32_t>(texts_.size())};
    return true;
}

bool TextSet::contains(std::string_view text) {
    return !slots_.empty() && slot_of(text, std::hash<std::string_view>{}(text)).position != 0;
}

namespace {

// The id as it stands, or the row number where there is none.
std::string id_or_row(Record& record, std::string_view field) {
    std::string id = record.text(field);
    if (!id.empty()) {
        return id;
    }
    if (record.has(field)) {
        record.report(ProblemId::id_missing, field, {});
    }
    return row_name(record.row());
}

std::string without_case_and_blanks(std::string_view id) {
    std::string plain = lower_case(id);
    std::erase(plain, ' ');
    return plain;
}

}  // namespace

std::string UniqueIds::take(Record& record, std::string_view field) {
    const std::string id = id_or_row(record, field);
    std::string name = unique(id);
    record.call(name);
    if (name != id) {
        record.report(ProblemId::id_duplicate, field, fmt::format("\"{}\"", id));
    }
    return name;
}

std::string UniqueIds::unique(const std::string& id) {
    if (taken_.insert(id)) {
        return id;
    }
    int& copy = next_copy_.try_emplace(id, 2).first->second;
    std::string name;
    do {
        name = fmt::format("{} ({})", id, copy++);
    } while (!taken_.insert(name));
    return name;
}

std::optional<std::string> IdsOnce::take(Record& record, std::string_view field) {
    std::string id = id_or_row(record, field);
    record.call(id);
    if (used_.contains(without_case_and_blanks(id))) {
        record.report(ProblemId::row_twice, field, {});
        return std::nullopt;
    }
    return id;
}

void IdsOnce::used(const std::string& id) { used_.insert(without_case_and_blanks(id)); }

}  // namespace farwater::io
