// The rating's documents in a real browser: each by itself, from disk, with the layer's numbers.
#include <catch2/catch.hpp>

#include "io/geopackage/sqlite_file.h"
#include "tests/browser/node.h"
#include "tests/support/region_run.h"
#include "tests/support/temporary_folder.h"

using namespace farwater;
using namespace farwater::support;

namespace {

// What the layer says of each parcel, and the counts of its words.
std::string said_by_layer(const std::filesystem::path& file) {
    const io::SqliteFile gpkg(file);
    const auto counted = [](const std::string& column) {
        return "(SELECT json_group_object(word, count) FROM (SELECT " + column +
               " AS word, count(*) AS count FROM parcel_supply WHERE " + column +
               " IS NOT NULL GROUP BY 1))";
    };
    return gpkg.text(
        "SELECT json_object('words', json_object('near', 'n', 'near_without', 'nX', 'far', '10W', "
        "'otherwise', '10'), 'categories', json(" +
        counted("rating_category") + "), 'reasons', json(" + counted("rating_fails_first") +
        "), 'parcels', (SELECT json_group_array(json_object('id', parcel_id, 'category', "
        "rating_category, 'credited', credited_gpm, 'start', rating_start_min, 'hose', "
        "creditable_hose_ft, 'source', creditable_source_id)) FROM parcel_supply))");
}

}  // namespace

TEST_CASE(
    "a browser shows the rating's documents from disk as they are meant, with the layer's numbers",
    "[golden]") {
    if (!has_browser()) {
        return;
    }
    const TemporaryFolder folder;
    const std::filesystem::path result = region_result(FARWATER_PROGRAM);
    put(folder / "expected.json", said_by_layer(result / "supply.gpkg"));
    const Ended ended =
        run_script("rating_checks.mjs", {result.string(), (folder / "expected.json").string()});
    INFO(ended.out << ended.err);
    CHECK(ended.exit_code == 0);
}
