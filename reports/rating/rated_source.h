// One source as the sheets of the source register see it, and its worksheet.
#pragma once

#include <string>

#include "reports/findings.h"
#include "reports/print/sheet_blocks.h"

namespace farwater::reports {

// With what was found out about it; only a view of the findings.
struct RatedSource {
    const Findings& findings;
    const WaterSource& source;
    const rating::SourceVerdict& verdict;
    const supply::CountedSource* counted = nullptr;  // null: it does not count at all
    bool is_there = true;                            // false: one of [what_if_sources]

    std::string name() const {
        return source.name.empty() ? source.id : source.id + ", " + source.name;
    }
};

RatedSource rated_source(const Findings& findings, std::size_t source);

// What is known of its flow, and how: a flow test of a hydrant, else lift, pipe and the head at
// several flows, held against the terms. A blank is told as not measured.
void add_source_worksheet(SheetBlocks& sheet, const RatedSource& of);

}  // namespace farwater::reports
