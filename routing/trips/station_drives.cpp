#include "routing/trips/station_drives.h"

#include <algorithm>
#include <tuple>

namespace farwater::routing {

Lists<StationDrive> by_place(std::vector<Drive> drives, std::size_t places) {
    std::ranges::sort(drives, [](const Drive& a, const Drive& b) {
        return std::tie(a.place, a.station, a.profile) < std::tie(b.place, b.station, b.profile);
    });
    Lists<StationDrive> lists;
    lists.begin.reserve(places + 1);
    auto drive = drives.begin();
    for (std::size_t place = 0; place < places; ++place) {
        const std::size_t row = lists.items.size();
        for (; drive != drives.end() && drive->place == place; ++drive) {
            if (lists.items.size() == row || lists.items.back().station != drive->station) {
                lists.items.push_back({drive->station});
            }
            at(lists.items.back().loaded, drive->profile) = drive->time;
        }
        lists.close_row();
    }
    return lists;
}

}  // namespace farwater::routing
