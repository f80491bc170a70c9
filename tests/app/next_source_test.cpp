// A `run` that also chooses where the next sources go, against `propose`.
#include <catch2/catch.hpp>

#include "tests/app/district_with_places.h"
#include "tests/open_data/open_data.h"
#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;
using farwater::open_data::Package;

namespace {

namespace fs = std::filesystem;

fs::path asking_for(const fs::path& folder, const std::string& keys) {
    const fs::path file = district_with_places(folder);
    put(file, bytes_of(file) + "\n[next_source]\n" + keys);
    return file;
}

Ended command(const char* name, const fs::path& district, const fs::path& out,
              std::vector<std::string> more = {}) {
    more.insert(more.begin(), {name, district.string(), "--out", out.string()});
    Ended ended = run_program(FARWATER_PROGRAM, more);
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    return ended;
}

// Every value of the proposals' tables, in a GeoPackage.
std::vector<std::vector<std::string>> proposals_in(const fs::path& package) {
    const Package result(package);
    std::vector<std::vector<std::string>> all;
    for (const char* table :
         {"source_proposals", "proposal_candidates", "proposal_gains", "proposal_years"}) {
        auto rows = result.rows(std::string("SELECT * FROM ") + table);
        std::ranges::move(rows, std::back_inserter(all));
    }
    return all;
}

std::string first_chosen(const fs::path& package) {
    return Package(package).rows("SELECT source_id FROM source_proposals WHERE rank = 1").at(0)[0];
}

}  // namespace

TEST_CASE("a run proposes what propose does, and its own answers stay what they were") {
    const TemporaryFolder folder;
    const fs::path plain = district_with_places(folder.path());
    command("run", plain, folder / "plain");
    const fs::path asking = asking_for(folder.path(), "sites = 2\nplanned = [\"DH-1\"]\n");
    const Ended ran = command("run", asking, folder / "run");
    command("propose", asking, folder / "proposed");
    const auto chosen = proposals_in(folder / "run" / "supply.gpkg");
    CHECK(chosen == proposals_in(folder / "proposed" / "proposals.gpkg"));
    CHECK(first_chosen(folder / "run" / "supply.gpkg") == "DH-1");
    const std::string answers = "SELECT * FROM parcel_supply";
    CHECK(Package(folder / "run" / "supply.gpkg").rows(answers) ==
          Package(folder / "plain" / "supply.gpkg").rows(answers));
    CHECK(contains(ran.out, "Where the next source of water helps most"));
    for (const char* name : {"source_proposals", "proposal_gains", "proposal_candidates"}) {
        CHECK(bytes_of(folder / "run" / "tables" / (std::string(name) + ".csv")) ==
              bytes_of(folder / "proposed" / (std::string(name) + ".csv")));
    }
    CHECK(contains(bytes_of(folder / "run" / "proposals.html"), "Gain by the number of sites"));
    CHECK_FALSE(fs::exists(folder / "plain" / "proposals.html"));
}

TEST_CASE("options of propose go before the district file's terms") {
    const TemporaryFolder folder;
    const fs::path asking =
        asking_for(folder.path(), "budget = 1\nruled_out = [\"C1\", \"C3\", \"C5\"]\n");
    command("propose", asking, folder / "dear");
    CHECK(Package(folder / "dear" / "proposals.gpkg")
              .number("SELECT count(*) FROM source_proposals") == 0);
    command("propose", asking, folder / "out", {"--sites", "1"});
    const Package result(folder / "out" / "proposals.gpkg");
    CHECK(result.number("SELECT count(*) FROM source_proposals") == 1);
    CHECK(result.number("SELECT count(*) FROM source_proposals WHERE source_id LIKE 'C_'") == 0);
}

TEST_CASE("the public is shown no proposals") {
    const TemporaryFolder folder;
    const fs::path asking = asking_for(folder.path(), "sites = 1\n");
    command("run", asking, folder / "out", {"--audience", "public"});
    CHECK(Package(folder / "out" / "supply.gpkg")
              .number("SELECT count(*) FROM gpkg_contents WHERE table_name LIKE '%proposal%'") ==
          0);
}

TEST_CASE("a run that has no place to choose from says so before it reads anything") {
    const TemporaryFolder folder;
    const fs::path file = write_small_district(folder.path());
    put(file, bytes_of(file) + "\n[next_source]\n[assumptions]\nmost_new_cisterns = 0\n");
    const Ended ended = run_program(FARWATER_PROGRAM, {"run", file.string()});
    CHECK(ended.exit_code == 2);
    CHECK(contains(ended.err, "there is no place to choose from"));
}
