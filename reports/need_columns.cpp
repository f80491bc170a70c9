#include "reports/need_columns.h"

#include <algorithm>
#include <array>
#include <memory>

#include <fmt/format.h>

#include "analyzer/demand/need_bands.h"
#include "reports/layers.h"

namespace farwater::reports {
namespace {

// What took a default, joined by commas: every combination stands ready, since a row only looks.
const std::string& words_of_defaults(NeedInputs inputs) {
    static const std::array<std::string, 16> texts = [] {
        std::array<std::string, 16> all;
        for (std::size_t bits = 0; bits < all.size(); ++bits) {
            for (std::size_t i = 0; i < words_of(NeedInput{}).size(); ++i) {
                if ((bits >> i & 1U) != 0) {
                    all[bits] += all[bits].empty() ? "" : ",";
                    all[bits] += words_of(NeedInput{})[i];
                }
            }
        }
        return all;
    }();
    std::size_t bits = 0;
    for (std::size_t i = 0; i < words_of(NeedInput{}).size(); ++i) {
        bits |= inputs.has(static_cast<NeedInput>(i)) ? std::size_t{1} << i : 0;
    }
    return texts[bits];
}

std::size_t on_defaults(const Findings& findings) {
    std::size_t count = 0;
    for (std::size_t row = 0; row < std::min(findings.parcels(), findings.needs.size()); ++row) {
        const auto& need = findings.needs[row];
        const bool rests =
            need && (!need->defaulted.empty() || need->from == NeedFrom::default_flow);
        count += rests ? 1U : 0U;
    }
    return count;
}

std::string numbers_in_words(const StandardValue& value) {
    std::string text;
    for (const double number : value.numbers) {
        text += fmt::format("{}{:.10g}", text.empty() ? "" : ", ", number);
    }
    return text;
}

}  // namespace

std::vector<ColumnOf> need_columns(const Findings& findings) {
    const auto of = [findings](std::size_t row) -> const Need* {
        const bool there = row < findings.needs.size() && findings.needs[row];
        return there ? &*findings.needs[row] : nullptr;
    };
    const auto worst = [findings, of](std::size_t row) -> const Building* {
        const Need* need = of(row);
        return need != nullptr && need->worst.valid()
                   ? &at(findings.district.buildings, need->worst)
                   : nullptr;
    };
    const auto positive = [](double number) {
        return number > 0.0 ? io::Value{number} : io::Value{};
    };
    return {
        text("need_from",
             "method: the district's method for the worst building; column: the property's own; "
             "default: the default flow.",
             [of](std::size_t row) {
                 return of(row) != nullptr ? io::Value{word(of(row)->from)} : io::Value{};
             }),
        text("need_defaults",
             "What the data do not tell and takes a stated default: footprint, use, construction, "
             "storeys.",
             [of](std::size_t row) {
                 return of(row) != nullptr ? value_of(words_of_defaults(of(row)->defaulted))
                                           : io::Value{};
             }),
        real("dwelling_gpm",
             "Needed flow of the property's dwelling by itself, gpm; empty where the method knows "
             "none.",
             [of, positive](std::size_t row) {
                 return of(row) != nullptr ? positive(in_gpm(flow_of(of(row)->dwelling)))
                                           : io::Value{};
             }),
        real(
            "method_total_gal",
            "Total water that the method asks for at the worst building, gallons. The state is "
            "judged on needed_gpm over duration_min, never on this over the flow.",
            [of, positive](std::size_t row) {
                return of(row) != nullptr ? positive(static_cast<double>(of(row)->total_gal))
                                          : io::Value{};
            },
            0),
        real(
            "worst_building_sqft", "Footprint of the building that the need goes by, square feet.",
            [worst, positive](std::size_t row) {
                constexpr double square_feet = 1.0 / (metres_per_foot * metres_per_foot);
                return worst(row) != nullptr
                           ? positive(static_cast<double>(worst(row)->area_m2) * square_feet)
                           : io::Value{};
            },
            0),
        real("separation_ft",
             "From that building to the nearest other one of at least the size that counts, feet; "
             "empty: none within the method's reach, or not looked for.",
             [worst](std::size_t row) {
                 const Building* building = worst(row);
                 return building != nullptr &&
                                building->separation.nearest_large_m != Separation::none
                            ? io::Value{in_feet(metres(
                                  static_cast<double>(building->separation.nearest_large_m)))}
                            : io::Value{};
             }),
    };
}

std::string_view certainty_in_words(Certainty certainty) {
    switch (certainty) {
        case Certainty::seen:
            return "seen in the source";
        case Certainty::second_hand:
            return "seen in a text that quotes the standard";
        case Certainty::memory_high:
            return "from memory, fairly sure; not confirmed";
        case Certainty::memory_medium:
            return "from memory, less sure; not confirmed";
        case Certainty::memory_low:
            return "from memory, hardly sure; not confirmed";
        case Certainty::derived:
            return "derived, or our own choice";
        case Certainty::own_copy:
            break;
    }
    return "from the district's own copy";
}

bool is_from_memory(Certainty certainty) {
    return certainty == Certainty::memory_high || certainty == Certainty::memory_medium ||
           certainty == Certainty::memory_low;
}

std::vector<std::pair<std::string, std::string>> need_in_words(const District& district) {
    const NeedRules& rules = district.need;
    std::vector<std::pair<std::string, std::string>> lines{
        {"need_method", std::string(word(rules.method))}};
    if (rules.standard.values.empty()) {
        return lines;
    }
    const auto memory = std::ranges::count_if(
        rules.standard.values, [](const StandardValue& v) { return is_from_memory(v.certainty); });
    const auto own =
        std::ranges::count(rules.standard.values, Certainty::own_copy, &StandardValue::certainty);
    lines.emplace_back("need_standard",
                       fmt::format("{}; {}", rules.standard.name, rules.standard.edition));
    lines.emplace_back(
        "need_standard_values",
        fmt::format("{} values, {} of them from memory and not confirmed, {} from the district's "
                    "own copy{}; table need_standard",
                    rules.standard.values.size(), memory, own,
                    rules.standard.own_file.empty() ? "" : " " + rules.standard.own_file));
    if (rules.method == NeedMethod::rural_supply) {
        lines.emplace_back("need_dwelling_cap", rules.dwelling_cap ? "yes" : "no");
    }
    if (rules.method == NeedMethod::rating_schedule) {
        lines.emplace_back("need_separation_table", std::string(word(rules.separation_table)));
    }
    lines.emplace_back("need_default_use", std::string(word(rules.default_use)));
    lines.emplace_back("need_default_construction", std::string(word(rules.default_construction)));
    return lines;
}

std::string need_bands_text(const Findings& findings) {
    const auto all = demand::need_bands(findings.district, findings.needs);
    std::string text = fmt::format("{:<48}", "Improved parcels by needed flow, gpm, up to");
    for (const int bound : demand::need_band_gpm) {
        text += fmt::format(" {:>6}", bound);
    }
    text += fmt::format(" {:>6}\n", "more");
    for (const demand::NeedBands& bands : all) {
        text += fmt::format("  {:<46}", bands.rule);
        for (const std::size_t count : bands.parcels) {
            text += fmt::format(" {:>6}", count);
        }
        text += "\n";
    }
    return text + fmt::format(
                      "  {} of them rest on a default for something that the data do not "
                      "tell.\n",
                      on_defaults(findings));
}

io::FeatureTable need_standard(const Findings& findings) {
    const Standard& standard = findings.district.need.standard;
    const auto of = [&standard](std::size_t row) -> const StandardValue& {
        return standard.values[row];
    };
    const auto texts = std::make_shared<const std::vector<std::string>>([&standard] {
        std::vector<std::string> all;
        for (const StandardValue& value : standard.values) {
            all.push_back(numbers_in_words(value));
        }
        return all;
    }());
    std::vector<ColumnOf> columns{
        text("key", "Table and name in the method's file; it ends in its unit.",
             [of](std::size_t row) { return value_of(of(row).key); }),
        text("value", "Number, or numbers of a list in their order.",
             [texts](std::size_t row) { return value_of((*texts)[row]); }),
        text("section", "Where it stands in the standard.",
             [of](std::size_t row) { return value_of(of(row).section); }),
        text("certainty", "How sure it is; what comes from memory was not confirmed.",
             [of](std::size_t row) { return value_of(certainty_in_words(of(row).certainty)); }),
        text("source", "Where it was seen, or what it is remembered from.",
             [of](std::size_t row) { return value_of(of(row).source); }),
    };
    return table(
        {"need_standard", "Every number of the needed-flow method",
         standard.values.empty() ? "The needed flow rests on no published standard in this run."
                                 : standard.name + "; " + standard.edition +
                                       ". A copy of the standard goes first: [need] standard."},
        std::move(columns), standard.values.size());
}

}  // namespace farwater::reports
