// The source register as a table: what every sheet of it says, and of sources without a sheet too.
#include <algorithm>
#include <array>
#include <iterator>
#include <memory>
#include <utility>

#include <fmt/format.h>

#include "analyzer/supply/suction_point.h"
#include "reports/layers/source_cells.h"
#include "reports/rating/makes_water.h"
#include "reports/rating/missing_evidence.h"
#include "reports/rating/rating_tables.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

using CountedAt = std::function<const supply::CountedSource*(std::size_t row)>;

// Null: it does not count at all.
CountedAt counted_at(const Findings& findings) {
    return [findings](std::size_t row) -> const supply::CountedSource* {
        return findings.water.counts[row]
                   ? &supply::counted_source(findings.water, SourceIndex(row))
                   : nullptr;
    };
}

ColumnOf degrees_of(const District& district, std::string name, std::string description,
                    double Degrees::* which) {
    return real(
        std::move(name), std::move(description),
        [&district, which](std::size_t row) {
            const auto& degrees = district.sources[row].degrees;
            return degrees ? io::Value{(*degrees).*which} : io::Value{};
        },
        5);
}

std::vector<ColumnOf> which_source(const Findings& findings) {
    const District& district = findings.district;
    const auto source = [&district](std::size_t row) -> const WaterSource& {
        return district.sources[row];
    };
    return {
        text("source_id", "Source.",
             [source](std::size_t row) { return value_of(source(row).id); }),
        text("name", "Its name.", [source](std::size_t row) { return value_of(source(row).name); }),
        text("kind", "hydrant, dry_hydrant, draft_site or cistern.",
             [source](std::size_t row) { return io::Value{word(source(row).kind)}; }),
        degrees_of(district, "latitude", "Degrees north, WGS 84.", &Degrees::latitude),
        degrees_of(district, "longitude", "Degrees east, WGS 84.", &Degrees::longitude),
        real("map_x_m", "Place on the map of the result, metres.",
             [source](std::size_t row) { return io::Value{source(row).place.x}; }),
        real("map_y_m", "Likewise, north.",
             [source](std::size_t row) { return io::Value{source(row).place.y}; }),
        yes_no("offered_for_rating", "The department offers it for rating.",
               [findings](std::size_t row) {
                   return io::Value{findings.rating->sources[row].is_candidate};
               }),
        yes_no("is_there", "no: one of [what_if_sources], counted as if it were there.",
               [&district](std::size_t row) {
                   return io::Value{district.is_there(SourceIndex(row))};
               }),
        yes_no("counts", "It has all that the terms ask for.",
               [findings](std::size_t row) {
                   return io::Value{findings.rating->sources[row].creditable()};
               }),
        text("cross_street", "The nearest.",
             [source](std::size_t row) { return value_of(source(row).cross_street); }),
    };
}

std::vector<ColumnOf> columns_as_counted(const Findings& findings) {
    const CountedAt counted = counted_at(findings);
    return {
        real(
            "rate_gpm", "What it gives, gpm; empty: it does not count at all.",
            [counted](std::size_t row) {
                const auto* found = counted(row);
                return found != nullptr ? io::Value{in_gpm(found->rate)} : io::Value{};
            },
            0),
        text("rate_limit", "What that rate rests on, or what keeps it down.",
             [counted](std::size_t row) {
                 const auto* found = counted(row);
                 return found != nullptr ? io::Value{word(found->limit)} : io::Value{};
             }),
        text("evidence", "What is counted rests on: tested, declared or assumed.",
             [counted](std::size_t row) {
                 const auto* found = counted(row);
                 return found != nullptr ? io::Value{word(found->evidence)} : io::Value{};
             }),
        text("usable_gal", "Gallons at drought level, or unlimited.",
             [counted, kept = std::make_shared<std::string>()](std::size_t row) {
                 const auto* found = counted(row);
                 *kept = found == nullptr ? ""
                         : found->usable  ? fmt::format("{:.0f}", in_gallons(*found->usable))
                                          : "unlimited";
                 return value_of(*kept);
             }),
    };
}

// Lift, losses and velocity head of a suction point, blank cells filled in with stated values.
ColumnOf head_at(const District& district, std::string name, std::string description, Flow flow) {
    return real(std::move(name), std::move(description), [&district, flow](std::size_t row) {
        const WaterSource& source = district.sources[row];
        return source.kind == SourceKind::hydrant
                   ? io::Value{}
                   : io::Value{in_feet(supply::suction_point(source, district).head_at(flow))};
    });
}

std::vector<ColumnOf> columns_of_heads(const Findings& findings) {
    const District& district = findings.district;
    const CountedAt counted = counted_at(findings);
    std::vector<ColumnOf> columns{
        head_at(district, "head_ft_at_minimum",
                "Lift, losses and velocity head at the terms' minimum flow, feet; of hydrants "
                "none. What is not measured has a stated cautious value.",
                findings.rating->terms.minimum)};
    for (const int flow : {250, 500, 750, 1000, 1500}) {
        columns.push_back(head_at(district, fmt::format("head_ft_at_{}", flow),
                                  fmt::format("The same at {} gpm, feet.", flow), gpm(flow)));
    }
    columns.push_back(text("assumed", "Columns for which a stated value stands in those heads.",
                           [&district, kept = std::make_shared<std::string>()](std::size_t row) {
                               const WaterSource& source = district.sources[row];
                               *kept =
                                   source.kind == SourceKind::hydrant
                                       ? ""
                                       : supply::suction_point(source, district).assumed_in_words();
                               return value_of(*kept);
                           }));
    columns.push_back(real(
        "pump_share_pct", "What a pump gives at that lift, per cent of its rating.",
        [counted, &district](std::size_t row) {
            const auto* found = counted(row);
            return found != nullptr && district.sources[row].kind != SourceKind::hydrant
                       ? io::Value{found->pump_share * 100.0}
                       : io::Value{};
        },
        0));
    return columns;
}

// Texts that are made for a source.
struct SourceTexts {
    std::string tested_on, certified_on, engines, missing, also_asked;
};

std::vector<SourceTexts> texts_of_sources(const Findings& findings) {
    const District& district = findings.district;
    const auto engines = engines_at_sources(findings);
    std::vector<SourceTexts> texts;
    for (std::size_t i = 0; i < district.sources.size(); ++i) {
        const WaterSource& each = district.sources[i];
        texts.push_back({.tested_on = day(each.tested_on),
                         .certified_on = day(each.certified_on),
                         .engines = engines_in_words(district, engines[i]),
                         .missing = lacks_in_words(findings.rating->sources[i]),
                         .also_asked = {}});
    }
    for (const MissingEvidence& missing : missing_evidence(findings)) {
        const auto source = std::ranges::find(district.sources, missing.record, &WaterSource::id);
        if (missing.subject == "source" && !missing.stops && source != district.sources.end()) {
            std::string& list =
                texts[static_cast<std::size_t>(source - district.sources.begin())].also_asked;
            list += (list.empty() ? "" : "; ") + missing.what;
        }
    }
    return texts;
}

std::vector<ColumnOf> columns_of_papers(const Findings& findings) {
    const District& district = findings.district;
    const auto source = [&district](std::size_t row) -> const WaterSource& {
        return district.sources[row];
    };
    const auto texts = std::make_shared<const std::vector<SourceTexts>>(texts_of_sources(findings));
    const auto made = [texts](std::string SourceTexts::* which) {
        return [texts, which](std::size_t row) { return value_of((*texts)[row].*which); };
    };
    return {
        text("standing", "How far it is trusted: mapped, declared or tested.",
             [source](std::size_t row) { return io::Value{word(source(row).standing)}; }),
        text("standing_by", "Who vouches for it.",
             [source](std::size_t row) { return value_of(source(row).standing_by); }),
        text("tested_on", "Last test.", made(&SourceTexts::tested_on)),
        text("certified_by", "Who certified its capacity in a drought.",
             [source](std::size_t row) { return value_of(source(row).certified_by); }),
        text("certified_on", "When.", made(&SourceTexts::certified_on)),
        text("agreement", "The owner's written permission.",
             [source](std::size_t row) { return value_of(source(row).agreement); }),
        text("engines", "Engines that pump from it, and for how many parcels that are credited.",
             made(&SourceTexts::engines)),
        text("missing", "What keeps it from counting.", made(&SourceTexts::missing)),
        text("also_asked", "What will be asked for, too, of a source that is offered.",
             made(&SourceTexts::also_asked)),
    };
}

// As the data give it; what is said as counted is left out.
std::vector<ColumnOf> columns_as_given(const District& district) {
    std::vector<ColumnOf> columns = source_cells(
        [&district](std::size_t row) -> const WaterSource& { return district.sources[row]; });
    std::erase_if(columns, [](const ColumnOf& each) {
        constexpr std::array<std::string_view, 3> counted{"kind", "rate_gpm", "usable_gal"};
        return std::ranges::find(counted, each.column.name) != counted.end();
    });
    return columns;
}

}  // namespace

io::FeatureTable rating_sources(const Findings& findings) {
    std::vector<ColumnOf> columns = which_source(findings);
    for (std::vector<ColumnOf>& more :
         std::array{columns_as_counted(findings), columns_of_papers(findings),
                    columns_of_heads(findings), columns_as_given(findings.district)}) {
        std::ranges::move(more, std::back_inserter(columns));
    }
    return table({"rating_sources", "Sources as evidence for the rating",
                  "Only sources with use = rating, and all evidence, count."},
                 std::move(columns), findings.district.sources.size());
}

}  // namespace farwater::reports
