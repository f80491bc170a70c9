// The tables that report.html carries, packed.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "reports/map_page.h"

namespace farwater::reports {

struct PageTable {
    std::string_view name;
    std::string (*packed)(const MapPage& page);
};

// In the order in which the page holds them; those of proposals only where there are any asked for.
std::vector<PageTable> page_tables(const Findings& findings);

}  // namespace farwater::reports
