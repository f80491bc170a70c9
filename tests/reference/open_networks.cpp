#include "tests/reference/open_networks.h"

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <iostream>
#include <random>
#include <stdexcept>

#include "io/district_file.h"
#include "io/read_district.h"
#include "routing/profiles.h"
#include "routing/speeds.h"
#include "tests/open_data/open_data.h"
#include "tests/reference/our_times.h"
#include "tests/support/program.h"

namespace farwater::reference {
namespace {

using namespace farwater::routing;
namespace fs = std::filesystem;

constexpr std::size_t sources = 100;
constexpr std::size_t targets = 1000;
constexpr std::uint64_t seed = 20260531;

std::string unpacked(const std::string& program, const fs::path& file) {
    support::Ended ended = support::run_program(program, {"-dc", file.string()});
    if (ended.exit_code != 0) {
        throw std::runtime_error(program + " cannot unpack " + file.string() + ": " + ended.err);
    }
    return std::move(ended.out);
}

// The numbers of a text, whatever letters stand between them.
std::vector<std::int64_t> numbers_of(const std::string& text) {
    std::vector<std::int64_t> numbers;
    const char* at = text.data();
    const char* const end = at + text.size();
    while (at != end) {
        std::int64_t number = 0;
        const auto [next, error] = std::from_chars(at, end, number);
        if (error == std::errc{}) {
            numbers.push_back(number);
        }
        at = error == std::errc{} ? next : at + 1;
    }
    return numbers;
}

std::vector<std::uint32_t> some_of(std::uint32_t nodes, std::size_t count,
                                   std::mt19937_64& random) {
    std::vector<std::uint32_t> some(count);
    std::ranges::generate(some, [&] { return static_cast<std::uint32_t>(random() % nodes); });
    return some;
}

Question question_about(const Streets& streets, Heading heading, StreetGraph graph,
                        const Sample& sample) {
    return {heading == Heading::away ? "away" : "towards", std::move(graph), sample,
            our_times(streets, heading, sample, most_cost),
            our_times(streets, heading, sample, twenty_minutes)};
}

enum class Ways : std::uint8_t { same_both_ways, differ };

std::vector<Question> questions_about(const StreetGraph& graph, Ways ways) {
    std::mt19937_64 random(seed);
    const Streets streets(graph);
    const Sample sample{some_of(graph.nodes, sources, random),
                        some_of(graph.nodes, targets, random)};
    std::vector<Question> questions{question_about(streets, Heading::away, graph, sample)};
    if (ways == Ways::differ) {
        questions.push_back(question_about(streets, Heading::towards, turned_round(graph), sample));
    }
    return questions;
}

std::vector<RoadSpot> some_spots(const Network& network, const EdgeCosts& costs, std::size_t count,
                                 std::mt19937_64& random) {
    std::vector<RoadSpot> spots;
    while (spots.size() < count) {
        const EdgeIndex edge(random() % network.edges.size());
        const double share = static_cast<double>(random() % 1001) / 1000.0;
        if (costs.passable(edge)) {
            spots.push_back(
                spot_on(network, edge, share * in_metres(at(network.edges, edge).length())));
        }
    }
    return spots;
}

Question question_about_spots(const DrivenRoads& roads, std::string name) {
    std::mt19937_64 random(seed);
    const auto from = some_spots(roads.network, roads.costs, sources, random);
    const auto to = some_spots(roads.network, roads.costs, targets, random);
    SpotQuestion question = spot_question(roads, from, to);
    return {std::move(name), std::move(question.graph), std::move(question.sample),
            our_spot_times(roads, from, to, most_cost),
            our_spot_times(roads, from, to, twenty_minutes)};
}

// Every profile, loaded away from the spots and empty towards them.
std::vector<Question> questions_about(const fs::path& district_file) {
    const io::ReadResult read = io::read_district(io::read_district_file(district_file), Work{});
    const District& district = read.district;
    const Network network = build_network(district, Work{}).network;
    std::vector<Profile> profiles = vehicle_profiles(district);
    if (profiles.empty()) {
        profiles.emplace_back();
    }
    std::vector<Question> questions;
    for (const Profile& profile : profiles) {
        for (const Load load : {Load::loaded, Load::empty}) {
            const EdgeCosts costs =
                drive_costs(district, network, profile, district.seasons.front(), load);
            const Heading heading = load == Load::loaded ? Heading::away : Heading::towards;
            const SearchGraph graph = search_graph(network, costs, heading);
            questions.push_back(
                question_about_spots({network, costs, graph, heading},
                                     profile.name + (load == Load::loaded ? " loaded" : " empty")));
        }
    }
    return questions;
}

}  // namespace

Questions weighted_streets() {
    const auto data = open_data::folder_of("gr_weighted");
    if (!data) {
        return std::nullopt;
    }
    // "a FROM TO MILLISECONDS", nodes from 0.
    const auto numbers =
        numbers_of(unpacked("/usr/bin/gzip", *data / "gr_weighted/bremen_time.gr.gz"));
    StreetGraph graph;
    for (std::size_t i = 0; i + 2 < numbers.size(); i += 3) {
        const auto from = static_cast<std::uint32_t>(numbers[i]);
        const auto to = static_cast<std::uint32_t>(numbers[i + 1]);
        graph.nodes = std::max({graph.nodes, from + 1, to + 1});
        graph.arcs.push_back({from, to, static_cast<std::int32_t>((numbers[i + 2] + 99) / 100)});
    }
    return questions_about(graph, Ways::differ);
}

Questions topology_with_stated_weights() {
    const auto data = open_data::folder_of("dimacs_pace");
    if (!data) {
        return std::nullopt;
    }
    // "p tw NODES EDGES", then "A B", nodes from 1, every edge both ways.
    const auto numbers = numbers_of(unpacked("/usr/bin/xz", *data / "dimacs_pace/NY.gr.xz"));
    StreetGraph graph{static_cast<std::uint32_t>(numbers[0]), {}};
    for (std::size_t i = 2; i + 1 < numbers.size(); i += 2) {
        const auto a = static_cast<std::uint64_t>(std::min(numbers[i], numbers[i + 1]));
        const auto b = static_cast<std::uint64_t>(std::max(numbers[i], numbers[i + 1]));
        // 1 to 3,600 tenths of a second, by two large primes that mix the node numbers.
        const auto cost =
            static_cast<std::int32_t>(1 + ((a * 2654435761U + b * 40503U) >> 7U) % 3600U);
        graph.arcs.push_back(
            {static_cast<std::uint32_t>(a - 1), static_cast<std::uint32_t>(b - 1), cost});
        graph.arcs.push_back(
            {static_cast<std::uint32_t>(b - 1), static_cast<std::uint32_t>(a - 1), cost});
    }
    return questions_about(graph, Ways::same_both_ways);
}

Questions rural_town() {
    const auto data = open_data::folder_of("washington_nh");
    if (!data) {
        return std::nullopt;
    }
    const open_data::DistrictCopy copy("washington_nh", *data);
    return questions_about(copy.district_file());
}

Questions city_of_the_npm_package() {
    const fs::path modules = "tests/npm/node_modules";
    if (!fs::exists(modules / "geojson-path-finder/test/large-network.json")) {
        std::cout << "SKIPPED: the packages of tests/npm are not installed\n";
        return std::nullopt;
    }
    const open_data::DistrictCopy copy("npm_city", fs::canonical(modules));
    return questions_about(copy.district_file());
}

}  // namespace farwater::reference
