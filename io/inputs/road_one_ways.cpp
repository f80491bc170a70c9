#include "io/inputs/road_one_ways.h"

#include <map>
#include <optional>

#include <fmt/format.h>

namespace farwater::io {
namespace {

constexpr std::string_view nobody_drives = "closed, since its direction is not known";

}  // namespace

void RoadOneWays::take(Record& record, Road& road, std::size_t place) {
    const std::string text = record.word_text("one_way");
    if (text.empty()) {
        return;
    }
    column_.saw(record.theirs("one_way"));
    const OneWaySign sign = one_way_sign(text);
    switch (sign) {
        case OneWaySign::both:
        case OneWaySign::forward:
        case OneWaySign::backward:
            road.one_way = column_.meaning(sign).value_or(OneWay::both);
            break;
        case OneWaySign::alternating:
            record.report_unmapped("one_way", text, "both; waiting for the turn is not counted");
            break;
        case OneWaySign::reversible:
        case OneWaySign::unclear:
            record.report_unmapped("one_way", text, nobody_drives);
            road.access = RoadAccess::closed;
            break;
        case OneWaySign::letter_f:
        case OneWaySign::letter_t:
        case OneWaySign::letter_n:
        case OneWaySign::digit_two:
            waiting_.push_back({place, record.row(), sign, text});
            break;
    }
}

void RoadOneWays::settle(LayerRows<Road>& roads, const std::string& column) const {
    std::map<std::string, std::size_t> unclear;
    for (const Waiting& one : waiting_) {
        const std::optional<OneWay> meant = column_.meaning(one.sign);
        for (std::size_t i = one.place; i < roads.rows.size() && roads.rows[i].row == one.row;
             ++i) {
            roads.rows[i].one_way = meant.value_or(OneWay::both);
            roads.rows[i].access = meant ? roads.rows[i].access : RoadAccess::closed;
        }
        unclear[one.text] += meant ? 0U : 1U;
    }
    for (const auto& [text, count] : unclear) {
        if (count > 0) {
            roads.log.problems.push_back(
                {ProblemId::value_not_mapped,
                 "roads",
                 roads.log.count.file,
                 {},
                 column,
                 fmt::format("\"{}\" in {} records, taken as {}", text, count, nobody_drives)});
        }
    }
}

}  // namespace farwater::io
