// Row numbers as types: an index into one list cannot be used in another, and has no arithmetic.
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <functional>

namespace farwater {

template <class Thing>
class Index {
public:
    constexpr Index() = default;  // "none"
    constexpr explicit Index(std::size_t position)
        : position_(static_cast<std::uint32_t>(position)) {}

    constexpr bool valid() const { return position_ != UINT32_MAX; }
    constexpr std::size_t position() const { return position_; }  // precondition: valid()

    friend constexpr auto operator<=>(Index, Index) = default;

private:
    std::uint32_t position_ = UINT32_MAX;
};

using RoadIndex = Index<struct RoadTag>;
using ParcelIndex = Index<struct ParcelTag>;
using BuildingIndex = Index<struct BuildingTag>;
using SourceIndex = Index<struct SourceTag>;
using FillSiteIndex = Index<struct FillSiteTag>;
using DumpSiteIndex = Index<struct DumpSiteTag>;
using ApproachIndex = Index<struct ApproachTag>;
using StationIndex = Index<struct StationTag>;
using UnitIndex = Index<struct UnitTag>;
using NodeIndex = Index<struct NodeTag>;
using ProfileIndex = Index<struct ProfileTag>;
using SeasonIndex = Index<struct SeasonTag>;
using PeriodIndex = Index<struct PeriodTag>;

// A list that is read by one kind of index only is written `list[index.position()]`; this spells
// it.
template <class List, class Thing>
constexpr auto& at(List& list, Index<Thing> index) {
    return list[index.position()];
}

}  // namespace farwater

template <class Thing>
struct std::hash<farwater::Index<Thing>> {
    std::size_t operator()(farwater::Index<Thing> index) const noexcept {
        return index.valid() ? index.position() : SIZE_MAX;
    }
};
