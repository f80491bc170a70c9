#include "sample_region/generate/region.h"

namespace farwater::sample {
namespace {

// A slip of the digitiser: the longest side becomes a bow tie.
void cross_itself(Polyline& ring) {
    std::size_t longest = 0;
    for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
        if (metres_between(ring[i], ring[i + 1]) >
            metres_between(ring[longest], ring[longest + 1])) {
            longest = i;
        }
    }
    const Point a = ring[longest];
    const Point along = ring[longest + 1] - a;
    const Point out = left_of(unit(along)) * -3;
    const auto at = ring.begin() + static_cast<std::ptrdiff_t>(longest) + 1;
    ring.insert(at, {rounded(a + along * 0.6 + out), rounded(a + along * 0.4 + out)});
}

}  // namespace

void make_dirty(std::vector<ParcelRow>& rows) {
    const std::size_t count = rows.size();
    for (const std::size_t i : {count / 5, count * 2 / 5, count * 4 / 5}) {
        cross_itself(rows[i].shape.front().rings.front());
    }
    rows[count / 3].parcel_id = rows[count / 3 + 1].parcel_id;
    rows[count / 2].parcel_id.reset();
    ParcelRow without_land;
    without_land.parcel_id = "AN-990001";
    without_land.map_lot = "99-001";
    without_land.land_use = "V";
    without_land.deed = "712/44";
    without_land.sale_year = 1971;
    rows.push_back(without_land);
}

}  // namespace farwater::sample
