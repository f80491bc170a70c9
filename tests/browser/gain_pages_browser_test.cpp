// A gain's page on paper: one side, so that its worksheet comes on the back.
#include <algorithm>

#include <catch2/catch.hpp>

#include "reports/gains/gain_page.h"
#include "tests/browser/node.h"
#include "tests/support/pdf_text.h"
#include "tests/support/temporary_folder.h"

using namespace farwater;
using namespace farwater::reports;
using namespace farwater::support;

namespace {

District two_hundred_houses() {
    District district;
    district.name = "Paper";
    for (int i = 0; i < 200; ++i) {
        Parcel parcel;
        parcel.id = "AN-" + std::to_string(100 + i);
        parcel.house = {100.0 * (i % 20), 150.0 * (i / 20)};
        district.parcels.push_back(parcel);
    }
    return district;
}

std::vector<planning::Change> all_gain(const District& district) {
    std::vector<planning::Change> changes;
    for (std::uint32_t row = 0; row < district.parcels.size(); ++row) {
        planning::Change change{.row = row, .before = {}, .after = {}};
        change.before.needed = change.after.needed = tenths_of_gpm(5000);
        change.after.cautious = tenths_of_gpm(4000);
        changes.push_back(change);
    }
    return changes;
}

// Everything that a page can have, as long as it comes.
GainPage fullest(const WaterSource& place, std::span<const planning::Change> changes) {
    const std::string gained = "2,061 gpm over 85 properties; 2 newly meet their planned flow";
    return {.anchor = "proposal-1",
            .title = "1. Dry hydrant at Millrace Pond (DH-2)",
            .statement =
                "It takes 2,061 gpm of shortfall away: 85 properties hold more of the "
                "flow needed, 2 more meet their planned flow, in the worst season and "
                "period of each.",
            .facts = {{"Adds", gained},
                      {"With those before it", gained},
                      {"As the only one", gained},
                      {"Cost", "9,000"},
                      {"Cost for each newly met", "4,500"},
                      {"It gives", "723 gpm"},
                      {"Built in year", "2"},
                      {"What the choice goes by", "1,200,000 gpm x square feet of building"},
                      {"Its pipe crosses the ground of", "the owner of parcel AN-000502"},
                      {"If that is refused",
                       "DH-2-2 (the owner of parcel AN-000416, 132 ft of pipe); DH-2-3 (the owner "
                       "of parcel AN-000417, 140 ft of pipe); farwater propose --rule-out DH-2 "
                       "works the next out"},
                      {"Worth it only if",
                       "at least 87,000 gal remain at drought (0.8 ft off its mapped area): sound "
                       "it"},
                      {"Less by it",
                       "2 properties, 4 gpm in all, taken off the gain: not every choice of "
                       "tankers and fill sites is tried; a crew would fill where it filled "
                       "before"}},
            .changes = changes,
            .place = &place,
            .to_settle = {"worth it only if at least 87000 gal remain at drought (0.8 ft off its "
                          "mapped area): sound it",
                          "ask the owner of parcel AN-000502, the road's owner and whoever permits "
                          "work in wetlands and shores",
                          "source D7 is there and does not count yet: look at that first"},
            .to_fill = {"Owner of the water or ground, asked on", "Owner of the road, asked on",
                        "Permit for wetland or shore, number", "Sounded on, by, gallons at drought",
                        "Lift at drought level, ft, measured by", "Flow tested on, by, gpm"},
            .worksheet = {{"what it gives, worked out", {{.what = "gives", .words = "723 gpm"}}}}};
}

}  // namespace

TEST_CASE("a gain's page stays on one side of the paper, however much it says") {
    if (!std::filesystem::exists(chromium())) {
        std::cout << "SKIPPED: Chromium is not installed\n";
        return;
    }
    const District district = two_hundred_houses();
    const std::vector<planning::Change> changes = all_gain(district);
    const WaterSource place{.id = "DH-2", .place = {800.0, 600.0}};
    SheetBlocks sheet;
    sheet.begin_section("places", false).heading("Places").end_section();
    add_gain_page(sheet, district, fullest(place, changes));
    const TemporaryFolder folder;
    put(folder / "page.html", gains_html("Where", district, "by hand", sheet));
    const std::string pdf = (folder / "page.pdf").string();
    const Ended ended = run_program(
        chromium(), {"--headless", "--no-sandbox", "--disable-gpu", "--print-to-pdf=" + pdf,
                     "file://" + (folder / "page.html").string()});
    INFO(ended.err);
    REQUIRE(std::filesystem::exists(pdf));
    const std::string text = text_of_pdf(bytes_of(pdf));
    CAPTURE(text);
    CHECK(std::ranges::count(text, '\f') == 3);  // front, page, worksheet
}
