// Which cell belongs to which parcel: pieces that fell off are given away, slivers joined, and the
// number of parcels is brought to the wanted one.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "sample_region/generate/cells.h"
#include "sample_region/generate/lots.h"
#include "sample_region/generate/random.h"

namespace farwater::sample {

class Grouping {
public:
    // `areas` of the sites' cells, square metres.
    Grouping(const LotInput& input, LotPlan plan, const Cells& cells, std::vector<double> areas,
             std::uint64_t tile_seed);

    // Afterwards every inside cell has a lot; every lot is in one piece (a few back lots in two or
    // more, as in real deeds) and no smaller than its kind allows.
    void clean();
    // Merges or splits lots until `wanted` are left; gives up where nothing more can be split.
    void bring_to(int wanted);

    const LotPlan& plan() const { return plan_; }
    int lots_left() const;
    // The lot of every site, as `dissolved` wants it.
    std::vector<std::int32_t> lot_of() const;

private:
    struct Neighbour {
        std::int32_t site;
        float length;
        bool across_road;
    };
    using Sites = std::vector<std::int32_t>;

    std::int32_t& lot(std::int32_t site) { return plan_.sites[static_cast<std::size_t>(site)].lot; }
    std::int32_t lot(std::int32_t site) const {
        return plan_.sites[static_cast<std::size_t>(site)].lot;
    }
    void find_neighbours(const LotInput& input, const Cells& cells);
    void adopt_undecided();
    std::vector<Sites> sites_by_lot() const;
    std::vector<Sites> pieces_of(const Sites& sites) const;
    double area_of(const Sites& sites) const;
    // How much a side speaks for joining the lot behind it: its length, next to nothing across a
    // road; 0 for what is no lot or, if only country lots are wanted, not one of these.
    double attraction(const Neighbour& next, bool country_only) const;
    // The lot with the longest side in common; `outside` if none.
    std::int32_t best_neighbour(const Sites& sites, bool country_only) const;
    void give(const Sites& sites, std::int32_t to);
    void give_away_pieces();
    void join_slivers();
    bool split_one(const std::vector<Sites>& by_lot);
    bool merge_one(std::vector<Sites>& by_lot, bool country_only);

    LotPlan plan_;
    Random random_;
    std::vector<std::size_t> first_neighbour_;  // by site, into neighbours_
    std::vector<Neighbour> neighbours_;
    std::vector<double> areas_;
    std::vector<bool> may_be_parted_;  // by lot
};

}  // namespace farwater::sample
