#include "io/records/column_names.h"

#include <ogrsf_frmts.h>

#include "io/files/letters.h"
#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

template <class IsIt>
std::vector<int> places_where(const std::vector<std::string>& names, const IsIt& is_it) {
    std::vector<int> places;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (is_it(names[i])) {
            places.push_back(static_cast<int>(i));
        }
    }
    return places;
}

bool is_between(std::string_view text, std::size_t at) {
    const char c = text[at];
    const bool letter =
        (c >= 'a' && c <= 'z') || is_digit(c) || static_cast<unsigned char>(c) >= 0x80;
    return !letter;
}

}  // namespace

std::string plain_column_name(std::string_view name) {
    std::string lower = lower_case(name);
    for (const std::string_view blank : {"\u00a0", "\ufeff", "\u200b"}) {
        for (auto at = lower.find(blank); at != std::string::npos; at = lower.find(blank)) {
            lower.replace(at, blank.size(), " ");
        }
    }
    std::string plain;
    for (std::size_t at = 0; at < lower.size(); ++at) {
        if (!is_between(lower, at)) {
            plain += lower[at];
        } else if (!plain.empty() && plain.back() != '_') {
            plain += '_';
        }
    }
    if (plain.ends_with('_')) {
        plain.pop_back();
    }
    return plain;
}

std::vector<int> columns_called(std::string_view name, const std::vector<std::string>& names) {
    std::vector<int> places =
        places_where(names, [&](const std::string& other) { return other == name; });
    if (places.empty()) {
        const std::string lower = lower_case(name);
        places = places_where(names,
                              [&](const std::string& other) { return lower_case(other) == lower; });
    }
    const std::string plain = places.empty() ? plain_column_name(name) : "";
    if (!plain.empty()) {
        places = places_where(
            names, [&](const std::string& other) { return plain_column_name(other) == plain; });
    }
    return places;
}

std::vector<std::string> column_names(OGRLayer& layer) {
    std::vector<std::string> names;
    OGRFeatureDefn& columns = *layer.GetLayerDefn();
    for (int i = 0; i < columns.GetFieldCount(); ++i) {
        names.push_back(seen_letters(as_utf8(columns.GetFieldDefn(i)->GetNameRef())).text);
    }
    return names;
}

}  // namespace farwater::io
