// Ways between a place and a dump site while its hose lies, out of a search that knows of no hose.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "routing/blocked_ways.h"
#include "routing/costs.h"
#include "routing/network.h"
#include "routing/search/search.h"
#include "routing/search/search_tree.h"
#include "routing/search/spot_times.h"
#include "routing/sites/cuts.h"
#include "routing/structures/heap.h"

namespace farwater::routing {

// What was searched: away from a spot, or all that leads to it. A view: all must outlive it, and
// the search stays as it was run.
struct Searched {
    const DrivenRoads& roads;
    RoadSpot spot;
    const Search& search;
    // Both or neither. Grown from the search; without it ways are walked.
    const SearchTree* tree = nullptr;
    const Cuts* cuts = nullptr;  // of all edges
};

// The least cost of a way that the hose does not bar, exact to the point on the road. The way is
// sought from the dump site; what the search found is what is left at least (Hart, Nilsson and
// Raphael 1968), and where the searched way from a junction on is free of hose, it is the end. So a
// way that the hose does not touch costs some steps, another one about the junctions that its way
// round passes; without a tree, also those that their searched ways pass before they come to hose,
// each once. Working memory for one thread, 20 bytes a node.
class ClosedWays {
public:
    explicit ClosedWays(const Network& network);

    // no_way where there is none of at most `limit`, nor farther than the search went.
    std::int32_t cost(const Searched& from, const HoseOnRoads& hose, std::int32_t limit);

    // The way itself, as it is driven; of equally fast ones always the same. O(edges of the way).
    std::optional<Way> way(const Searched& from, const HoseOnRoads& hose, std::int32_t limit);

private:
    // From the dump site, or from the searched spot, to one end of its edge.
    struct End {
        std::uint32_t node = 0;
        std::int32_t cost = no_way;
        Stretch stretch;
        bool free = false;  // of hose
    };
    struct Found {
        static constexpr std::uint32_t straight = UINT32_MAX;
        std::int32_t cost = no_way;
        std::uint32_t node = straight;  // from here on it is the searched way
        const End* end =
            nullptr;  // or this one, where the search knew a shorter way to the junction
    };
    // The step by which a junction goes on to the dump site.
    struct Step {
        std::uint32_t incidence = 0;  // as the junction `to` sees it
        std::uint32_t to = 0;
    };
    static constexpr std::uint32_t ends_here = UINT32_MAX - 1;  // at site_ends_[0], or [1] for + 1

    std::array<End, 2> ends_of(RoadSpot spot, Heading heading) const;
    std::int32_t straight_cost() const;
    Stretch straight() const;
    void begin(const Searched& from, const HoseOnRoads& hose, std::int32_t limit);
    bool is_of_use(std::uint32_t node, std::int32_t so_far) const;
    void offer(std::uint32_t node, std::int32_t so_far, Step step);
    void go_on_from(std::uint32_t node);
    std::int32_t driven(const Incidence& incidence) const;
    const Incidence* searched_step(std::uint32_t node) const;
    const End* start_at(std::uint32_t node) const;
    void offer_ends(std::uint32_t node);
    void bar_branches();
    bool parts(const End& end) const;
    bool is_parted() const;
    void find_clear_below();
    bool is_clear(std::uint32_t node);
    bool walk_is_clear(std::uint32_t node);
    void find();
    void add(const Incidence& incidence, Way& way) const;
    Way way_of_found() const;
    void clear();

    const Network& network_;
    const Searched* from_ = nullptr;
    const HoseOnRoads* hose_ = nullptr;
    std::int32_t limit_ = 0;
    std::array<End, 2> spot_ends_, site_ends_;
    std::int32_t clear_below_ = 0;      // searched ways of less cost cannot touch the hose
    std::vector<std::int32_t> so_far_;  // per node, to the dump site
    std::vector<Step> step_;            // per node
    std::vector<std::uint32_t> touched_;
    std::vector<std::uint32_t> barred_;  // per node: the round in which its searched way met hose
    std::uint32_t round_ = 0;            // a number for each question
    std::vector<std::uint32_t> walked_;
    // All searched ways to these meet hose: over each closed edge, then from closed ends.
    std::vector<SearchTree::Branch> barred_branches_;
    Found found_;
    Heap heap_;
};

}  // namespace farwater::routing
