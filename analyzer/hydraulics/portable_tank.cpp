#include "analyzer/hydraulics/portable_tank.h"

#include <algorithm>

namespace farwater::hydraulics {

Volume usable_of_portable_tank(Volume nominal, Length depth, Length heel, double slope_loss) {
    return nominal * std::max(0.0, 1.0 - heel / depth - slope_loss);
}

}  // namespace farwater::hydraulics
