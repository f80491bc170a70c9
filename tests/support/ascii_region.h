// Districts drawn as text. Letters and digits are places, everything else is ink for the reader:
//
//     AsciiRegion region(R"(
//         A----B----C
//              |
//              D     1
//     )");
//     region.road("ABC");
//     region.road("BD").access = RoadAccess::gated;
//     region.parcel('1');
//
// A column is 100 m wide and a line 100 m high, the first line of the drawing lies northmost. All
// roads have the speed of 10 m/s, loaded and empty, so 100 m take 10 seconds. What a call returns
// may be changed until the next call.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "analyzer/district/district.h"
#include "analyzer/district/plane.h"

namespace farwater::test {

class AsciiRegion {
public:
    // A letter may stand once. One season of all months, one period, no units.
    explicit AsciiRegion(std::string_view drawing, Length cell = metres(100));

    // Throws std::out_of_range for a letter that is not drawn, as all below.
    Point at(char letter) const;

    Road& road(std::string_view letters);  // paved, open, both ways, through these places
    Parcel& parcel(char letter);           // its id is the letter, its house stands there
    Target& target(char letter);
    Station& station(char letter);     // own
    WaterSource& source(char letter);  // declared
    DumpSitePlace& dump_site_place(char letter);
    Unit& unit(UnitKind kind, std::string id, char station);  // of 2,000 gal; stations first

    District district;

private:
    std::map<char, Point> places_;
};

// 10 metres a second.
Speed ten_metres_a_second();

}  // namespace farwater::test
