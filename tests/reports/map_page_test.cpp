// report.html as text: whole, safe against its own data, the same bytes for the same findings.
#include "reports/map_page.h"

#include <algorithm>
#include <regex>
#include <set>

#include <catch2/catch.hpp>

#include "reports/page/page_tables.h"
#include "reports/page/page_text.h"
#include "tests/reports/found.h"

using namespace farwater;
using namespace farwater::reports;
using farwater::reports::test::Found;

namespace {

std::string page_of(const Found& found, const std::string& address = "1 Mill Road",
                    const PackedShapes* areas = nullptr) {
    const Findings findings = found.findings();
    const RunRecord record{{"program", "farwater <b>1"}, {"district_file", "d.toml"}};
    std::string html;
    write_map_page({findings, record, PageGrid{}, areas,
                    [&](std::size_t) -> std::string_view { return address; }},
                   [&](std::string_view bytes) { html += bytes; });
    return html;
}

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
        ++count;
    }
    return count;
}

// Without the page's own script, which may name elements.
std::string without_script(const std::string& html) {
    const auto at = html.find(page_script());
    REQUIRE(at != std::string::npos);
    return html.substr(0, at) + html.substr(at + page_script().size());
}

}  // namespace

TEST_CASE("every place of the template is filled, and every table is there once") {
    const Found found;
    const std::string html = without_script(page_of(found));
    CHECK(html.find("{{") == std::string::npos);
    CHECK(html.rfind("<!DOCTYPE html>", 0) == 0);
    for (const PageTable& table : page_tables(found.findings())) {
        CAPTURE(table.name);
        CHECK(count_of(html, "id=\"data-" + std::string(table.name) + "\"") == 1);
    }
    CHECK(html.find("Alder &lt;Notch&gt;") != std::string::npos);
    CHECK(html.find("farwater &lt;b&gt;1") != std::string::npos);
    CHECK(html.find("Never pull a main below 20 psi") != std::string::npos);
}

TEST_CASE("nothing in the page leads outside, and its policy allows its own script alone") {
    const Found found;
    const std::string html = page_of(found);
    for (const char* outside : {"src=", "@import", "url(", "<link", "<iframe", "fetch(",
                                "XMLHttpRequest", "style=\"", "onclick", "eval("}) {
        CAPTURE(outside);
        CHECK(html.find(outside) == std::string::npos);
    }
    // The one address in it is the name of SVG, which nothing is loaded from.
    CHECK(count_of(html, "://") == count_of(html, "http://www.w3.org/2000/svg"));
    const std::regex policy(
        "content=\"default-src 'none'; script-src 'sha256-[A-Za-z0-9+/]{43}='; "
        "style-src 'sha256-[A-Za-z0-9+/]{43}='; base-uri 'none'; form-action "
        "'none'\"");
    CHECK(std::regex_search(html, policy));
}

TEST_CASE("hostile text in names, ids and addresses never leaves its place") {
    Found harmless;
    Found hostile;
    const std::string text =
        std::string("</script><script>alert(1)</script><!-- \"'`${x}{{data}}") + '\0' +
        "\xE2\x80\xAE\xFF]]>";
    hostile.district.name = text;
    hostile.district.tanker_word = text;
    for (Parcel& parcel : hostile.district.parcels) {
        parcel.id += text;
    }
    hostile.district.stations.push_back({.id = text, .name = text});
    const std::string html = page_of(hostile, text);
    const std::string plain = page_of(harmless);
    for (const char* opening : {"<script", "</script", "<!--", "<style", "<body"}) {
        CAPTURE(opening);
        CHECK(count_of(html, opening) == count_of(plain, opening));
    }
    CHECK(html.find('\0') == std::string::npos);
    CHECK(html.find('\xFF') == std::string::npos);
    CHECK(count_of(html, "alert(1)") > 0);  // escaped, in the title and the headline
    CHECK(html.find("<script>alert") == std::string::npos);
}

TEST_CASE("the page says whether it draws areas or points") {
    const Found found;
    CHECK(page_of(found).find("this page draws a point for each house") != std::string::npos);
    PackedShapes areas(PageGrid{});
    for (int i = 0; i < 4; ++i) {
        areas.add_areas(std::vector<Polyline>{{{0, 0}, {9, 0}, {9, 9}, {0, 0}}});
    }
    CHECK(page_of(found, "", &areas).find("Borders are simplified") != std::string::npos);
}

TEST_CASE("the same findings give the same page") {
    const std::string once = page_of(Found{});
    const std::string again = page_of(Found{});
    const auto [there, here] = std::ranges::mismatch(once, again);
    const auto place = static_cast<std::size_t>(there - once.begin());
    INFO("differ behind " << once.substr(place < 200 ? 0 : place - 200, 220));
    CHECK(place == once.size());
    CHECK(once.size() == again.size());
}

TEST_CASE("no document shows a handbook value or a flow that is not cautious") {
    const Found found;
    const std::string html = page_of(found);
    const Findings findings = found.findings();
    const RunRecord record;
    const MapPage page{findings, record, PageGrid{}, nullptr, [](std::size_t) { return ""; }};
    for (const PageTable& table : page_tables(findings)) {
        const std::string bytes = table.packed(page);
        CAPTURE(table.name);
        CHECK(bytes.find("handbook_gpm") == std::string::npos);
        CHECK(bytes.find("sustained_gpm") == std::string::npos);
    }
}
