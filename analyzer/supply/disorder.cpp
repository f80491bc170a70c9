#include "analyzer/supply/disorder.h"

#include <algorithm>
#include <numeric>
#include <utility>
#include <vector>

#include "analyzer/supply/bounds/closed_queue.h"
#include "analyzer/supply/filling/fluid_model.h"
#include "analyzer/supply/handbook.h"
#include "analyzer/supply/visits.h"

namespace farwater::supply {
namespace {

// The tankers of one fill site and their average trip. Each tanker counts as often as it makes
// trips when it is undisturbed, so that with no queue the average delivers what they deliver.
struct Group {
    const FillSite* site = nullptr;
    std::vector<const Tanker*> members;
    std::vector<double> weights;  // their sum is 1
    double gallons = 0.0;
    double handling = 0.0;  // at the fill site, besides flow
    double drives = 0.0;
    double offload = 0.0;  // in the slot, with the drive in single file
};

void average(Group& group, const Incident& incident) {
    double sum = 0.0;
    for (const Tanker* tanker : group.members) {
        group.weights.push_back(1.0 / in_minutes(undisturbed_cycle(incident, *tanker)));
        sum += group.weights.back();
    }
    for (std::size_t i = 0; i < group.members.size(); ++i) {
        const Tanker& tanker = *group.members[i];
        const double weight = group.weights[i] /= sum;
        group.gallons += weight * in_gallons(tanker.delivered);
        group.handling +=
            weight * in_minutes(group.site->backing + tanker.fill_before + tanker.fill_after);
        const Duration in_slot = slot_visit(incident.dump_site, tanker);
        const Duration single_file = in_slot - offload_visit(tanker);
        group.drives +=
            weight * std::max(0.0, in_minutes(tanker.leg.empty + tanker.leg.loaded - single_file));
        group.offload += weight * in_minutes(in_slot);
    }
}

std::vector<Group> groups_of(const Incident& incident) {
    std::vector<Group> groups(incident.fill_sites.size());
    for (const Tanker& tanker : incident.tankers) {
        groups[tanker.fill_site].site = &incident.fill_sites[tanker.fill_site];
        groups[tanker.fill_site].members.push_back(&tanker);
    }
    std::erase_if(groups, [](const Group& group) { return group.members.empty(); });
    for (Group& group : groups) {
        average(group, incident);
    }
    return groups;
}

// Minutes of flow of the average tanker, `flows` at a time.
double flowing(const Group& group, int flows) {
    FillSite site = *group.site;
    site.flows = flows;
    double sum = 0.0;
    for (std::size_t i = 0; i < group.members.size(); ++i) {
        sum += group.weights[i] * in_minutes(fill_visit(site, *group.members[i]).flowing);
    }
    return sum;
}

// Where the flow lines are scarcer than the places, tankers queue for a line and are handled
// meanwhile; else they queue for a place and are handled in it.
void add_fill_station(ClosedQueue& queue, QueueClass& one, std::size_t station, const Group& group,
                      int flows) {
    const double in_line = flowing(group, flows);
    const double in_place = in_line + group.handling;
    const bool lines_bind = flows * in_place < group.site->places * in_line;
    one.demands[station] = lines_bind ? in_line : in_place;
    one.delay += lines_bind ? group.handling : 0.0;
    queue.servers[station] = static_cast<std::size_t>(lines_bind ? flows : group.site->places);
}

constexpr std::size_t most_classes = 3;  // the work grows with the product of their tankers

// All tankers alike: each goes to every fill site now and then.
void merge(ClosedQueue& queue, std::vector<double>& loads) {
    QueueClass all{0, 0.0, std::vector<double>(queue.servers.size())};
    double load = 0.0;
    for (std::size_t c = 0; c < loads.size(); ++c) {
        const QueueClass& one = queue.classes[c];
        const auto customers = static_cast<double>(one.customers);
        all.customers += one.customers;
        all.delay += customers * one.delay;
        load += customers * loads[c];
        for (std::size_t k = 0; k < all.demands.size(); ++k) {
            all.demands[k] += customers * one.demands[k];
        }
    }
    const auto customers = static_cast<double>(all.customers);
    all.delay /= customers;
    std::ranges::for_each(all.demands, [&](double& demand) { demand /= customers; });
    loads = {load / customers};
    queue.classes = {all};
}

double flow_with(const Incident& incident, const std::vector<Group>& groups,
                 const std::vector<int>& flows) {
    const std::size_t slots = groups.size();  // the station after those of the fill sites
    ClosedQueue queue;
    queue.servers.assign(groups.size() + 1,
                         static_cast<std::size_t>(std::max(1, incident.dump_site.offload_slots)));
    for (std::size_t g = 0; g < groups.size(); ++g) {
        const Group& group = groups[g];
        QueueClass one{group.members.size(), group.drives, std::vector<double>(groups.size() + 1)};
        one.demands[slots] = group.offload;
        add_fill_station(queue, one, g, group, flows[g]);
        queue.classes.push_back(std::move(one));
    }
    std::vector<double> loads;
    for (const Group& group : groups) {
        loads.push_back(group.gallons);
    }
    if (groups.size() > most_classes) {
        merge(queue, loads);
    }
    const QueueAnswer answer = solve(queue);
    return std::inner_product(loads.begin(), loads.end(), answer.rounds.begin(), 0.0);
}

constexpr std::size_t most_ways = 64;

// Flows for each group, every way that is open; where these are too many, all groups go up
// together.
std::vector<std::vector<int>> ways_of_filling(const std::vector<Group>& groups) {
    std::vector<std::vector<int>> ways{{}};
    std::vector<std::vector<int>> together;
    for (const Group& group : groups) {
        const int places =
            std::clamp(group.site->places, 1, static_cast<int>(group.members.size()));
        const int least = group.site->flows.value_or(1);
        const int most = group.site->flows.value_or(places);
        std::vector<std::vector<int>> longer;
        for (const std::vector<int>& way : ways) {
            for (int count = least; count <= most && longer.size() <= most_ways; ++count) {
                longer.push_back(way);
                longer.back().push_back(count);
            }
        }
        ways = std::move(longer);
        together.resize(std::max(together.size(), static_cast<std::size_t>(most)));
    }
    if (ways.size() <= most_ways) {
        return ways;
    }
    for (std::size_t step = 0; step < together.size(); ++step) {
        for (const Group& group : groups) {
            const int places =
                std::clamp(group.site->places, 1, static_cast<int>(group.members.size()));
            together[step].push_back(
                group.site->flows.value_or(std::min(places, static_cast<int>(step) + 1)));
        }
    }
    return together;
}

}  // namespace

Flow disorder_flow(const Incident& incident, Window window) {
    const std::vector<Group> groups = groups_of(incident);
    if (groups.empty()) {
        return Flow{};
    }
    double best = 0.0;
    for (const std::vector<int>& flows : ways_of_filling(groups)) {
        best = std::max(best, flow_with(incident, groups, flows));
    }
    return std::min(gpm(best), long_run_bound(incident, window));
}

}  // namespace farwater::supply
