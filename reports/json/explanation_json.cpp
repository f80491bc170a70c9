#include "reports/cautions.h"
#include "reports/explain/explanation.h"
#include "reports/json/json_cells.h"
#include "reports/layers.h"

namespace farwater::reports {
namespace {

json lines_of(const WorkedPart& part) {
    json lines = json::array();
    for (const WorkedLine& line : part.lines) {
        json one = {{"what", line.what}};
        if (!line.sum.empty()) {
            one["sum"] = line.sum;
        }
        if (line.value) {
            one["value"] = *line.value;
            one["unit"] = line.unit;
        } else {
            one["words"] = line.words;
        }
        if (!line.note.empty()) {
            one["note"] = line.note;
        }
        lines.push_back(std::move(one));
    }
    return lines;
}

json assumptions_of(const District& district, const WorkedPage& page) {
    json list = json::array();
    for (const AssumptionRow& row : assumption_rows()) {
        if (page.assumptions().contains(row.key)) {
            const bool given = district.assumptions.is_given(row.key);
            list.push_back({{"key", row.key},
                            {"value", value_in_key_unit(district.assumptions, row)},
                            {"given", given},
                            {"what", row.what},
                            {"source", given ? std::string_view("district file") : row.source}});
        }
    }
    return list;
}

}  // namespace

std::string explanation_json(const Explained& explained) {
    const WorkedPage page = explanation(explained);
    json parts = json::array();
    for (const WorkedPart& part : page.parts()) {
        parts.push_back({{"title", part.title}, {"lines", lines_of(part)}});
    }
    return dumped({{"schema_version", json_schema_version},
                   {"district", explained.district().name},
                   {explained.is_parcel() ? "parcel_id" : "target_id", explained.id()},
                   {"answer", stored_row(supply_of_one(explained.findings, explained.row), 0)},
                   {"parts", parts},
                   {"assumptions", assumptions_of(explained.district(), page)},
                   {"cautions", cautions},
                   {"not_modelled", not_modelled(explained.district())}});
}

}  // namespace farwater::reports
