// The styles that a desktop GIS finds in supply.gpkg.
#include "reports/layer_styles.h"

#include <algorithm>

#include <catch2/catch.hpp>
#include <cpl_minixml.h>

#include "analyzer/district/words.h"

using namespace farwater;
using namespace farwater::reports;

namespace {

// How many elements of this name stand anywhere in the tree.
std::size_t count_of(const CPLXMLNode* node, const std::string& name) {
    std::size_t count = 0;
    for (; node != nullptr; node = node->psNext) {
        count += node->eType == CXT_Element && node->pszValue == name ? 1U : 0U;
        count += count_of(node->psChild, name);
    }
    return count;
}

std::size_t elements(const std::string& xml, const std::string& name) {
    CPLXMLNode* tree = CPLParseXMLString(xml.c_str());
    REQUIRE(tree != nullptr);
    const std::size_t count = count_of(tree, name);
    CPLDestroyXMLNode(tree);
    return count;
}

// Every word that the column may hold has a look.
template <typename Words>
bool tells(const LayerLook& look, const Words& words) {
    return std::ranges::all_of(words, [&](std::string_view word) {
        return std::ranges::find(look.rows, word, &RowLook::value) != look.rows.end();
    });
}

const LayerLook& look_of(std::string_view layer) {
    return *std::ranges::find(layer_looks(), layer, &LayerLook::layer);
}

}  // namespace

TEST_CASE("a layer's style has a rule for every value that its column may hold") {
    CHECK(tells(look_of("parcel_supply"), words_of(SupplyState{})));
    CHECK(tells(look_of("target_supply"), words_of(SupplyState{})));
    CHECK(tells(look_of("road_times"), words_of(RoadAccess{})));
    CHECK(tells(look_of("dump_sites"), words_of(LaneClass{})));
    CHECK(tells(look_of("fill_sites"), words_of(SourceKind{})));
}

TEST_CASE("styles are well-formed, a rule and a symbol for each look") {
    for (const LayerLook& look : layer_looks()) {
        CAPTURE(look.layer);
        CHECK(elements(sld_of(look), "Rule") == look.rows.size());
        CHECK(elements(sld_of(look), "ogc:PropertyIsEqualTo") == look.rows.size());
        CHECK(elements(qml_of(look), "category") == look.rows.size());
        CHECK(elements(qml_of(look), "symbol") == look.rows.size());
    }
}

TEST_CASE("layer_styles has a row for each layer with a look that is there") {
    const std::vector<std::string> layers{"dump_sites", "fleet", "parcel_supply"};
    const io::FeatureTable styles = layer_styles(layers);
    REQUIRE(styles.rows == 2);
    const auto named = [](const char* name) {
        return [name](const io::Column& column) { return column.name == name; };
    };
    const auto place = [&](const char* name) {
        const auto found = std::ranges::find_if(styles.columns, named(name));
        REQUIRE(found != styles.columns.end());
        return static_cast<std::size_t>(found - styles.columns.begin());
    };
    io::Row row{std::vector<io::Value>(styles.columns.size()), {}};
    styles.fill(0, row);
    CHECK(std::get<std::string_view>(row.values[place("f_table_name")]) == "parcel_supply");
    CHECK(std::get<std::string_view>(row.values[place("styleSLD")]) ==
          sld_of(look_of("parcel_supply")));
    CHECK(std::get<bool>(row.values[place("useAsDefault")]));
}
