#include "reports/explain/source_worksheet.h"

namespace farwater::reports {

std::vector<WorkedPart> source_worksheet(const District& district, const WaterSource& source) {
    // Reviewed as the only source of a district that is otherwise the same.
    District alone;
    alone.assumptions = district.assumptions;
    alone.suction_friction = district.suction_friction;
    alone.data_date = district.data_date;
    alone.elevation = district.elevation;
    alone.sources = {source};
    const supply::WaterReview review = supply::review_water(alone);
    if (review.counted.empty()) {
        return {};
    }
    WorkedPage page;
    page.part("what it gives, worked out");
    add_source_lines(alone, source, review.counted.front(), page);
    return page.parts();
}

}  // namespace farwater::reports
