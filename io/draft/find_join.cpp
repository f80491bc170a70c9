#include "io/draft/find_join.h"

#include <algorithm>
#include <array>
#include <set>
#include <string_view>
#include <tuple>

#include "io/draft/section_points.h"
#include "io/records/column_names.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

// Whole numbers that lie close together, as record numbers do.
bool only_counts(const ColumnLook& column) {
    return column.numbers &&
           column.high - column.low < 2.0 * static_cast<double>(column.values.size()) + 2.0;
}

bool is_record_number(const ColumnLook& column) {
    constexpr std::array names{"fid"sv, "ogc_fid"sv, "objectid"sv, "oid"sv, "gid"sv,
                               "id"sv,  "row"sv,     "number"sv,   "no"sv,  "shape_id"sv};
    return std::ranges::find(names, plain_column_name(column.name)) != names.end();
}

// Two columns of counts agree by chance, unless both are called the same key.
bool may_agree_by_chance(const ColumnLook& a, const ColumnLook& b, bool same_name) {
    return (only_counts(a) || only_counts(b)) && (!same_name || is_record_number(a));
}

std::size_t values_in_both(const ColumnLook& a, const ColumnLook& b) {
    const std::set<std::string_view> of_a(a.values.begin(), a.values.end());
    return static_cast<std::size_t>(std::ranges::count_if(
        b.values, [&](const std::string& value) { return of_a.contains(value); }));
}

struct SharedKey {
    const ColumnLook* of_table = nullptr;
    const ColumnLook* of_parcels = nullptr;
    std::size_t common = 0;
    bool same_name = false;
    bool sure = false;
};

// Of two keys, the one that more values prove, else the one of the same name.
bool proves_more(const SharedKey& a, const SharedKey& b) {
    return std::tuple(a.sure, a.common, a.same_name) > std::tuple(b.sure, b.common, b.same_name);
}

// A key has one row for each value; a few doubles are told when it is read.
bool may_be_key(const ColumnLook& column, std::size_t sampled) {
    return column.values.size() * 10 >= sampled * 9 && column.values.size() >= 3;
}

// None: the two columns are no key.
std::optional<SharedKey> key_of(const ColumnLook& own, const ColumnLook& theirs) {
    const bool same_name = plain_column_name(own.name) == plain_column_name(theirs.name);
    if (may_agree_by_chance(own, theirs, same_name)) {
        return std::nullopt;
    }
    SharedKey key{&own, &theirs, values_in_both(own, theirs), same_name};
    const std::size_t smaller = std::min(own.values.size(), theirs.values.size());
    key.sure = key.common >= 3 && (key.common * 2 >= smaller || same_name);
    return key.sure || same_name ? std::optional(key) : std::nullopt;
}

std::optional<SharedKey> shared_key(const LayerLook& table, const LayerLook& parcels) {
    std::optional<SharedKey> best;
    for (const ColumnLook& own : table.columns) {
        for (const ColumnLook& theirs : parcels.columns) {
            const std::optional<SharedKey> key =
                may_be_key(own, table.sampled) ? key_of(own, theirs) : std::nullopt;
            if (key && (!best || proves_more(*key, *best))) {
                best = key;
            }
        }
    }
    return best;
}

}  // namespace

std::optional<JoinCandidate> find_join(const LayerLook& table, const Candidate& parcels) {
    if (table.shape != LookShape::none || table.columns.empty()) {
        return std::nullopt;
    }
    const std::optional<SharedKey> key = shared_key(table, *parcels.look);
    const bool assessors = hint_of(table.called, "join") > 0 || telling_columns(table, "join") >= 2;
    if (!key || (!key->sure && !assessors)) {
        return std::nullopt;
    }
    JoinCandidate join{.look = &table, .key = key->of_table->name, .sure = key->sure};
    const ColumnMatch* id = find_match(parcels.match.sure, "parcel_id");
    const bool by_id = id != nullptr && id->column == key->of_parcels;
    join.parcel_key = by_id ? std::string() : key->of_parcels->name;
    SectionMatch fields = match_columns(table, *parcels.match.section);
    const auto is_no_news = [&](const ColumnMatch& match) {
        return match.field->name == "parcel_id" || match.column == key->of_table ||
               find_match(parcels.match.sure, match.field->name) != nullptr;
    };
    std::erase_if(fields.sure, is_no_news);
    std::erase_if(fields.likely, is_no_news);
    join.columns = std::move(fields.sure);
    join.likely = std::move(fields.likely);
    return join;
}

}  // namespace farwater::io
