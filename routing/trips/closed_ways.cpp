#include "routing/trips/closed_ways.h"

#include <algorithm>
#include <array>
#include <utility>

namespace farwater::routing {
namespace {

std::uint32_t position_of(NodeIndex node) { return static_cast<std::uint32_t>(node.position()); }

Heading turned(Heading heading) {
    return heading == Heading::away ? Heading::towards : Heading::away;
}

}  // namespace

ClosedWays::ClosedWays(const Network& network)
    : network_(network),
      so_far_(network.nodes.size(), no_way),
      step_(network.nodes.size()),
      barred_(network.nodes.size(), 0) {}

// Stretches lead from the searched spot towards the dump site, whatever way that is driven.
std::array<ClosedWays::End, 2> ClosedWays::ends_of(RoadSpot spot, Heading heading) const {
    const Edge& edge = at(network_.edges, spot.edge);
    const double length = in_metres(edge.length());
    const EndCosts costs = end_costs(network_, from_->roads.costs, spot, heading);
    const bool first = heading == from_->roads.heading;
    const auto end = [&](NodeIndex node, std::int32_t cost, double along) {
        const Stretch stretch =
            first ? Stretch{spot.edge, spot.along, along} : Stretch{spot.edge, along, spot.along};
        return End{position_of(node), cost, stretch, !hose_->bars(stretch)};
    };
    return {end(edge.from, costs.from_end, 0.0), end(edge.to, costs.to_end, length)};
}

Stretch ClosedWays::straight() const {
    return {from_->spot.edge, from_->spot.along, hose_->site().along};
}

std::int32_t ClosedWays::straight_cost() const {
    const RoadSpot site = hose_->site();
    if (from_->spot.edge != site.edge || hose_->bars(straight())) {
        return no_way;
    }
    const bool away = from_->roads.heading == Heading::away;
    return cost_along(network_, from_->roads.costs, away ? from_->spot : site,
                      away ? site : from_->spot);
}

void ClosedWays::begin(const Searched& from, const HoseOnRoads& hose, std::int32_t limit) {
    from_ = &from;
    hose_ = &hose;
    limit_ = limit;
    found_ = {};
    spot_ends_ = ends_of(from.spot, from.roads.heading);
    site_ends_ = ends_of(hose.site(), turned(from.roads.heading));
    if (from.tree != nullptr) {
        bar_branches();
    } else {
        find_clear_below();
    }
    if (is_parted()) {
        return;
    }
    for (std::uint32_t i = 0; i < site_ends_.size(); ++i) {
        const End& end = site_ends_[i];
        if (end.free && is_of_use(end.node, end.cost)) {
            offer(end.node, end.cost, {ends_here + i, end.node});
        }
    }
}

// Where the tree leads over hose.
void ClosedWays::bar_branches() {
    barred_branches_.clear();
    for (const EdgeIndex closed : hose_->closed()) {
        const Edge& edge = at(network_.edges, closed);
        barred_branches_.emplace_back();  // not on a way
        for (const NodeIndex end : {edge.from, edge.to}) {
            const std::uint32_t node = position_of(end);
            if (from_->search.cost(node) != no_way && from_->tree->edge_to(node) == closed) {
                barred_branches_.back() = from_->tree->branch(node);
            }
        }
    }
    for (const End& end : spot_ends_) {
        if (!end.free && from_->search.cost(end.node) == end.cost && end.cost != no_way &&
            start_at(end.node) == nullptr) {
            barred_branches_.push_back(from_->tree->branch(end.node));
        }
    }
}

// Whether the closed edges part this end of the dump site's edge from the searched spot.
bool ClosedWays::parts(const End& end) const {
    constexpr std::size_t most = 16;
    const std::span<const EdgeIndex> closed =
        hose_->closed().first(std::min(hose_->closed().size(), most));
    std::array<bool, most> on_way{};
    const std::uint32_t number = from_->tree->number(end.node);
    for (std::size_t i = 0; i < closed.size(); ++i) {
        on_way[i] = barred_branches_[i].holds(number);
    }
    return std::ranges::find(on_way, true) != on_way.end() &&  // else the searched way is free
           from_->cuts->part(closed, std::span(on_way).first(closed.size()));
}

// Told without a search: there is no way round, wherever the dump site is left.
bool ClosedWays::is_parted() const {
    return from_->cuts != nullptr && !hose_->bars(from_->spot.edge) &&
           std::ranges::all_of(site_ends_, [&](const End& end) {
               return !end.free || end.cost == no_way || from_->search.cost(end.node) == no_way ||
                      parts(end);
           });
}

// For ways that are walked.
void ClosedWays::find_clear_below() {
    if (++round_ == 0) {  // once around: what was remembered is old
        std::ranges::fill(barred_, 0U);
        round_ = 1;
    }
    clear_below_ = 0;
    if (!spot_ends_[0].free || !spot_ends_[1].free) {
        return;
    }
    clear_below_ = no_way;
    for (const EdgeIndex closed : hose_->closed()) {
        const Edge& edge = at(network_.edges, closed);
        clear_below_ = std::min(clear_below_, std::max(from_->search.cost(position_of(edge.from)),
                                                       from_->search.cost(position_of(edge.to))));
    }
}

// Whether a way over the junction may be short enough, and shorter than what is known.
bool ClosedWays::is_of_use(std::uint32_t node, std::int32_t so_far) const {
    const std::int32_t left = from_->search.cost(node);
    return so_far < so_far_[node] && left <= limit_ && so_far <= limit_ - left;
}

// Labels of the queue hold the whole way, with what the search says is left. Precondition: it is
// of use.
void ClosedWays::offer(std::uint32_t node, std::int32_t so_far, Step step) {
    const std::int32_t left = from_->search.cost(node);
    if (so_far_[node] == no_way) {
        touched_.push_back(node);
    }
    so_far_[node] = so_far;
    step_[node] = step;
    heap_.push({so_far + left, node});
    offer_ends(node);
}

// The search keeps no way from an end of the spot's edge that another one beats, by the hose maybe.
void ClosedWays::offer_ends(std::uint32_t node) {
    for (const End& end : spot_ends_) {
        if (end.node == node && end.free && end.cost <= limit_ &&
            so_far_[node] <= limit_ - end.cost && so_far_[node] + end.cost < found_.cost) {
            found_ = {so_far_[node] + end.cost, node, &end};
        }
    }
}

// Of the edge as it is driven, seen from the end that is nearer to the dump site.
std::int32_t ClosedWays::driven(const Incidence& incidence) const {
    const bool away = from_->roads.heading == Heading::away;
    return from_->roads.costs.of(incidence.edge, incidence.forward != away);
}

void ClosedWays::go_on_from(std::uint32_t node) {
    for (std::uint32_t i = network_.first_incidence[node]; i < network_.first_incidence[node + 1];
         ++i) {
        const Incidence& incidence = network_.incidences[i];
        const std::uint32_t other = position_of(incidence.other);
        const std::int32_t cost = driven(incidence);
        // In the order of what is told soonest.
        if (cost <= limit_ && is_of_use(other, so_far_[node] + cost) &&
            !hose_->bars(incidence.edge)) {
            offer(other, so_far_[node] + cost, {i, node});
        }
    }
}

// The end that the searched way from a junction begins at; null where it goes on.
const ClosedWays::End* ClosedWays::start_at(std::uint32_t node) const {
    for (const End& end : spot_ends_) {
        if (end.node == node && end.free && end.cost == from_->search.cost(node)) {
            return &end;
        }
    }
    return nullptr;
}

// The first step back on a searched way that the hose does not bar; null where there is none.
const Incidence* ClosedWays::searched_step(std::uint32_t node) const {
    const std::int32_t here = from_->search.cost(node);
    for (const Incidence& incidence : network_.around(NodeIndex(node))) {
        const std::int32_t before = from_->search.cost(position_of(incidence.other));
        if (before < here && plus(before, driven(incidence)) == here &&
            !hose_->bars(incidence.edge)) {
            return &incidence;
        }
    }
    return nullptr;
}

// Whether the searched way from the junction on is free of hose. Only the first of equal ways is
// looked at: another one is found by those who go on.
bool ClosedWays::is_clear(std::uint32_t node) {
    if (from_->tree == nullptr) {
        return walk_is_clear(node);
    }
    const std::uint32_t number = from_->tree->number(node);
    return from_->tree->has_way(node) &&
           std::ranges::none_of(barred_branches_, [&](const SearchTree::Branch& branch) {
               return branch.holds(number);
           });
}

// What lies on a barred way is remembered, so that each junction is walked over once.
bool ClosedWays::walk_is_clear(std::uint32_t node) {
    walked_.clear();
    while (from_->search.cost(node) >= clear_below_) {
        if (start_at(node) != nullptr) {
            return true;
        }
        const Incidence* const step = barred_[node] == round_ ? nullptr : searched_step(node);
        walked_.push_back(node);
        if (step == nullptr) {
            for (const std::uint32_t barred : walked_) {
                barred_[barred] = round_;
            }
            return false;
        }
        node = position_of(step->other);
    }
    return true;
}

void ClosedWays::find() {
    if (const std::int32_t cost = straight_cost(); cost <= limit_ && cost < found_.cost) {
        found_ = {cost, Found::straight, nullptr};
    }
    while (!heap_.empty()) {
        const Label label = heap_.pop_least();
        if (label.cost >= found_.cost) {
            break;
        }
        if (label.cost > so_far_[label.node] + from_->search.cost(label.node)) {
            continue;  // a better way was found since it was queued
        }
        if (is_clear(label.node)) {
            found_ = {label.cost, label.node, nullptr};
            break;
        }
        go_on_from(label.node);
    }
}

// Of an edge, towards the dump site, seen from the end that is nearer to it.
void ClosedWays::add(const Incidence& incidence, Way& way) const {
    const double length = in_metres(at(network_.edges, incidence.edge).length());
    way.push_back(
        {incidence.edge, incidence.forward ? length : 0.0, incidence.forward ? 0.0 : length});
}

Way ClosedWays::way_of_found() const {
    if (found_.node == Found::straight) {
        return {straight()};
    }
    Way way;
    const End* end = found_.end;
    std::uint32_t node = found_.node;
    while (end == nullptr) {
        end = start_at(node);
        if (end == nullptr) {
            const Incidence* const step = searched_step(node);
            add(*step, way);  // there is one: it is clear
            node = position_of(step->other);
        }
    }
    way.push_back(end->stretch);
    std::ranges::reverse(way);
    for (node = found_.node; step_[node].incidence < ends_here; node = step_[node].to) {
        add(network_.incidences[step_[node].incidence], way);
    }
    way.push_back(site_ends_[step_[node].incidence - ends_here].stretch);
    return way;
}

void ClosedWays::clear() {
    for (const std::uint32_t node : touched_) {
        so_far_[node] = no_way;
    }
    touched_.clear();
    heap_.clear();
}

std::int32_t ClosedWays::cost(const Searched& from, const HoseOnRoads& hose, std::int32_t limit) {
    begin(from, hose, limit);
    find();
    clear();
    return found_.cost;
}

std::optional<Way> ClosedWays::way(const Searched& from, const HoseOnRoads& hose,
                                   std::int32_t limit) {
    begin(from, hose, limit);
    find();
    clear();
    if (found_.cost == no_way) {
        return std::nullopt;
    }
    Way way = way_of_found();
    std::erase_if(way, [](const Stretch& stretch) { return stretch.from == stretch.to; });
    if (from.roads.heading == Heading::towards) {
        std::ranges::reverse(way);
        for (Stretch& stretch : way) {
            std::swap(stretch.from, stretch.to);
        }
    }
    return way;
}

}  // namespace farwater::routing
