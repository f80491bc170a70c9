#include "reports/need_columns.h"

#include <algorithm>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "analyzer/demand/need_bands.h"
#include "reports/layers.h"

namespace farwater::reports {
namespace {

std::string joined_words(NeedInputs inputs) {
    std::string joined;
    for (std::size_t i = 0; i < words_of(NeedInput{}).size(); ++i) {
        if (inputs.has(static_cast<NeedInput>(i))) {
            joined += joined.empty() ? "" : ",";
            joined += words_of(NeedInput{})[i];
        }
    }
    return joined;
}

// What took a default, joined by commas: every combination stands ready, since a row only looks.
const std::string& words_of_defaults(NeedInputs inputs) {
    static const std::vector<std::pair<NeedInputs, std::string>> texts = [] {
        std::vector<std::pair<NeedInputs, std::string>> all{{}};
        for (std::size_t i = 0; i < words_of(NeedInput{}).size(); ++i) {
            for (std::size_t k = 0, known = all.size(); k < known; ++k) {
                NeedInputs more = all[k].first;
                more.add(static_cast<NeedInput>(i));
                all.emplace_back(more, joined_words(more));
            }
        }
        return all;
    }();
    return std::ranges::find(texts, inputs, &std::pair<NeedInputs, std::string>::first)->second;
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

io::Value positive(double number) { return number > 0.0 ? io::Value{number} : io::Value{}; }

// A cell from the row's need; empty where none is known.
template <typename Cell>
auto from_need(const Findings& findings, Cell cell) {
    return [findings, cell](std::size_t row) {
        const bool there = row < findings.needs.size() && findings.needs[row];
        return there ? cell(*findings.needs[row]) : io::Value{};
    };
}

// A cell from the building that the row's need goes by; empty where there is none.
template <typename Cell>
auto from_worst(const Findings& findings, Cell cell) {
    return from_need(findings, [findings, cell](const Need& need) {
        return need.worst.valid() ? cell(at(findings.district.buildings, need.worst)) : io::Value{};
    });
}

io::Value separation_ft(const Building& building) {
    const float metres_off = building.separation.nearest_large_m;
    return metres_off != Separation::none
               ? io::Value{in_feet(metres(static_cast<double>(metres_off)))}
               : io::Value{};
}

}  // namespace

std::vector<ColumnOf> need_columns(const Findings& findings) {
    constexpr double square_feet = 1.0 / square_metres_per_square_foot;
    return {
        text("need_from",
             "method: the district's method for the worst building; column: the property's own; "
             "default: the default flow.",
             from_need(findings, [](const Need& need) { return io::Value{word(need.from)}; })),
        text("need_defaults",
             "What the data do not tell and takes a stated default: footprint, use, construction, "
             "storeys.",
             from_need(
                 findings,
                 [](const Need& need) { return value_of(words_of_defaults(need.defaulted)); })),
        real("dwelling_gpm",
             "Needed flow of the property's dwelling by itself, gpm; empty where the method knows "
             "none.",
             from_need(findings,
                       [](const Need& need) { return positive(in_gpm(flow_of(need.dwelling))); })),
        real("method_total_gal",
             "Total water that the method asks for at the worst building, gallons. The state is "
             "judged on needed_gpm over duration_min, never on this over the flow.",
             from_need(
                 findings,
                 [](const Need& need) { return positive(static_cast<double>(need.total_gal)); }),
             0),
        real("worst_building_sqft", "Footprint of the building that the need goes by, square feet.",
             from_worst(findings,
                        [](const Building& building) {
                            return positive(static_cast<double>(building.area_m2) * square_feet);
                        }),
             0),
        real("separation_ft",
             "From that building to the nearest other one of at least the size that counts, feet; "
             "empty: none within the method's reach, or not looked for.",
             from_worst(findings, separation_ft)),
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
