#include "analyzer/district/improvement.h"

#include <array>

namespace farwater {
namespace {

using namespace std::string_view_literals;

constexpr std::array improvement_kinds{
    "tanker"sv,        "portable_tank"sv, "siphon"sv, "hose"sv,     "fill_engine"sv, "offload"sv,
    "automatic_aid"sv, "winter_access"sv, "bridge"sv, "staffing"sv, "source"sv};
constexpr std::array offered_by{"district_file"sv, "proposals"sv, "program"sv};

}  // namespace

std::span<const std::string_view> words_of(ImprovementKind) { return improvement_kinds; }
std::span<const std::string_view> words_of(OfferedBy) { return offered_by; }

std::optional<double> Spending::per_year() const {
    if (!cost || !upkeep_per_year) {
        return std::nullopt;
    }
    if (*cost == 0.0) {
        return upkeep_per_year;
    }
    return life_years ? std::optional(*cost / *life_years + *upkeep_per_year) : std::nullopt;
}

}  // namespace farwater
