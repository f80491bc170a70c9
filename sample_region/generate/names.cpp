#include "sample_region/generate/names.h"

#include <array>
#include <string_view>
#include <utility>

namespace farwater::sample {
namespace {

constexpr std::array<std::string_view, 116> words{
    "Hollow",    "Quarry",       "Tannery",   "Beaver",   "Kettle",     "Larch",      "Cider",
    "Potash",    "Gristle",      "Heron",     "Bramble",  "Stone Wall", "Old Sap",    "Lantern",
    "Corbin",    "Thistle",      "Fiddler",   "Ox Yoke",  "Hemlock",    "Tamarack",   "Whistle",
    "Button",    "Cobble",       "Plover",    "Dory",     "Millrace",   "Bellows",    "Ashpit",
    "Turnpike",  "Sawdust",      "Muster",    "Barrel",   "Clapboard",  "Wicket",     "Partridge",
    "Otter",     "Gander",       "Flint",     "Juniper",  "Marl",       "Shingle",    "Cooper",
    "Hatchet",   "Meadowlark",   "Bobcat",    "Windfall", "Brickyard",  "Candle",     "Furrow",
    "Sugarbush", "Granite",      "Drover",    "Pepper",   "Catamount",  "Sorrel",     "Lime Kiln",
    "Chandler",  "Harrow",       "Teasel",    "Woodcock", "Sedge",      "Bittern",    "Charcoal",
    "Nettle",    "Rook",         "Saddle",    "Tallow",   "Pitchfork",  "Lookout",    "Butternut",
    "Snowshoe",  "Fallow",       "Peat",      "Kingbird", "Cattail",    "Moss",       "Ridgepole",
    "Anvil",     "Hardscrabble", "Sheepfold", "Copper",   "Yarrow",     "Bluff",      "Dovetail",
    "Gooseneck", "Plank",        "Basswood",  "Ember",    "Silo",       "Switchback", "Wagon",
    "Poorhouse", "Buckboard",    "Elder",     "Fern",     "Ironwood",   "Kestrel",    "Notch Hill",
    "Orchard",   "Pasture",      "Raspberry", "Spruce",   "Trestle",    "Upland",     "Vinegar",
    "Willow",    "Birch",        "Crow",      "Dam",      "Evergreen",  "Flatiron",   "Gully",
    "Hay",       "Ice House",    "Jackpine",  "Keel",
};

}  // namespace

Names::Names(std::uint64_t seed) : left_(words.begin(), words.end()), random_(seed) {}

std::string Names::word() {
    if (left_.empty()) {
        ++used_up_;
        left_.assign(words.begin(), words.end());
    }
    const std::size_t pick = random_.index(left_.size());
    std::swap(left_[pick], left_.back());
    const std::string result = left_.back();
    left_.pop_back();
    return used_up_ == 0 ? result : "New " + result;
}

}  // namespace farwater::sample
