// generate_region: writes an invented district of any size, the same bytes for the same seed.
#include <array>
#include <charconv>
#include <cstdio>
#include <exception>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "sample_region/generate/region.h"

namespace {

using farwater::sample::RegionCounts;
using farwater::sample::RegionOrder;

constexpr const char* usage =
    R"(usage: generate_region --out DIR [--preset demo|100k|1m] [--parcels N] [--seed S] [--no-buildings]

Writes an invented district into DIR: county.gpkg, lists of the department as CSV, elevation.tif
and a district.toml that ties them together.

  --preset demo   2,500 parcels without district.toml: the data of sample_region/data
  --preset 100k   100,000 parcels, about 128,000 road lines
  --preset 1m     1,000,000 parcels, about 1,280,000 road lines
  --parcels N     any number from 200 on; up to 4,000 one township, above a region of many
  --seed S        another seed, another district
  --no-buildings  leaves the layers of buildings and address points out of a region
)";

template <class Number>
std::optional<Number> parsed(std::string_view text) {
    Number value{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool whole = error == std::errc{} && end == text.data() + text.size();
    return whole ? std::optional(value) : std::nullopt;
}

bool apply_preset(RegionOrder& order, std::string_view name) {
    order.district_file = name != "demo";
    constexpr std::array<std::pair<std::string_view, int>, 3> presets{
        {{"demo", farwater::sample::demo_parcels}, {"100k", 100000}, {"1m", 1000000}}};
    for (const auto& [preset, parcels] : presets) {
        if (preset == name) {
            order.parcels = parcels;
            return true;
        }
    }
    return false;
}

// One option with its value; false if either is not understood.
bool apply(RegionOrder& order, std::string_view option, std::string_view value) {
    if (option == "--out") {
        order.folder = value;
        return !value.empty();
    }
    if (option == "--preset") {
        return apply_preset(order, value);
    }
    if (option == "--parcels") {
        order.parcels = parsed<int>(value).value_or(0);
        return order.parcels >= farwater::sample::fewest_parcels;
    }
    const auto seed = parsed<std::uint64_t>(value);
    order.seed = seed.value_or(0);
    return option == "--seed" && seed.has_value();
}

std::optional<RegionOrder> parse(int count, char** arguments) {
    RegionOrder order;
    const std::vector<std::string_view> words(arguments + 1, arguments + count);
    for (std::size_t i = 0; i < words.size();) {
        if (words[i] == "--no-buildings") {
            order.buildings = false;
            ++i;
        } else if (i + 1 < words.size() && apply(order, words[i], words[i + 1])) {
            i += 2;
        } else {
            return std::nullopt;
        }
    }
    return order.folder.empty() ? std::nullopt : std::optional(order);
}

}  // namespace

int main(int count, char** arguments) {
    try {
        const auto order = parse(count, arguments);
        if (!order) {
            fmt::print(stderr, "{}", usage);
            return 2;
        }
        const RegionCounts counts = farwater::sample::write_region(*order);
        fmt::print(
            "{} townships, {} parcels, {} road lines, {} buildings, {} sources, {} stations, {} "
            "tankers\n",
            counts.townships, counts.parcels, counts.roads, counts.buildings, counts.sources,
            counts.stations, counts.tankers);
        return 0;
    } catch (const std::exception& error) {
        fmt::print(stderr, "generate_region: {}\n", error.what());
        return 1;
    }
}
