// Words that several parts of a card use.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "analyzer/district/units.h"
#include "analyzer/supply/assessment.h"
#include "reports/cards/card_book.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {

// "dry hydrant" of dry_hydrant: a word of a list, or a name like weekday_day, as it is read.
std::string spoken(std::string_view word);

std::string minute_words(Duration minutes);  // "24.5", rounded up to a tenth
std::string minute_words(std::optional<supply::TenthsMinute> minutes);  // "-" where there is none
std::string gallon_words(Volume volume);                                // "12,500 gal", whole
std::string feet_words(Length length);                                  // "1,250 ft", rounded up
std::string plural(std::size_t count, std::string_view what);           // "1 tank", "2 tanks"

std::string unit_name(const District& district, UnitIndex unit);
std::string source_name(const District& district, SourceIndex source);  // "Mill Pond (W3)"
std::string_view state_sentence(SupplyState state);
std::string_view limit_sentence(Limit limit);
std::string_view rate_sentence(RateLimit limit);  // what a source's rate rests on
std::string_view mode_sentence(SupplyMode mode);

}  // namespace farwater::reports
