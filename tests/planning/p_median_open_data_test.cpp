// The engine on distance weights: the 40 p-median instances of OR-Library with published optima
// (J. E. Beasley, "A note on solving large p-median problems", EJOR 21, 1985).
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <queue>
#include <sstream>

#include <catch2/catch.hpp>

#include "analyzer/planning/choose_sites.h"
#include "analyzer/planning/exact_choice.h"

using namespace farwater;
using namespace farwater::planning;

namespace {

constexpr double seconds_to_prove = 60.0;  // it takes 1 at most

struct Instance {
    std::string name;
    std::size_t sites = 0;
    Gain optimum = 0;
};

std::vector<Instance> published(const std::filesystem::path& folder) {
    std::ifstream file(folder / "optima.csv");
    std::vector<Instance> instances;
    std::string line;
    std::getline(file, line);
    while (std::getline(file, line)) {
        std::istringstream cells(line);
        std::vector<std::string> row;
        for (std::string cell; std::getline(cells, cell, ',');) {
            row.push_back(cell);
        }
        instances.push_back({row.at(0), std::stoul(row.at(3)), std::stol(row.at(4))});
    }
    return instances;
}

using Graph = std::vector<std::vector<std::pair<std::uint32_t, Gain>>>;

// Where an edge is there twice the last line counts.
Graph graph_of(const std::filesystem::path& path) {
    std::ifstream file(path);
    std::size_t nodes = 0;
    std::size_t edges = 0;
    std::size_t sites = 0;
    file >> nodes >> edges >> sites;
    std::vector<std::vector<Gain>> lengths(nodes, std::vector<Gain>(nodes, -1));
    for (std::size_t i = 0; i < edges; ++i) {
        std::size_t a = 0;
        std::size_t b = 0;
        Gain length = 0;
        file >> a >> b >> length;
        lengths[a - 1][b - 1] = lengths[b - 1][a - 1] = length;
    }
    Graph graph(nodes);
    for (std::uint32_t a = 0; a < nodes; ++a) {
        for (std::uint32_t b = 0; b < nodes; ++b) {
            if (lengths[a][b] >= 0) {
                graph[a].emplace_back(b, lengths[a][b]);
            }
        }
    }
    return graph;
}

std::vector<Gain> distances_from(const Graph& graph, std::uint32_t start) {
    std::vector<Gain> far(graph.size(), std::numeric_limits<Gain>::max());
    std::priority_queue<std::pair<Gain, std::uint32_t>> queue;  // negative: nearest first
    far[start] = 0;
    queue.emplace(0, start);
    while (!queue.empty()) {
        const auto [minus, node] = queue.top();
        queue.pop();
        if (-minus > far[node]) {
            continue;
        }
        for (const auto& [next, length] : graph[node]) {
            if (far[node] + length < far[next]) {
                far[next] = far[node] + length;
                queue.emplace(-far[next], next);
            }
        }
    }
    return far;
}

// Gains are what a site is nearer than the farthest one: the sum of distances turned round.
struct TurnedRound {
    ChoiceProblem problem;
    Gain farthest = 0;  // sum over the customers
};

TurnedRound turned_round(const Graph& graph, std::size_t sites) {
    std::vector<std::vector<Gain>> from;
    for (std::uint32_t node = 0; node < graph.size(); ++node) {
        from.push_back(distances_from(graph, node));
    }
    TurnedRound turned;
    turned.problem.customers = graph.size();
    turned.problem.most_sites = sites;
    turned.problem.costs.assign(graph.size(), 0);
    turned.problem.rulings.assign(graph.size(), Ruling::open);
    std::vector<Gain> farthest(graph.size(), 0);
    for (const std::vector<Gain>& row : from) {
        for (std::size_t customer = 0; customer < row.size(); ++customer) {
            farthest[customer] = std::max(farthest[customer], row[customer]);
        }
    }
    for (const std::vector<Gain>& row : from) {
        for (std::uint32_t customer = 0; customer < row.size(); ++customer) {
            if (row[customer] < farthest[customer]) {
                turned.problem.offers.items.push_back(
                    {customer, farthest[customer] - row[customer]});
            }
        }
        turned.problem.offers.close_row();
    }
    for (const Gain distance : farthest) {
        turned.farthest += distance;
    }
    return turned;
}

}  // namespace

TEST_CASE("exchange comes within 1 % of the published optima of 40 p-median problems") {
    const char* root = std::getenv("FARWATER_OPEN_DATA");
    if (root == nullptr || !std::filesystem::exists(std::filesystem::path(root) / "pmed")) {
        std::cout << "SKIPPED: FARWATER_OPEN_DATA is not set\n";
        return;
    }
    const std::filesystem::path folder = std::filesystem::path(root) / "pmed";
    const std::vector<Instance> instances = published(folder);
    REQUIRE(instances.size() == 40);
    int exact = 0;
    for (const Instance& instance : instances) {
        CAPTURE(instance.name);
        const TurnedRound turned =
            turned_round(graph_of(folder / (instance.name + ".txt")), instance.sites);
        const Choice choice = choose_sites(turned.problem);
        const Gain distance = turned.farthest - choice.gain;
        const Gain least = turned.farthest - choice.at_most;
        CHECK(distance >= instance.optimum);
        CHECK(static_cast<double>(distance) <= 1.01 * static_cast<double>(instance.optimum));
        CHECK(least <= instance.optimum);
        CHECK(choice.sites.size() == instance.sites);
        if (&instance - instances.data() < 10) {
            CHECK(distance == instance.optimum);
        }
        exact += distance == instance.optimum ? 1 : 0;
    }
    CHECK(exact >= 37);
}

TEST_CASE("the exact choice finds and proves the published optima of ten p-median problems") {
    const char* root = std::getenv("FARWATER_OPEN_DATA");
    if (root == nullptr || !std::filesystem::exists(std::filesystem::path(root) / "pmed")) {
        std::cout << "SKIPPED: FARWATER_OPEN_DATA is not set\n";
        return;
    }
    const std::filesystem::path folder = std::filesystem::path(root) / "pmed";
    const std::vector<Instance> instances = published(folder);
    for (std::size_t i = 0; i < 10; ++i) {
        CAPTURE(instances.at(i).name);
        const TurnedRound turned =
            turned_round(graph_of(folder / (instances[i].name + ".txt")), instances[i].sites);
        const auto begin = std::chrono::steady_clock::now();
        // From nothing known, so that the solver has to find it.
        const ExactChoice exact =
            exact_choice(turned.problem, {}, turned.farthest, seconds_to_prove);
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
        std::cout << instances[i].name << ": proved in " << took.count() << " s\n";
        CHECK(exact.proved);
        CHECK(turned.farthest - gain_of(turned.problem, exact.sites) == instances[i].optimum);
        CHECK(turned.farthest - exact.at_most == instances[i].optimum);
    }
}
