// The district's ground on paper: roads by class with names, properties by state, water, dump sites
// and stations, under a grid.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "reports/atlas/map_grid.h"
#include "reports/cards/card_book.h"
#include "reports/print/map_names.h"
#include "reports/print/map_placing.h"

namespace farwater::reports {

class AreaMap {
public:
    AreaMap(const CardBook& book, const MapGrid& grid);

    // Draws what lies in the rectangle. `size`: of signs and letters, 1 for a page in the hand. The
    // margin outside the rectangle gets the grid's letters and numbers. O(roads + parcels).
    void draw(PageCanvas& canvas, const MapPlacing& place, const Rect& rect, double size) const;
    // The same without dump sites and names, on which something else is going to be written.
    void draw_ground(PageCanvas& canvas, const MapPlacing& place, const Rect& rect,
                     double size) const;

private:
    void draw_grid(PageCanvas& canvas, const MapPlacing& place, const Rect& rect,
                   double size) const;
    void draw_roads(PageCanvas& canvas, const MapPlacing& place, const Rect& rect,
                    double size) const;
    void draw_houses(PageCanvas& canvas, const MapPlacing& place, const Rect& rect,
                     double size) const;
    void draw_water_and_stations(PageCanvas& canvas, MapNames& names, const MapPlacing& place,
                                 const Rect& rect, double size) const;
    void draw_dump_sites(PageCanvas& canvas, MapNames& names, const MapPlacing& place,
                         const Rect& rect, double size) const;
    void draw_station_names(MapNames& names, const MapPlacing& place, double size) const;
    void draw_names(PageCanvas& canvas, MapNames& names, const MapPlacing& place, const Rect& rect,
                    double size) const;

    const CardBook& book_;
    const MapGrid& grid_;
    std::vector<Box> road_boxes_;
    // Of dump sites the card's number; empty: nobody printed one; none: nobody uses it.
    std::vector<std::optional<std::string>> numbers_;
    std::vector<bool> fills_;  // by source: somebody fills there
};

// Roads, houses, water and stations: what the maps must hold. Never empty.
Box box_of_book(const CardBook& book);

}  // namespace farwater::reports
