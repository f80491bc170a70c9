#include "sample_region/generate/grouping.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "sample_region/generate/segment_index.h"

namespace farwater::sample {
namespace {

constexpr double own_lot_area = 15000;  // a piece that fell off and is this large becomes a lot
constexpr double parted_share = 0.15;   // of such pieces that stay with their lot as a second part
constexpr int cleaning_rounds = 6;

bool is_country(LotKind kind) { return kind == LotKind::roadside || kind == LotKind::back; }

double least_area(LotKind kind) {
    switch (kind) {
        case LotKind::village:
            return 350;
        case LotKind::hamlet:
        case LotKind::camp:
            return 700;
        case LotKind::roadside:
        case LotKind::farm:
            return 2500;
        case LotKind::back:
            return 9000;
    }
    return 0;
}

}  // namespace

Grouping::Grouping(const LotInput& input, LotPlan plan, const Cells& cells,
                   std::vector<double> areas, std::uint64_t tile_seed)
    : plan_(std::move(plan)),
      random_(mixed(tile_seed, 61U)),
      areas_(std::move(areas)),
      may_be_parted_(plan_.lots.size(), false) {
    find_neighbours(input, cells);
}

void Grouping::find_neighbours(const LotInput& input, const Cells& cells) {
    SegmentIndex roads(input.outline.box(), 60);
    for (std::size_t i = 0; i < input.roads.size(); ++i) {
        roads.add(input.roads[i].line, static_cast<std::int32_t>(i));
    }
    std::vector<std::size_t> count(plan_.sites.size() + 1, 0);
    for (const CellSide& side : cells.sides) {
        ++count[static_cast<std::size_t>(side.left) + 1];
        ++count[static_cast<std::size_t>(side.right) + 1];
    }
    for (std::size_t i = 1; i < count.size(); ++i) {
        count[i] += count[i - 1];
    }
    first_neighbour_ = count;
    neighbours_.resize(count.back());
    for (const CellSide& side : cells.sides) {
        const Point a = cells.corners[static_cast<std::size_t>(side.from)];
        const Point b = cells.corners[static_cast<std::size_t>(side.to)];
        const Point from = plan_.sites[static_cast<std::size_t>(side.left)].place;
        const Point to = plan_.sites[static_cast<std::size_t>(side.right)].place;
        bool across = false;
        roads.each_near((from + to) * 0.5, metres_between(from, to) / 2, [&](const Segment& road) {
            across = across || crossing(from, to, road.a, road.b).has_value();
        });
        const auto length = static_cast<float>(metres_between(a, b));
        neighbours_[count[static_cast<std::size_t>(side.left)]++] = {side.right, length, across};
        neighbours_[count[static_cast<std::size_t>(side.right)]++] = {side.left, length, across};
    }
}

double Grouping::attraction(const Neighbour& next, bool country_only) const {
    const std::int32_t other = lot(next.site);
    if (other < 0) {
        return 0;
    }
    const LotKind kind = plan_.lots[static_cast<std::size_t>(other)].kind;
    if (country_only && (!is_country(kind) || next.across_road)) {
        return 0;
    }
    return static_cast<double>(next.length) * (next.across_road ? 0.001 : 1);
}

std::int32_t Grouping::best_neighbour(const Sites& sites, bool country_only) const {
    const std::int32_t own = lot(sites.front());
    std::map<std::int32_t, double> common;
    for (const std::int32_t site : sites) {
        const auto at = static_cast<std::size_t>(site);
        for (std::size_t i = first_neighbour_[at]; i < first_neighbour_[at + 1]; ++i) {
            if (lot(neighbours_[i].site) != own) {
                common[lot(neighbours_[i].site)] += attraction(neighbours_[i], country_only);
            }
        }
    }
    std::int32_t best = outside;
    double longest = 0.5e-3;
    for (const auto& [other, length] : common) {
        if (length > longest) {
            best = other;
            longest = length;
        }
    }
    return best;
}

void Grouping::give(const Sites& sites, std::int32_t to) {
    for (const std::int32_t site : sites) {
        lot(site) = to;
        plan_.sites[static_cast<std::size_t>(site)].in_front = false;
    }
}

void Grouping::adopt_undecided() {
    for (bool changed = true; changed;) {
        changed = false;
        for (std::size_t i = 0; i < plan_.sites.size(); ++i) {
            const auto site = static_cast<std::int32_t>(i);
            if (lot(site) == undecided) {
                lot(site) = best_neighbour({site}, false);
                lot(site) = lot(site) == outside ? undecided : lot(site);
                changed = changed || lot(site) != undecided;
            }
        }
    }
}

std::vector<Grouping::Sites> Grouping::sites_by_lot() const {
    std::vector<Sites> result(plan_.lots.size());
    for (std::size_t i = 0; i < plan_.sites.size(); ++i) {
        const auto site = static_cast<std::int32_t>(i);
        if (lot(site) >= 0) {
            result[static_cast<std::size_t>(lot(site))].push_back(site);
        }
    }
    return result;
}

double Grouping::area_of(const Sites& sites) const {
    double sum = 0;
    for (const std::int32_t site : sites) {
        sum += areas_[static_cast<std::size_t>(site)];
    }
    return sum;
}

// Connected pieces of some sites of one lot, the largest first. A road parts a lot.
std::vector<Grouping::Sites> Grouping::pieces_of(const Sites& sites) const {
    std::set<std::int32_t> left(sites.begin(), sites.end());
    std::vector<Sites> pieces;
    for (const std::int32_t start : sites) {
        if (left.erase(start) == 0) {
            continue;
        }
        Sites piece{start};
        for (std::size_t next = 0; next < piece.size(); ++next) {
            const auto at = static_cast<std::size_t>(piece[next]);
            for (std::size_t i = first_neighbour_[at]; i < first_neighbour_[at + 1]; ++i) {
                const Neighbour& other = neighbours_[i];
                if (!other.across_road && other.length > 0.5F && left.erase(other.site) > 0) {
                    piece.push_back(other.site);
                }
            }
        }
        pieces.push_back(std::move(piece));
    }
    std::ranges::stable_sort(
        pieces, [&](const Sites& a, const Sites& b) { return area_of(a) > area_of(b); });
    return pieces;
}

void Grouping::give_away_pieces() {
    const std::vector<Sites> by_lot = sites_by_lot();
    for (std::size_t i = 0; i < by_lot.size(); ++i) {
        if (by_lot[i].size() < 2 || may_be_parted_[i]) {
            continue;
        }
        const std::vector<Sites> pieces = pieces_of(by_lot[i]);
        for (std::size_t k = 1; k < pieces.size(); ++k) {
            const bool large = area_of(pieces[k]) >= own_lot_area;
            if (large && random_.chance(parted_share)) {
                may_be_parted_[i] = true;
            } else if (large) {
                const auto fresh = static_cast<std::int32_t>(plan_.lots.size());
                plan_.lots.push_back({});
                may_be_parted_.push_back(false);
                give(pieces[k], fresh);
            } else if (const std::int32_t to = best_neighbour(pieces[k], false); to >= 0) {
                give(pieces[k], to);
            }
        }
    }
}

void Grouping::join_slivers() {
    const std::vector<Sites> by_lot = sites_by_lot();
    for (std::size_t i = 0; i < by_lot.size(); ++i) {
        // A lot may have been given more land since the list was made; it is joined all the same.
        if (by_lot[i].empty() || area_of(by_lot[i]) >= least_area(plan_.lots[i].kind)) {
            continue;
        }
        if (const std::int32_t to = best_neighbour(by_lot[i], false); to >= 0) {
            give(by_lot[i], to);
        }
    }
}

void Grouping::clean() {
    adopt_undecided();
    for (int round = 0; round < cleaning_rounds; ++round) {
        give_away_pieces();
        join_slivers();
    }
}

int Grouping::lots_left() const {
    int count = 0;
    for (const Sites& sites : sites_by_lot()) {
        count += sites.empty() ? 0 : 1;
    }
    return count;
}

// Halves the roadside lot with the most columns whose halves are both in one piece.
bool Grouping::split_one(const std::vector<Sites>& by_lot) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < plan_.lots.size(); ++i) {
        if (plan_.lots[i].columns >= 2 && i < by_lot.size() && !by_lot[i].empty()) {
            order.push_back(i);
        }
    }
    std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
        return plan_.lots[a].columns > plan_.lots[b].columns;
    });
    for (const std::size_t i : order) {
        const Lot whole = plan_.lots[i];
        const int half = whole.columns / 2;
        const double middle = whole.from + (whole.to - whole.from) * half / whole.columns;
        Sites far;
        Sites near;
        for (const std::int32_t site : by_lot[i]) {
            (plan_.sites[static_cast<std::size_t>(site)].station > middle ? far : near)
                .push_back(site);
        }
        plan_.lots[i].columns = 1;  // not tried again
        if (near.empty() || far.empty() || pieces_of(near).size() > 1 ||
            pieces_of(far).size() > 1) {
            continue;
        }
        plan_.lots[i].columns = half;
        plan_.lots[i].to = middle;
        Lot second = whole;
        second.from = middle;
        second.columns = whole.columns - half;
        plan_.lots.push_back(second);
        may_be_parted_.push_back(false);
        for (const std::int32_t site : far) {
            lot(site) = static_cast<std::int32_t>(plan_.lots.size()) - 1;
        }
        return true;
    }
    return false;
}

// Gives one lot, picked by chance, to its best neighbour.
bool Grouping::merge_one(std::vector<Sites>& by_lot, bool country_only) {
    for (int attempt = 0; attempt < 4000; ++attempt) {
        const std::size_t pick = random_.index(by_lot.size());
        const LotKind kind = plan_.lots[pick].kind;
        if (by_lot[pick].empty() || may_be_parted_[pick] || (country_only && !is_country(kind))) {
            continue;
        }
        const std::int32_t to = best_neighbour(by_lot[pick], country_only);
        if (to < 0) {
            continue;
        }
        give(by_lot[pick], to);
        Sites& grown = by_lot[static_cast<std::size_t>(to)];
        grown.insert(grown.end(), by_lot[pick].begin(), by_lot[pick].end());
        by_lot[pick].clear();
        return true;
    }
    return false;
}

void Grouping::bring_to(int wanted) {
    while (lots_left() < wanted) {
        if (!split_one(sites_by_lot())) {
            break;
        }
    }
    std::vector<Sites> by_lot = sites_by_lot();
    for (int left = lots_left(); left > wanted; --left) {
        if (!merge_one(by_lot, true) && !merge_one(by_lot, false)) {
            break;
        }
    }
}

std::vector<std::int32_t> Grouping::lot_of() const {
    std::vector<std::int32_t> result;
    result.reserve(plan_.sites.size());
    for (const Site& site : plan_.sites) {
        result.push_back(site.lot);
    }
    return result;
}

}  // namespace farwater::sample
