#include "reports/zones.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "reports/layers/table_builder.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

const Zones& zones_of(const Findings& findings) {
    static const Zones none;
    return findings.zones != nullptr ? *findings.zones : none;
}

double acres_of(const MultiPolygon& shape) { return area_m2(shape) / square_metres_per_acre; }

// The classes of "How much is missing?" on the map page.
std::string_view short_class(HeldFlow shortfall) {
    constexpr std::array<std::pair<int, std::string_view>, 3> bounds{
        {{100, "up_to_100"}, {250, "up_to_250"}, {500, "up_to_500"}}};
    for (const auto& [gpm, words] : bounds) {
        if (in_tenths(shortfall) <= 10 * gpm) {
            return words;
        }
    }
    return "more_than_500";
}

// As documents have it: the need less the flow that they show.
int shown_shortfall(const supply::ParcelSupply& supply) {
    return (in_tenths(supply.needed) + 9) / 10 - planned_gpm(supply::flow_from_start(supply));
}

io::Value id_of(const Findings& findings, SourceIndex source) {
    return source.valid() ? value_of(at(findings.district.sources, source).id) : io::Value{};
}

using ZoneAt = std::function<const ShortfallZone&(std::size_t row)>;

std::vector<ColumnOf> shortfall_columns(const ZoneAt& zone) {
    return {
        integer("zone", "Number of the zone: 1 misses most gpm in all.",
                [](std::size_t row) { return value_of_count(row + 1); }),
        integer("parcels", "Parcels in it, each short of its needed flow.",
                [zone](std::size_t row) { return value_of_count(zone(row).parcels.size()); }),
        integer("unserved", "Of them: water on wheels only, or no way there.",
                [zone](std::size_t row) { return value_of_count(zone(row).unserved); }),
        text("short_by",
             "Class of shortfall_gpm_median: up_to_100, up_to_250, up_to_500, more_than_500.",
             [zone](std::size_t row) { return io::Value{short_class(zone(row).median)}; }),
        real("shortfall_gpm_worst", "Largest shortfall of a parcel in it, gpm.",
             [zone](std::size_t row) { return value_of(zone(row).worst); }),
        real("shortfall_gpm_median", "The shortfall of its middle parcel, gpm.",
             [zone](std::size_t row) { return value_of(zone(row).median); }),
        real(
            "shortfall_gpm_total",
            "Shortfalls of all its parcels added, gpm: for ranking only, they do not burn at once.",
            [zone](std::size_t row) {
                return io::Value{static_cast<double>(zone(row).total_tenths) / 10.0};
            },
            0),
    };
}

std::vector<ColumnOf> cause_columns(const Findings& findings, const ZoneAt& zone) {
    return {
        text("worst_parcel_id", "The parcel with the largest shortfall.",
             [zone, findings](std::size_t row) {
                 return value_of(findings.district.parcels[zone(row).parcels.front()].id);
             }),
        text("binding_limit", "What sets the flow of most of its parcels, as in parcel_supply.",
             [zone](std::size_t row) { return io::Value{word(zone(row).limit)}; }),
        integer("limited_parcels", "Parcels for which it is that.",
                [zone](std::size_t row) { return value_of_count(zone(row).limited); }),
        text("fill_source_id",
             "Where the first tankers of most of them fill; empty: none has a shuttle.",
             [zone, findings](std::size_t row) { return id_of(findings, zone(row).fill_source); }),
        integer("fill_parcels", "Parcels whose first tanker fills there.",
                [zone](std::size_t row) { return value_of_count(zone(row).filled); }),
        real("round_trip_min",
             "Median of their round trips, driving only, minutes; empty: none has a shuttle.",
             [zone](std::size_t row) { return value_of(zone(row).round_trip); }),
        text("nearest_source_id", "Water source that counts and lies nearest to one of its houses.",
             [zone, findings](std::size_t row) {
                 return id_of(findings, zone(row).nearest_source);
             }),
        real(
            "nearest_source_mi", "Straight from that house to it, miles; by road it is farther.",
            [zone](std::size_t row) {
                return zone(row).nearest_source.valid()
                           ? io::Value{in_miles(zone(row).to_nearest_source)}
                           : io::Value{};
            },
            2),
        real("acres", "Ground of its parcels, acres.",
             [zone](std::size_t row) { return io::Value{acres_of(zone(row).shape)}; }),
    };
}

std::string sentence_of_zone(const Findings& findings, const ShortfallZone& zone,
                             std::size_t number) {
    std::string limit(word(zone.limit));
    std::ranges::replace(limit, '_', ' ');
    return fmt::format("zone {}: {} parcel{}, worst short by {} gpm, most limited by {}", number,
                       zone.parcels.size(), zone.parcels.size() == 1 ? "" : "s",
                       shown_shortfall(findings.supply(zone.parcels.front())),
                       zone.limit == Limit::none ? "no single thing" : limit);
}

}  // namespace

std::vector<std::string> zone_sentences(const Findings& findings, std::size_t most) {
    std::vector<std::string> sentences;
    if (findings.zones == nullptr) {
        return sentences;
    }
    if (findings.zones->left_out) {
        return {fmt::format("left out: more than {} parcels", most_parcels_in_zones)};
    }
    const auto& zones = findings.zones->shortfall;
    for (std::size_t i = 0; i < std::min(most, zones.size()); ++i) {
        sentences.push_back(sentence_of_zone(findings, zones[i], i + 1));
    }
    if (zones.size() > most) {
        sentences.push_back(
            fmt::format("and {} more with less missing in all", zones.size() - most));
    }
    return sentences;
}

io::FeatureTable flow_zones(const Findings& findings) {
    const auto& zones = zones_of(findings).flow;
    const auto zone = [&zones](std::size_t row) -> const FlowZone& { return zones[row]; };
    const auto band = [zone](std::size_t row) { return flow_bands.at(zone(row).band); };
    const auto bound = [](std::optional<int> gpm) {
        return gpm ? io::Value{std::int64_t{*gpm}} : io::Value{};
    };
    std::vector<ColumnOf> columns{
        text("band",
             "Cautious flow as documents show it, gpm: none, 25_to_225, 250_to_475, 500_to_700, "
             "750_to_950, 1000_to_1450, 1500_and_more; unknown.",
             [band](std::size_t row) { return io::Value{band(row).word}; }),
        integer("from_gpm", "Least flow of the band, gpm.",
                [band, bound](std::size_t row) { return bound(band(row).from_gpm); }),
        integer("to_gpm", "Largest flow of the band, gpm; empty: and more.",
                [band, bound](std::size_t row) { return bound(band(row).to_gpm); }),
        integer("parcels", "Improved parcels in it.",
                [zone](std::size_t row) { return value_of_count(zone(row).parcels); }),
        integer("buildings", "Buildings on them, as far as the data count them.",
                [zone](std::size_t row) { return value_of_count(zone(row).buildings); }),
        integer("held", "Of the parcels: meet their planned flow.",
                [zone](std::size_t row) { return value_of_count(zone(row).held); }),
        real("acres", "Ground of its parcels, acres.",
             [zone](std::size_t row) { return io::Value{acres_of(zone(row).shape)}; }),
    };
    return layer_of_areas(
        {"flow_zones", "Ground by the flow that is held",
         "Improved parcels dissolved by cautious flow, in the worst season and period of each, "
         "rounded down to 25 gpm below 500 and to 50 above. Borders are on a grid of 4 in. "
         "Planning figures: prove them by a timed drill."},
        std::move(columns), zones.size(),
        [zone](std::size_t row) -> const MultiPolygon& { return zone(row).shape; });
}

io::FeatureTable shortfall_zones(const Findings& findings) {
    const auto& zones = zones_of(findings).shortfall;
    const ZoneAt zone = [&zones](std::size_t row) -> const ShortfallZone& { return zones[row]; };
    std::vector<ColumnOf> columns = shortfall_columns(zone);
    std::ranges::move(cause_columns(findings, zone), std::back_inserter(columns));
    return layer_of_areas(
        {"shortfall_zones", "Neighbours that miss their planned flow",
         "Parcels short of their needed flow, with no gap above 100 ft between one and the next. "
         "Planning figures: prove them by a timed drill."},
        std::move(columns), zones.size(),
        [zone](std::size_t row) -> const MultiPolygon& { return zone(row).shape; });
}

}  // namespace farwater::reports
