#include "analyzer/app/trips_compared.h"

#include <algorithm>
#include <utility>

namespace farwater::app {
namespace {

bool same_legs(const LegTimes& a, const LegTimes& b) {
    return a.empty == b.empty && a.loaded == b.loaded;
}
bool same_trip(const FillTrip& a, const FillTrip& b) {
    return a.fill_site == b.fill_site && std::ranges::equal(a.legs, b.legs, same_legs);
}
bool same_source_lay(const SourceLay& a, const SourceLay& b) {
    return a.fill_site == b.fill_site && a.length == b.length;
}

}  // namespace

bool sees_the_same(const RoundTrips& a, const RoundTrips& b, std::size_t row) {
    const std::span<const HoseLay> lays = a.hose_lays[row];
    const std::span<const HoseLay> others = b.hose_lays[row];
    const auto lane = [](const HoseLay& lay) { return std::pair(lay.lane, lay.single_file_s); };
    if (!std::ranges::equal(lays, others, {}, lane, lane) ||
        !std::ranges::equal(a.source_lays[row], b.source_lays[row], same_source_lay)) {
        return false;
    }
    return std::ranges::equal(lays, others, [&](const HoseLay& lay, const HoseLay& other) {
        return lay.approach.valid() == other.approach.valid() &&
               std::ranges::equal(a.fill_trips[lay.ways().position()],
                                  b.fill_trips[other.ways().position()], same_trip);
    });
}

}  // namespace farwater::app
