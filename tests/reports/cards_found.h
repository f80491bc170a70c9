// What a run with cards could have found, with a hostile name wherever data give one.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "reports/cards/card_book.h"
#include "tests/reports/found.h"

namespace farwater::reports::test {

inline constexpr const char* hostile_name = "<b>\"Mill\" & \xff\x01 Road</b>\n% ) endobj";

// The four parcels of Found: two at one dump site, one without building, one unknown.
struct CardsFound : Found {
    std::vector<std::string> addresses{"12 Mill Road", "8 mill road", "", hostile_name};
    RunRecord record{{"program", "farwater 0"}, {"district_file_sha256", "0123456789abcdef"}};
    std::vector<CardSite> sites;
    std::vector<supply::Working> workings;

    CardsFound() {
        district.name = hostile_name;
        district.roads.push_back({.line = {{0, 0}, {500, 0}}, .name = hostile_name});
        DumpSiteCandidate place;
        place.place = {100, 0};
        place.road = RoadIndex(0);
        seasons[0].trips.dump_sites = {place, place};
        for (const std::size_t row : {0U, 1U}) {
            assessment.supplies[row].dump_site = DumpSiteIndex(1);
            assessment.supplies[row].mode = SupplyMode::shuttle;
            district.parcels[row].house = {120.0 + static_cast<double>(row) * 50.0, 40.0};
        }
        sites = card_sites(findings());
        workings.resize(sites.size());
        workings.front().variant = {SeasonIndex(0), PeriodIndex(0)};
    }
    CardBook book(const Findings& all) const {
        return {
            all,   record,   [this](std::size_t row) { return std::string_view(addresses[row]); },
            sites, workings, routes};
    }
};

}  // namespace farwater::reports::test
