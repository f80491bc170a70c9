#include "sample_region/generate/uses.h"

namespace farwater::sample {
namespace {

constexpr double main_street = 330;  // metres from the village's centre

bool is_wild(RoadKind road) { return road == RoadKind::seasonal || road == RoadKind::gated; }

double built_share(const Lot& lot, RoadKind road) {
    switch (lot.kind) {
        case LotKind::village:
            return 0.9;
        case LotKind::hamlet:
            return 0.86;
        case LotKind::camp:
            return 0.92;
        case LotKind::farm:
            return 0.94;
        case LotKind::back:
            return 0.10;
        case LotKind::roadside:
            break;
    }
    return is_wild(road) ? 0.14 : 0.75;
}

Use village_use(bool on_main_street, double draw) {
    if (on_main_street) {
        return choose<Use>(draw,
                           {{0.5, Use::store}, {0.6, Use::public_building}, {1, Use::dwelling}});
    }
    return draw < 0.03 ? Use::public_building : Use::dwelling;
}

}  // namespace

Use use_of(const Lot& lot, RoadKind road, double from_centre, Random& random) {
    const bool built = random.chance(built_share(lot, road));
    const double draw = random.unit();
    if (!built) {
        return lot.kind == LotKind::back ? Use::forest : Use::vacant;
    }
    switch (lot.kind) {
        case LotKind::village:
            return village_use(road == RoadKind::state && from_centre < main_street, draw);
        case LotKind::hamlet:
            return choose<Use>(
                draw, {{0.05, Use::store}, {0.07, Use::public_building}, {1, Use::dwelling}});
        case LotKind::camp:
            return Use::camp;
        case LotKind::farm:
            return Use::farm;
        case LotKind::roadside:
        case LotKind::back:
            break;
    }
    const double camps = is_wild(road) || lot.kind == LotKind::back ? 0.6 : 0;
    return choose<Use>(draw, {{camps, Use::camp}, {0.985, Use::dwelling}, {1, Use::store}});
}

int needed_gpm(const Holding& holding, Random& random) {
    const double draw = random.unit();
    const bool in_village = holding.lot.kind == LotKind::village;
    switch (holding.buildings.empty() ? Use::vacant : holding.use) {
        case Use::mill:
            return 1500;
        case Use::public_building:
            return draw < 0.5 ? 1500 : 1250;
        case Use::store:
            return in_village ? choose<int>(draw, {{0.7, 1250}, {1, 1000}}) : 750;
        case Use::farm:
            return draw < 0.6 ? 1000 : 750;
        case Use::dwelling:
            return in_village && draw < 0.12 ? 750 : 0;
        case Use::vacant:
        case Use::forest:
        case Use::camp:
            break;
    }
    return 0;
}

}  // namespace farwater::sample
