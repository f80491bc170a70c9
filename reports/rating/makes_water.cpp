#include "reports/rating/makes_water.h"

#include <map>

#include <fmt/format.h>

#include "reports/text/number_words.h"

namespace farwater::reports {

bool is_credited(const Findings& findings, std::size_t row) {
    return findings.rating->places[row].held > HeldFlow{};
}

std::vector<std::size_t> makes_water_for(const Findings& findings) {
    std::vector<std::size_t> count(findings.district.units.size(), 0);
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        const supply::ParcelSupply& brought = findings.rating->brought.supplies[row];
        if (!is_credited(findings, row)) {
            continue;
        }
        for (const UnitIndex unit : brought.makers) {
            if (unit.valid()) {
                ++at(count, unit);
            }
        }
    }
    return count;
}

std::vector<std::vector<PumpsAt>> engines_at_sources(const Findings& findings) {
    std::vector<std::map<UnitIndex, std::size_t>> counts(findings.district.sources.size());
    const auto add = [&](SourceIndex source, UnitIndex unit) {
        if (source.valid() && unit.valid()) {
            ++counts[source.position()][unit];
        }
    };
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        const supply::ParcelSupply& brought = findings.rating->brought.supplies[row];
        if (!is_credited(findings, row)) {
            continue;
        }
        if (brought.mode == SupplyMode::shuttle) {
            add(brought.fill_source, brought.makers[1]);
            for (std::size_t i = 0; i < brought.further_fills.size(); ++i) {
                add(brought.further_fills[i].source, brought.makers.at(i + 2));
            }
        } else {
            add(brought.fill_source, brought.makers[0]);
        }
    }
    std::vector<std::vector<PumpsAt>> engines;
    for (const auto& of_source : counts) {
        engines.emplace_back();
        for (const auto& [unit, parcels] : of_source) {
            engines.back().push_back({unit, parcels});
        }
    }
    return engines;
}

std::string engines_in_words(const District& district, const std::vector<PumpsAt>& engines) {
    std::string words;
    for (const PumpsAt& each : engines) {
        words += fmt::format(
            "{}{} ({} parcel{})", words.empty() ? "" : ", ", at(district.units, each.unit).id,
            in_thousands(static_cast<double>(each.parcels)), each.parcels == 1 ? "" : "s");
    }
    return words;
}

}  // namespace farwater::reports
