#include "reports/layers/fill_columns.h"

#include <string>

#include "reports/layers.h"

namespace farwater::reports {
namespace {

using supply::FurtherFill;
using supply::ParcelSupply;

io::Value source_id(const Findings& findings, SourceIndex source) {
    return source.valid() ? io::Value{std::string_view(at(findings.district.sources, source).id)}
                          : io::Value{};
}

// Of the second or third fill site.
std::vector<ColumnOf> further_columns(const Findings& findings, std::size_t which) {
    const auto fill = [findings, which](std::size_t row) -> const FurtherFill& {
        return findings.supply(row).further_fills[which];
    };
    const std::string ordinal = which == 0 ? "second" : "third";
    const std::string site = which == 0 ? "Second fill site" : "Third fill site";
    return {
        text(ordinal + "_fill_source_id", site + ", in use at the same time; empty: there is none.",
             [fill, findings](std::size_t row) { return source_id(findings, fill(row).source); }),
        integer(ordinal + "_fill_tankers", "Tankers that fill there.",
                [fill](std::size_t row) {
                    return fill(row).source.valid() ? value_of_count(fill(row).tankers)
                                                    : io::Value{};
                }),
        real(ordinal + "_round_trip_min",
             "Driving only, to that fill site and back, minutes, of the first tanker that fills "
             "there.",
             [fill](std::size_t row) {
                 return fill(row).source.valid() ? value_of(std::optional(fill(row).round_trip))
                                                 : io::Value{};
             }),
    };
}

}  // namespace

std::vector<ColumnOf> fill_columns(const Findings& findings) {
    const auto of = [findings](std::size_t row) -> const ParcelSupply& {
        return findings.supply(row);
    };
    const auto shuttles = [of](std::size_t row) { return of(row).has_round_trip(); };
    std::vector<ColumnOf> columns{
        text("fill_source_id",
             "Water source at which the tankers fill, of several the first tanker's; without a "
             "shuttle the one that the hose comes from.",
             [of, findings](std::size_t row) { return source_id(findings, of(row).fill_source); }),
        integer("fill_site_count",
                "Fill sites in use at the same time; each beside the first takes a crew, at a "
                "suction point with an engine. Empty without a shuttle.",
                [of, shuttles](std::size_t row) {
                    return shuttles(row) ? value_of_count(of(row).fill_sites()) : io::Value{};
                }),
        integer("fill_tankers", "Tankers that fill at fill_source_id; empty without a shuttle.",
                [of, shuttles](std::size_t row) {
                    return shuttles(row) ? value_of_count(of(row).tankers_at_fill) : io::Value{};
                }),
    };
    for (const std::size_t which : {0U, 1U}) {
        for (ColumnOf& column : further_columns(findings, which)) {
            columns.push_back(std::move(column));
        }
    }
    columns.push_back(real("one_fill_site_gpm",
                           "Cautious flow if all tankers fill at one place, the best, gpm; beside "
                           "several places, with "
                           "no tanker that feeds the engine first; empty without a shuttle.",
                           [of, shuttles](std::size_t row) {
                               return shuttles(row) ? value_of(of(row).one_site) : io::Value{};
                           }));
    return columns;
}

}  // namespace farwater::reports
